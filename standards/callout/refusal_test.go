package callout_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// Each refusal stands at its place and says its own reason.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		edition      standards.EditionID
		text         string
		line, column int
		reason       string
	}{
		{"iso-21920", "\"ground Ra 1,6", 1, 1, "the second quotation mark is missing"},
		{"iso-21920", "Ra 1,6 (", 1, 8, "the bracket is not closed"},
		{"iso-21920", "Ra 1,6 ( )", 1, 8, "nothing stands in the bracket"},
		{"iso-21920", "Ra 1,6 OR(1", 1, 12, "a closing bracket is expected here, not the end"},
		{"iso-21920", "Ra 1,6 Nic 0,8 %", 1, 12, "Nic is a length, not a number in %"},
		{"iso-21920", "Ra 1,6 Nic 0", 1, 12, "Nic is not between a picometre and a kilometre"},
		{"iso-21920", "Ra 1,6 S0 µm", 1, 9, "0 is no nesting index"},
		{"iso-21920", "Rmc(120) 5", 1, 5, "a material ratio lies between 0 and 100 %"},
		{"iso-21920", "Rmr(0,5 %) 50", 1, 5, "Rmr takes no value in % at this place of its brackets"},
		{"iso-21920", "RMS 1,6 RMS", 1, 9, "RMS stands twice"},
		{"iso-21920", "Ra ≤ ≤ 1,6", 1, 6, "two signs before one limit"},
		{"iso-21920", "▽▽▽▽▽", 1, 1, "no mark has more than four triangles"},
		{"iso-21920", "1,6 ≤ Ra ≥ 3,2", 1, 12, "two limits on the same side"},
		{"iso-21920", "Rz 1 or Ra 2 (Rz 3)", 1, 14, "the text leaves more than one choice: write the requirement that is meant"},
		{"iso-21920", "Ra 1,6 (Rz 3) (Rz 4)", 1, 15, "the text leaves more than one choice: write the requirement that is meant"},
		{"iso-21920", "Ra 1,6 from 5 %", 1, 8, "Ra has no level that could count from there"},
		{"jis-b0601-1994", "L Rmr(0.5) 60 (from 5 %)", 1, 16, "Rmr with a level that counts from there is no parameter of the edition jis-b0601-1994"},
		{"asme-b46.1", "L Rmr(0.5) 60 (from 5 %)", 1, 16, "Rmr with a level that counts from there is no parameter of the edition asme-b46.1"},
		{"iso-21920", "Rmr(5,1) .8 (from the highest peak)", 1, 14,
			"a level counts from there only once the brackets of Rmr are clear: write the comma in them as a point, and a second value behind a semicolon"},
		{"asme-b46.1", "tp(0.5) 50 from mean line", 1, 12, "the level of tp counts from the highest peak"},
		{"iso-12085", "R 3 1/0,5/", 1, 5, "\"1/0,5/\" has no meaning that is known here"},
		{"iso-4287", "Ra 1,6 G0,8 mm", 1, 8, "a filter with its letter is text of ISO 21920-1: write λs or λc"},
		{"iso-21920", "N7 (Ra 1,6 Rz 2)", 1, 12, "in the bracket of a grade stands the limit of Ra that it means"},
		{"iso-12085", "0,5-0,1/16/R 3", 1, 1, "the shorter length of a band stands first"},
		{"iso-4287", "-08/Ra 1,6", 1, 3, "a digit behind a leading 0: a decimal mark may be missing"},
		{"iso-21920", "Ra 08", 1, 5, "a digit behind a leading 0: a decimal mark may be missing"},
		{"iso-21920", "Ra 0,8-01,6", 1, 9, "a digit behind a leading 0: a decimal mark may be missing"},
		{"iso-4287", "-0,8/Ra 1,6 lr 2,5", 1, 13, "a sampling length of 2.5 mm, and the cut-off is 0.8 mm: they are one length"},
		{"iso-4287", "-0,8/Ra3 1,6 ln 4", 1, 14, "a sampling length of 1.33333 mm, and the cut-off is 0.8 mm: they are one length"},
		{"iso-21920", "Ra 1,6-1,6", 1, 8, "the two limits are the same"},
		{"iso-21920", "Ra 3,2 min 1,6 max", 1, 12, "the lower limit lies above the upper one: no value can keep both"},
		{"iso-4287", "Wa 3 λc 2,5 λf 0,8", 1, 13, "the long limit of the waviness must be longer than its cut-off"},
		{"iso-21920", "Ra 1,6 le 3", 1, 8, "3 mm is no whole number of sections of 0.8 mm: state the number or the length of the sections"},
		{"iso-21920", "Ra 1,6 G2,5 G0,8 G3", 1, 18, "a third filter: there is an S-filter and an L-filter"},
		{"iso-21920", "Ra 1,6 G2,5 G0,8 0,8 5", 1, 23, "behind the filters stand three numbers: section length, number of sections, evaluation length; or write lsc, nsc or le"},
		{"iso-12085", "2,5-0,5/16/W 1", 1, 1, "the shorter length of a band stands first"},
		{"iso-12085", "-0,4/16/W 1", 1, 1, "operator A must be shorter than operator B"}, // A is 0.5 mm where neither is in the table
		{"iso-4287", "0,008-2,5/Pt 25", 1, 7, "the primary profile has no long-wave limit"},
		{"iso-21920", "Ra 1234567890123456789012345678901", 1, 4, "a number of more than 30 digits"},
		{"iso-21920", "Rmr(0,5 1/cm) 50", 1, 9, "Rmr takes no number in 1/cm"},
		{"iso-21920", "RPc(0.5,-0.5) 5 (3)", 1, 17, "a second limit in brackets"},
		{"iso-21920", "0,2 ≤ Ra ≤ 0,8 max", 1, 16, "two limits, and this says upper limit"},
		{"iso-21920", "Ra 0,2-0,8 min", 1, 12, "two limits, and this says lower limit"},
		{"iso-21920", "Ra 0,8 max 0,2 max", 1, 12, "a second limit, and it is not clear which one is the maximum and which one the minimum"},
		{"iso-9999", "Ra 1", 1, 1, "no edition \"iso-9999\""},
		{"iso-21920", "Rz 1 (Ra 2) or Rq 3", 1, 13, "the text leaves more than one choice: write the requirement that is meant"},
		{"iso-21920", "Rz 1 or Ra 2\nRz 3 or Ra 4", 2, 6, "the text leaves more than one choice: write the requirement that is meant"},
		{"iso-21920", "Ra 1,6\nRz 3,2;" + strings.Repeat(" ", 2000), 2, 1994, "a text of more than 2000 characters"},
	} {
		_, err := callout.ParseRequirement(c.text, c.edition)
		var refused *callout.TextError
		if !errors.As(err, &refused) {
			t.Errorf("%q of %s: %v", c.text, c.edition, err)
			continue
		}
		if refused.Line != c.line || refused.Column != c.column || refused.Reason != c.reason {
			t.Errorf("%q of %s: %v", c.text, c.edition, err)
		}
	}
}

// A requirement with an open question refuses whoever wants to measure, and says which question.
func TestOpenRefuses(t *testing.T) {
	rs, err := callout.ParseRequirement("Rq 1,6; Rsk 0,5", "iso-21920")
	if err != nil {
		t.Fatal(err)
	}
	if err := rs.Items[0].Err(); err != nil {
		t.Errorf("Rq is complete, and refuses: %v", err)
	}
	if err := rs.Items[1].Err(); !errors.Is(err, standards.ErrNeedClass) || !strings.Contains(err.Error(), "line 1, column 9") {
		t.Errorf("Rsk without a class: %v", err)
	}
	if b, ok := rs.Items[1].Bounded(); !ok || b.Value != 0.5 || b.Symbol != "Rsk" {
		t.Errorf("the limit of Rsk is certain: %+v, %t", b, ok)
	}
}

// Words for a reader: the reason, and the correction where one can be read.
func TestSaid(t *testing.T) {
	for text, want := range map[string]string{"2,5-0,5/16/W 1": `the shorter length of a band stands first; perhaps: "0,5-2,5/16/W 1"`, "-0,4/16/W 1": "operator A must be shorter than operator B"} {
		_, err := callout.ParseRequirement(text, "iso-12085")
		var refused *callout.TextError
		if !errors.As(err, &refused) || refused.Said() != want {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// Whoever wants to measure hears of the question that stands in the way of the settings, not of an earlier one that does not; a limit whose
// number is open bounds nothing.
func TestBlockingQuestion(t *testing.T) {
	limit := callout.Question{Key: "unit", Text: "Which unit?", Line: 1, Column: 4, Blocks: "limit"}
	verdict := callout.Question{Key: "rule", Text: "Which rule?", Line: 2, Column: 1, Blocks: "verdict"}
	class := callout.Question{Key: "class", Text: "Which class?", Line: 3, Column: 7, Blocks: "settings"}
	band := callout.Question{Key: "cutoff", Text: "Which cut-off?", Line: 4, Column: 9, Blocks: "settings"}
	for _, c := range []struct {
		questions []callout.Question
		want      callout.Question
		err       error
	}{
		{[]callout.Question{limit, class}, class, standards.ErrNeedClass}, {[]callout.Question{limit, verdict, band, class}, band, callout.ErrOpen},
		{[]callout.Question{class, band}, class, standards.ErrNeedClass}, {[]callout.Question{limit, verdict}, limit, callout.ErrOpen},
		{nil, callout.Question{Line: 8, Column: 5, Text: "the settings are open"}, callout.ErrOpen},
	} {
		var e *callout.TextError
		err := (&callout.Item{Line: 8, Column: 5, Questions: c.questions}).Err()
		if !errors.As(err, &e) || e.Line != c.want.Line || e.Column != c.want.Column || e.Reason != c.want.Text || !errors.Is(err, c.err) {
			t.Errorf("%v: %v, want %v", c.questions, err, c.want)
		}
	}
	for _, r := range []callout.Item{{}, {Symbol: "Ra", Limit: 1}, {LimitText: "1", Limit: 1}, {Symbol: "Ra", LimitText: "1", Limit: math.NaN()}} {
		if b, ok := r.Bounded(); ok || b != (standards.Bound{}) {
			t.Errorf("%+v bounds", b)
		}
	}
}

package main

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

const studySizes = `"view": {"trace": {"width": 1000, "height": 170}, "construction": {"width": 1000, "height": 230}}`

// A scratch that is moved into a made surface changes value, construction and trace in one call, and the state before is beside it.
func TestStudyMove(t *testing.T) {
	m := &module{}
	state := `{"surface": "made", "symbol": "Ra", "parts": [{"kind": "sine1", "values": [2, 0.25, 0]}]}`
	got, _ := mustAsk[studyMoveAnswer](t, m, "study", `{"do": "move", "state": `+state+`, "before": `+state+`, "set": [{"id": "scratch-1-depth", "value": 6}], `+studySizes+`}`, nil)
	if len(got.State.Parts) != 2 || got.Points != 8000 || got.Before == nil {
		t.Fatalf("%+v", got.State)
	}
	if got.Value.Value <= got.Before.Value || got.Change == "" || got.Moves[0].ID != "scratch-1-depth" {
		t.Errorf("%v, before %v, change %q, first move %q", got.Value, got.Before, got.Change, got.Moves[0].ID)
	}
	if got.Trace.Height != 170 || got.Construction == nil || got.Construction.Height != 230 {
		t.Errorf("pictures of another height")
	}
	if !strings.Contains(got.Trace.SVG, "faint dash") || len(got.Worked) == 0 {
		t.Error("no ghost, or no worked line")
	}
}

// What cannot be is refused with its field, in the words of the field.
func TestStudyRefuses(t *testing.T) {
	for _, c := range []struct{ set, key, text string }{
		{`{"id": "feed-feed", "value": 4}`, "feed-feed", "The nose arc ends there."},
		{`{"id": "scratch-1-width", "value": 1}`, "", ""},
		{`{"id": "dust-1-width", "value": 0.9}`, "dust-1-width", "From 1 to 1000."},
		{`{"id": "noise-seed", "value": 1.5}`, "noise-seed", "Whole numbers only."},
		{`{"id": "nothing", "value": 1}`, "nothing", "Nothing here is moved by this name."},
	} {
		_, err := ask(t, &module{}, "study", `{"do": "move", "state": {"surface": "made"}, "set": [`+c.set+`], `+studySizes+`}`, nil)
		if c.key == "" {
			if err != nil {
				t.Errorf("%s: %v", c.set, err)
			}
			continue
		}
		if err == nil {
			t.Errorf("%s: no error", c.set)
			continue
		}
		if f := faultOf(err); f.Key != c.key || f.Message != c.text || f.Kind != kindRequest {
			t.Errorf("%s: %+v", c.set, *f)
		}
	}
}

// A link of an exercise opens to the same exercise; one that was cut sets nothing and says so.
func TestStudyLink(t *testing.T) {
	m := &module{}
	link, _ := mustAsk[studyLinkAnswer](t, m, "study", `{"do": "link", "state": {"surface": "demo", "demo": "ground-rod", "symbol": "Rz", "filter": {"kind": "class", "class": "Sc3"}, "way": "predict", "questions": "abhn", "hide": 2}}`, nil)
	if link.Text != "s1~syRz~sudground-rod~fiSc3~wap~quabhn~hi2~zzAWXV" {
		t.Errorf("%+v", link)
	}
	open, _ := mustAsk[studyOpenAnswer](t, m, "study", `{"do": "open", "text": "#`+link.Text+`"}`, nil)
	if open.State == nil || open.State.Demo != "ground-rod" || open.Problem != "" || open.State.Hide != 2 || len(open.Notes) > 0 {
		t.Errorf("%+v", open)
	}
	cut, _ := mustAsk[studyOpenAnswer](t, m, "study", `{"do": "open", "text": "`+link.Text[:20]+`"}`, nil)
	if cut.State != nil || cut.Problem != "This link was changed or cut on its way. Ask for it again." {
		t.Errorf("%+v", cut)
	}
	code, _ := mustAsk[studyCodeAnswer](t, m, "study", `{"do": "code", "state": `+jsonText(open.State)+`, "answers": [4, 2, 0, 2], "guess": 3, "tag": 677}`, nil)
	if code.Text != "5BKQ-CN5H-0QZZ-ZZZZ-YCJR-APY1" {
		t.Errorf("%+v", code)
	}
	class, _ := mustAsk[studyCodesAnswer](t, m, "study", `{"do": "codes", "state": `+jsonText(open.State)+`, "text": "`+code.Text+`"}`, nil)
	if len(class.Read) != 1 || class.Read[0].Guess != 3 {
		t.Errorf("%+v", class)
	}
}

// The questions come without their answers; an answer brings the reply.
func TestStudyAsk(t *testing.T) {
	m := &module{}
	asked, text := mustAsk[studyAskAnswer](t, m, "study", `{"do": "ask", "state": {}}`, nil)
	if len(asked.Offered) < 10 || len(asked.Offered)+len(asked.Withheld) != 16 || strings.Contains(text.text, "calculation gives") {
		t.Errorf("%d offered, %d withheld", len(asked.Offered), len(asked.Withheld))
	}
	reply, _ := mustAsk[studyReplyAnswer](t, m, "study", `{"do": "answer", "state": {}, "letter": "h", "option": -1}`, nil)
	if reply.Compared != "You expected: I do not know. The calculation gives: 0.58 µm." || reply.Try.Move != "ordinate-height" {
		t.Errorf("%+v", reply)
	}
}

func TestStudyByHand(t *testing.T) {
	m := &module{}
	hand, _ := mustAsk[studyHandAnswer](t, m, "study", `{"do": "hand", "text": "3 1 -2 4 0 -5 2 1 -1 3 -4 2 0 -3 1 -2"}`, nil)
	if hand.Echo != "16 heights, from −5 to 4, mean 0" || len(hand.Heights) != 16 {
		t.Errorf("%+v", hand)
	}
	wrong, _ := mustAsk[studyHandAnswer](t, m, "study", `{"do": "hand", "text": "3 1 x 4"}`, nil)
	if wrong.Problem == "" || len(wrong.Heights) > 0 {
		t.Errorf("%+v", wrong)
	}
	other, _ := mustAsk[studyHandAnswer](t, m, "study", `{"do": "heights", "count": 12, "size": 5, "seed": 3}`, nil)
	if len(other.Heights) != 12 {
		t.Errorf("%+v", other)
	}
	table, _ := mustAsk[studyTableAnswer](t, m, "study", `{"do": "table", "slope": "seven", "state": {"surface": "typed", "symbol": "Ra", "heights": `+jsonText(hand.Heights)+`}}`, nil)
	if len(table.Rows) != 16 || table.Means[3] != "34/16 = 2.125" {
		t.Errorf("%+v", table)
	}
	known, _ := mustAsk[studyKnownAnswer](t, m, "study", `{"do": "known", "state": {"surface": "made", "parts": [{"kind": "sine1", "values": [2, 0.25, 0]}]}}`, nil)
	if len(known.Rows) < 20 || known.Rows[0].Symbol != "Ra" || known.Rows[0].Shown != "0.637" {
		t.Errorf("%+v", known)
	}
}

// The lines of a level hold no number of a blank; an entry gets its reply.
func TestStudyBlanks(t *testing.T) {
	m := &module{}
	state := `"state": {"surface": "typed", "symbol": "Ra", "heights": [3, 1, -2, 4, 0, -5, 2, 1, -1, 3, -4, 2, 0, -3, 1, -2]}`
	blanks, text := mustAsk[studyBlanksAnswer](t, m, "study", `{"do": "blanks", "level": 1, `+state+`}`, nil)
	if len(blanks.Lines) != 1 || len(blanks.Blanks) != 1 || strings.Contains(text.text, "2.12") {
		t.Errorf("%+v", blanks)
	}
	goes, _ := mustAsk[studyCheckAnswer](t, m, "study", `{"do": "check", "level": 1, "entries": ["2,13"], "blank": 0, `+state+`}`, nil)
	if !goes.Goes || goes.Reply != "34 / 16 = 2.125. Goes on." {
		t.Errorf("%+v", goes)
	}
	no, _ := mustAsk[studyCheckAnswer](t, m, "study", `{"do": "check", "level": 1, "entries": ["3"], "blank": 0, `+state+`}`, nil)
	if no.Goes || no.Value != "" || no.Reply != "34 / 16 = …" {
		t.Errorf("%+v", no)
	}
}

// Where values are hidden, nothing that the sheet prints holds the value: pictures, their words and tables, steps, letters, worked lines,
// notes, handles and the fields of what moves; for each symbol of each edition that the demonstrations and a made surface can have.
func TestStudyHidden(t *testing.T) {
	m := &module{}
	surfaces := []string{`"surface": "made", "parts": [{"kind": "noise", "values": [0.317, 10, 3]}, {"kind": "sine1", "values": [1.371, 0.27, 0.1]}]`, `"surface": "demo", "demo": "honed-bore"`}
	checked := 0
	for i, ed := range standards.Editions() {
		if testing.Short() && i > 0 {
			break
		}
		for _, call := range params.Defaults(ed.ID, 'R') {
			state := `{"edition": "` + string(ed.ID) + `", "symbol": ` + jsonText(call.String()) + `, ` + surfaces[i%2] + `}`
			for _, picked := range []int{0, 1, 3} {
				view := `"view": {"trace": {"width": 1000, "height": 170}, "construction": {"width": 1000, "height": 230}, "picked": ` + jsonText(picked)
				open, _ := mustAsk[studyMoveAnswer](t, m, "study", `{"do": "move", "before": `+state+`, "state": `+state+`, `+view+`}}`, nil)
				got, _ := mustAsk[studyMoveAnswer](t, m, "study", `{"do": "move", "before": `+state+`, "state": `+state+`, `+view+`, "hidden": true}}`, nil)
				if len(open.Value.Shown) < 3 || len(strings.Trim(open.Value.Shown, "0.")) < 2 {
					continue // a number as short as this stands for other things too
				}
				checked++
				text := jsonText(got.Value) + jsonText(got.Before) + got.Change + got.Said + jsonText(got.Notes) + jsonText(got.Worked) + jsonText(got.Letters)
				for _, s := range got.Steps {
					text += " " + s.Text
				}
				for _, h := range got.Handles {
					text += " " + h.Words + " " + h.Said
				}
				for _, f := range got.Moves {
					text += fmt.Sprintf(" %s %.5g", f.Words, float64(f.Value))
				}
				for _, f := range []*figureAnswer{&got.Trace, got.Construction, got.Finder} {
					if f != nil {
						text += strings.Join(regexp.MustCompile(`>[^<]+<|aria-[a-z]+="[^"]*"`).FindAllString(f.SVG, -1), " ") + " " + f.Title + f.Desc + f.Caption + jsonText(f.Numbers)
					}
				}
				if regexp.MustCompile(`(^|[^0-9.])` + regexp.QuoteMeta(open.Value.Shown) + `([^0-9]|$)`).MatchString(text) {
					t.Errorf("%s %s, step %d: %s stands in %s", ed.ID, call.String(), picked, open.Value.Shown, text)
				}
			}
		}
	}
	if checked < 300 && !testing.Short() {
		t.Errorf("%d values were looked for", checked)
	}
}

// A distribution stands in place of the trace where it is asked for.
func TestStudyDistribution(t *testing.T) {
	got, _ := mustAsk[studyMoveAnswer](t, &module{}, "study", `{"do": "move", "state": {"symbol": "Rsk"}, "view": {"trace": {"width": 600, "height": 170}, "construction": {"width": 600, "height": 230}, "distribution": true}}`, nil)
	if got.Trace.Title != "Height density" || got.Trace.Height != 170 || got.Construction != nil || len(got.Handles) > 0 {
		t.Errorf("%q, %d high", got.Trace.Title, got.Trace.Height)
	}
}

// A level that is dragged stands in both pictures where they are drawn, with its next peak and pit.
func TestStudyHandles(t *testing.T) {
	got, _ := mustAsk[studyMoveAnswer](t, &module{}, "study", `{"do": "move", "state": {"symbol": "Rmr(0.3)"}, `+studySizes+`}`, nil)
	levels := 0
	for _, h := range got.Handles {
		if h.ID != "cut-level" {
			continue
		}
		levels++
		f := got.Trace.Frames[0]
		if h.On == "construction" {
			f = got.Construction.Frames[len(got.Construction.Frames)-1]
		}
		if want := f.Bottom - (f.Bottom-f.Top)*(0.3-f.YLow)/(f.YHigh-f.YLow); h.Y-want > 1e-6 || want-h.Y > 1e-6 || !(h.Up > 0.3) || !(h.Down < 0.3) {
			t.Errorf("%+v, want y %v", h, want)
		}
	}
	if levels != 2 || got.Moves[0].ID != "cut-level" {
		t.Errorf("%d levels, first move %s", levels, got.Moves[0].ID)
	}
	moved, _ := mustAsk[studyMoveAnswer](t, &module{}, "study", `{"do": "move", "state": {"symbol": "Rmr(0.3)"}, "set": [{"id": "cut-ratio", "value": 50}], `+studySizes+`}`, nil)
	if v := float64(moved.Value.Value); v < 49.9 || v > 50.1 {
		t.Errorf("at 50 %% the ratio is %v", v)
	}
}

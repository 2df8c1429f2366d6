package judge_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// What conforms to some limits of a drawing conforms to the drawing only where somebody agreed that the others are not judged.
func TestLimitsLeftOut(t *testing.T) {
	for _, c := range []struct {
		drawing, limits, typed, agreed string
		word                           decide.Word
		says                           string
		agreements                     int
	}{
		{"Rz max 3,2; Ra max 0,8", "Rz <= 3.2; Ra <= 0.8", "Rz 3.1; Ra 0.7", "", decide.Conforms, "", 0},
		{"Rz max 3,2; Ra max 0,8", "Rz <= 3.2", "Rz 3.1", "", decide.NoVerdict, "Not judged of the requirement: upper limit Ra", 0},
		{"Rz max 3,2; Ra max 0,8", "Rz <= 3.2", "Rz 3.1", "the customer", decide.Conforms, "Not judged of the requirement: upper limit Ra 0.8 µm.", 1},
		{"Rz max 3,2; Ra max 0,8", "Rz <= 3.2", "Rz 3.3", "", decide.DoesNotConform, "Not judged of the requirement: upper limit Ra", 0},
		{"Rz max 3,2; Ra max 0,8; Rq max 1", "Rz <= 3.2", "Rz 3.1", "the customer", decide.Conforms, "Not judged of the requirement: upper limit Ra 0.8 µm, upper limit Rq 1 µm.", 2},
		{"Rz max 3,2; Ra max 0,8; Rq max 1", "Rz <= 3.2", "Rz 3.1", "", decide.NoVerdict, "Rq", 0},
		{"Rz max 3,2", "Rz <= 3.3", "Rz 3.1", "", decide.NoVerdict, "One setting differs from the requirement: limit Rz 3.3 µm instead of Rz 3.2 µm.", 0},
		{"Rz max 3,2", "Rz >= 3.2", "Rz 3.3", "", decide.NoVerdict, "upper limit Rz", 0},
	} {
		drawing, err := judge.ReadRequirement(c.drawing, "")
		if err != nil {
			t.Fatal(err)
		}
		r, err := judge.Limits(c.limits, "", standards.Maximum)
		if err != nil {
			t.Fatal(err)
		}
		r.Under(drawing)
		typed, err := judge.ParseTyped(c.typed, "")
		if err != nil {
			t.Fatal(err)
		}
		v, err := (&judge.Judging{Requirement: r, Typed: typed, Agreed: c.agreed}).Judge()
		if err != nil {
			t.Fatal(err)
		}
		agreements := 0
		for _, d := range v.Agreed {
			if d.Key == "limit" {
				agreements++
			}
		}
		if v.Word != c.word || agreements != c.agreements || !strings.Contains(v.Sentence, c.says) || (v.Word == decide.NoVerdict) != (v.Why != nil && v.Why.Key == judge.WhyDeviates) {
			t.Errorf("%s judged by %s, values %s, agreed by %q: %s, %q, %d agreements, why %v", c.drawing, c.limits, c.typed, c.agreed, v.Word, v.Sentence, agreements, v.Why)
		}
	}
}

// One thing or several that files leave open leave no verdict, each with its name.
func TestFilesOpen(t *testing.T) {
	r, err := judge.Limits("Rz <= 3.2", "", "")
	if err != nil {
		t.Fatal(err)
	}
	typed, err := judge.ParseTyped("Rz 3.1", "")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		open []string
		want string
	}{{[]string{"a.txt, unit"}, "One thing is open: a.txt, unit."}, {[]string{"a.txt, unit", "b.txt, spacing"}, "2 things are open: a.txt, unit; b.txt, spacing."}} {
		v, err := (&judge.Judging{Requirement: r, Typed: typed, FileOpen: c.open}).Judge()
		if err != nil || v.Word != decide.NoVerdict || v.Why.Key != judge.WhyFileOpen || v.Why.Text != c.want {
			t.Errorf("%q: %+v, %v", c.open, v, err)
		}
	}
}

// The coverage factor of an uncertainty lies between 0.1 and 10, both of them too; 0 is 2.
func TestGuardFactor(t *testing.T) {
	for _, c := range []struct {
		k  float64
		ok bool
	}{{0, true}, {0.0999, false}, {0.1, true}, {2, true}, {10, true}, {10.001, false}, {95, false}, {-1, false}} {
		if g, err := judge.GuardFor("", "", c.k, true); (err == nil) != c.ok || c.ok && g.K != c.k {
			t.Errorf("k = %g: %+v, %v", c.k, g, err)
		}
	}
}

// A rule is no unit of a limit, and the error says where it belongs.
func TestRuleBehindLimit(t *testing.T) {
	for _, rule := range []string{"Tmax", "T16%", "Tmed", "max", "16%", "median"} {
		if _, err := judge.ParseLimits("Rz <= 3.2 "+rule, ""); !errors.Is(err, judge.ErrRuleApart) {
			t.Errorf("%s: %v", rule, err)
		}
	}
}

// A list has ten thousand signs at most, and a word of it forty.
func TestBoundsOfLists(t *testing.T) {
	for n := 9_999; n <= 10_001; n++ {
		if _, err := judge.ParseTyped("Rz 1"+strings.Repeat(" ", n-4), ""); (err != nil) != (n > 10_000) {
			t.Errorf("%d signs: %v", n, err)
		}
	}
	for n := 39; n <= 41; n++ {
		if _, err := judge.ParseTyped("Rz 0."+strings.Repeat("1", n-2), ""); (err != nil) != (n > 40) {
			t.Errorf("a number of %d signs: %v", n, err)
		}
	}
}

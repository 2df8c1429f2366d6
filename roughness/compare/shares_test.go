package compare_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// A value is shared out exactly: the shares add up to the difference, and so do the steps.
func TestExplainAddsUp(t *testing.T) {
	long := gaussian(250)
	long.Spec.Ends = "discard"
	valley := roughness.Band{Spec: roughness.FilterSpec{Filter: "valley-suppression", Cutoff: 800}}
	for _, d := range synth.Demos()[:3] {
		p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
		for _, c := range []struct {
			symbol  string
			a, b    *roughness.Settings
			changes int
		}{
			{"Ra", nil, &roughness.Settings{Long: long, SectionLength: 250}, 3},
			{"Rz", nil, &roughness.Settings{Short: off(), Form: roughness.FormSpec{Kind: "mean"}, Sections: 3, Long: long, SectionLength: 250}, 6},
			{"Rq", nil, &roughness.Settings{Edition: "iso-4287"}, 1},
			{"Rsm", nil, &roughness.Settings{Edition: "iso-4287", Short: off()}, 2},
			{"Rk", nil, &roughness.Settings{Long: valley}, 2},
			{"Rt", &roughness.Settings{Profile: roughness.R}, &roughness.Settings{Invert: true, Long: roughness.Band{Off: true}, SectionLength: 800, Sections: 5}, 2},
		} {
			l, err := compare.Explain(context.Background(), p, c.a, c.b, c.symbol)
			if err != nil {
				t.Errorf("%s %s: %v", d.Key, c.symbol, err)
				continue
			}
			if len(l.Entries) != c.changes {
				t.Errorf("%s %s: %d changes %v, want %d", d.Key, c.symbol, len(l.Entries), l.Entries, c.changes)
			}
			shares, steps := 0.0, 0.0
			for _, e := range l.Entries {
				shares += e.Share
				steps += e.Step
			}
			whole := l.B.Value - l.A.Value
			near(t, d.Key+" "+c.symbol+" shares", shares, whole, 1e-12)
			near(t, d.Key+" "+c.symbol+" steps", steps, whole, 1e-12)
		}
	}
}

// For a function that is the sum of its changes each share is the change's own effect; the mean over all orders by brute force
// is the second way.
func TestExplainAgainstAllOrders(t *testing.T) {
	d := synth.Demos()[1]
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	b := &roughness.Settings{Short: off(), Form: roughness.FormSpec{Kind: "mean"}, Sections: 4}
	l, err := compare.Explain(context.Background(), p, nil, b, "Rz")
	if err != nil {
		t.Fatal(err)
	}
	apply := func(order []int) []float64 { // effect of each change in this order
		s := roughness.Settings{}
		effect := make([]float64, 3)
		before := value(t, evaluate(t, d.Heights(), d.Spacing, &s), "Rz")
		for _, i := range order {
			switch i {
			case 0:
				s.Short = b.Short
			case 1:
				s.Form = b.Form
			case 2:
				s.Sections = b.Sections
			}
			after := value(t, evaluate(t, d.Heights(), d.Spacing, &s), "Rz")
			effect[i] = after - before
			before = after
		}
		return effect
	}
	mean := make([]float64, 3)
	for _, order := range [][]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		for i, e := range apply(order) {
			mean[i] += e / 6
		}
	}
	for i, e := range l.Entries {
		near(t, e.Key, e.Share, mean[i], 1e-12)
	}
}

func TestExplainErrors(t *testing.T) {
	d := synth.Demos()[0]
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	var s *roughness.SettingError
	if _, err := compare.Explain(context.Background(), p, nil, nil, "Rxyz"); !errors.As(err, &s) {
		t.Errorf("unknown symbol: %v", err)
	}
	if _, err := compare.Explain(context.Background(), p, nil, &roughness.Settings{Edition: "jis-b0601-1982"}, "Rdq"); !errors.As(err, &s) {
		t.Errorf("a parameter that the other edition lacks: %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := compare.Explain(ctx, p, nil, &roughness.Settings{Short: off()}, "Ra"); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if l, err := compare.Explain(context.Background(), p, nil, nil, "Ra"); err != nil || len(l.Entries) != 0 || math.IsNaN(l.A.Value) {
		t.Errorf("equal settings: %v, %v", l, err)
	}
}

// Each switch differs, and is shared out by itself.
func TestChoicesOneByOne(t *testing.T) {
	d := synth.Demos()[0]
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	a := &roughness.Settings{Edition: "iso-4287"}
	b := &roughness.Settings{Edition: "iso-4287", Choices: params.Choices{ElementWidth: params.WidthNotAsked, SpacingMode: params.StrictSections}}
	l, err := compare.Explain(t.Context(), p, a, b, "RSm")
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	sum := 0.0
	for _, x := range l.Entries {
		said = append(said, x.Key+" "+x.From+" "+x.To)
		sum += x.Share
	}
	if got := strings.Join(said, "; "); got != "choices.rsm_mode complete strict; choices.rsm_width part none" {
		t.Errorf("changes: %s", got)
	}
	near(t, "sum of the shares", sum, l.B.Value-l.A.Value, 1e-9)
}

// For random pairs of settings the shares add up to the difference, and swapping the two sides changes the signs of the shares and nothing else.
func TestSharesSwap(t *testing.T) {
	p := trace(2)
	p.Spacing = 0.5 // so that the S-filter is possible
	r := rand.New(rand.NewPCG(4, 2))
	some := func() *roughness.Settings {
		s := &roughness.Settings{Sections: 2 + r.IntN(4), Long: gaussian([]float64{80, 250}[r.IntN(2)])}
		s.Short = []roughness.Band{off(), gaussian(2.5), gaussian(8)}[r.IntN(3)]
		s.Form.Kind = []string{"line", "mean", "none"}[r.IntN(3)]
		s.Long.Spec.Filter = []string{"gaussian", "spline", "two-rc"}[r.IntN(3)]
		s.Edition = []standards.EditionID{"iso-21920", "iso-4287"}[r.IntN(2)]
		s.Invert = r.IntN(4) == 0
		return s
	}
	trials, compared := 60, 0
	if testing.Short() || underRace {
		trials = 8
	}
	for range trials {
		a, b, symbol := some(), some(), []string{"Ra", "Rz", "Rq", "Rt"}[r.IntN(4)]
		l, err := compare.Explain(t.Context(), p, a, b, symbol)
		if err != nil {
			continue // a 2RC filter may leave no section
		}
		back, err := compare.Explain(t.Context(), p, b, a, symbol)
		if err != nil {
			t.Fatal(err)
		}
		compared++
		near(t, "A swapped", back.A.Value, l.B.Value, 1e-12)
		near(t, "B swapped", back.B.Value, l.A.Value, 1e-12)
		if len(back.Entries) != len(l.Entries) {
			t.Fatalf("%d changes there, %d back", len(l.Entries), len(back.Entries))
		}
		sum := 0.0
		for i, e := range l.Entries {
			sum += e.Share
			o := back.Entries[i]
			near(t, e.Key+" swapped", o.Share, -e.Share, 1e-9)
			if o.Key != e.Key || o.From != e.To || o.To != e.From {
				t.Errorf("%s from %s to %s, and back %s from %s to %s", e.Key, e.From, e.To, o.Key, o.From, o.To)
			}
		}
		near(t, symbol+" shares", sum, l.B.Value-l.A.Value, 1e-9)
	}
	if compared < trials/2 {
		t.Errorf("only %d of %d pairs could be compared", compared, trials)
	}
}

// Why two laboratories differ on one trace.
func ExampleExplain() {
	d, _ := synth.FindDemo("ground-rod")
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	theirs := &roughness.Settings{Short: roughness.Band{Off: true}, Sections: 3}
	l, err := compare.Explain(context.Background(), p, nil, theirs, "Rz")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range l.Entries {
		fmt.Printf("%s: %s µm\n", e.Plain, l.Show(e.Share))
	}
	fmt.Println(l.Sentence())
	// Output:
	// no S-filter instead of 2.5 µm: 0.0243 µm
	// 3 sections instead of 5: 0.0162 µm
	// Rz is 2.9197 µm and 2.9602 µm: a difference of +0.0405 µm. The largest part, +0.0243 µm, comes from no S-filter instead of 2.5 µm. Neither side is wrong: the requirement decides which settings count.
}

package params_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// rareGroups are the groups whose rows are tested here; the others have their tests beside them.
var rareGroups = []string{params.GroupProbability, params.GroupSpatial, params.GroupFeature, params.GroupMotif, params.GroupLegacy}

// rareCalls returns the default calls of those groups in all editions, on all profiles.
func rareCalls() []params.Call {
	var calls []params.Call
	for _, edition := range standards.EditionIDs() {
		for _, letter := range []byte("PRW") {
			for _, c := range params.Defaults(edition, letter) {
				if slices.Contains(rareGroups, c.Parameter.Group) {
					calls = append(calls, c)
				}
			}
		}
	}
	return calls
}

// checkRare evaluates and constructs all calls on one input.
func checkRare(t *testing.T, in *params.Input, calls []params.Call) {
	t.Helper()
	for i, v := range params.Evaluate(in, calls...) {
		call := &calls[i]
		if math.IsNaN(v.Value) && v.Reason == "" || math.IsInf(v.Value, 0) {
			t.Fatalf("%s of %s: %v without a reason", v.Symbol, call.Edition, v.Value)
		}
		if v.Unit == params.Percent && (v.Value < -1e-9 || v.Value > 100+1e-9) {
			t.Fatalf("%s of %s: %v %%", v.Symbol, call.Edition, v.Value)
		}
		c, err := params.Construct(in, *call)
		if math.IsNaN(v.Value) {
			if err == nil || !strings.Contains(err.Error(), v.Reason) {
				t.Fatalf("%s of %s: construction of nothing: %v", v.Symbol, call.Edition, err)
			}
			continue
		}
		if err != nil {
			t.Fatalf("%s of %s: %v", v.Symbol, call.Edition, err)
		}
		checkConstruction(t, &c, v)
	}
}

func checkConstruction(t *testing.T, c *params.Construction, v params.Value) {
	t.Helper()
	if len(c.Steps) == 0 && v.Value != 0 || // a count of none has nothing to show
		c.Result != v.Value || c.Symbol != v.Symbol {
		t.Fatalf("%s: %d steps to %v, value %v", v.Symbol, len(c.Steps), c.Result, v.Value)
	}
	for _, s := range c.Steps {
		if s.Text == "" || strings.Contains(s.Text, "NaN") || math.IsInf(s.Value, 0) {
			t.Fatalf("%s: step %q of %v", v.Symbol, s.Text, s.Value)
		}
		for _, m := range s.Marks {
			if len(m.Points) == 0 {
				t.Fatalf("%s: %q has a %s without points", v.Symbol, s.Text, m.Kind)
			}
			for _, p := range m.Points {
				if math.IsNaN(p.X-p.X) || math.IsNaN(p.Y-p.Y) {
					t.Fatalf("%s: %q has a %s at %v", v.Symbol, s.Text, m.Kind, p)
				}
			}
		}
	}
	if n := len(c.Worked); n > 0 {
		last := c.Worked[n-1]
		if last.Symbol != v.Symbol || math.Abs(last.Result-v.Value) > 1e-9*max(1, math.Abs(v.Value)) {
			t.Fatalf("%s = %v, worked out as %s = %v", v.Symbol, v.Value, last.Symbol, last.Result)
		}
		if strings.Contains(last.Print(func(float64) string { return "x" }), "{") {
			t.Fatalf("%s: form %q has terms that are not there", v.Symbol, last.Form)
		}
	}
}

func TestRareConstructions(t *testing.T) {
	calls := rareCalls()
	for seed := uint64(0); seed < 30; seed++ {
		rng := rand.New(rand.NewPCG(seed, 7))
		n := rng.IntN(3000)
		z := walk(rng, n)
		in := &params.Input{Z: z, Dx: 0.5 + 3*rng.Float64(), Section: n / 5}
		if seed%3 == 1 {
			in.Choices = params.Choices{
				Deviation: params.DivideByCountLessOne, MotifBase: params.MeanOfPeaks,
				PruneReference: params.PruneByMaximum, TooFew: params.TooFewUseAll,
			}
		}
		if seed%3 == 2 { // two processes, with a wave under them
			for i := range z {
				z[i] = min(0.3*rng.NormFloat64(), 1.5+2*rng.NormFloat64()) + math.Cos(float64(i)/30)/20
			}
		}
		checkRare(t, in, calls)
	}
	checkRare(t, &params.Input{Z: twoLines(4000, 0.2, 1.5, 0.8), Dx: 1}, calls)
	checkRare(t, &params.Input{Z: cosines(4000, 20, 3), Dx: 1, Section: 800}, calls)
	checkRare(t, &params.Input{Z: make([]float64, 100), Dx: 1}, calls)
	checkRare(t, &params.Input{Z: []float64{1}, Dx: 1}, calls)
	checkRare(t, &params.Input{Z: []float64{1, -1}, Dx: 1, Section: 1}, calls)
}

// FuzzRareRows: any finite profile gives a value or a reason, and a construction of every value.
func FuzzRareRows(f *testing.F) {
	f.Add([]byte{0, 1, 2, 3, 250, 7, 7, 7, 0, 0, 9}, 1.0, 0.0, 3, uint8(0))
	f.Add([]byte("a profile in which letters are heights, and a blank is a pit"), 1e-3, 1e7, 10, uint8(1))
	f.Add(make([]byte, 300), 1e150, 0.0, 0, uint8(2))
	calls := rareCalls()
	f.Fuzz(func(t *testing.T, heights []byte, scale, offset float64, section int, choices uint8) {
		if len(heights) > 5000 || !(math.Abs(scale) < 1e150) || !(math.Abs(offset) < 1e150) {
			return
		}
		z := make([]float64, len(heights))
		flat := 0.0
		for i, h := range heights {
			z[i] = scale*(float64(h)-128) + offset
			flat = max(flat, 1e-12*math.Abs(z[i]))
		}
		in := &params.Input{Z: z, Dx: 0.5, Section: section, Flat: flat}
		if choices&1 != 0 {
			in.Choices.TooFew, in.Choices.PruneReference = params.TooFewUseAll, params.PruneByMaximum
		}
		if choices&2 != 0 {
			in.Choices.MotifBase, in.Choices.Deviation = params.MeanOfPeaks, params.DivideByCountLessOne
		}
		checkRare(t, in, calls)
	})
}

// The words of a step, as they are read out.
func TestRareWords(t *testing.T) {
	teeth := make([]float64, 0, 400)
	for i := range 20 {
		h := 1 + float64(i%2)
		for k := range 20 {
			teeth = append(teeth, h*(1-math.Abs(float64(k)-10)/10))
		}
	}
	in := params.Input{Z: teeth, Dx: 2, Section: 200}
	for _, tt := range []struct {
		edition    standards.EditionID
		name, want string
		step       int
	}{
		{"iso-12085", "R", "motif 1: peaks 1.00 µm at 0.020 mm and 2.00 µm at 0.060 mm, pit 0 µm at 0.040 mm; depths 1.00 µm and 2.00 µm, width 40.0 µm", 0},
		{"iso-12085", "Rx", "motif 1: peaks 1.00 µm at 0.020 mm and 2.00 µm at 0.060 mm, pit 0 µm at 0.040 mm; depths 1.00 µm and 2.00 µm, width 40.0 µm", 0},
		{"iso-21920", "R5p", "peak 2: 2.00 µm at 0.140 mm", 2},
		{"iso-21920", "RPc(1.5,0.1)", "peak 1: 2.00 µm at 0.060 mm, above c1 from 0.056 mm, below c2 at 0.080 mm", 1},
		{"iso-21920", "RPc(1.5,0.1)", "band from 0.100 µm to 1.50 µm", 0},
		{"asme-b46.1", "HSC(1.5)", "spot 2: from 0.136 mm to 0.144 mm", 2},
		{"asme-b46.1", "Rmax", "section 1: peak 2.00 µm at 0.060 mm, pit 0 µm at 0.000 mm", 0},
		{"jis-b0601-1994", "tp(1)", "section 1: highest peak 2.00 µm at 0.060 mm; the material ratio at 1.00 µm is 25.13 %", 0},
		{"jis-b0601-1994", "S", "section 2: 10 local peaks, the first 1.00 µm at 0.420 mm, the last 2.00 µm at 0.780 mm, mean spacing 40.0 µm", 1},
	} {
		c, err := params.Construct(&in, lookup(t, tt.edition, 'R', tt.name))
		if err != nil || len(c.Steps) <= tt.step {
			t.Errorf("%s: %d steps, %v", tt.name, len(c.Steps), err)
			continue
		}
		if got := c.Steps[tt.step].Text; got != tt.want {
			t.Errorf("%s:\n\t%s, want\n\t%s", tt.name, got, tt.want)
		}
	}
}

package params_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/furrow/params"
)

func TestExtremes(t *testing.T) {
	tests := []struct {
		z    []float64
		want []params.Extreme
	}{
		{nil, nil},
		{[]float64{1}, nil},
		{[]float64{1, 2, 3}, nil},
		{[]float64{1, 3, 2}, []params.Extreme{{1, 3, true}}},
		{[]float64{3, 1, 2}, []params.Extreme{{1, 1, false}}},
		{[]float64{1, 3, 3, 2}, []params.Extreme{{1.5, 3, true}}},                         // a plateau of two: between them
		{[]float64{0, 3, 3, 3, 2, 2, 5}, []params.Extreme{{2, 3, true}, {4.5, 2, false}}}, // of three: the middle one
		{[]float64{2, 2, 1, 1}, nil},                                                      // a step is no extreme
		{[]float64{2, 2, 3, 3, 4}, nil},
	}
	for _, tt := range tests {
		if got := params.Extremes(tt.z); !slices.Equal(got, tt.want) {
			t.Errorf("%v: %v, want %v", tt.z, got, tt.want)
		}
	}
}

// pruneNaively is the definition: look through all neighbours for the nearest pair, delete it, begin again.
func pruneNaively(e []params.Extreme, threshold float64) []params.Extreme {
	e = slices.Clone(e)
	for {
		at, least := -1, threshold
		for i := 0; i+1 < len(e); i++ {
			if d := math.Abs(e[i].Z - e[i+1].Z); d < least {
				at, least = i, d
			}
		}
		if at < 0 {
			return e
		}
		e = slices.Delete(e, at, at+2)
	}
}

func TestWatershedAgainstNaivePruning(t *testing.T) {
	for seed := uint64(0); seed < 2000; seed++ {
		rng := rand.New(rand.NewPCG(seed, 6))
		z := walk(rng, rng.IntN(200))
		if seed%3 == 0 {
			for i := range z {
				z[i] = math.Round(z[i]) // many ties
			}
		}
		threshold := 3 * rng.Float64()
		got, want := params.Watershed(z, threshold), pruneNaively(params.Extremes(z), threshold)
		if !slices.Equal(got, want) {
			t.Fatalf("seed %d: %v, want %v", seed, got, want)
		}
		for i, x := range got {
			if i > 0 && (x.Peak == got[i-1].Peak || math.Abs(x.Z-got[i-1].Z) < threshold || x.At <= got[i-1].At) {
				t.Fatalf("seed %d: %v and %v stand side by side", seed, got[i-1], x)
			}
		}
	}
}

// Pruning knows no direction: the heights left are the same backwards and upside down, where no two pairs tie.
func TestWatershedSymmetry(t *testing.T) {
	heights := func(e []params.Extreme, peaks bool, sign float64) []float64 {
		var h []float64
		for _, x := range e {
			if x.Peak == peaks {
				h = append(h, sign*x.Z)
			}
		}
		slices.Sort(h)
		return h
	}
	for seed := uint64(0); seed < 500; seed++ {
		rng := rand.New(rand.NewPCG(seed, 8))
		z := walk(rng, 50+rng.IntN(300))
		threshold := 2 * rng.Float64()
		down, back := make([]float64, len(z)), slices.Clone(z)
		slices.Reverse(back)
		for i, v := range z {
			down[i] = -v
		}
		e, b, d := params.Watershed(z, threshold), params.Watershed(back, threshold), params.Watershed(down, threshold)
		for _, peaks := range []bool{true, false} {
			if !slices.Equal(heights(e, peaks, 1), heights(b, peaks, 1)) {
				t.Fatalf("seed %d: other heights backwards", seed)
			}
			if !slices.Equal(heights(e, peaks, 1), heights(d, !peaks, -1)) {
				t.Fatalf("seed %d: other heights upside down", seed)
			}
		}
	}
}

// Six peaks and pits of different heights; the sixth of each does not count, and a ripple below 5 % of the total height
// is pruned. Worked by hand.
func TestFivePoint(t *testing.T) {
	//                  p    r    r  v     p    v     p    v     p    v     p    v     p    v
	z := []float64{0, 5, 4.7, 4.9, -1, 4, -2, 3, -3, 2, -4, 6, -5, 1, -6, 0}
	// Total height 12, threshold 0.6: the ripple 4.7 to 4.9 goes.
	holds(t, "R5p", params.R5p(z), (6+5+4+3+2)/5.0, 1e-15, "worked by hand")
	holds(t, "R5v", params.R5v(z), (6+5+4+3+2)/5.0, 1e-15, "worked by hand")
	holds(t, "R10z", params.R10z(z), 8, 1e-15, "worked by hand")
	holds(t, "Rpd", params.Rpd(z, 1), 6/0.016, 1e-12, "6 peaks on 16 µm")

	values := ask(t, params.Input{Z: z[:11], Dx: 1}, "iso-21920", "R5p", "R5v", "R10z")
	if v := values["R5p"]; !math.IsNaN(v.Value) || v.Reason != "fewer than five peaks are left after pruning (4)" {
		t.Errorf("R5p of four peaks: %v, %q", v.Value, v.Reason)
	}
	if v := values["R10z"]; !math.IsNaN(v.Value) || v.Reason == "" {
		t.Errorf("R10z of four peaks: %v, %q", v.Value, v.Reason)
	}
	all := params.Input{Z: z[:11], Dx: 1, Choices: params.Choices{TooFew: params.TooFewUseAll}}
	v := ask(t, all, "iso-21920", "R5p")["R5p"]
	holds(t, "R5p of all four", v.Value, (5+4+3+2)/4.0, 1e-15, "worked by hand")
	if v.Note == "" || v.Reason != "" {
		t.Error("R5p of four peaks does not say so")
	}
}

// The reference of the threshold by choice: a single deep scratch makes Rt large and prunes what Rz would leave.
func TestPruneReference(t *testing.T) {
	z := make([]float64, 1000)
	for i := range z {
		z[i] = math.Sin(2 * math.Pi * float64(i) / 50)
	}
	z[990] = -60 // 5 % of 61 is 3.05, above the height 2 of all waves
	in := params.Input{Z: z, Dx: 1, Section: 100}
	byTotal := ask(t, in, "iso-21920", "Rpd")["Rpd"]
	in.Choices.PruneReference = params.PruneByMaximum // Rz = (9·2 + 61)/10 = 7.9 or less: 5 % is below 0.4
	byMaximum := ask(t, in, "iso-21920", "Rpd")["Rpd"]
	if !(byTotal.Value < 5) || !(byMaximum.Value >= 20) {
		t.Errorf("densities %v and %v", byTotal.Value, byMaximum.Value)
	}
}

// Peaks within three points of an end have a curvature only where the profile is known to go on.
func TestCurvatureUsesLeadAndTail(t *testing.T) {
	full := make([]float64, 30)
	for i := range full {
		full[i] = math.Cos(2 * math.Pi * float64(i-5) / 10) // peaks at 5, 15, 25
	}
	z := full[3:28] // the first peak stands at 2, the last at 22 of 25
	in := params.Input{Z: z, Dx: 1}
	without := ask(t, in, "iso-21920", "Rmpc")["Rmpc"]
	in.Lead, in.Tail = full[:3], full[28:]
	with := ask(t, in, "iso-21920", "Rmpc")["Rmpc"]
	holds(t, "Rmpc", with.Value, without.Value, 1e-9, "all three peaks are alike")
	call, err := params.Lookup("iso-21920", 'R', "Rmpc")
	if err != nil {
		t.Fatal(err)
	}
	steps := func(in *params.Input) int {
		c, err := params.Construct(in, call)
		if err != nil {
			t.Fatal(err)
		}
		return len(c.Steps) - 1 // the first says what pruning leaves
	}
	if got := steps(&in); got != 3 {
		t.Errorf("%d peaks with lead and tail, want 3", got)
	}
	if got := steps(&params.Input{Z: z, Dx: 1}); got != 1 {
		t.Errorf("%d peaks without, want 1", got)
	}
}

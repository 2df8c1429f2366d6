package params_test

import (
	"math"
	"testing"

	"example.com/furrow/params"
)

// Functions by their symbols, on profiles whose values are exact: waves of 20 points with heights 1 and -1, or 2 and -3, between which the line
// runs straight, and a ramp.
func TestFunctionsInClosedForm(t *testing.T) {
	// A wave of a triangle with n points and the heights up and -down, from a crossing upwards.
	wave := func(z []float64, n int, up, down float64) []float64 {
		for i := range n {
			x := 4 * float64(i) / float64(n)
			switch {
			case x <= 1:
				z = append(z, up*x)
			case x <= 2:
				z = append(z, up*(2-x))
			case x <= 3:
				z = append(z, -down*(x-2))
			default:
				z = append(z, -down*(4-x))
			}
		}
		return z
	}
	var even, uneven, ramp, heights []float64
	for range 10 {
		even = wave(even, 20, 1, 1)
	}
	for i := range 9 { // widths 20, 20, 40 and heights 2, 2, 5, three times; the last wave is cut
		uneven = wave(uneven, []int{20, 20, 40}[i%3], []float64{1, 1, 2}[i%3], []float64{1, 1, 3}[i%3])
	}
	for i := range 100 {
		ramp = append(ramp, 0.75*2*float64(i))
		heights = append(heights, float64(i))
	}
	// From crossing to crossing the first wave begins at a point, so that the elements are those of the list but the first half and the last.
	for _, c := range []struct {
		name           string
		got, want, tol float64
	}{
		{"Rku of a triangle's 20 points", params.Rku(even), fourth(even), 1e-12},
		{"Rv", params.Rv(even, 20), 1, 1e-15}, {"Rv of the deepest section", params.Rv(append(wave(nil, 20, 1, 1), wave(nil, 20, 1, 3)...), 20), 2, 1e-15}, {"Rv of the whole", params.Rv(append(wave(nil, 20, 1, 1), wave(nil, 20, 1, 3)...), 0), 3, 1e-15},
		{"Rda of a ramp of 0.75", params.Rda(ramp, 2), 0.75, 1e-14}, {"Rdr of a ramp of 0.75", params.Rdr(ramp, 2), 25, 1e-12}, // √(1 + 9/16) = 5/4
		{"Rdl of a ramp of 0.75", params.Rdl(ramp, 2), 100 * 2 * 1.25, 1e-10}, {"Rdq of a ramp of 0.75", params.Rdq(ramp, 2), 0.75, 1e-14},
		{"Rsm", params.Rsm(even, 0.5, 0), 10, 1e-12}, {"Rsmx", params.Rsmx(even, 0.5, 0), 10, 1e-12}, {"Rsmq", params.Rsmq(even, 0.5, 0), 0, 1e-12},
		{"Rc", params.Rc(even, 0), 2, 1e-15}, {"Rcx", params.Rcx(even, 0), 2, 1e-15}, {"Rcq", params.Rcq(even, 0), 0, 1e-15},
		{"Rsmx of different waves", params.Rsmx(uneven, 0.5, 0), 20, 1e-12}, {"Rcx of different waves", params.Rcx(uneven, 0), 5, 1e-15},
		// The line rises from 0 to 99, so that a height of 24.75 is a quarter of it.
		{"Rmr(10;24.75)", params.RmrFrom(heights, 10, 24.75), 35, 1e-9}, {"Rmr(50;0)", params.RmrFrom(heights, 50, 0), 50, 1e-9}, {"Rmr(50;-24.75)", params.RmrFrom(heights, 50, -24.75), 25, 1e-9},
	} {
		if !(math.Abs(c.got-c.want) <= c.tol) {
			t.Errorf("%s = %v, want %v", c.name, c.got, c.want)
		}
	}
	// Heights 0 to 99 once each: the curve falls evenly from 99.5 at 0 % to -0.5 at 100 %, so that no height lies outside its core. One peak far
	// above and one pit far below do not move it.
	if a, b := params.Rpkx(heights), params.Rvkx(heights); a != 0 || b != 0 {
		t.Errorf("Rpkx = %v, Rvkx = %v", a, b)
	}
	far := append([]float64(nil), heights...)
	far[99], far[0] = 199, -50
	if a, b := params.Rpkx(far), params.Rvkx(far); math.Abs(a-(199-99.5)) > 1e-9 || math.Abs(b-(50-0.5)) > 1e-9 {
		t.Errorf("Rpkx = %v, Rvkx = %v", a, b)
	}
}

// fourth is the mean fourth power of heights by the square of the mean square.
func fourth(z []float64) float64 {
	var two, four float64
	for _, v := range z {
		two += v * v
		four += v * v * v * v
	}
	return four / float64(len(z)) / (two / float64(len(z))) / (two / float64(len(z)))
}

// What there is of no heights, and of a level profile.
func TestNothingToMeasure(t *testing.T) {
	if s := params.NewSpectrum(nil, 1); s.N != 0 || s.Amplitude != nil || s.Peak() != 0 || len(s.Density()) != 0 {
		t.Errorf("%+v", s)
	}
	if s := params.NewSpectrum([]float64{2, 2, 2, 2}, 0.5); s.Peak() != 0 || s.Amplitude[0] != 2 || s.Step != 0.5 || !math.IsInf(s.Wavelength(0), 1) || s.Wavelength(1) != 2 {
		t.Errorf("%+v", s)
	}
	if c := params.MaterialRatioCurve(nil, 0); c != nil {
		t.Errorf("%v", c)
	}
	if c := params.MaterialRatioCurve(nil, 9); c != nil {
		t.Errorf("%v", c)
	}
	// Heights 9 to 0: steps a tenth wide, with straight lines from middle to middle; at most twelve points.
	for most, n := range map[int]int{1: 2, 2: 2, 3: 3, 11: 11, 12: 12, 13: 12, 100: 12} {
		curve := params.MaterialRatioCurve([]float64{0, 9, 1, 8, 2, 7, 3, 6, 4, 5}, most)
		if len(curve) != n {
			t.Errorf("%d points, want %d", len(curve), n)
			continue
		}
		for i, p := range curve {
			x := float64(i) / float64(n-1)
			if want := min(9, max(0, 9.5-10*x)); math.Abs(p.X-100*x) > 1e-12 || math.Abs(p.Y-want) > 1e-12 {
				t.Errorf("%v, want %v at %v %%", p, want, 100*x)
			}
		}
	}
	whole := params.MaterialRatioCurve([]float64{3, 1, 2}, 0)
	for i, want := range []params.Point{{X: 0, Y: 3}, {X: 50.0 / 3, Y: 3}, {X: 50, Y: 2}, {X: 250.0 / 3, Y: 1}, {X: 100, Y: 1}} {
		if len(whole) != 5 || math.Abs(whole[i].X-want.X) > 1e-12 || whole[i].Y != want.Y {
			t.Errorf("%v", whole)
			break
		}
	}
	if got := params.Choices.Get(params.Choices{}, "no-such-switch"); got != "" {
		t.Errorf("%q", got)
	}
	for name, f := range map[string]func([]float64) float64{"Ra": params.Ra, "Rq": params.Rq, "Rsk": params.Rsk, "Rku": params.Rku} {
		if got := f(nil); !math.IsNaN(got) {
			t.Errorf("%s of nothing = %v", name, got)
		}
	}
}

package params_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// exercise is a public student exercise on a mean line (T01 of this project's list of needs); the heights are made to
// count from their mean.
func exercise() []float64 {
	z := []float64{35, 22, 38, 26, 35, 18, 43, 28, 32, 21, 39, 26, 41, 22, 29, 18, 36, 16}
	sum := 0.0
	for _, v := range z {
		sum += v
	}
	for i := range z {
		z[i] -= sum / 18
	}
	return z
}

// The ten-point height of 1982 takes a mean line in each section: neither a height nor a slope of the section matters. On a wave of six
// equal peaks and valleys, the same forwards and backwards, the line is level and the answer is the wave's height.
func TestTenPointOnItsMeanLine(t *testing.T) {
	const n = 700
	wave := make([]float64, 3*n)
	for i := range wave {
		wave[i] = math.Cos(2 * math.Pi * 6.5 * (float64(i%n) + 0.5) / n)
		if i%n >= n/2 {
			wave[i] = wave[i-i%n+n-1-i%n]
		}
	}
	level := params.Rz1982(wave, n)
	holds(t, "Rz of a wave", level, 2, 1e-3, "closed form: twice the amplitude")
	for i := range wave {
		wave[i] += 1000 + []float64{0.02, -0.05, 0.001}[i/n]*float64(i)
	}
	holds(t, "Rz of a tilted wave", params.Rz1982(wave, n), level, 1e-9, "the same without the slope")
	// The line through the 18 ordinates of the exercise by the normal equations.
	z := exercise()
	sx, sxx, sxy := 0.0, 0.0, 0.0
	for i, v := range z {
		sx, sxx, sxy = sx+float64(i), sxx+float64(i*i), sxy+float64(i)*v
	}
	slope := sxy / (sxx - sx*sx/18)
	flat := make([]float64, 18)
	for i, v := range z {
		flat[i] = v - slope*(float64(i)-sx/18)
	}
	holds(t, "Rz of the exercise", params.Rz1982(z, 0), params.RzJIS(flat, 0), 1e-12, "the ordinates from their line")
}

// Second way: sort the extremes of all parts between crossings.
func TestTenPointAgainstSorting(t *testing.T) {
	for seed := uint64(0); seed < 300; seed++ {
		z := seededWalk(seed, 400)
		var hills, dales []float64
		var top float64
		for _, v := range append(z, 0) {
			if v == 0 || top != 0 && (v > 0) != (top > 0) {
				if top > 0 && v <= 0 && !(v == 0) {
					hills = append(hills, top)
				}
				if top < 0 && v > 0 {
					dales = append(dales, -top)
				}
				if v != 0 {
					top = v
				}
				continue
			}
			if top == 0 || math.Abs(v) > math.Abs(top) {
				top = v
			}
		}
		if top > 0 {
			hills = append(hills, top)
		} else if top < 0 {
			dales = append(dales, -top)
		}
		slices.Sort(hills)
		slices.Sort(dales)
		want := math.NaN()
		if h, d := len(hills), len(dales); h >= 5 && d >= 5 {
			want = 0
			for i := 1; i <= 5; i++ {
				want += (hills[h-i] + dales[d-i]) / 5
			}
		}
		near(t, seed, "RzJIS", params.RzJIS(z, 0), want)
		if h, d := len(hills), len(dales); h >= 3 && d >= 3 {
			near(t, seed, "R3z", params.R3z(z, 0), hills[h-3]+dales[d-3])
		}
	}
}

func TestTenPointSections(t *testing.T) {
	// Five sections of ten periods; the amplitude rises from section to section.
	const samples = 40
	var z []float64
	for k := 1; k <= 5; k++ {
		for i := range 10 * samples {
			z = append(z, float64(k)*math.Sin(2*math.Pi*(float64(i)+0.5)/samples))
		}
	}
	peak := math.Sin(2 * math.Pi * 9.5 / samples)
	in := params.Input{Z: z, Dx: 1, Section: 10 * samples}
	v := ask(t, in, "jis-b0601-2013", "RzJIS")["RzJIS"]
	holds(t, "RzJIS", v.Value, 2*3*peak, 1e-12, "mean of the amplitudes 1 to 5")
	if len(v.Sections) != 5 || math.Abs(v.Sections[4]-2*5*peak) > 1e-12 {
		t.Errorf("sections %v", v.Sections)
	}
	holds(t, "R3zm", params.R3zm(z, 10*samples), 2*5*peak, 1e-12, "the last section")
	holds(t, "R3z", params.R3z(z, 10*samples), 2*3*peak, 1e-12, "mean of the amplitudes 1 to 5")
	holds(t, "Rpm", params.Rp(z, 10*samples), 3*peak, 1e-12, "mean of the amplitudes 1 to 5")
	holds(t, "Rmax", params.Rmax(z, 10*samples), 2*5*peak, 1e-12, "the last section")
	holds(t, "Ry", params.Rz(z, 10*samples), 2*3*peak, 1e-12, "mean of the amplitudes 1 to 5")
	holds(t, "Rmax1982", params.Rmax1982(z, 10*samples), 2*3*peak, 1e-12, "mean of the amplitudes 1 to 5")

	// One section without five peaks: the mean is taken over the others, and the value says so; all, and there is none.
	copy(z, make([]float64, 10*samples))
	z[5], z[15] = 1, -1
	in.Z = z
	v = ask(t, in, "jis-b0601-2013", "RzJIS")["RzJIS"]
	holds(t, "RzJIS without section 1", v.Value, 2*3.5*peak, 1e-12, "mean of the amplitudes 2 to 5")
	if !strings.Contains(v.Note, "section 1 has fewer than 5 peaks or valleys") || !math.IsNaN(v.Sections[0]) {
		t.Errorf("%q, %v", v.Note, v.Sections)
	}
	in.Choices.TooFew = params.TooFewUseAll
	v = ask(t, in, "jis-b0601-2013", "RzJIS")["RzJIS"]
	holds(t, "RzJIS with section 1", v.Value, (4*2*3.5*peak+2)/5, 1e-12, "one peak and one valley of 1 in section 1")
	if v.Note == "" || v.Reason != "" {
		t.Error("a mean of fewer than five does not say so")
	}
	few := ask(t, params.Input{Z: []float64{1, -1, 1, -1, 1}, Dx: 1}, "jis-b0601-2013", "RzJIS")["RzJIS"]
	if !math.IsNaN(few.Value) || few.Reason == "" {
		t.Errorf("%v, %q", few.Value, few.Reason)
	}
}

// One name, three editions, three numbers.
func TestRzOfThreeEditions(t *testing.T) {
	in := params.Input{Z: exercise(), Dx: 1}
	for edition, want := range map[string]struct {
		value float64
		on    params.On
	}{
		"iso-21920":      {27, params.OwnProfile},
		"jis-b0601-1994": {20.4, params.OwnProfile},
		"jis-b0601-1982": {20.325902992776058, params.Primary}, // about the line of the 18 ordinates: see TestTenPointOnItsMeanLine
		"asme-b46.1":     {27, params.OwnProfile},
	} {
		call, err := params.Lookup(standards.EditionID(edition), 'R', "Rz")
		if err != nil {
			t.Fatal(err)
		}
		v := params.Evaluate(&in, call)[0]
		if math.Abs(v.Value-want.value) > 1e-12 || call.Parameter.On != want.on || v.Symbol != "Rz" {
			t.Errorf("Rz of %s: %v on %v, want %v on %v", edition, v.Value, call.Parameter.On, want.value, want.on)
		}
	}
	ra75, err := params.Lookup("jis-b0601-1994", 'R', "Ra75")
	if err != nil || ra75.Parameter.On != params.TwoRC {
		t.Errorf("Ra75: %v, %v", ra75.Parameter, err)
	}
}

func TestPeakCounts(t *testing.T) {
	tests := []struct {
		name          string
		z             []float64
		upper, lower  float64
		band, highest int
	}{
		{"up and down", []float64{0, 1, -1, 1, -1}, 0.5, -0.5, 2, 2},
		{"touching is not passing", []float64{0, 0.5, -0.5, 0.6, -0.5, -0.6}, 0.5, -0.5, 1, 1},
		{"a ripple inside the band", []float64{0, 1, 0.2, 1, 0.2, 1, -1}, 0.5, -0.5, 1, 3},
		{"ends armed", []float64{0, -1, 1, -1, 1}, 0.5, -0.5, 1, 2},
		{"starts above", []float64{1, -1}, 0.5, -0.5, 1, 1},
		{"equal levels", []float64{1, -1, 1, -1}, 0, 0, 2, 2},
		{"flat", []float64{0, 0, 0}, 0.5, -0.5, 0, 0},
	}
	for _, tt := range tests {
		perPoint := 10000 / (float64(len(tt.z)) * 2)
		holds(t, tt.name+": RPc", params.RPcBand(tt.z, 2, tt.upper, tt.lower), float64(tt.band)*perPoint, 1e-9, "counted by hand")
		holds(t, tt.name+": Pc", params.Pc(tt.z, 2, tt.upper, tt.lower), float64(tt.band)*perPoint, 1e-9, "counted by hand")
		holds(t, tt.name+": HSC", params.HSC(tt.z, 2, tt.upper), float64(tt.highest)*perPoint, 1e-9, "counted by hand")
	}
}

// For a sine whose amplitude passes both levels all peak counts are 10 mm/λ, whichever way they count.
func TestPeakCountsOfASine(t *testing.T) {
	const wavelength = 80.0
	z := make([]float64, 4000)
	for i := range z {
		z[i] = 2 * math.Sin(2*math.Pi*(float64(i)+0.5)/wavelength)
	}
	in := params.Input{Z: z, Dx: 1}
	for edition, names := range map[string][]string{
		"iso-21920":  {"RPc(0.5,-0.5)", "Rpc"},
		"iso-4287":   {"RPc(0.5,-0.5)", "RPc"},
		"asme-b46.1": {"RPc(0.5,-0.5)", "Pc", "Pc(1,-1)", "HSC", "HSC(1.5)"},
	} {
		for name, v := range ask(t, in, standards.EditionID(edition), names...) {
			holds(t, edition+" "+name, v.Value, 10000/wavelength, 1e-9, "10 mm/λ of a sine")
		}
	}
	_, err := params.Lookup("iso-21920", 'R', "RPc(-0.5,0.5)")
	var name *params.NameError
	if !errors.As(err, &name) || !strings.Contains(err.Error(), "upper level") {
		t.Errorf("levels the wrong way round: %v", err)
	}
}

// Closed forms of the sine and the triangle; λa = λq = λ for a sine (ISO 4287-1:1984 as remembered; derived), and the
// seven-point slope sees the sine with the gain (sin 3θ - 9 sin 2θ + 45 sin θ)/(30θ).
func TestOlderClosedForms(t *testing.T) {
	const n, periods, dx = 40000, 100, 0.5
	const wavelength = n * dx / periods
	z := sampled(n, periods, sine)
	theta := 2 * math.Pi * dx / wavelength
	gain := (math.Sin(3*theta) - 9*math.Sin(2*theta) + 45*math.Sin(theta)) / (30 * theta)
	holds(t, "λa", params.LambdaA(z, dx), wavelength/gain, 1e-3*wavelength, "λa = λ of a sine")
	holds(t, "λq", params.LambdaQ(z, dx), wavelength/gain, 1e-3*wavelength, "λq = λ of a sine")
	k := 2 * math.Pi / wavelength
	stretch := 1 + k*k/4 - 3*k*k*k*k/64 // of the arc length of a sine with slope k, small k
	// Six of the 40 000 points have no slope, which moves a mean by at most 6/40000 of itself; 1/2 of k² is the most it can be.
	holds(t, "Lo", params.Rdl(z, dx), n*dx*stretch, n*dx*k*k/2*6/n, "series of the elliptic integral")
	holds(t, "lr", params.LengthRatio(z, dx), stretch, k*k/2*6/n, "series of the elliptic integral")
	for i := range z {
		z[i] = math.Sin(2 * math.Pi * float64(i) * dx / wavelength) // with a point on each crest
	}
	holds(t, "S", params.S(z, dx, n/5), wavelength, 1e-9, "one local peak per period")
	holds(t, "D", params.D(z, dx, n/5), 1000/wavelength, 1e-9, "one local peak per period")

	z = sampled(n, periods, triangle)
	for c, want := range map[float64]float64{0.1: 5, 0.5: 25, 1: 50, 1.9: 95} {
		holds(t, "tp", params.Tp(z, c), want, 0.3, "(c from the peak)/2 of a triangle of amplitude 1")
	}
	holds(t, "tp(2)", params.Tp(z, 2), 100, 0, "at or above the lowest pit")
	holds(t, "tp(0)", params.Tp(z, 0), 0, 0.6, "only the tips, which are cut level between two points")
	holds(t, "Htp", params.Rdc(z, 10, 80), 1.4, 5e-3, "1.4 A of a triangle")
	holds(t, "Ra75", params.Ra75(z), 0.5, 1e-12, "A/2 of a triangle")
}

// tp counts from the highest peak of each sampling length in the edition of 1994, from that of the whole in ASME B46.1.
func TestBearingRatioOfTwoEditions(t *testing.T) {
	z := slices.Concat(sampled(10000, 10, triangle), sampled(10000, 10, triangle))
	for i := range z[:10000] {
		z[i] *= 2
	}
	in := params.Input{Z: z, Dx: 1, Section: 10000}
	sections := ask(t, in, "jis-b0601-1994", "tp(1)")["tp(1)"]
	holds(t, "tp per section", sections.Value, (25+50)/2.0, 0.2, "1 from the peak of amplitudes 2 and 1")
	whole := ask(t, in, "asme-b46.1", "tp(1)")["tp(1)"]
	holds(t, "tp over all", whole.Value, 25/2.0, 0.2, "the second half just reaches the level")
	if len(sections.Sections) != 2 || len(whole.Sections) != 0 {
		t.Errorf("sections %v and %v", sections.Sections, whole.Sections)
	}
}

// Local peaks of every section on their own: the spacing across a border belongs to none.
func TestLocalPeakSpacing(t *testing.T) {
	z := []float64{0, 1, 0, 2, 1, 1, 3, 0, 0, 0, 0, 0, 0, 5, 5, 0, 1, 0, 0, 0}
	// Section 1: peaks at 1, 3, 6: mean 2.5. Section 2: a plateau at 13.5 and a peak at 16: 2.5.
	holds(t, "S", params.S(z, 2, 10), 5, 1e-15, "by hand")
	v := ask(t, params.Input{Z: z[:12], Dx: 2, Section: 4}, "jis-b0601-1994", "S")["S"]
	if !math.IsNaN(v.Value) || v.Reason == "" {
		t.Errorf("S without two peaks in a section: %v, %q", v.Value, v.Reason)
	}
}

// seededWalk is a walk from a seed alone.
func seededWalk(seed uint64, n int) []float64 { return walk(rand.New(rand.NewPCG(seed, 4)), n) }

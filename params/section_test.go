package params_test

import (
	"math"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// threeSections are waves of amplitude 1, 2 and 3, 100 points in a wave, 1000 points each.
func threeSections() params.Input {
	var z []float64
	for k := range 3 {
		for i := range 1000 {
			z = append(z, float64(k+1)*math.Sin(2*math.Pi*(float64(i)+0.5)/100))
		}
	}
	return params.Input{Z: z, Dx: 2, Section: 1000}
}

// TestEditionsDiffer: one profile whose sections differ gives different values by edition. Rq is the root of the mean of
// the squares in ISO 21920 and ASME, the mean of the roots in ISO 4287; Rp is a mean of sections in both ISO texts
// and the highest point in ASME; Rku is 1.5 in each section but not over all.
func TestEditionsDiffer(t *testing.T) {
	in := threeSections()
	const source = "sums over waves of amplitude 1, 2, 3"
	top := math.Sin(2 * math.Pi * 24.5 / 100) // the highest point of a wave
	check := func(edition standards.EditionID, symbol string, want float64, sections ...float64) {
		t.Helper()
		v := ask(t, in, edition, symbol)[symbol]
		holds(t, string(edition)+" "+symbol, v.Value, want, 1e-9, source)
		if len(v.Sections) != len(sections) {
			t.Errorf("%s %s has the sections %v", edition, symbol, v.Sections)
			return
		}
		for k, s := range sections {
			holds(t, string(edition)+" "+symbol+" section", v.Sections[k], s, 1e-9, source)
		}
	}
	r := math.Sqrt(0.5)
	check("iso-21920", "Rq", math.Sqrt(14.0/6), r, 2*r, 3*r)
	check("iso-4287", "Rq", 2*r, r, 2*r, 3*r)
	check("jis-b0601-2013", "Rq", 2*r, r, 2*r, 3*r)
	check("asme-b46.1", "Rq", math.Sqrt(14.0/6), r, 2*r, 3*r)
	check("iso-21920", "Rku", 1.5*(1+16+81)/3/math.Pow(14.0/3, 2)*4/4, 1.5, 1.5, 1.5)
	check("iso-4287", "Rku", 1.5, 1.5, 1.5, 1.5)
	check("iso-21920", "Rp", 2*top, top, 2*top, 3*top)
	check("iso-4287", "Rp", 2*top, top, 2*top, 3*top)
	check("asme-b46.1", "Rp", 3*top)
	check("iso-21920", "Rz", 4*top, 2*top, 4*top, 6*top)
	check("iso-4287", "Rz", 4*top, 2*top, 4*top, 6*top)
	check("asme-b46.1", "Rz", 4*top, 2*top, 4*top, 6*top)
	check("iso-21920", "Rt", 6*top)
	check("iso-4287", "Rt", 6*top)
	check("iso-21920", "Rpt", 3*top)
	check("iso-21920", "Rvt", 3*top)
	check("iso-21920", "Rzx", 6*top)
	check("iso-21920", "Rzx(100)", 6*top)
	check("iso-21920", "Rsm", 200)
	check("iso-4287", "RSm", 200, 200, 200, 200)
	check("iso-4287", "RPc", 50, 50, 50, 50)
	check("iso-21920", "RPc", 50)
	// The first half wave stands open, so elements are a dale and the hill after it: the last dale of a section pairs
	// with the first hill of the next, and nine of ten elements lie in their section alone.
	check("iso-4287", "Rc", (2.1+4.1+6)*top/3, 2.1*top, 4.1*top, 6*top)
}

// TestStrictSections: in a wave that does not begin on the border of a section, the part at its start counts with the
// width that lies in the section; complete elements do not notice the border.
func TestStrictSections(t *testing.T) {
	z := make([]float64, 1000)
	for i := range z {
		z[i] = math.Sin(2 * math.Pi * (float64(i) + 0.5 - 20) / 100) // crossings at 19.5, 69.5 ...
	}
	in := params.Input{Z: z, Dx: 1, Section: 500}
	v := ask(t, in, "iso-4287", "RSm")["RSm"]
	holds(t, "RSm, complete elements", v.Value, 100, 1e-9, "a wave of 100")
	in.Choices.SpacingMode = params.StrictSections
	v = ask(t, in, "iso-4287", "RSm")["RSm"]
	// Each section begins at 0 with 19.5 of a dale: parts end at 19.5, 69.5 ... 469.5; five pairs from 0 to 469.5.
	holds(t, "RSm, strict, section 1", v.Sections[0], 469.5/5, 1e-9, "by hand")
	holds(t, "RSm, strict, section 2", v.Sections[1], 469.5/5, 1e-9, "by hand")
}

// TestDiscrimination of ISO 4287: a spike narrower than 1 % of the sampling length and a hill lower than 10 % of Rz do
// not count; what just reaches both does.
func TestDiscrimination(t *testing.T) {
	wave := func() []float64 {
		z := make([]float64, 1000)
		for i := range z {
			z[i] = math.Sin(2 * math.Pi * (float64(i) + 0.5) / 200)
		}
		return z
	}
	spacing := func(z []float64, edition standards.EditionID, symbol string) float64 {
		return ask(t, params.Input{Z: z, Dx: 1}, edition, symbol)[symbol].Value
	}
	plain := wave()
	holds(t, "RSm", spacing(plain, "iso-4287", "RSm"), 200, 1e-9, "a wave of 200")
	narrow := wave() // a spike upwards in the dale about 350, crossing to crossing below 10 points wide
	for i := 348; i < 352; i++ {
		narrow[i] = 0.9
	}
	holds(t, "RSm with a spike of 1 %", spacing(narrow, "iso-4287", "RSm"), 200, 1e-9, "width of 1 % of 1000 points")
	if got := spacing(narrow, "iso-21920", "Rsm"); !(got < 199) {
		t.Errorf("Rsm = %v: ISO 21920 has no least width, the spike counts", got)
	}
	low := wave() // a bump in the dale that rises 0.19 above the line: below 10 % of Rz, above 10 % of Rp
	for i := 340; i < 360; i++ {
		low[i] = 0.19
	}
	holds(t, "RSm with a low bump", spacing(low, "iso-4287", "RSm"), 200, 1e-9, "height of 10 % of Rz = 2")
	if got := spacing(low, "iso-21920", "Rsm"); !(got < 199) {
		t.Errorf("Rsm = %v: the bump reaches 10 %% of Rp = 1", got)
	}
	in := params.Input{Z: low, Dx: 1, Choices: params.Choices{ElementThreshold: params.CommonHeight}}
	holds(t, "Rsm with the threshold Rz", ask(t, in, "iso-21920", "Rsm")["Rsm"].Value, 200, 1e-9, "height of 10 % of Rz = 2")
	// A hill of exactly 10 % counts, whatever the rounding of the threshold.
	for _, scale := range []float64{1, 0.1, 0.3, 7e-5, 1e5 / 3} {
		exact := []float64{-10, 10, -10, 1, -10, 10, -10, 10, -10}
		for i := range exact {
			exact[i] *= scale
		}
		holds(t, "Rsm with a hill of 10 %", ask(t, params.Input{Z: exact, Dx: 1}, "iso-21920", "Rsm")["Rsm"].Value, params.Rsm([]float64{-10, 10, -10, 1.1, -10, 10, -10, 10, -10}, 1, 0), 0.02, "it counts")
	}
}

// TestUndefinedSections: a section without an element stays out of the mean, and the value says so.
func TestUndefinedSections(t *testing.T) {
	in := threeSections()
	for i := 1000; i < 2000; i++ {
		in.Z[i] = 0
	}
	v := ask(t, in, "iso-4287", "RSm", "Rsk", "Rku")
	for symbol, x := range v {
		if math.IsNaN(x.Value) || !math.IsNaN(x.Sections[1]) || !strings.Contains(x.Note, "section 2") || x.Reason != "" {
			t.Errorf("%s = %v, sections %v, note %q; want a mean of sections 1 and 3 that says so", symbol, x.Value, x.Sections, x.Note)
		}
	}
	// The zeros between section 1 and section 3 are one crossing in their middle: the last element of section 1 is a
	// dale and a hill from 949.5 to 2049.5 points, the nine others 100 points.
	holds(t, "RSm", v["RSm"].Value, (((9*100)+1100)/10.0+100)/2*2, 1e-9, "mean of the two others")
	holds(t, "Rku", v["Rku"].Value, 1.5, 1e-9, "mean of the two others")
}

// TestWindow compares the sliding window with trying every position, and the fixed sections with theirs.
func TestWindow(t *testing.T) {
	z := ground(500)
	in := params.Input{Z: z, Dx: 0.5, Section: 100}
	brute := func(points, step int) float64 {
		best := 0.0
		for from := 0; from+points <= len(z); from += step {
			best = max(best, params.Rt(z[from:from+points]))
		}
		return best
	}
	for name, points := range map[string]int{"Rzx": 101, "Rzx(50)": 101, "Rzx(10.2)": 21, "Rzx(0.5)": 2, "Rzx(250)": 500, "Rzx(249.5)": 500} {
		holds(t, name, ask(t, in, "iso-21920", name)[name].Value, brute(points, 1), 0, "every position tried")
	}
	in.Choices.HeightWindow = params.FixedSections
	holds(t, "Rzx", ask(t, in, "iso-21920", "Rzx")["Rzx"].Value, brute(100, 100), 0, "every fixed section tried")
	for _, name := range []string{"Rzx(251)", "Rzx(0.4)"} { // longer than the profile, shorter than a step
		if v := ask(t, in, "iso-21920", name)[name]; !math.IsNaN(v.Value) || v.Reason == "" {
			t.Errorf("%s = %v, reason %q", name, v.Value, v.Reason)
		}
	}
}

// TestDeviationDivisor: the spacings 1, 2 and 3 of three elements deviate by √(2/3) with the divisor n and by 1 with n-1.
func TestDeviationDivisor(t *testing.T) {
	// Crossings at 0.5, 1, 1.5, 3, 4.5: parts 0.5, 0.5, 1.5, 1.5 wide, elements 1, 2, 3.
	heights := func(x float64) float64 {
		borders := []float64{0.5, 1, 1.5, 3, 4.5}
		sign := 1.0
		for _, b := range borders {
			if x > b {
				sign = -sign
			}
		}
		return sign
	}
	z := make([]float64, 5000)
	for i := range z {
		z[i] = heights((float64(i) + 0.5) / 1000)
	}
	in := params.Input{Z: z, Dx: 1e-3}
	holds(t, "Rsmq", ask(t, in, "iso-21920", "Rsmq")["Rsmq"].Value, math.Sqrt(2.0/3), 1e-9, "by hand")
	in.Choices.Deviation = params.DivideByCountLessOne
	holds(t, "Rsmq", ask(t, in, "iso-21920", "Rsmq")["Rsmq"].Value, 1, 1e-9, "by hand")
	in.Z = z[:1800] // crossings at 0.5, 1 and 1.5 make one element
	if v := ask(t, in, "iso-21920", "Rsmq")["Rsmq"]; !math.IsNaN(v.Value) || v.Reason == "" {
		t.Errorf("Rsmq of one element with n - 1 = %v, reason %q", v.Value, v.Reason)
	}
}

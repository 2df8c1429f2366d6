package study

import (
	"math"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// Closed forms and evaluation agree within the deviation that is stated for the points, for every symbol of every ingredient alone, at
// several sizes; a difference that can be seen has its sentence.
func TestKnown(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range []State{
		{Parts: []Part{{"sine1", []float64{2, 0.25, 0}}}},
		{Parts: []Part{{"sine1", []float64{2, 0.25, 0.3}}}, Length: 4.1},
		{Parts: []Part{{"sine1", []float64{3, 0.02, 0}}}},
		{Parts: []Part{{"sine2", []float64{0.5, 0.05, 0.1}}}, Spacing: 1},
		{Parts: []Part{{"triangle", []float64{2, 0.2, 50}}}},
		{Parts: []Part{{"triangle", []float64{2, 0.2, 20}}}},
		{Parts: []Part{{"triangle", []float64{2, 0.05, 80}}}, Spacing: 0.25},
		{Parts: []Part{{"feed", []float64{0.2, 0.8}}}},
		{Parts: []Part{{"feed", []float64{0.03, 0.8}}}},
		{Parts: []Part{{"sine1", []float64{2, 0.25, 0}}, {"sine2", []float64{0.5, 0.05, 0}}}},
		{Parts: []Part{{"noise", []float64{0.3, 10, 1}}}},
		{Parts: []Part{{"noise", []float64{0.3, 0, 1}}}},
		{Parts: []Part{{"sine1", []float64{2, 0.25, 0}}, {"noise", []float64{0.3, 10, 1}}}},
		{Parts: []Part{{"hone", []float64{0.16, 1.5, 1.2, 5, 13, 1}}}},
	} {
		c.Surface = Made
		list, reason, err := (&Desk{}).Known(c)
		if err != nil || reason != "" || len(list) == 0 {
			t.Errorf("%v: %d known, %q %v", c.Parts, len(list), reason, err)
			continue
		}
		for _, k := range list {
			seen[k.Symbol] = true
			if !(k.Deviation() <= k.Bound) {
				t.Errorf("%v %s: known %v, calculated %v: %.4f, stated %.4f", c.Parts, k.Symbol, k.Known, k.Plain, k.Deviation(), k.Bound)
			}
			if k.Deviation() > 5e-4 && k.Why == "" {
				t.Errorf("%v %s: no sentence for a deviation of %.4f", c.Parts, k.Symbol, k.Deviation())
			}
			if k.Bound > 0.3 && !k.Expected && k.Symbol != "Rdt" {
				t.Errorf("%v %s: a stated deviation of %.2f says nothing", c.Parts, k.Symbol, k.Bound)
			}
		}
	}
	for _, symbol := range []string{"Ra", "Rq", "Rsk", "Rku", "Rp", "Rv", "Rz", "Rt", "Rsm", "Rc", "Rdq", "Rda", "Rdt", "Rdr", "Ral", "Rsw", "Rdc(10,80)", "Rk", "Rpk", "Rvk", "Rmrk1", "Rmrk2", "Rvmp(10)", "Rvvv(80)"} {
		if !seen[symbol] {
			t.Errorf("%s is never known", symbol)
		}
	}
}

// What the filters leave of a sine and of noise, by their transmission, is what the calculation finds: on long traces, so that their ends
// count little, and on average over seeds.
func TestKnownBehindFilters(t *testing.T) {
	for _, wave := range []float64{0.01, 0.25, 0.8} {
		list, _, err := (&Desk{}).Known(State{Surface: Made, Length: 20, Parts: []Part{{"sine1", []float64{2, wave, 0}}}})
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range list {
			if k.Symbol == "Ra" || k.Symbol == "Rq" || k.Symbol == "Rdq" {
				if math.Abs(k.Filtered/k.KnownFiltered-1) > 0.01 {
					t.Errorf("%g mm %s: known %v, calculated %v", wave, k.Symbol, k.KnownFiltered, k.Filtered)
				}
			}
		}
	}
	known, mean, n := 0.0, 0.0, 40.0
	for seed := range int(n) {
		list, _, err := (&Desk{}).Known(State{Surface: Made, Parts: []Part{{"noise", []float64{0.3, 4, float64(seed + 1)}}}})
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range list {
			if k.Symbol == "Rq" {
				known, mean = k.KnownFiltered, mean+k.Filtered/n
			}
		}
	}
	if math.Abs(mean/known-1) > 0.015 || known > 0.295 {
		t.Errorf("noise: Rq known %v, on average %v", known, mean)
	}
}

// Heights that are put together follow the formulas of the ingredients, in their order.
func TestIngredients(t *testing.T) {
	d := &Desk{}
	at := func(z []float64, x float64) float64 { return z[int(math.Round(x*1000/0.5))] }
	surface := func(parts ...Part) []float64 {
		p, err := d.Surface(State{Surface: Made, Parts: parts}.Complete())
		if err != nil {
			t.Fatal(err)
		}
		return p.Z
	}
	for _, c := range []struct {
		name      string
		part      Part
		place     float64
		want, eps float64
	}{
		{"sine at a quarter", Part{"sine1", []float64{2, 0.25, 0}}, 0.0625, 1, 1e-12},
		{"triangle at its start", Part{"triangle", []float64{2, 0.2, 50}}, 0, -1, 1e-12},
		{"feed marks at the middle of a mark", Part{"feed", []float64{0.2, 0.8}}, 0.1, -6.25 / 3, 1e-9},
		{"feed marks at the ridge", Part{"feed", []float64{0.2, 0.8}}, 0.2, 6.25 * 2 / 3, 1e-9},
		{"scratch at its middle", Part{"scratch", []float64{2, 20, 3}}, 2, -3, 1e-12},
		{"scratch at a quarter of its width", Part{"scratch", []float64{2, 20, 3}}, 2.005, -1.5, 1e-9},
		{"scratch beside it", Part{"scratch", []float64{2, 20, 3}}, 2.011, 0, 0},
		{"dust at its top", Part{"dust", []float64{1, 4, 3}}, 1, 3, 1e-12},
		{"dust at a quarter of its width", Part{"dust", []float64{1, 4, 3}}, 1.001, 1.5, 1e-9},
		{"bow in the middle", Part{"bow", []float64{6}}, 2, 2, 1e-9},
		{"bow at the start", Part{"bow", []float64{6}}, 0, -4, 1e-9},
		{"tilt at the start", Part{"tilt", []float64{6}}, 0, -3, 1e-9},
	} {
		if got := at(surface(c.part), c.place); math.Abs(got-c.want) > c.eps {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	wave := Part{"sine1", []float64{2, 0.25, 0}}
	level := surface(wave, Part{"worn", []float64{40}})
	flat := 0
	for _, v := range level {
		if v == level[125] {
			flat++
		}
	}
	if math.Abs(float64(flat)/8000-0.4) > 0.01 {
		t.Errorf("%d of 8000 points are level", flat)
	}
	// The order in a state does not matter; that of composition does: dust lies on the level.
	dusty := surface(Part{"dust", []float64{0.0625, 4, 3}}, Part{"worn", []float64{40}}, wave)
	if got := at(dusty, 0.0625); math.Abs(got-level[125]-3) > 1e-9 {
		t.Errorf("the speck is cut: %v", got)
	}
	if _, err := d.Evaluate(State{Surface: Made, Parts: []Part{{"scratch", []float64{2, 1, 3}}}, Spacing: 1}); err == nil || !strings.Contains(err.Error(), "At a spacing of 1 µm the smallest width is 2 µm.") {
		t.Errorf("a narrow scratch: %v", err)
	}
}

// Typed heights without a filter are the profile itself.
func TestTyped(t *testing.T) {
	z := []float64{3, 1, -2, 4, 0, -5, 2, 1, -1, 3, -4, 2, 0, -3, 1, -2}
	for symbol, want := range map[string]float64{"Ra": 34.0 / 16, "Rq": math.Sqrt(104.0 / 16), "Rt": 9, "Rsk": -0.3621, "Rdq": 0.03835} {
		r, err := (&Desk{}).Evaluate(State{Surface: Typed, Heights: z, Symbol: symbol})
		if err != nil || math.Abs(r.Value.Value-want) > 5e-5*math.Max(1, math.Abs(want)) || r.Value.Value == 0 {
			t.Errorf("%s: %v %v, want %v", symbol, r.Value, err, want)
		}
	}
	z = []float64{35, 22, 38, 26, 35, 18, 43, 28, 32, 21, 39, 26, 41, 22, 29, 18, 36, 16}
	for symbol, want := range map[string]float64{"Ra": 7.296, "Rq": 8.308, "Rp": 13.833, "Rv": 13.167, "Rt": 27, "Rsk": 0.0261, "Rku": 1.717} {
		r, err := (&Desk{}).Evaluate(State{Surface: Typed, Heights: z, Line: "mean", Symbol: symbol})
		if err != nil || math.Abs(r.Value.Value-want) > 6e-4 {
			t.Errorf("%s: %v %v, want %v", symbol, r.Value, err, want)
		}
	}
}

// A demonstration behind the filters of a class has the values of the worksheet.
func TestDemonstration(t *testing.T) {
	demo, _ := synth.FindDemo("ground-rod")
	want, err := roughness.Evaluate(roughness.Profile{Z: demo.Heights(), Spacing: demo.Spacing}, &roughness.Settings{Parameters: []string{"Rz"}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := (&Desk{}).Evaluate(State{})
	if err != nil || r.Value.Value != want.Values[0].Value {
		t.Errorf("%v %v, want %v", r.Value, err, want.Values[0])
	}
}

// The difference has the decimals of the value; what cannot be read is said so, but not of typed heights, which are exact.
func TestChange(t *testing.T) {
	result := func(symbol string, s State, v float64) *Result {
		s.Symbol = symbol
		r, err := (&Desk{}).Evaluate(s)
		if err != nil {
			t.Fatal(err)
		}
		r.Value.Value = v
		return r
	}
	typed := State{Surface: Typed, Heights: typedHeights}
	for _, c := range []struct {
		symbol       string
		state        State
		before, now  float64
		change, said string
	}{
		{"Rz", State{}, 2.92, 3.504, "+ 0.58 µm (+ 20 %)", "R z 3.50 micrometres, before 2.92, up by 20 percent."},
		{"Rz", State{}, 3.504, 2.92, "− 0.58 µm (− 17 %)", "R z 2.92 micrometres, before 3.50, down by 17 percent."},
		{"Rz", State{}, 2.92, 2.9204, "no difference that can be read", "R z 2.92 micrometres, before 2.92, no difference that can be read."},
		{"Rz", typed, 2.92, 2.9204, "+ 0.00040 µm (+ 0.014 %)", "R z 2.92 micrometres, before 2.92, up by 0.014 percent."},
		{"Rsk", State{}, -0.44, -0.43, "+ 0.010", "R sk −0.430, before −0.440, up."},
		{"Rz", State{}, 3, 3, "no difference", "R z 3.00 micrometres, before 3.00, no difference."},
		{"Rz", State{}, 3, math.NaN(), "", "R z not defined."},
	} {
		got, said := result(c.symbol, c.state, c.now).Change(result(c.symbol, c.state, c.before))
		if got != c.change || said != c.said {
			t.Errorf("%s %v to %v: %q %q, want %q %q", c.symbol, c.before, c.now, got, said, c.change, c.said)
		}
	}
}

// The letters of a formula have their numbers on the trace.
func TestLetters(t *testing.T) {
	for _, c := range []struct {
		symbol, letter, want string
		picked               int
	}{
		{"Ra", "N", "8\u202f000", 0}, {"Rz", "nsc", "5", 0}, {"Rz", "Zp", "1.13 µm", 2}, {"Rz", "Zv", "2.02 µm", 2}, {"Rz", "Zp", "", 0},
		{"Rsm", "m", "173", 0}, {"Rdq", "Ng", "8\u202f000", 0}, {"Rmr(0.3)", "c", "0.300 µm", 0}, {"Rk", "cu", "0.607 µm", 0},
	} {
		r, err := (&Desk{}).Evaluate(State{Symbol: c.symbol})
		if err != nil {
			t.Fatal(err)
		}
		how, err := params.Construct(r.Input, r.Call)
		if err != nil {
			t.Fatal(err)
		}
		if got := r.Letters(&how, c.picked); got[c.letter] != c.want {
			t.Errorf("%s: %s is %q, want %q of %q", c.symbol, c.letter, got[c.letter], c.want, got)
		}
	}
}

// What a Gaussian filter of cut-off c leaves of a normal process, with the spectrum exp(-(πβf)²) and the transmission exp(-ln 2 (cf)²), is an integral over a bell:
// πβ/√((πβ)² + 2 ln 2 c²) (closed form).
func TestPowerLeft(t *testing.T) {
	for _, beta := range []float64{3, 10, 250} {
		for _, cutoff := range []float64{0, 1, 8, 100} {
			got := powerLeft(beta, func(wave float64) float64 { return math.Exp(-math.Ln2 * math.Pow(cutoff/wave, 2)) })
			if want := math.Pi * beta / math.Sqrt(math.Pow(math.Pi*beta, 2)+2*math.Ln2*cutoff*cutoff); math.Abs(got-want) > 1e-9 {
				t.Errorf("length %g, cut-off %g: %.12g, want %.12g", beta, cutoff, got, want)
			}
		}
	}
}

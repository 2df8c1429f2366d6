package e2e

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards/decide"
)

// holds compares the numbers behind the cells of a table, in their order, with those of the library, to 12 digits. NaN stands for a cell
// without a number.
func (s *sheet) holds(cells string, want []float64) {
	s.t.Helper()
	var got []*float64
	text := eval[string](s, fmt.Sprintf(`JSON.stringify([...document.querySelectorAll(%q)].map((c) => (c.hasAttribute('data-value') ? Number(c.dataset.value) : null)))`, cells))
	if err := json.Unmarshal([]byte(text), &got); err != nil {
		s.t.Fatal(err)
	}
	if len(got) != len(want) || len(want) == 0 {
		s.t.Fatalf("%s: %d cells, want %d", cells, len(got), len(want))
	}
	for i, w := range want {
		if (got[i] == nil) != math.IsNaN(w) || got[i] != nil && math.Abs(*got[i]-w) > 1e-12*math.Abs(w) {
			s.t.Errorf("%s, cell %d: not %.15g, %s", cells, i+1, w, text)
		}
	}
}

// The numbers of the sheet Instrument check are those of the library: values of a specimen with mean and spread, noise of a flat, and the lines of
// the budget that rests on both.
func TestCheckEqualsLibrary(t *testing.T) {
	s := checks(t, 1280, 900)
	read := func(heights func(seed uint64) []float64, id string, n int) (traces []roughness.Profile) {
		var files []file
		for i := range n {
			name := fmt.Sprintf("%s-%d.csv", id, i+1)
			text := table("x [mm];z [µm]", ";", ".", heights(uint64(71+i)), 0.5)
			p := readTrace(t, text)
			p.Name = name
			files, traces = append(files, file{name, []byte(text)}), append(traces, p)
		}
		s.dropOn(id+"-file", files)
		return traces
	}
	s.fill("specimen-value", "0.5")
	s.fill("specimen-u", "0.02")
	of := read(func(seed uint64) []float64 { return surface(seed, 9600, 0.5) }, "specimen", 3)
	s.wait(`document.querySelectorAll('#specimen-traces td[data-of]').length === 5`, "the values of the specimen")
	flats := read(func(seed uint64) []float64 { return synth.Noise{Sigma: 0.01, Seed: seed}.Heights(9600, 0.5) }, "flat", 2)
	s.wait(`document.querySelectorAll('#noise-table tbody tr').length > 2`, "the noise of the flat")

	session := instrument.Session{Gain: 1}
	certified := instrument.Specimen{Symbol: eval[string](s, `document.getElementById('specimen-symbol').value`), Value: 0.5, Expanded: 0.02, K: 2}
	c, err := instrument.CheckSpecimen(context.Background(), of, nil, certified, instrument.CalibrationAllowance(certified), session)
	if err != nil {
		t.Fatal(err)
	}
	spread := decide.Summarise(c.Check().Values)
	s.holds("#specimen-traces td[data-of]", append(c.Check().Values[:len(of):len(of)], spread.Mean, spread.S))
	lines := func(c *instrument.Check) (list []float64) {
		for _, l := range c.Lines {
			list = append(list, l.Value)
		}
		return list
	}
	n, err := instrument.CheckNoise(context.Background(), flats, nil, nil, session)
	if err != nil {
		t.Fatal(err)
	}
	s.holds("#noise-table tbody td", lines(n.Check()))

	s.choose("budget-symbol", "Ra")
	s.wait(`document.getElementById('budget-table').caption.textContent.startsWith('Budget of Ra')`, "the budget of Ra")
	in := instrument.BudgetInput{Spacing: true, NoiseRq: n.Check().Lines[1].Value,
		TextureInput: decide.TextureInput{CertificateValue: 0.5, CertificateU: 0.02, CertificateK: 2, SpecimenS: spread.S, SpecimenN: 3}}
	b, err := instrument.BudgetOn(context.Background(), demo(t, synth.Demos()[0].Key), nil, "Ra", in)
	if err != nil {
		t.Fatal(err)
	}
	s.holds("#budget-table tbody td:nth-child(2)", lines(b.Check(session)))
}

// The numbers of the sheet Difference are those of the library: how steady each value is, and the values of both sides.
func TestDifferenceEqualsLibrary(t *testing.T) {
	s := differs(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	set := &roughness.Settings{Parameters: []string{"Rz", "Ra"}}
	steady, err := compare.Steady(context.Background(), trace, set)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range steady {
		want := []float64{v.Value, math.NaN()} // the second line has two numbers in words
		for _, c := range v.Trials {
			want = append(want, c.Value)
		}
		s.holds(fmt.Sprintf(`#steady-table td[data-of=%q]`, v.Symbol), want)
	}
	other := &roughness.Settings{Long: roughness.Band{Spec: roughness.FilterSpec{Cutoff: 250}}, Parameters: set.Parameters}
	here, err := roughness.Evaluate(trace, set)
	if err != nil {
		t.Fatal(err)
	}
	there, err := roughness.Evaluate(trace, other)
	if err != nil {
		t.Fatal(err)
	}
	s.dropOn("differ-file", []file{{"other.json", []byte(`{"long": {"cutoff": 250}}`)}})
	s.wait(`[...document.querySelectorAll('#differ-side tr')].some((r) => r.textContent.includes('0.25'))`, "the other side, dropped on the left")
	s.holds("#differ-side td[data-of][data-value]", []float64{there.Values[0].Value, here.Values[0].Value, there.Values[1].Value, here.Values[1].Value})
}

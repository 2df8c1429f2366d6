package outputs

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/inspect"
	rec "example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// evaluated puts an evaluation: its profiles, values, notes and where its settings come from.
func (d *digest) evaluated(p roughness.Profile, s *roughness.Settings) *roughness.Evaluation {
	e, err := roughness.Evaluate(p, s)
	d.put(err)
	if e == nil {
		return nil
	}
	d.put(*e)
	from, to := e.Room()
	d.put([]any{from, to, e.End(), e.EvaluationLength(), e.StartLength(), e.Profile(), e.Evaluated(), rec.AppendSettings(nil, &e.Settings, ""), rec.AppendOrigins(nil, e.Origins, "")})
	return e
}

func number(v float64) *float64 { return &v }

// variants are settings that each ask for something else.
func variants() map[string]*roughness.Settings {
	list := map[string]*roughness.Settings{"none": nil}
	add := func(name string, s roughness.Settings) {
		if s.Parameters == nil {
			s.Parameters = []string{"Ra", "Rz", "Rsm", "Rmr(0.5)"}
			if s.Edition != "" && s.Edition != standards.ISO21920 || s.Profile != 0 && s.Profile != roughness.R {
				s.Parameters = nil
			}
		}
		list[name] = &s
	}
	for _, id := range standards.EditionIDs() {
		for _, letter := range []roughness.Letter{roughness.R, roughness.P, roughness.W} {
			add(fmt.Sprintf("edition %s %c", id, letter), roughness.Settings{Edition: id, Profile: letter})
		}
	}
	for _, info := range filter.All() {
		for _, size := range []float64{80, 250} {
			spec := filter.Spec{Filter: info.Key}
			for _, o := range filter.Options() {
				if o.Key == info.Size() {
					o.Set(&spec, size)
				}
			}
			add(fmt.Sprintf("long %s %g", info.Key, size), roughness.Settings{Long: roughness.Band{Spec: spec}})
			add(fmt.Sprintf("short %s %g", info.Key, size/20), roughness.Settings{Short: roughness.Band{Spec: spec}})
		}
	}
	for _, kind := range roughness.FormNames() {
		add("form "+kind, roughness.Settings{Form: roughness.FormSpec{Kind: kind}})
		add("form 3 "+kind, roughness.Settings{Form: roughness.FormSpec{Kind: kind, Degree: 3, Radius: 3000}, Profile: roughness.P})
	}
	for _, n := range []int{1, 2, 4, 5, 7, 40, -1} {
		add(fmt.Sprint("sections ", n), roughness.Settings{Sections: n})
		add(fmt.Sprint("sections of 200, ", n), roughness.Settings{Sections: n, SectionLength: 200})
	}
	for _, x := range []float64{0, 0.3, 100, 399.9, 800, 1e5, -1, math.NaN()} {
		add(fmt.Sprint("start ", x), roughness.Settings{Start: number(x), SectionLength: 250, Sections: 2})
		add(fmt.Sprint("crop ", x), roughness.Settings{Crop: [2]float64{x, 0}})
		add(fmt.Sprint("crop end ", x), roughness.Settings{Crop: [2]float64{50, x}, Sections: 3})
		add(fmt.Sprint("cutoff ", x), roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Cutoff: x}}})
		add(fmt.Sprint("short ", x), roughness.Settings{Short: roughness.Band{Spec: filter.Spec{Cutoff: x}}})
		add(fmt.Sprint("length ", x), roughness.Settings{SectionLength: x})
		add(fmt.Sprint("waviness limit ", x), roughness.Settings{Profile: roughness.W, WavinessLimit: x})
		add(fmt.Sprint("bridge ", x), roughness.Settings{Bridge: number(x), Exclude: []roughness.Exclusion{{From: 500, To: 500.9, Reason: "a pore"}, {From: 700, To: 760}}})
		add(fmt.Sprint("exclude ", x), roughness.Settings{Exclude: []roughness.Exclusion{{From: x, To: x + 20}}, Sections: 2})
	}
	add("invert", roughness.Settings{Invert: true, Parameters: []string{"Rsk", "Rp", "Rv", "Rk"}})
	add("no filters", roughness.Settings{Short: roughness.Band{Off: true}, Long: roughness.Band{Off: true}})
	add("stratified long", roughness.Settings{Stratified: roughness.StratifiedByLong, Parameters: []string{"Rk", "Rpq", "Rz"}})
	add("stratified edition", roughness.Settings{Stratified: roughness.StratifiedByEdition, Parameters: []string{"Rk", "Rpq"}, Edition: standards.ISO4287})
	add("stratified word", roughness.Settings{Stratified: "no such word"})
	add("skid", roughness.Settings{InsistOnSkid: true})
	add("parameter", roughness.Settings{Parameters: []string{"Rz", "Rno"}})
	add("level", roughness.Settings{Input: roughness.Levelled})
	add("filtered", roughness.Settings{Input: roughness.Filtered})
	add("filtered, and a filter", roughness.Settings{Input: roughness.Filtered, Long: roughness.Band{Spec: filter.Spec{Cutoff: 250}}, Short: roughness.Band{Off: true}})
	add("filtered, in sections", roughness.Settings{Input: roughness.Filtered, Sections: 3, SectionLength: 400, Crop: [2]float64{10, 20.4}})
	add("levelled, and a form", roughness.Settings{Input: roughness.Levelled, Form: roughness.FormSpec{Kind: "line"}})
	add("S-filter longer than the L-filter", roughness.Settings{Short: roughness.Band{Spec: filter.Spec{Cutoff: 800}}, Long: roughness.Band{Spec: filter.Spec{Cutoff: 800}}})
	add("S-filter alone", roughness.Settings{Short: roughness.Band{Spec: filter.Spec{Filter: "spline", Cutoff: 8}}, Long: roughness.Band{Off: true}, Sections: 2})
	add("discarded ends", roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Cutoff: 250, Ends: "discard", DiscardLength: 300}}, Short: roughness.Band{Spec: filter.Spec{Cutoff: 8, Ends: "discard"}}})
	add("robust and named parameters", roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Filter: "robust-gaussian", Cutoff: 250}}, Parameters: []string{"Rk", "Rz", "Rpq", "Rvvc"}})
	for _, degree := range []int{-1, 0, 1, 2, 12, 13, 31} {
		add(fmt.Sprint("polynomial ", degree), roughness.Settings{Form: roughness.FormSpec{Kind: "polynomial", Degree: degree}})
	}
	for i, crop := range [][2]float64{{-1, 5}, {5, -1}, {2000, 2000}, {math.Inf(1), 0}, {0.5, 0.5}} {
		add(fmt.Sprint("cropped ", i+1), roughness.Settings{Crop: crop, Sections: 1, SectionLength: 250})
	}
	return list
}

func TestEvaluations(t *testing.T) {
	keep(t, "evaluations", func(p *page) {
		list := variants()
		rubbed := traced("worn", 4200)
		rubbed.Traced = roughness.Traced{Skid: roughness.WithSkid, TipRadius: 5, Speed: 0.5}
		holes := traced("turned", 3000)
		for _, i := range []int{0, 1, 40, 700, 701, 702, 1500, 2999} {
			holes.Z[i] = math.NaN()
		}
		surfaces := map[string]roughness.Profile{"worn": rubbed, "holes": holes}
		for _, name := range names(list) {
			var d digest
			for _, surface := range names(surfaces) {
				e := d.evaluated(surfaces[surface], list[name])
				if e != nil && e.Settings.Edition == standards.ISO21920 && surface == "worn" {
					d.put([]any{inspect.Look(surfaces[surface], inspect.Conditions{Long: e.Settings.Long.Spec.Cutoff, Short: e.Settings.Short.Spec.Cutoff, Section: e.Settings.SectionLength, Sections: e.Sections})})
				}
				room, err := roughness.RoomFor(surfaces[surface], list[name])
				d.put([]any{room, err})
			}
			whole, err := roughness.Complete(list[name])
			d.put([]any{whole, err})
			if err == nil {
				z, first := roughness.Entering(holes, whole)
				d.put([]any{z, first})
			}
			p.digest(name, &d)
		}
		for name, bad := range map[string]roughness.Profile{"nothing": {}, "no spacing": {Z: ground(100)}, "one": {Z: []float64{1}, Spacing: 1}, "all missing": {Z: []float64{math.NaN(), math.NaN()}, Spacing: 1},
			"high": {Z: []float64{1, 2e9, 3}, Spacing: 1}, "Inf": {Z: []float64{1, math.Inf(1), 3}, Spacing: 1}, "short": {Z: ground(100), Spacing: 0.5}, "flat": {Z: make([]float64, 9601), Spacing: 0.5}, "coarse": {Z: ground(500), Spacing: 20}, "fine": {Z: ground(500), Spacing: 1e-4}} {
			var d digest
			d.evaluated(bad, nil)
			d.evaluated(bad, &roughness.Settings{Sections: 1, SectionLength: 20, Long: roughness.Band{Spec: filter.Spec{Cutoff: 20}}})
			p.digest("trace: "+name, &d)
		}
		slices.Sort(p.lines)
	})
}

// Every word of every setting, and words that it does not take; what changes between settings, and what merging makes of them.
func TestSettings(t *testing.T) {
	keep(t, "settings", func(p *page) {
		for _, row := range roughness.Table() {
			list := []any{row.Stated(&roughness.Settings{})}
			for _, word := range append(slices.Clone(row.Words), "0", "0.5", "3", "800", "-1", "x", "", "null", "gaussian", "1,5") {
				if len(row.Words) == 0 {
					break
				}
				s := &roughness.Settings{}
				err := row.SetWord(s, word)
				list = append(list, err, row.Stated(s), row.Word(s), rec.AppendSettings(nil, s, " "), roughness.Changes(&roughness.Settings{}, s), s.Against(&roughness.Settings{}))
			}
			p.sum("row "+row.Key, append(list, row, roughness.NameOf(row.Key))...)
		}
		all := variants()
		delete(all, "none")
		ordered := names(all)
		for i, name := range ordered {
			a, b := all[name], all[ordered[(i*7+3)%len(ordered)]]
			text := rec.AppendSettings(nil, a, "")
			again, err := rec.ParseSettings(text)
			list := []any{text, again, err, roughness.Merge(a, b), roughness.WithParameters(a, "Rq", "Rz")}
			list = append(list, a.Against(b))
			x, errA := roughness.Complete(a)
			y, errB := roughness.Complete(b)
			if errA == nil && errB == nil {
				for _, c := range roughness.Changes(x, y) {
					from, to := c.Plain()
					list = append(list, c, from, to, compare.Plain(c, x, y))
				}
				list = append(list, x.Only("Rz"))
			}
			var wrong digest
			for _, bad := range spoilt(string(text), 12, source(i), `{}[]",:0-9xtn`) {
				s, err := rec.ParseSettings([]byte(bad))
				wrong.put(s)
				wrong.put(err)
			}
			p.sum(name, list...)
			p.digest(name+" spoilt", &wrong)
		}
	})
}

func TestInspection(t *testing.T) {
	keep(t, "inspection", func(p *page) {
		spikes, clipped, saw, steps := ground(9601), ground(9601), make([]float64, 5000), ground(4000)
		spikes[700], spikes[4000], spikes[4001] = 30, -25, -25
		for i, v := range clipped {
			clipped[i] = min(max(v, -0.6), 0.5)
		}
		for i := range saw {
			saw[i] = float64(i % 50)
		}
		for i := range steps {
			steps[i] = math.Round(steps[i]*20) / 20
			if i > 2000 {
				steps[i] += 8
			}
		}
		smooth, err := filter.Find("gaussian").New(80).Apply(nil, ground(9601), 0.5)
		if err != nil {
			t.Fatal(err)
		}
		gaps := ground(3000)
		for i := 100; i < 3000; i += 97 {
			gaps[i] = math.NaN()
		}
		traces := map[string][]float64{"ground": ground(9601), "turned": turned(9601), "worn": worn(9601), "short": ground(300), "spikes": spikes, "clipped": clipped, "saw": saw, "steps": steps, "smooth": rounded(smooth), "gaps": gaps,
			"flat": make([]float64, 1000), "three": {1, 2, 3}, "none": {}, "sine": rounded(synth.Sine{Amplitude: 2, Wavelength: 700}.Heights(9601, 0.5))}
		for _, name := range names(traces) {
			for i, c := range []inspect.Conditions{{}, {Short: 2.5, Long: 800, Section: 800, Sections: 5}, {Short: 8, Long: 250, Section: 250, Sections: 3}, {Long: 80}, {Filtered: true, Long: 800, Section: 800, Sections: 5}, {Short: 0.8}} {
				for _, dx := range []float64{0.5, 3} {
					p.sum(fmt.Sprint(name, " ", i+1, " ", dx), inspect.Look(roughness.Profile{Z: traces[name], Spacing: dx, Name: name}, c))
				}
			}
		}
		// What is made has the values that are said of it.
		for _, demo := range synth.Demos() {
			p.sum("demonstration "+demo.Key, demo, demo.Heights()[:2000])
		}
		for name, s := range map[string]synth.Shape{"sine": synth.Sine{Amplitude: 1, Wavelength: 50, Phase: 0.3}, "triangle": synth.Triangle{Amplitude: 1, Wavelength: 50, Phase: 0.1}, "sawtooth": synth.Sawtooth{Amplitude: 2, Wavelength: 40, Rise: 0.3, Phase: 1},
			"rectified": synth.Rectified{Height: 2, Wavelength: 30, Phase: 0.2}, "turned": synth.Turned{Feed: 100, Nose: 800, Phase: 0.2}, "arcs": synth.Turned{Feed: 100, Nose: 400, Arc: true}, "noise": synth.Noise{Sigma: 1, Seed: 3},
			"normal": synth.NormalSet{Sigma: 0.5, Seed: 3}, "correlated": synth.Correlated{Sigma: 1, Length: 5, Seed: 9}, "honed": synth.Honed{Plateau: 0.1, Groove: 1, PlateauLength: 5, GrooveLength: 20, Offset: 1, Seed: 4}, "tilt": synth.Tilt{Offset: 1, Slope: 0.1},
			"made": synth.Made{Wave: 1, Length: 400, Feed: 80, Nose: 400, Noise: 0.1, Scratch: 2, Plateau: 0.5, Seed: 2}, "sines": synth.Sines{{Amplitude: 1, Wavelength: 50}, {Amplitude: 0.5, Wavelength: 7}}} {
			var values []any
			for _, symbol := range []string{"Ra", "Rq", "Rz", "Rsk", "Rku", "Rsm", "Rk", "Rdq", "x"} {
				v, ok := synth.Value(s, symbol)
				values = append(values, v, ok)
			}
			p.sum("shape "+name, s.Heights(700, 0.5), s.Known(), synth.Independent(s, synth.Sine{Amplitude: 0.2, Wavelength: 11}), values)
		}
		for i := range 12 {
			p.sum(fmt.Sprint("quantile ", i), synth.Quantile(float64(i)/11), synth.Quantile(math.Pow(10, -float64(i)*3)))
		}
		slices.SortFunc(p.lines, strings.Compare)
	})
}

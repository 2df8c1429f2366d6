package outputs

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/furrow/roughness"
	rec "example.com/furrow/roughness/record"
	"example.com/furrow/roughness/selfcheck"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// What furrow finds for each value of the check register, and the register itself.
func TestRegister(t *testing.T) {
	keep(t, "register", func(p *page) {
		list := selfcheck.Run()
		for i := 0; i < len(list); {
			var d digest
			var found []float64
			set := list[i].Set
			for ; i < len(list) && list[i].Set == set; i++ {
				c := list[i]
				if found = append(found, c.Found); strings.Contains(c.Fault, "NaN") {
					t.Error(c.Fault)
				}
				c.Found = 0
				d.put(c)
			}
			p.add(set, d.word(), append(found, d.total)...)
		}
		checks := func(list []selfcheck.Comparison) []byte {
			_, text, _ := bytes.Cut(rec.AppendSelfcheck(nil, list), []byte(`"checks"`)) // the platform stands before
			return text
		}
		p.sum("totals", selfcheck.Totals(list), selfcheck.Failed(list), checks(list))
		for i := range list {
			if i%3 == 0 {
				list[i].Word, list[i].Fault = selfcheck.Differs, "no value"
			}
		}
		p.sum("totals with faults", selfcheck.Totals(list[:7]), selfcheck.Failed(list), checks(list[:40]))
		for _, area := range append(selfcheck.Areas(), "x") {
			p.sum("area "+area, len(selfcheck.Run(area)))
		}
	})
}

// Made surfaces of all measures: heights, and what is known of them.
func TestShapesMade(t *testing.T) {
	keep(t, "shapes-made", func(p *page) {
		for i, v := range []float64{0.3, 1, 2.7} {
			for name, s := range map[string]synth.Shape{
				"sine": synth.Sine{Amplitude: v, Wavelength: 40 / v, Phase: 0.1 * v}, "triangle": synth.Triangle{Amplitude: v, Wavelength: 30 * v, Phase: -0.3 * v}, "sawtooth": synth.Sawtooth{Amplitude: v, Wavelength: 33, Rise: v / 3, Phase: 0.7}, "rectified": synth.Rectified{Height: v, Wavelength: 25 * v, Phase: 0.25},
				"turned": synth.Turned{Feed: 60 * v, Nose: 400 * v, Phase: 0.4}, "arcs": synth.Turned{Feed: 50 * v, Nose: 90 * v, Arc: true, Phase: 0.9}, "noise": synth.Noise{Sigma: v, Seed: uint64(i)}, "normal": synth.NormalSet{Sigma: v, Seed: uint64(i + 7)}, "correlated": synth.Correlated{Sigma: v, Length: 3 * v, Seed: uint64(i)},
				"independent": synth.Correlated{Sigma: v, Seed: 2}, "honed": synth.Honed{Plateau: 0.1 * v, Groove: v, PlateauLength: 5 * v, GrooveLength: 20, Offset: v, Seed: uint64(i)}, "tilt": synth.Tilt{Offset: v, Slope: -0.1 * v}, "sum": synth.Sum{synth.Sine{Amplitude: v, Wavelength: 20}, synth.Noise{Sigma: 0.1, Seed: 3}},
				"made": synth.Made{Wave: v, Length: 100 * v, Feed: 40, Nose: 300 * v, Noise: 0.1 * v, Seed: uint64(i)}, "scratched": synth.Made{Feed: 40, Nose: 300, Scratch: 2 * v, Seed: 2}, "worn": synth.Made{Noise: v, Plateau: 20 * v, Seed: 3}, "one wave": synth.Made{Wave: v, Length: 80}, "nothing": synth.Made{},
				"sines": synth.Sines{{Amplitude: v, Wavelength: 50}, {Amplitude: 0.5, Wavelength: 7 * v, Phase: 0.1}}} {
				var d digest
				for _, n := range []int{0, 1, 2, 61} {
					d.put(s.Heights(n, 0.7*v))
				}
				d.put([]any{s.Known(), synth.Independent(s, synth.Noise{Sigma: v, Seed: 1}), synth.Independent()})
				p.digest(fmt.Sprint(name, " ", v), &d)
			}
		}
		for n := range 12 {
			for _, share := range []float64{0, 10, 50, 99, 100, 140} {
				z := randomWhole(n, 9, source(n))
				synth.Wear(z, share)
				p.sum(fmt.Sprint("worn ", n, " ", share), z)
			}
			r := synth.NewRandom(uint64(n), uint64(3*n))
			z := randomWhole(n, 99, 1)
			r.Shuffle(z)
			p.sum(fmt.Sprint("random ", n), z, r.Uint32(), r.Normal(), r.Normal(), r.Normal())
		}
		for _, at := range []float64{-0.1, 0, 1e-300, 1e-17, 0.01, 0.3, 0.5, 0.7, 0.99, 1 - 1e-12, 1, 1.1} {
			p.sum(fmt.Sprint("quantile ", at), synth.Quantile(at))
		}
		slices.Sort(p.lines)
	})
}

// Texts of requirements as plans, and records at other days than the check of their instrument.
func TestPlans(t *testing.T) {
	keep(t, "plans", func(p *page) {
		for _, edition := range append(standards.EditionIDs(), "", "x") {
			for i := 0; i < len(seldomTexts); i += 9 {
				var d digest
				for _, text := range seldomTexts[i:min(i+9, len(seldomTexts))] {
					d.put(rec.AppendPlan(nil, text, edition))
				}
				p.digest(fmt.Sprint("plans ", edition, " ", i+1), &d)
			}
		}
		for i, c := range texts(t) {
			if i%5 == 0 {
				p.sum(fmt.Sprint("plan ", i+1), rec.AppendPlan(nil, c.Text, standards.EditionID(c.Edition)))
			}
		}
		for day := range 70 {
			s := smallSheets()["much"]
			s.Traces = s.Traces[:1]
			date := time.Date(2026, 2, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, day).Format(time.DateOnly)
			s.Check.Date, s.Blanks.Date = "2026-02-10", date
			s.Traces[0].Profile.Traced = roughness.Traced{Skid: roughness.SkidUse(day % 3)}
			if day%9 == 8 {
				s.Check.Date = "x"
			}
			r, err := s.Record(time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC))
			if err != nil {
				t.Fatal(err)
			}
			p.sum(fmt.Sprint("day ", day), r.Cautions)
		}
	})
}

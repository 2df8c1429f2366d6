package outputs

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// series are lists of values around 3.2.
func series() map[string][]float64 {
	list := map[string][]float64{"none": nil, "one": {3.1}, "two equal": {3.2, 3.2}, "far above": {5, 5.1, 4.9}, "NaN": {3, math.NaN()}, "outlier": {2, 2.1, 1.9, 2.05, 1.95, 2, 2.02, 9}}
	var seed source = 3
	for n := 1; n <= 13; n++ {
		for i, middle := range []float64{1.9, 2.9, 3.2, 3.3} {
			var z []float64
			for range n {
				z = append(z, math.Round((middle+float64(seed.upTo(100)-50)/100*middle/3)*100)/100)
			}
			list[fmt.Sprintf("%d of kind %d", n, i+1)] = z
		}
	}
	return list
}

func TestDecisions(t *testing.T) {
	keep(t, "decisions", func(p *page) {
		guards := []decide.Guard{{}, {Rule: decide.Probability, Proof: decide.Maker, Expanded: 0.2}, {Rule: decide.Probability, Proof: decide.Buyer, Standard: 0.1}, {Rule: decide.ExpandedU, Proof: decide.Maker, Expanded: 0.3, K: 3},
			{Rule: decide.ExpandedU, Proof: decide.Nobody, Expanded: 0.1}, {Rule: decide.Probability, Proof: decide.Nobody, Standard: 0.05, Chance: 0.9}, {Rule: decide.ExpandedU, Proof: decide.Buyer, Expanded: 4}, {Expanded: -1}, {Rule: decide.Probability, Standard: math.NaN()},
			{Rule: "no such rule", Expanded: 1}}
		for i, g := range guards {
			var list []any
			for _, tolerance := range []float64{0, 0.05, 0.2, 0.5, 1, 3, math.Inf(1), -1} {
				accept, reject, err := g.Bands(tolerance)
				list = append(list, accept, reject, err)
			}
			p.sum(fmt.Sprint("guard ", i+1), list...)
		}
		all := series()
		for _, rule := range []standards.Rule{standards.Maximum, standards.SixteenPercent, standards.Median, "no such rule"} {
			for _, side := range []standards.Side{standards.Upper, standards.Lower} {
				for i, g := range guards {
					var d digest
					for _, spread := range []bool{false, true} {
						for _, more := range []decide.Judgement{{}, {Text: "3,20", Unit: "µm", Each: "trace", Positive: true}, {Tolerance: 0.4, Sections: 3, Text: "126", Unit: "µin"}} {
							more.Bound = standards.Bound{Symbol: "Rz", Side: side, Value: 3.2}
							more.Rule, more.Spread, more.Guard = rule, spread, g
							for _, name := range names(all) {
								r, err := more.Judge(all[name])
								d.put(r)
								d.put(err)
							}
						}
					}
					p.digest(fmt.Sprintf("rule %s, %s limit, guard %d", rule, side, i+1), &d)
				}
			}
		}
		for _, name := range names(all) {
			z := all[name]
			upper, err := decide.CapabilityOf(z, standards.Bound{Symbol: "Rz", Value: 3.2})
			lower, err2 := decide.CapabilityOf(z, standards.Bound{Symbol: "Rz", Side: standards.Lower, Value: 1.5})
			p.sum("series "+name, decide.Summarise(z), decide.Outliers(z, 0.05), decide.Outliers(z, 0.01), upper, err, lower, err2)
		}
		var d digest
		for _, above := range []float64{-0.1, 0, 0.01, 0.16, 0.5, 0.9, 1, 1.1, math.NaN()} {
			for _, small := range []float64{-0.1, 0, 0.1, 0.5, 1, 1.2} {
				c, err := decide.SixteenCharacteristic(above, small)
				d.put([]any{c, err})
			}
		}
		p.digest("characteristic", &d)
		study := [][][]float64{}
		var seed source = 11
		for part := range 5 {
			var operators [][]float64
			for operator := range 3 {
				var repeats []float64
				for range 3 {
					repeats = append(repeats, 2+0.3*float64(part)+0.02*float64(operator)+float64(seed.upTo(100))/2000)
				}
				operators = append(operators, repeats)
			}
			study = append(study, operators)
		}
		uneven := [][][]float64{{{1, 2}, {1}}, {{1, 2}, {2, 3}}}
		strong := [][][]float64{{{1, 1.01}, {3, 3.01}}, {{3, 3.01}, {1, 1.02}}, {{2, 2.02}, {2.5, 2.5}}}
		for i, v := range [][][][]float64{study, study[:2], study[:1], uneven, strong, {}, {{{1, 1}, {1, 1}}, {{1, 1}, {1, 1}}}} {
			g, err := decide.StudyGage(v)
			p.sum(fmt.Sprint("gage ", i+1), g, err)
		}
		for i, v := range [][][]float64{study[0], study[3], {{1, 2}, {3}}, {{1}, {2}}, {{1, 2}}, {{1, 1.2, 1.4}, {2, 2.2}, {3, 3.1, 3.2, 3}}, {}, {{1, math.NaN()}, {1, 2}}, {{5, 1}, {1, 5}, {3, 3}}} {
			n, err := decide.SplitNested(v)
			p.sum(fmt.Sprint("places ", i+1), n, err)
		}
		budgets(p)
		searches(p)
	})
}

func budgets(p *page) {
	full := decide.TextureInput{Symbol: "Rz", Value: 3.1, CertificateValue: 2, CertificateU: 0.04, CertificateK: 2, SpecimenS: 0.02, SpecimenN: 5, DriftShare: 0.01, Noise: 0.05, TipEffect: 0.03, SpacingEffect: 0.02, WorkpieceS: 0.2, WorkpieceN: 6,
		More: []decide.Contribution{{Name: "more", U: 0.01, Sensitivity: 2, DoF: 3, Distribution: "normal"}}}
	inputs := []decide.TextureInput{full, {}, {Symbol: "Ra", Value: 1, Noise: 0.1}}
	for i := range 9 {
		in := full
		switch i {
		case 0:
			in.CertificateK = 0
		case 1:
			in.SpecimenN = 1
		case 2:
			in.WorkpieceN = 1
		case 3:
			in.CertificateU = -1
		case 4:
			in.DriftShare = math.NaN()
		case 5:
			in.CertificateValue = 0
		case 6:
			in.Value = 0
		case 7:
			in.More = nil
			in.SpecimenS = 0
		case 8:
			in.More[0].DoF = 0.5
			in.More = []decide.Contribution{{Name: "few", U: 1, Sensitivity: 1, DoF: 1}}
		}
		inputs = append(inputs, in)
	}
	for i, in := range inputs {
		b, err := decide.BudgetFor(in)
		c, err2 := b.Combine()
		b.Coverage = 0.99
		d, err3 := b.Combine()
		b.Correlations = []decide.Correlation{{A: 0, B: 1, R: 0.5}}
		e, err4 := b.Combine()
		b.Correlations = []decide.Correlation{{A: 0, B: 9, R: 0.5}}
		f, err5 := b.Combine()
		b.Correlations = []decide.Correlation{{A: 0, B: 0, R: 1.5}}
		g, err6 := b.Combine()
		p.sum(fmt.Sprint("budget ", i+1), b, err, c, err2, d, err3, e, err4, f, err5, g, err6)
	}
	p.sum("contributions", decide.FromCertificate("a", 0.2, 0), decide.FromCertificate("a", 0.2, 3), decide.FromRepeats("b", 0.2, 0), decide.FromRepeats("b", 0.2, 1), decide.FromRepeats("b", 0.2, 7), decide.Rectangular("c", 0.3))
	for _, noise := range []float64{-1, 0, 0.01, 0.3, 0.32, 0.319, 0.33, 1, 5, math.NaN()} {
		v, err := decide.WithoutNoise("Rq", 1, noise)
		_, other := decide.WithoutNoise("Ra", 1, noise)
		s, err2 := decide.Sensitivity(func(x float64) (float64, error) { return x * x, nil }, 3, noise)
		p.sum(fmt.Sprint("noise ", noise), v, err, other, decide.NoiseWarning("Rz", noise, 3.2), s, err2, decide.SigmaFive(noise, 3))
	}
	for _, a := range []decide.Word{decide.Conforms, decide.DoesNotConform, decide.NotDecided, decide.NoVerdict} {
		for _, b := range []decide.Word{decide.Conforms, decide.DoesNotConform, decide.NotDecided, decide.NoVerdict} {
			p.sum(fmt.Sprint(a, " and ", b), decide.Whole(a, b), decide.Whole(a), decide.Whole())
		}
	}
	for _, guard := range []string{"", "2017", "1998", "x"} {
		for _, prove := range []string{"", "maker", "buyer", "none", "x"} {
			var list []any
			for _, k := range []float64{-1, 0, 2, 3, math.NaN()} {
				for _, has := range []bool{false, true} {
					g, err := judge.GuardFor(guard, prove, k, has)
					list = append(list, g, err)
				}
			}
			p.sum(fmt.Sprintf("words %s, %s", guard, prove), list...)
		}
	}
}

// searches are searches for a cut-off on surfaces whose value follows a rule.
func searches(p *page) {
	failing := errors.New("cannot be measured")
	for _, e := range standards.Editions() {
		for _, by := range []string{"Ra", "Rz", "RSm", "Rsm", "x"} {
			var d digest
			for _, estimate := range []float64{0, 0.05, 0.8, 3, 100} {
				for kind := range 6 {
					turns := 0
					f, err := decide.FindCutoff(e, by, estimate, func(cutoff float64) (float64, error) {
						turns++
						switch kind {
						case 0:
							return 0.4, nil
						case 1:
							return 0.9 * math.Sqrt(cutoff/800), nil
						case 2:
							return 12 * math.Sqrt(cutoff/800), nil
						case 3:
							return 100 / cutoff, nil // to and fro
						case 4:
							if turns > 1 {
								return 0, failing
							}
							return 25, nil
						}
						return cutoff * 0.16, nil
					})
					d.put([]any{f, err, turns})
				}
			}
			p.digest(fmt.Sprint("search ", e.ID, " ", by), &d)
		}
	}
}

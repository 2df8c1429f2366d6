package outputs

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/judge"
	rec "example.com/furrow/roughness/record"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// short is a trace that three sections of 80 µm are evaluated on with little work, under narrowly.
func short(name string, points int) roughness.Profile {
	p := traced(name, points)
	p.Spacing = 1
	return p
}

func narrowly(sections int, symbols ...string) *roughness.Settings {
	return &roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}, Sections: sections, Parameters: symbols}
}

// Checks of an instrument with certificates, flats and grooves of all sizes about each limit.
func TestChecks(t *testing.T) {
	keep(t, "checks", func(p *page) {
		ctx := context.Background()
		trace := short("turned", 340)
		family := func(name string, values []float64, with func(d *digest, v float64)) {
			var d digest
			for _, v := range values {
				with(&d, v)
			}
			p.digest(name, &d)
		}
		specimen := func(d *digest, traces []roughness.Profile, sp instrument.Specimen, a instrument.Allowance, gain float64) {
			c, err := instrument.CheckSpecimen(ctx, traces, narrowly(3), sp, a, instrument.Session{Gain: gain})
			d.put([]any{c, err})
			if c != nil {
				d.put(rec.AppendCheck(nil, c.Check()))
			}
		}
		series := func(n int, spread float64) (list []roughness.Profile) {
			for i := range n {
				list = append(list, scaled(trace, 1+spread*(float64(i%3)-1)))
			}
			return list
		}
		mean := 0.0
		if e, err := roughness.Evaluate(trace, narrowly(3, "Rz")); err != nil {
			t.Fatal(err)
		} else {
			mean = e.Values[0].Value
		}
		three := series(3, 0.002)
		for k, sp := range []instrument.Specimen{{Type: "C1", Symbol: "Rz", Expanded: 0.01}, {Type: "D2", Symbol: "Rz", Expanded: 0.03, K: 3}, {Symbol: "Rz", Due: "2026-01-01"}} {
			family(fmt.Sprint("certified value ", k+1), append(sweep(0.8, 1.25, 50), 0, -1, math.NaN(), math.Inf(1)), func(d *digest, v float64) {
				sp.Value = v * mean
				specimen(d, three, sp, instrument.Allowance{Share: 0.01 * float64(k)}, 1+0.1*float64(k))
			})
		}
		family("allowance", append(sweep(0.001, 3, 40), 0, -1, math.NaN(), math.Inf(1)), func(d *digest, v float64) {
			sp := instrument.Specimen{Type: "D1", Symbol: "Rz", Value: mean * 1.03, Expanded: 0.02}
			specimen(d, three, sp, instrument.Allowance{Absolute: v}, 0)
			specimen(d, three, sp, instrument.Allowance{Share: v, Absolute: 0.05}, 0)
			sp.Expanded = v
			specimen(d, three, sp, instrument.Allowance{Share: 0.01}, 0)
		})
		family("traces that give the certified value", []float64{1, 1 + 1e-12, 0.999}, func(d *digest, v float64) {
			same := []roughness.Profile{trace, scaled(trace, -1), {Z: with(trace.Z, func(z []float64) { z[1] += 1e-3 }), Spacing: 1}} // the third differs where no section lies
			specimen(d, same, instrument.Specimen{Type: "C1", Symbol: "Rz", Value: mean * v}, instrument.Allowance{}, 1)
			specimen(d, same[:2], instrument.Specimen{Type: "C1", Symbol: "Rz", Value: mean * v}, instrument.Allowance{}, 1)
		})
		family("coverage factor", []float64{0, -1, 0.05, 0.0999, 0.1, 1, 2, 9.99, 10, 10.01, math.NaN(), math.Inf(1)}, func(d *digest, v float64) {
			specimen(d, three, instrument.Specimen{Symbol: "Rz", Value: mean * 1.02, Expanded: 0.1, K: v}, instrument.Allowance{}, 0)
		})
		family("number of traces", []float64{0, 1, 2, 3, 4, 5, 6, 7}, func(d *digest, v float64) {
			n := int(v)
			list := series(n, 0.01)
			specimen(d, list, instrument.Specimen{Type: "C2", Symbol: "Rz", Value: mean * 1.04}, instrument.AgreedAllowance(0.03), 1)
			if n > 3 { // one that differs
				list[2] = scaled(trace, 1.4)
			}
			specimen(d, list, instrument.Specimen{Symbol: "Rsm", Value: 80, Expanded: 0.1}, instrument.AgreedAllowance(0.03), 1)
			for k, bad := range []roughness.Profile{{Z: make([]float64, 340), Spacing: 1, Name: "flat"}, {Z: trace.Z[:40], Spacing: 1}, {Z: trace.Z[:240], Spacing: 1, Name: "short"}, {}, {Z: with(trace.Z, func(z []float64) {
				for i := 100; i < 130; i++ {
					z[i] = 9
				}
			}), Spacing: 1, Name: "clipped"}} {
				specimen(d, append([]roughness.Profile{bad}, list...), instrument.Specimen{Symbol: []string{"Rz", "Rsm", "Ra", "Rku", "Rsk"}[k], Value: mean}, instrument.AgreedAllowance(0.05), 1)
			}
		})
		for _, symbol := range []string{"Ra", "Rq", "Rz", "Rp", "Rv", "Rt", "Rzx", "Rz1max", "Rmax", "Rc", "Rk", "Rpk", "Rvk", "Pt", "Pa", "Rsk", "Rsm", "Rdq", "d", ""} {
			family("certified "+symbol, []float64{0.5, 0.9, 1.3}, func(d *digest, v float64) {
				for _, kind := range []string{"", "A1", "C1", "C4", "D1", "E"} {
					specimen(d, three, instrument.Specimen{Type: kind, Symbol: symbol, Value: v * mean}, instrument.AgreedAllowance(0.03), 1)
				}
			})
		}
		groove := func(n int, centre, width, depth, tilt, noise float64) roughness.Profile {
			z := make([]float64, n)
			g := ground(n)
			for i := range z {
				x := float64(i)
				z[i] = 5 + tilt*x + noise*g[i]
				if math.Abs(x-centre) < width/2 {
					z[i] -= depth
				}
			}
			return roughness.Profile{Z: rounded(z), Spacing: 1}
		}
		grooves := func(name string, values []float64, make func(v float64) (p roughness.Profile, centre, width float64)) {
			family(name, values, func(d *digest, v float64) {
				g, centre, width := make(v)
				found, err := instrument.FindGroove(g)
				d.put([]any{found, err})
				measured, err := instrument.MeasureGroove(g, centre, width)
				d.put([]any{measured, err})
				c, err := instrument.CheckGroove(ctx, []roughness.Profile{g, g, groove(200, 100, 40, 2, 0, 0.01)}, instrument.Specimen{Value: 2 * math.Mod(v, 2)}, instrument.Allowance{Absolute: 0.05}, instrument.Session{})
				d.put([]any{c, err})
			})
		}
		grooves("width of a groove", append(sweep(2, 90, 30), 4.4, 5, 5.5, 6, 7, 8, 18), func(v float64) (roughness.Profile, float64, float64) {
			return groove(200, 100.3, v, 2, 0.001, 0.02), 100.3, v
		})
		grooves("place of a groove", []float64{0, 1, 10, 30, 44, 59, 59.9, 60, 60.1, 61, 100, 138, 138.9, 139, 139.1, 150, 180, 199}, func(v float64) (roughness.Profile, float64, float64) {
			return groove(200, v, 40, 2, 0, 0.02), v, 40
		})
		grooves("groove at an end", []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 190, 192, 193, 194, 195, 196, 197, 198, 199}, func(v float64) (roughness.Profile, float64, float64) {
			return groove(200, v, 11, 5, 0, 0.02), v, 11
		})
		grooves("points of a groove", []float64{1, 28, 29, 30, 31, 32, 40, 60, 61}, func(v float64) (roughness.Profile, float64, float64) {
			return groove(int(v), v/2, v/3.4, 2, 0.01, 0.05), v / 2, v / 3.4
		})
		grooves("tilt of a groove", append(sweep(0.0001, 1, 14), -0.3), func(v float64) (roughness.Profile, float64, float64) {
			return groove(200, 90, 36, 2, v, 0.02), 90, 36
		})
		grooves("roughness of a groove", append(sweep(0.001, 5, 16), 0), func(v float64) (roughness.Profile, float64, float64) {
			return groove(200, 90, 36, 2, 0, v), 90, 36
		})
		grooves("holes in a groove", []float64{0, 40, 66, 84, 85, 90, 95, 96, 140, 199}, func(v float64) (roughness.Profile, float64, float64) {
			g := groove(200, 90, 36, 2, 0, 0.02)
			for i := int(v); i < min(200, int(v)+11); i++ {
				g.Z[i] = math.NaN()
			}
			return g, 90, 36
		})
		var flats []roughness.Profile
		for i := range 6 {
			flats = append(flats, scaled(short("ground", 340+i), 0.02+0.002*float64(i)))
		}
		noise := 0.0
		if n, err := instrument.CheckNoise(ctx, flats[:5], narrowly(3), nil, instrument.Session{}); err != nil {
			t.Fatal(err)
		} else {
			noise = n.Mean["Rz"]
		}
		flat := func(d *digest, list []roughness.Profile, limits ...standards.Bound) {
			n, err := instrument.CheckNoise(ctx, list, narrowly(3), limits, instrument.Session{})
			d.put([]any{n, err})
			if n != nil {
				d.put(rec.AppendCheck(nil, n.Check()))
				if e, err := roughness.Evaluate(trace, narrowly(3, "Rq", "Ra")); err == nil {
					c, err := n.Correct(e, "Rq")
					d.put([]any{c, err})
					c, err = n.Correct(e, "Ra")
					d.put([]any{c, err})
				}
			}
		}
		family("limits about ten times the noise", append(sweep(0.1, 40, 40), sweep(9.5, 10.5, 11)...), func(d *digest, v float64) {
			flat(d, flats[:5], standards.Bound{Symbol: "Rz", Value: noise * v})
			flat(d, flats[:5], standards.Bound{Symbol: "Rz", Value: noise * v}, standards.Bound{Symbol: "Rsm", Value: 100})
		})
		family("number of flats", []float64{0, 1, 2, 3, 4, 5, 6}, func(d *digest, v float64) {
			n := int(v)
			flat(d, flats[:n])
			flat(d, flats[:n], standards.Bound{Symbol: "Rz", Value: 9}, standards.Bound{Symbol: "Rno", Value: 1})
			skid := flats[0]
			skid.Traced.Skid = roughness.WithSkid
			flat(d, append([]roughness.Profile{{Z: make([]float64, 340), Spacing: 1}, skid, flats[0], {Z: flats[0].Z[:30], Spacing: 1}}, flats[:n]...), standards.Bound{Symbol: "Ra", Value: 0.05})
		})
		flat(&digest{}, []roughness.Profile{{Z: make([]float64, 340), Spacing: 1}})
		budget := func(d *digest, symbol string, in instrument.BudgetInput) {
			b, err := instrument.BudgetOn(ctx, trace, narrowly(2), symbol, in)
			d.put([]any{b, err})
			if b != nil {
				d.put(rec.AppendCheck(nil, b.Check(instrument.Session{})))
			}
		}
		certified := decide.TextureInput{CertificateValue: 2, CertificateU: 0.04, SpecimenS: 0.02, SpecimenN: 4}
		amounts := append(sweep(0.001, 0.6, 8), 0.5, 0.51, -0.1, math.NaN(), math.Inf(1))
		for i, with := range []func(v float64) instrument.BudgetInput{
			func(v float64) instrument.BudgetInput { return instrument.BudgetInput{NoiseRq: v} }, func(v float64) instrument.BudgetInput {
				return instrument.BudgetInput{TipTolerance: v, TextureInput: certified}
			}, func(v float64) instrument.BudgetInput { return instrument.BudgetInput{CutoffShare: v} },
			func(v float64) instrument.BudgetInput { return instrument.BudgetInput{TravelShare: v} }, func(v float64) instrument.BudgetInput {
				return instrument.BudgetInput{Spacing: v > 0.1, TextureInput: decide.TextureInput{CertificateValue: 1, CertificateU: v, DriftShare: 0.01}}
			}, func(v float64) instrument.BudgetInput {
				return instrument.BudgetInput{TextureInput: decide.TextureInput{WorkpieceS: v, WorkpieceN: 5, DriftShare: 0.02, Noise: v / 9}}
			}, func(v float64) instrument.BudgetInput {
				return instrument.BudgetInput{TextureInput: decide.TextureInput{TipEffect: v, SpacingEffect: v / 2}, TipTolerance: 0.1, Spacing: v > 0.3}
			}} {
			family(fmt.Sprint("influence ", i+1), amounts, func(d *digest, v float64) {
				symbol := "Rz"
				if v > 0.01 && v < 0.3 {
					symbol = []string{"Ra", "Rdq"}[i%2]
				}
				budget(d, symbol, with(v))
			})
		}
		family("flats over the trace", []float64{0, 1, 2, 5}, func(d *digest, v float64) {
			other := flats[0]
			other.Spacing = 1 + 0.6e-9*v
			budget(d, "Rz", instrument.BudgetInput{Flats: append(flats[:int(v):int(v)], other)})
			budget(d, "Rq", instrument.BudgetInput{Flats: flats[:int(v)], NoiseRq: 0.01})
			budget(d, "Rz", instrument.BudgetInput{Others: series(int(v), 0.03)})
			budget(d, "Rsm", instrument.BudgetInput{Others: append(series(int(v), 0.03), roughness.Profile{Z: trace.Z[:60], Spacing: 1}), TextureInput: decide.TextureInput{WorkpieceS: v, WorkpieceN: int(v)}})
		})
	})
}

// Verdicts on short traces: what is asked and what is used, parts left out, sections missing, values about the limit, what is typed in.
func TestVerdicts(t *testing.T) {
	keep(t, "verdicts", func(p *page) {
		one, two := short("turned", 340), scaled(short("ground", 340), 1.7)
		one.Name, two.Name = "one", "two"
		asks := func(text string) *judge.Requirement {
			r, err := judge.ReadRequirement(text, standards.ISO4287)
			if err != nil {
				t.Fatal(text, err)
			}
			return r
		}
		judged := func(d *digest, j judge.Judging) {
			v, err := j.Judge()
			d.put([]any{v, err})
			if v != nil {
				d.put(rec.AppendVerdict(nil, v, ""))
			}
		}
		texts := []string{"-0,08/Rz3 3,2", "0,0025-0,08/Ra2 0,4; 0,0025-0,08/Rz2 2", "U -0,08/Rz3 2; L -0,08/Rz3 0,5", "-0,08/Rz2max 2,2", "L -0,08/Ra3 0,1", "Rz 3,2"}
		for i, text := range texts {
			req := asks(text)
			var settings, left, typed, limits digest
			for k, set := range []*roughness.Settings{nil, narrowly(3), narrowly(2), narrowly(1), {}, {Edition: standards.ISO4287, Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}}, {Edition: standards.ISO4287, Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}, Sections: 3, Short: roughness.Band{Off: true}}, {Edition: standards.ISO4287, Long: roughness.Band{Spec: filter.Spec{Cutoff: 25}}, Sections: 3},
				{Edition: standards.ISO4287, Profile: roughness.P, Long: roughness.Band{Off: true}}, {Edition: standards.ISO4287, Long: roughness.Band{Spec: filter.Spec{Filter: "spline", Cutoff: 80}}, Sections: 3}, {Edition: standards.ISO4287, Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}, Sections: 3, SectionLength: 60, Form: roughness.FormSpec{Kind: "polynomial", Degree: 2}}} {
				for _, agreed := range []string{"", "the customer"} {
					judged(&settings, judge.Judging{Requirement: req, Traces: []roughness.Profile{one, two}[:1+k%2], Settings: set, Agreed: agreed, Periodic: k%3 == 0})
				}
			}
			p.digest("settings, "+text, &settings)
			for k := range 24 {
				set := &roughness.Settings{Edition: standards.ISO4287, Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}, Sections: 3, Exclude: []roughness.Exclusion{{From: 90, To: 90 + float64(k), Reason: "dust"}}}
				if k > 17 {
					set.Exclude = append(set.Exclude, roughness.Exclusion{From: 200, To: 180 + float64(k), Reason: "pore"})
				}
				trace := one
				switch k % 5 {
				case 1:
					trace.Z = trace.Z[:340-10*k]
				case 2:
					trace.Z = with(trace.Z, func(z []float64) {
						for m := range k {
							z[100+m] = 3
						}
					})
				case 3:
					trace.Z = with(trace.Z, func(z []float64) {
						for m := range z {
							if k > 14 || m > 10*k {
								z[m] = 1
							}
						}
					})
				}
				judged(&left, judge.Judging{Requirement: req, Traces: []roughness.Profile{trace, two}, Settings: set, Agreed: []string{"", "x"}[k/12]})
				set.Exclude = nil
				judged(&left, judge.Judging{Requirement: req, Traces: []roughness.Profile{trace}})
				e, err := roughness.Evaluate(trace, roughness.WithParameters(set, "Rz", "Ra"))
				if err == nil {
					judged(&left, judge.Judging{Requirement: req, Traces: []roughness.Profile{trace, one}, Settings: set, Done: []*roughness.Evaluation{e}})
				}
			}
			p.digest("left out, "+text, &left)
			for k, list := range []string{"Rz 3.2", "Rz 3.19; 3.2; 3.21", "Ra 0.4; Rz 2", "Ra 0.401", "Rz 2.0; 1.9; 2.1; 2.4; 2.5; 2.6; 1.8; 1.7; 1.6; 1.5; 1.4; 1.3", "Rsk -0.1; -0.2", "Rz 126 µin", "Rz 0", "Rq 1"} {
				values, err := judge.ParseTyped(list, standards.ISO4287)
				if err != nil {
					t.Fatal(err)
				}
				for m, u := range []string{"", "0", "0.05", "0.3", "Rz 0.2", "Ra 0.01; Rz 0.1", "Rz 0.1 mm", "RSm 1"} {
					uncertain, err := judge.ParseUncertainty(u, standards.ISO4287)
					if u == "" {
						uncertain = nil
					} else if err != nil {
						t.Fatal(err)
					}
					guard, err := judge.GuardFor([]string{"2017", "1998"}[m%2], []string{"maker", "buyer"}[k%2], 0, u != "")
					if u == "" {
						guard, err = judge.GuardFor("", "", 0, false)
					}
					if err != nil {
						t.Fatal(err)
					}
					judged(&typed, judge.Judging{Requirement: req, Typed: values, U: uncertain, Guard: guard, Rule: []standards.Rule{"", standards.Maximum, standards.SixteenPercent, standards.Median}[(k+m)%4], FileOpen: []string{"a", "b"}[:(k*m)%3%2]})
				}
			}
			p.digest("typed, "+text, &typed)
			for k, limit := range []string{"Rz <= 3.2", "Rz <= 2", "Ra <= 0.4; Rz <= 2", "Rz >= 0.5; Rz <= 2", "Rz <= 3.2; Rz <= 3.2", "Rsk >= -0.1", "Pt <= 5", "Ra >= 0.2", "RSm <= 0.1 mm", "Rz <= 78.74 µin"} {
				for _, rule := range []standards.Rule{"", standards.Maximum, standards.Median} {
					bounds, err := judge.Limits(limit, standards.ISO4287, rule)
					if err != nil {
						t.Fatal(err)
					}
					bounds.Under(req)
					for _, agreed := range []string{"", "the customer"} {
						judged(&limits, judge.Judging{Requirement: bounds, Traces: []roughness.Profile{one}, Settings: []*roughness.Settings{nil, narrowly(3), {Edition: standards.ISO4287, Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}, Sections: 3}}[(i+k)%3], Agreed: agreed, Rule: []standards.Rule{"", rule}[k%2]})
					}
				}
			}
			p.digest("limits under, "+text, &limits)
		}
		for _, scale := range sweep(0.05, 8, 10) {
			var d digest
			for k, text := range []string{"Rz 3,2", "Ra 0,8", "Rz 0,4"} {
				judged(&d, judge.Judging{Requirement: asks(text), Traces: []roughness.Profile{scaled(traced("turned", 3000+1000*k), scale)}, Periodic: k == 1})
			}
			p.digest(fmt.Sprint("no cut-off stated ", scale), &d)
		}
		for n := 35; n < 46; n++ {
			var d digest
			word := ""
			for i := range n {
				word += string('0' + byte(i%10))
			}
			for _, text := range []string{"Rz " + word, word, "Rz 1; " + word, "Ra 0," + word} {
				a, err := judge.ParseTyped(text, "")
				b, err2 := judge.ParseUncertainty(text, "")
				c, err3 := judge.ParseLimits("Rz <= "+word, "")
				d.put([]any{a, err, b, err2, c, err3})
			}
			p.digest(fmt.Sprint("word of ", n), &d)
		}
		for _, symbol := range []string{"Ra", "Rsk", "Rku", "Rmr(0.5)", "Rdr", "Rmc(20)", "Rdc(20,80)", "Rpc", "Rk", "Rsm", "Rdq", "Pt", "Wz"} {
			for _, edition := range []standards.EditionID{standards.ISO21920, standards.ISO4287, standards.ASMEB46} {
				var d digest
				for _, value := range []string{"-1", "0", "0.99", "1", "99", "100", "101", "1,234", "0,234", "1e3", "5 mm", "5 µm", "5 %", "5 /mm", "5 µin", "999999999", "1000000001", "-0,5", "+2", "−2", ".5", "5.", "1.2.3", "2 e", "2 +"} {
					a, err := judge.ParseTyped(symbol+" "+value, edition)
					b, err2 := judge.ParseLimits(symbol+" <= "+value, edition)
					c, err3 := judge.ParseUncertainty(symbol+"="+value, edition)
					d.put([]any{a, err, b, err2, c, err3})
				}
				p.digest(fmt.Sprint("written ", symbol, " ", edition), &d)
			}
		}
		slices.Sort(p.lines)
	})
}

// Differences between settings that differ in one or several things, steadiness of values in all sizes, and what a file states.
func TestDifferences(t *testing.T) {
	keep(t, "differences", func(p *page) {
		ctx := context.Background()
		trace := short("turned", 420)
		holes := trace
		holes.Z = with(trace.Z, func(z []float64) { z[50], z[200], z[201] = math.NaN(), math.NaN(), math.NaN() })
		base := narrowly(3, "Rz")
		changes := []func(s *roughness.Settings){
			func(s *roughness.Settings) { s.Short = roughness.Band{Off: true} }, func(s *roughness.Settings) { s.Long.Spec.Cutoff = 25 }, func(s *roughness.Settings) { s.Sections = 2 }, func(s *roughness.Settings) { s.Edition = standards.ISO4287 }, func(s *roughness.Settings) { s.Edition = standards.ASMEB46 },
			func(s *roughness.Settings) { s.Form = roughness.FormSpec{Kind: "polynomial", Degree: 2} }, func(s *roughness.Settings) { s.Long.Spec.Filter = "spline" }, func(s *roughness.Settings) { s.SectionLength = 60 }, func(s *roughness.Settings) { s.Crop = [2]float64{20, 0} }, func(s *roughness.Settings) { s.Invert = true },
			func(s *roughness.Settings) { s.Exclude = []roughness.Exclusion{{From: 100, To: 104, Reason: "dust"}} }, func(s *roughness.Settings) { s.Short.Spec.Cutoff = 8 }, func(s *roughness.Settings) { s.Long.Spec.Ends = "retain" }, func(s *roughness.Settings) { s.Profile = roughness.W }, func(s *roughness.Settings) { s.Profile, s.Long = roughness.P, roughness.Band{Off: true} }, func(s *roughness.Settings) {},
		}
		for i, first := range changes {
			var d digest
			for k, second := range changes {
				if k != i && (i+k)%5 > 0 {
					continue
				}
				a, b := *base, *base
				first(&b)
				second(&b)
				if k%2 == 1 {
					second(&a)
				}
				for m, symbol := range []string{"Rz", "Ra", "Rsk", "Rk", "Wz", "Rno"} {
					if m > 0 && m != 1+(i+k)%5 {
						continue
					}
					l, err := compare.Explain(ctx, []roughness.Profile{trace, holes}[(i+k)%2], &a, &b, symbol)
					d.put([]any{l, err, rec.AppendShares(nil, symbol, l, err)})
					if l != nil {
						for _, v := range []float64{1.23456789, 0.000123456, 123.456, -5} {
							d.put(l.Show(v))
						}
					}
				}
			}
			p.digest(fmt.Sprint("change ", i+1), &d)
		}
		for _, n := range []int{282, 310, 319, 320, 321, 326, 327, 328, 336, 344, 360, 420} {
			var d digest
			for k, name := range []string{"turned", "ground"} {
				for _, sections := range []int{2, 3} {
					set := narrowly(sections, "Ra", "Rz", "Rsk", "Rsm", "Rmr(0.2)")
					if k == 1 {
						set.Short = roughness.Band{Off: true}
					}
					steady, err := compare.Steady(ctx, short(name, n), set)
					d.put([]any{steady, err, rec.AppendSteadiness(nil, steady, err)})
				}
			}
			p.digest(fmt.Sprint("steady ", n), &d)
		}
		for i, set := range []*roughness.Settings{{Profile: roughness.P, Parameters: []string{"Pt"}}, {Long: roughness.Band{Spec: filter.Spec{Cutoff: 8}}, Sections: 3}, {Long: roughness.Band{Spec: filter.Spec{Cutoff: 30}}, Sections: 2}, {Profile: roughness.W, Long: roughness.Band{Spec: filter.Spec{Cutoff: 25}}}, {Input: roughness.Filtered, Sections: 2, SectionLength: 80}} {
			for k, z := range [][]float64{trace.Z, make([]float64, 420), holes.Z} {
				steady, err := compare.Steady(ctx, roughness.Profile{Z: z, Spacing: 1}, set)
				p.sum(fmt.Sprint("steady under ", i+1, " ", k+1), steady, err, rec.AppendSteadiness(nil, steady, err))
			}
		}
		for _, scale := range sweep(1e-4, 1e4, 12) {
			steady, err := compare.Steady(ctx, scaled(short("ground", 360), scale), narrowly(3, "Rz", "Rdq"))
			p.sum(fmt.Sprint("steady times ", scale), steady, err)
		}
		words := []string{"Ra", "Rz", "0.42", "2,87", "µm", "um", "mm", "(µm)", "[µm]", "=", ":", ";", "\t", "Results", "max", "Length", "4 mm", "Rsm", "0.081", "%", "Rmr(0.5)", "20", "Date", "-", "Part 7", "Limit"}
		var source source = 5
		for i := range 40 {
			var lines []string
			for range 1 + source.upTo(5) {
				line := ""
				for range 1 + source.upTo(6) {
					line += words[source.upTo(len(words))] + []string{" ", " ", "", ";", "\t"}[source.upTo(5)]
				}
				lines = append(lines, line)
			}
			p.sum(fmt.Sprint("stated at random ", i+1), compare.Stated(lines, '.'), compare.Stated(lines, ','), compare.Stated(lines, 0))
		}
		lines := []string{"Results", "Ra = 0.42 µm", "Rz 2.87 µm", "Rsm: 0.081 mm", "Rmr(0.5) = 20 %", "Length 4 mm", "Rq;0.5;µm", "Rt [µm] 3.1", "Ra (µm)\tRz (µm)", "0.42\t2.87", "Rsk -0.2", "Rz 2.9 µm"}
		for i := range lines {
			for k, other := range []string{"", "Limits", "Rz max 3 µm", "Part 2", "Ra = 0.43 µm", "Ra 0,42 µm", "Ra 0.42", "Rz 2.87 mm", "Measured values:", "Operator: b", "Rz 2.870 µm", "Ra µm 0.4 Rz µm", "Rz 113 µin"} {
				list := slices.Clone(lines)
				list[i] = other
				p.sum(fmt.Sprint("stated ", i+1, " ", k+1), compare.Stated(list, '.'), compare.Stated(list[i:], 0))
			}
		}
		for i, text := range []string{"Ra 0.2; Rz 1.2", "Rz 1.19", "Wz 1", "Rk 0.6"} {
			printed, err := compare.ParsePrinted(text)
			if err != nil {
				p.sum(fmt.Sprint("looked for ", i+1), err)
				continue
			}
			f, err := compare.Find(ctx, short("turned", 200), printed, &roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Cutoff: 25}}, Sections: 3}, nil)
			list := []any{err}
			if f != nil {
				list = append(list, f.Outcome(), f.Sentences(), rec.AppendFinding(nil, f, 6), rec.AppendFinding(nil, f, 0))
			}
			p.sum(fmt.Sprint("looked for ", i+1), list...)
		}
	})
}

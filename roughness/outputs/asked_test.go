package outputs

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness/study"
	"example.com/furrow/standards"
)

// asked puts what is asked of a state, and a reply to each question.
func (d *digest) asked(desk *study.Desk, s study.State, option int) {
	offered, withheld, err := desk.Ask(s)
	d.put([]any{offered, withheld, err})
	for i, q := range offered {
		reply, err := desk.Reply(s, q.Letter, (option+i)%(len(q.Options)+1)-1)
		d.put([]any{reply, err})
	}
}

// The questions of exercises on very many profiles: ties, equal sections, values at each limit from which a question is asked or not.
func TestQuestions(t *testing.T) {
	keep(t, "questions", func(p *page) {
		desk := &study.Desk{}
		for size := 1; size <= 7; size++ {
			for seed := range 6 {
				var d digest
				for k, points := range []int{16, 40, 50} {
					s := study.State{Surface: study.Typed, Heights: randomWhole(points, size, source(100*size+10*seed+k)), Spacing: []float64{10, 25, 0.5}[k], Sections: study.Sections{Number: 1 + (seed+k)%5}, Line: []string{"zero", "mean", "line"}[(seed+size)%3], Hide: seed % 3, Turned: seed%4 == 1}
					s.Filter = study.Removal{Kind: "none"}
					if seed%3 == 0 {
						s.Symbol, s.Edition = "Ra", standards.EditionIDs()[(size+k)%len(standards.EditionIDs())]
						if s.Edition == standards.ISO12085 {
							s.Symbol = "R"
						}
					}
					d.asked(desk, s, seed+k)
				}
				p.digest(fmt.Sprint("heights to ", size, " ", seed+1), &d)
			}
		}
		// heights as a power of another row: peaks and pits, mean cubes and shares of all sizes
		for _, power := range []float64{0.4, 0.7, 1, 1.5, 2, 3} {
			for _, lift := range []float64{0, 0.2, 0.5, 1} {
				var d digest
				for k := range 4 {
					z := randomWhole(40, 100, source(k+1))
					for i, v := range z {
						z[i] = math.Round(100*(math.Copysign(math.Pow(math.Abs(v)/100, power), v)-lift*math.Exp(-v*v/2000))) / 10
					}
					s := study.State{Surface: study.Typed, Heights: z, Spacing: 2, Sections: study.Sections{Number: 2 + k}, Line: "mean", Filter: study.Removal{Kind: "none"}, Hide: 2, Symbol: []string{"Rz", "Rsk", "Rt", "Rsm"}[k]}
					d.asked(desk, s, k)
					s.Turned = true
					d.asked(desk, s, k+1)
				}
				p.digest(fmt.Sprint("power ", power, " ", lift), &d)
			}
		}
		// a made surface with one ingredient from little to much
		made := func(name string, values []float64, with func(v float64, s *study.State)) {
			var d digest
			for i, v := range values {
				s := study.State{Surface: study.Made, Length: 0.72, Spacing: 1.5, Sections: study.Sections{Number: 3}, Filter: study.Removal{Kind: "own", Long: 0.08, Short: 2.5}, Hide: i % 3}
				with(v, &s)
				d.asked(desk, s, i)
			}
			p.digest(name, &d)
		}
		noise := func(rq, length float64) study.Part {
			return study.Part{Kind: "noise", Values: []float64{rq, length, 11}}
		}
		wave := func(h, l float64) study.Part { return study.Part{Kind: "sine1", Values: []float64{h, l, 0.2}} }
		made("waves longer than the cut-off", sweep(0.02, 3, 10), func(v float64, s *study.State) { s.Parts = []study.Part{noise(0.3, 6), wave(v, 0.15)} })
		made("waves of all lengths", sweep(0.01, 0.5, 10), func(v float64, s *study.State) { s.Parts = []study.Part{noise(0.1, 4), wave(2, v)} })
		made("noise beside a wave", sweep(0.01, 2, 10), func(v float64, s *study.State) { s.Parts = []study.Part{noise(v, 3), wave(2, 0.04)} })
		made("length of the noise", sweep(2, 60, 10), func(v float64, s *study.State) { s.Parts = []study.Part{noise(0.4, v)} })
		made("worn", sweep(1, 90, 10), func(v float64, s *study.State) {
			s.Parts = []study.Part{noise(0.4, 6), {Kind: "worn", Values: []float64{math.Round(v)}}}
			s.Filter = study.Removal{Kind: "none"}
			s.Symbol = "Rk"
		})
		made("a scratch", sweep(0.2, 6, 10), func(v float64, s *study.State) {
			s.Parts = []study.Part{noise(0.4, 6), {Kind: "scratch", Values: []float64{0.36, 12, v}}}
			s.Length, s.Symbol = 1.2, "Rku"
		})
		made("a short trace", sweep(0.2, 1.1, 10), func(v float64, s *study.State) {
			s.Length, s.Parts, s.Sections = v, []study.Part{noise(0.5, 8)}, study.Sections{}
			s.Filter.Short = []float64{2.5, 8, 25}[int(v*20)%3]
		})
		made("cut-offs", []float64{0.08, 0.1, 0.25, 0.3, 0.8, 2, 2.5, 8}, func(v float64, s *study.State) {
			s.Length, s.Spacing, s.Parts, s.Sections = 4, 5, []study.Part{noise(0.5, 20), wave(0.3, v)}, study.Sections{Number: 1}
			s.Filter = study.Removal{Kind: "own", Long: v, Short: []float64{0, 2.5, 8, 25}[int(v*10)%4]}
		})
		made("room for the sections", sweep(0.3, 0.6, 12), func(v float64, s *study.State) {
			start := 0.1
			s.Length, s.Parts, s.Sections = v, []study.Part{noise(0.5, 30)}, study.Sections{Number: 2, Length: 0.12, Start: &start}
		})
	})
}

// Ordinates of a worksheet trace, also where it has no heights and no profile.
func TestOrdinates(t *testing.T) {
	keep(t, "ordinates", func(p *page) {
		trace := short("turned", 240)
		for i := range 12 {
			trace.Z[i], trace.Z[239-i] = math.NaN(), math.NaN()
		}
		desk := &study.Desk{Trace: &trace}
		for _, at := range []int{0, 1, 5, 12, 13, 14, 100, 227, 228, 229, 239, 240, 241, 500} {
			var d digest
			for _, every := range []int{1, 2, 4} {
				for _, kind := range []string{"none", "own"} {
					s := study.State{Symbol: "Rz", Surface: study.Sheet, Point: at, Every: every, Width: 3, Filter: study.Removal{Kind: kind, Long: 0.08, Short: 8}, Sections: study.Sections{Number: 2}}
					r, err := desk.Evaluate(s)
					if d.put(err); err != nil {
						continue
					}
					d.put([]any{r.Ordinate(), r.Handles(), r.Moves(), r.Notes(), r.Value})
					for _, v := range []float64{0, 1.5, 5} {
						moved, err := r.Set("ordinate-height", v)
						d.put([]any{moved, err})
					}
				}
			}
			p.digest(fmt.Sprint("ordinate ", at), &d)
		}
	})
}

// Typed heights under every symbol: worked lines with blanks, tables, letters, moves and what is dragged.
func TestByHand(t *testing.T) {
	keep(t, "by-hand", func(p *page) {
		desk := &study.Desk{}
		heights := [][]float64{randomWhole(16, 4, 31), randomWhole(33, 3, 32), {4, 4, 4, 4, -4, -4, -4, -4}, {1, -2, 3, -4e-12, 1e-12}, {0.5, 0.25, -1.5, 0.75, 0, 0, 0, -0.125, 12, -12, 3, 3.00625}, randomWhole(64, 1000, 33)}
		for _, edition := range standards.EditionIDs() {
			for _, letter := range "RPW" {
				for j, call := range params.Defaults(edition, byte(letter)) {
					var d digest
					for i, z := range heights {
						if edition != standards.ISO21920 && i != j%len(heights) || letter != 'R' && (i+j)%3 != 0 {
							continue
						}
						s := study.State{Symbol: call.Symbol, Edition: edition, Letter: string(letter), Surface: study.Typed, Heights: z, Spacing: []float64{0.5, 100, 7}[i%3], Sections: study.Sections{Number: 1 + (i+j)%4}, Point: []int{0, 3, 9}[(i+j)%3], Width: 1 + i%3, Every: []int{1, 1, 2}[(i*j)%3]}
						if i%3 == 2 {
							window, shift := float64(j%7)*0.004, float64(j%5)*3.3
							s.Window, s.Shift, s.Moved = &window, &shift, []study.MovedPoint{{Point: 2, By: 1.5, Width: 1 + i%2}, {Point: 5, By: -2, Width: 3}}
						}
						r, err := desk.Evaluate(s)
						if err != nil {
							d.put(err)
							continue
						}
						shown, said := r.Change(nil)
						table, err := r.Table(j%2 == 0)
						d.put([]any{r.Value, r.Shown(), shown, said, r.Notes(), r.Handles(), r.Moves(), r.Looked(), r.Ordinate(), r.Removed(), table, err})
						if c, err := r.Construct(); err == nil {
							for picked := range min(len(c.Steps), 3) + 1 {
								letters := r.Letters(c, picked)
								for _, k := range names(letters) {
									d.put([]any{k, letters[k]})
								}
							}
							if len(c.Steps) > 0 {
								step := c.Steps[j%len(c.Steps)]
								from, to := r.Stretch(c, step)
								d.put([]any{from, to, study.OnProfile(c, 1+j%len(c.Steps))})
							}
						}
						for level := study.LastBlank; level <= study.TermsBlank; level++ {
							b, err := r.Blanks(level)
							d.put([]any{b, err})
							if b == nil {
								continue
							}
							for k := range b.Blanks {
								if k > 2 && k < len(b.Blanks)-2 {
									continue
								}
								v, err := b.Check(nil, k, true)
								d.put([]any{v, err})
								list := near(v.Value)
								sum, square := 0.0, 0.0
								for _, h := range r.Input.Z {
									sum, square = sum+h, square+h*h
								}
								n := float64(len(r.Input.Z))
								wrong := []float64{sum, sum / n, square, square / n, slices.Max(r.Input.Z), slices.Min(r.Input.Z)}[(k+j)%6]
								for _, entry := range []string{list[(k+j)%len(list)], list[(3*k+j+7)%len(list)], fmt.Sprint(sum), fmt.Sprint(wrong)} {
									entries := make([]string, k+1)
									entries[k] = entry
									v, err := b.Check(entries, k, false)
									d.put([]any{v, err})
								}
							}
						}
						for k, m := range r.Moves() {
							v := []float64{m.Low, m.High, m.Least, m.Most, (m.Low + 2*m.High) / 3, m.Value + 0.5}[(k+j)%6]
							moved, err := r.Set(m.ID, v)
							d.put([]any{moved, err, r.Tells(m.ID)})
							if err == nil && k < 3 {
								if after, err := desk.Evaluate(moved); err == nil {
									shown, said := after.Change(r)
									d.put([]any{after.Value, shown, said})
								}
							}
						}
					}
					if d.n > 0 || d.hash > 0 {
						p.digest(fmt.Sprint(edition, " ", string(letter), " ", call.Symbol), &d)
					}
				}
			}
		}
	})
}

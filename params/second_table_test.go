package params_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// secondOf has the second implementation of each key.
var secondOf = map[string]func(s plainly, older bool) float64{
	"Ra":   func(s plainly, _ bool) float64 { return s.by(func(s plainly) float64 { return s.power(1, math.Abs) }) },
	"Ra75": func(s plainly, _ bool) float64 { return s.power(1, math.Abs) },
	"Rq": func(s plainly, _ bool) float64 {
		return s.by(func(s plainly) float64 { return math.Sqrt(s.power(2, identity)) })
	},
	"Rsk": func(s plainly, _ bool) float64 {
		return s.by(func(s plainly) float64 { return s.power(3, identity) / math.Pow(s.power(2, identity), 1.5) })
	},
	"Rku": func(s plainly, _ bool) float64 {
		return s.by(func(s plainly) float64 { return s.power(4, identity) / math.Pow(s.power(2, identity), 2) })
	},
	"Rp":       func(s plainly, _ bool) float64 { return s.by(func(s plainly) float64 { return slices.Max(s.z) }) },
	"Rv":       func(s plainly, _ bool) float64 { return s.by(func(s plainly) float64 { return -slices.Min(s.z) }) },
	"Rz":       func(s plainly, _ bool) float64 { return s.by(total) },
	"Rmax":     func(s plainly, _ bool) float64 { return s.by(total) },
	"Rmax1982": func(s plainly, _ bool) float64 { return s.by(total) },
	"Rt":       func(s plainly, _ bool) float64 { return total(s) },
	"Rpt":      func(s plainly, _ bool) float64 { return slices.Max(s.z) },
	"Rvt":      func(s plainly, _ bool) float64 { return -slices.Min(s.z) },
	"Rzx": func(s plainly, _ bool) float64 {
		most := 0.0
		for i := 0; i+s.n < len(s.z); i++ {
			most = max(most, total(plainly{z: s.z[i : i+s.n+1]}))
		}
		return most
	},
	"Rsm":  func(s plainly, older bool) float64 { w, _, k := s.elements(older); return s.mean(w, k, older) },
	"Rc":   func(s plainly, older bool) float64 { _, h, k := s.elements(older); return s.mean(h, k, older) },
	"Rpc":  func(s plainly, older bool) float64 { w, _, k := s.elements(older); return 1e4 / s.mean(w, k, older) },
	"Rsmx": func(s plainly, _ bool) float64 { w, _, _ := s.elements(false); return slices.Max(w) },
	"Rcx":  func(s plainly, _ bool) float64 { _, h, _ := s.elements(false); return slices.Max(h) },
	"Rsmq": func(s plainly, _ bool) float64 { w, _, _ := s.elements(false); return deviation(w) },
	"Rcq":  func(s plainly, _ bool) float64 { _, h, _ := s.elements(false); return deviation(h) },
	"Rdq":  func(s plainly, _ bool) float64 { return s.bySlopes(rootMeanSquare) },
	"Rda":  func(s plainly, _ bool) float64 { return over(s.slopes(), math.Abs) },
	"Rdt": func(s plainly, _ bool) float64 {
		g := s.slopes()
		return max(slices.Max(g), -slices.Min(g))
	},
	"Rdl":         func(s plainly, _ bool) float64 { return s.length() * (1 + s.stretch()) },
	"Rdr":         func(s plainly, _ bool) float64 { return 100 * s.stretch() },
	"LengthRatio": func(s plainly, _ bool) float64 { return 1 + s.stretch() },
	"LambdaA": func(s plainly, _ bool) float64 {
		return 2 * math.Pi * s.power(1, math.Abs) / over(s.slopes(), math.Abs)
	},
	"LambdaQ": func(s plainly, _ bool) float64 { return 2 * math.Pi * rootMeanSquare(s.z) / rootMeanSquare(s.slopes()) },
	"Rmr":     func(s plainly, _ bool) float64 { return s.ratio(s.args[0]) },
	"RmrFrom": func(s plainly, _ bool) float64 { return s.ratio(s.heightOf(s.args[0]) - s.args[1]) },
	"Rmc":     func(s plainly, _ bool) float64 { return s.heightOf(s.args[0]) },
	"Rdc":     func(s plainly, _ bool) float64 { return s.heightOf(s.args[0]) - s.heightOf(s.args[1]) },
	"Tp": func(s plainly, _ bool) float64 {
		return s.by(func(s plainly) float64 { return s.ratio(slices.Max(s.z) - s.args[0]) })
	},
	"Rk":    func(s plainly, _ bool) float64 { u, l, _, _ := s.core(); return u - l },
	"Rmrk1": func(s plainly, _ bool) float64 { _, _, r, _ := s.core(); return 100 * r },
	"Rmrk2": func(s plainly, _ bool) float64 { _, _, _, r := s.core(); return 100 * r },
	"Rpkx":  func(s plainly, _ bool) float64 { u, _, _, _ := s.core(); return slices.Max(s.z) - u },
	"Rvkx":  func(s plainly, _ bool) float64 { _, l, _, _ := s.core(); return l - slices.Min(s.z) },
	"Rak1":  func(s plainly, _ bool) float64 { u, _, r, _ := s.core(); return s.above(u, 0, r, 1) },
	"Rak2":  func(s plainly, _ bool) float64 { _, l, _, r := s.core(); return s.above(l, r, 1, -1) },
	"Rpk":   func(s plainly, _ bool) float64 { u, _, r, _ := s.core(); return 2 * s.above(u, 0, r, 1) / r },
	"Rvk":   func(s plainly, _ bool) float64 { _, l, _, r := s.core(); return 2 * s.above(l, r, 1, -1) / (1 - r) },
	"Rvm":   func(s plainly, _ bool) float64 { return s.material(s.args[0]) },
	"Rvmp":  func(s plainly, _ bool) float64 { return s.material(s.args[0]) },
	"Rvv":   func(s plainly, _ bool) float64 { return s.void(s.args[0]) },
	"Rvvv":  func(s plainly, _ bool) float64 { return s.void(s.args[0]) },
	"Rvmc":  func(s plainly, _ bool) float64 { return s.material(s.args[1]) - s.material(s.args[0]) },
	"Rvvc":  func(s plainly, _ bool) float64 { return s.void(s.args[0]) - s.void(s.args[1]) },
	"Ral": func(s plainly, _ bool) float64 {
		last := 1.0
		for k := 1; k <= len(s.z)/2; k++ {
			sum := 0.0
			for i := 0; i+k < len(s.z); i++ {
				sum += s.z[i] * s.z[i+k]
			}
			f := sum / float64(len(s.z)-k) / s.power(2, identity)
			if f <= s.args[0] {
				return (float64(k-1) + (last-s.args[0])/(last-f)) * s.dx
			}
			last = f
		}
		return math.NaN()
	},
	"Rsw": func(s plainly, _ bool) float64 {
		best, at := 0.0, 0
		for k := 1; k <= len(s.z)/2; k++ {
			if a := cmplx.Abs(transform(s.z, k)); a > best {
				best, at = a, k
			}
		}
		return s.length() / float64(at)
	},
	"R5p":  func(s plainly, _ bool) float64 { return s.fiveOf(true) },
	"R5v":  func(s plainly, _ bool) float64 { return s.fiveOf(false) },
	"R10z": func(s plainly, _ bool) float64 { return s.fiveOf(true) + s.fiveOf(false) },
	"Rpd":  func(s plainly, _ bool) float64 { return float64(len(s.extremes(true))) / s.length() * 1000 },
	"Rvd":  func(s plainly, _ bool) float64 { return float64(len(s.extremes(false))) / s.length() * 1000 },
	"Rmpc": func(s plainly, _ bool) float64 { return s.curvature(true) },
	"Rmvc": func(s plainly, _ bool) float64 { return s.curvature(false) },
	"RzJIS": func(s plainly, _ bool) float64 {
		return s.by(plainly.tenPoint)
	},
	"R3z":  func(s plainly, _ bool) float64 { return s.by(thirdHeight) },
	"R3zm": func(s plainly, _ bool) float64 { return s.by(thirdHeight) },
	"S": func(s plainly, _ bool) float64 {
		return s.by(func(s plainly) float64 { return s.peakSpacing() })
	},
	"D": func(s plainly, _ bool) float64 {
		return 1000 / plainly{z: s.z, dx: s.dx, n: s.n, over: params.SectionMean}.by(func(s plainly) float64 { return s.peakSpacing() })
	},
	"RPcBand": func(s plainly, _ bool) float64 { return s.band() },
	"Pc":      func(s plainly, _ bool) float64 { return s.band() },
	"HSC": func(s plainly, _ bool) float64 {
		count := 0.0
		for i, v := range s.z {
			if v > s.args[0] && (i == 0 || s.z[i-1] <= s.args[0]) {
				count++
			}
		}
		return count / s.length() * 1e4
	},
}

func total(s plainly) float64 { return slices.Max(s.z) - slices.Min(s.z) }

func (s plainly) tenPoint() float64 {
	p, v := s.ranked(1), s.ranked(-1)
	if min(len(p), len(v)) < 5 {
		return math.NaN()
	}
	return average(p[:5]) + average(v[:5])
}

func thirdHeight(s plainly) float64 {
	p, v := s.ranked(1), s.ranked(-1)
	if min(len(p), len(v)) < 3 {
		return math.NaN()
	}
	return p[2] + v[2]
}

func rootMeanSquare(v []float64) float64 {
	return math.Sqrt(over(v, func(x float64) float64 { return x * x }))
}

func (s plainly) length() float64 { return float64(len(s.z)) * s.dx }

func (s plainly) stretch() float64 {
	return over(s.slopes(), func(g float64) float64 { return math.Hypot(1, g) - 1 })
}

func (s plainly) mean(values []float64, section []int, older bool) float64 {
	if older && s.over == params.SectionMean {
		return meanBySection(values, section)
	}
	return average(values)
}

func (s plainly) material(p float64) float64 { return s.above(curve(s.falling(), p/100), 0, p/100, 1) }
func (s plainly) void(p float64) float64     { return s.above(curve(s.falling(), p/100), p/100, 1, -1) }

func (s plainly) peakSpacing() float64 {
	first, last, count := -1, -1, 0
	for i := 1; i+1 < len(s.z); i++ {
		if s.z[i] > s.z[i-1] && s.z[i] > s.z[i+1] {
			if first < 0 {
				first = i
			}
			last = i
			count++
		}
	}
	if count < 2 {
		return math.NaN()
	}
	return float64(last-first) / float64(count-1) * s.dx
}

func (s plainly) band() float64 {
	count, up := 0.0, false
	for _, v := range s.z {
		if v > s.args[0] {
			up = true
		} else if v < s.args[1] && up {
			up = false
			count++
		}
	}
	return count / s.length() * 1e4
}

// TestSecondImplementation: in every edition, on random profiles, both implementations agree. The worst deviation of each group is
// printed with -v.
func TestSecondImplementation(t *testing.T) {
	worst, compared := map[string]float64{}, map[string]int{}
	for seed := range uint64(18) {
		rng := rand.New(rand.NewPCG(seed, 21))
		n := 5 * (40 + rng.IntN(50))
		z := make([]float64, n)
		h, pull := 0.0, []float64{0, 0.5, 0.8, 0.95}[seed%4]
		for i := range z {
			h = pull*h + rng.NormFloat64()
			z[i] = h
			switch {
			case seed >= 15: // a wave that dominates
				z[i] += 5 * math.Sin(2*math.Pi*float64(i)/float64(20+seed))
			case seed >= 12: // a smooth plateau with deep pits
				z[i] = min(0.2*rng.NormFloat64(), 1+2*rng.NormFloat64())
			}
		}
		z = minus(z, average(z))
		in := params.Input{Z: z, Dx: 0.5 + rng.Float64(), Section: n / 5}
		for _, edition := range standards.EditionIDs() {
			for _, letter := range []byte("PRW") {
				calls := params.Defaults(edition, letter)
				for i, v := range params.Evaluate(&in, calls...) {
					p := calls[i].Parameter
					f, ok := secondOf[p.Key]
					if !ok {
						continue
					}
					s := plainly{z: z, dx: in.Dx, n: in.Section, over: calls[i].Meaning().Over, args: calls[i].Args}
					want := f(s, edition != standards.ISO21920)
					if math.IsNaN(want) || math.IsNaN(v.Value) {
						if math.IsNaN(want) != math.IsNaN(v.Value) {
							t.Errorf("seed %d, %s: %s = %v, second %v: %s", seed, edition, v.Symbol, v.Value, want, v.Reason)
						}
						continue
					}
					compared[p.Key]++
					d := math.Abs(v.Value-want) / max(1e-3, math.Abs(want))
					worst[p.Group] = max(worst[p.Group], d)
					if d > 1e-9 {
						t.Errorf("seed %d, %s: %s = %v, second %v", seed, edition, v.Symbol, v.Value, want)
					}
				}
			}
		}
	}
	var without []string
	for _, p := range params.Catalogue() {
		if compared[p.Key] == 0 {
			without = append(without, p.Key)
		}
	}
	if len(without) > 0 {
		t.Errorf("without a second implementation: %v", without)
	}
	var families []string
	for group, d := range worst {
		families = append(families, fmt.Sprintf("%s %.0e", strings.ToLower(group), d))
	}
	slices.Sort(families)
	t.Logf("worst relative deviations: %s", strings.Join(families, ", "))
}

// TestElementsWithTies: where parts are equally high the leftmost goes first, by both rules.
func TestElementsWithTies(t *testing.T) {
	for seed := range uint64(300) {
		rng := rand.New(rand.NewPCG(seed, 22))
		n := 5 * (20 + rng.IntN(40))
		z := make([]float64, n)
		for i := range z {
			z[i] = math.Round(1.4*rng.NormFloat64()*(1+9*float64(rng.IntN(2)*rng.IntN(2)))) + 0.5 // many equal, none 0
		}
		in := params.Input{Z: z, Dx: 1, Section: n / 5}
		for _, edition := range []standards.EditionID{standards.ISO21920, standards.ISO4287} {
			for _, call := range params.Defaults(edition, 'R') {
				if key := call.Parameter.Key; key != "Rsm" && key != "Rc" && key != "Rsmq" {
					continue
				}
				s := plainly{z: z, dx: 1, n: in.Section, over: call.Meaning().Over}
				got, want := params.Evaluate(&in, call)[0].Value, secondOf[call.Parameter.Key](s, edition != standards.ISO21920)
				if math.Abs(got-want) > 1e-9*want {
					t.Errorf("seed %d, %s of %s = %v, second %v", seed, call.Symbol, edition, got, want)
				}
			}
		}
	}
}

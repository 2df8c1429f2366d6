package outputs

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/synth"
)

// sweep are sizes from one to another, each the same factor above the last.
func sweep(from, to float64, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = from * math.Pow(to/from, float64(i)/float64(n-1))
	}
	return rounded(list)
}

// with are heights after a change.
func with(z []float64, change func(z []float64)) []float64 {
	z = slices.Clone(z)
	change(z)
	return rounded(z)
}

// A trace with one fault each, at several places, in sizes about each limit from which it is told.
func TestFaults(t *testing.T) {
	keep(t, "faults", func(p *page) {
		base := ground(600)
		usual := inspect.Conditions{Short: 2.5, Long: 80, Section: 80, Sections: 3}
		look := func(d *digest, z []float64, dx float64, c inspect.Conditions) {
			d.put(inspect.Look(roughness.Profile{Z: z, Spacing: dx}, c))
		}
		// family is a line of the record: one fault in many sizes and places.
		family := func(name string, make func(put func(z []float64))) {
			var d digest
			make(func(z []float64) { look(&d, z, 0.5, usual) })
			p.digest(name, &d)
		}
		places := func(n, width int) []int {
			return []int{0, 1, 2, 3, n / 2, n - width - 3, n - width - 2, n - width - 1, n - width}
		}
		for side, sign := range map[string]float64{"top": 1, "bottom": -1} {
			family("flat "+side, func(put func([]float64)) {
				for _, width := range []int{1, 2, 3, 4, 5, 6, 7, 9, 10, 11, 12, 13, 15, 16} {
					for _, between := range []int{0, 1, 2, 3, 4} {
						for k, at := range places(len(base), width) {
							if k != 4 && (between > 1 || width > 5) {
								continue
							}
							put(with(base, func(z []float64) {
								for i := range width {
									z[at+i] = 3 * sign
								}
								for i := range between {
									z[100+i] = 0.123456
								}
								if width == 5 { // more points at the limit, not in a row
									z[40], z[60] = 3*sign, 3*sign
								}
							}))
						}
					}
				}
				// coarse steps, and tops that fall off by a few of them
				for _, step := range []float64{0.005, 0.02, 0.04, 0.2} {
					for fall := 1; fall < 6; fall++ {
						for _, width := range []int{5, 12, 30} {
							put(with(base, func(z []float64) {
								for i := range z {
									z[i] = math.Round(min(max(z[i], -0.8), 0.8)/step) * step
								}
								limit := 1.2
								for i := range width {
									z[300+i] = sign * limit
								}
								z[299], z[300+width] = sign*(limit-float64(fall)*step), sign*(limit-float64(fall+1)*step)
							}))
						}
					}
				}
			})
		}
		family("gap beside a flat top", func(put func([]float64)) {
			for at := 298; at < 312; at += 3 {
				put(with(base, func(z []float64) {
					for i := range 8 {
						z[301+i] = 3
					}
					z[at] = math.NaN()
				}))
			}
		})
		family("filled ends", func(put func([]float64)) {
			for _, n := range []int{1, 2, 7, 8, 9, 10, 11, 12, 13, 200, 590, 596, 597, 598, 599} {
				for _, inside := range []int{1, 2, 3, 4} {
					for tail := range 3 {
						put(with(base, func(z []float64) {
							for i := range inside {
								z[300+i] = 0.25
							}
							for i := range n {
								if tail != 1 {
									z[i] = z[0]
								}
								if tail > 0 {
									z[len(z)-1-i] = z[len(z)-1]
								}
							}
						}))
					}
				}
			}
		})
		for n := 98; n < 103; n++ {
			family(fmt.Sprint("steps ", n), func(put func([]float64)) {
				for _, step := range sweep(0.01, 0.06, 45) {
					put(with(base[:n], func(z []float64) {
						for i := range z {
							z[i] = math.Round(z[i]/step) * step
						}
					}))
				}
			})
		}
		family("steps that some heights do not keep", func(put func([]float64)) {
			for _, off := range []float64{0, 0.012, 0.016, 0.0185, 0.0195, 0.0205, 0.0215, 0.025, 0.3, 0.48, 0.51, 0.981, 0.985} {
				for odd := range 6 {
					put(with(base, func(z []float64) {
						for i := range z {
							z[i] = float64(i%101) / 20
							if i%101 < 2*odd && i < 101 {
								z[i] += off / 20
							}
						}
					}))
				}
			}
			for _, different := range []int{1, 2, 3, 4} {
				put(with(base, func(z []float64) {
					for i := range z {
						z[i] = float64(i % different)
					}
				}))
			}
		})
		for _, n := range []int{18, 19, 20, 21, 22, 49, 50, 51, 99, 100, 101} {
			family(fmt.Sprint("spike in ", n, " points"), func(put func([]float64)) {
				for _, at := range []int{0, 1, 2, n / 2, n - 3, n - 2, n - 1} {
					put(with(base[:n], func(z []float64) { z[at] += 9 }))
				}
			})
		}
		family("spikes of all sizes", func(put func([]float64)) {
			for _, size := range sweep(0.2, 4, 60) {
				put(with(base, func(z []float64) { z[222] += size }))
				put(with(base, func(z []float64) { z[222], z[223] = z[222]-size, z[223]-size }))
			}
			smooth := synth.Sine{Amplitude: 1, Wavelength: 55}.Heights(600, 0.5)
			for _, size := range sweep(0.1, 1, 40) {
				put(with(smooth, func(z []float64) { z[222] += size }))
			}
		})
		family("spikes beside a slope, double and triple", func(put func([]float64)) {
			for _, width := range []int{1, 2, 3} {
				for _, apart := range append(sweep(0.5, 4, 24), 0) {
					for _, second := range []float64{1, 0.3, 0, -1} {
						put(with(make([]float64, 400), func(z []float64) {
							for i := range z {
								z[i] = base[i] / 10
								if i > 222 {
									z[i] += apart
								}
							}
							for i := range width {
								z[222+i] = 6 * []float64{1, second, 1}[i]
							}
						}))
					}
				}
			}
		})
		family("many spikes", func(put func([]float64)) {
			for count := 1; count < 16; count++ {
				for _, every := range []int{3, 4, 31} {
					put(with(base, func(z []float64) {
						for i := range count {
							z[20+every*i] += 5 + float64(i%4)
						}
					}))
				}
			}
		})
		for _, n := range []int{198, 199, 200, 201, 202, 600} {
			family(fmt.Sprint("jump in ", n, " points"), func(put func([]float64)) {
				for _, at := range []int{1, 48, 49, 50, 51, 52, n / 2, n - 52, n - 51, n - 50, n - 49, n - 48, n - 1} {
					put(with(base[:n], func(z []float64) {
						for i := at; i < n; i++ {
							z[i] += 9
						}
					}))
				}
			})
		}
		family("jumps of all sizes", func(put func([]float64)) {
			for _, size := range sweep(0.8, 6, 60) {
				for _, at := range []int{200, 301} {
					put(with(base, func(z []float64) {
						for i := at; i < len(z); i++ {
							z[i] -= size
						}
					}))
				}
			}
		})
		family("jumps between parts of other roughness, and jumps that do not stay", func(put func([]float64)) {
			for _, size := range sweep(1, 8, 22) {
				for _, rough := range []float64{0.05, 1, 3} {
					put(with(base, func(z []float64) {
						for i := 300; i < len(z); i++ {
							z[i] = rough*z[i] + size
						}
					}))
				}
			}
			for _, back := range append(sweep(0.05, 1.5, 30), -0.3, -0.4, -0.45, -0.49, -0.51, -0.55, -0.6, -0.8) {
				for _, late := range []int{1, 5, 12, 24, 25, 26} {
					put(with(base, func(z []float64) {
						for i := range z {
							z[i] = z[i]/50 + 2*float64(i/300)
							if i >= 300+late {
								z[i] -= 2 * back
							}
						}
					}))
				}
			}
			for first := 240; first < 300; first += 4 { // two jumps in reach of each other
				put(with(base, func(z []float64) {
					for i := first; i < len(z); i++ {
						z[i] += 5
						if i >= 300 {
							z[i] += 4 + float64(first%3)
						}
					}
				}))
			}
		})
		family("slopes, bends and sharp peaks", func(put func([]float64)) {
			for _, size := range sweep(3, 60, 60) {
				put(with(base, func(z []float64) {
					for i := range z {
						z[i] += size * float64(i) / float64(len(z))
					}
				}))
				put(with(base[:599], func(z []float64) {
					for i := range z {
						x := float64(i)/299 - 1
						z[i] -= size * x * x / 4
					}
				}))
				put(with(base, func(z []float64) {
					for i := range z {
						z[i] = math.Exp(z[i]*size/30) - 0.3*z[i]
					}
				}))
			}
		})
		zero := inspect.Conditions{Filtered: true, Long: 80}
		var signs, dense, waves, filtered, mixed digest
		for _, shift := range []float64{-1e-6, 0, 1e-6} {
			z := with(base, func(z []float64) {
				low := slices.Min(z)
				for i := range z {
					z[i] += shift - low
				}
			})
			look(&signs, z, 0.5, zero)
			look(&signs, with(z, func(z []float64) {
				for i := range z {
					z[i] = -z[i]
				}
			}), 0.5, zero)
		}
		p.digest("one sign", &signs)
		for _, share := range []float64{0.2, 0.24, 0.249999999999, 0.25, 0.250000000001, 0.26, 0.3} {
			look(&dense, base, share, inspect.Conditions{Short: 1})
			look(&dense, base, share*0.8, inspect.Conditions{Short: 1, Long: 40})
		}
		for _, section := range []float64{50, 59.99, 60, 60.01, 75, 99, 100, 101, 150, 300, 300.1, 301} {
			for sections := range 7 {
				look(&dense, base, 0.5, inspect.Conditions{Section: section, Sections: sections})
			}
		}
		p.digest("spacing and length", &dense)
		for _, n := range []int{62, 63, 64, 65, 72, 97, 600} {
			for cycles := 1.0; cycles < 9; cycles += 0.45 {
				for _, share := range sweep(0.3, 1, 9) {
					look(&waves, with(base[:n], func(z []float64) {
						for i := range z {
							z[i] = z[i] * share / 2
							x := math.Mod(cycles*float64(i)/float64(n), 1)
							z[i] += 2*math.Abs(2*x-1) - 1
						}
					}), 0.5, inspect.Conditions{})
				}
			}
		}
		p.digest("waves of few cycles", &waves)
		long, err := filter.Find("gaussian").New(40).Apply(nil, base, 0.5)
		if err != nil {
			t.Fatal(err)
		}
		for _, left := range append(sweep(0.05, 1, 30), 0) {
			for k, more := range [][2]float64{{0, 0}, {0.045, 0}, {0, 0.16}, {0.03, 0.08}, {-0.037, 0.11}, {0.034, -0.12}, {0.042, 0.09}} {
				z := with(base, func(z []float64) {
					for i := range z {
						z[i] += (left-1)*long[i] + more[0] + more[1]*(float64(i)/600-0.5)
					}
				})
				for _, cutoff := range []float64{25, 40, 60} {
					if k == 0 || cutoff == 40 {
						look(&filtered, z, 0.5, inspect.Conditions{Long: cutoff})
					}
				}
				if k == 0 {
					look(&filtered, z, 0.5, inspect.Conditions{Long: 40, Filtered: true})
				}
			}
		}
		p.digest("long waves taken away", &filtered)
		white := rounded(synth.Noise{Sigma: 0.5, Seed: 8}.Heights(1200, 0.5))
		short, err := filter.Find("gaussian").New(10).Apply(nil, white, 0.5)
		if err != nil {
			t.Fatal(err)
		}
		for _, left := range append(sweep(0.005, 0.4, 40), 0) {
			z := with(short, func(z []float64) {
				for i := range z {
					z[i] += left * (white[i] - z[i])
				}
			})
			for _, cutoff := range []float64{2.5, 5, 10, 14} {
				look(&mixed, z, 0.5, inspect.Conditions{Short: cutoff})
			}
			look(&mixed, z[:200], 0.5, inspect.Conditions{Short: 10})
		}
		for n := 64; n < 260; n += 7 {
			look(&mixed, rounded(short[:n]), 0.5, inspect.Conditions{Short: 10, Long: 22})
		}
		p.digest("short waves taken away", &mixed)
		for i, z := range [][]float64{{}, {1}, {1, 2}, {1, 2, 3}, {0, 0, 0}, {1, 1, 1 + 1e-12}, {1, 1, 1 + 1e-11}, {math.NaN(), 1}, {math.NaN()}, {1, math.NaN(), math.NaN(), 2, math.NaN(), 3}, {math.NaN(), math.NaN(), 2, 3, math.NaN()}} {
			for _, dx := range []float64{0.5, 0, -1, math.Inf(1), math.NaN()} {
				p.sum(fmt.Sprint("few points ", i+1, " ", dx), inspect.Look(roughness.Profile{Z: z, Spacing: dx}, usual), inspect.Clips(z), inspect.Clipped(z))
			}
		}
		slices.Sort(p.lines)
	})
}

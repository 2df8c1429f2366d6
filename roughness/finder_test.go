package roughness_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

func TestParsePrinted(t *testing.T) {
	for text, want := range map[string]roughness.Printed{
		"0.42":   {Symbol: "Ra", Value: 0.42, Half: 0.005},
		"0,420":  {Symbol: "Ra", Value: 0.42, Half: 0.0005},
		"−3":     {Symbol: "Ra", Value: -3, Half: 0.5},
		"1.2e-3": {Symbol: "Ra", Value: 0.0012, Half: 0.00005},
	} {
		got, err := roughness.ParsePrinted("Ra", text)
		if err != nil || got.Value != want.Value || got.Half < want.Half*(1-1e-12) || got.Half > want.Half*(1+1e-12) {
			t.Errorf("%s: %+v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "x", "NaN", "0x1p2", "1.2.3"} {
		if _, err := roughness.ParsePrinted("Ra", text); err == nil {
			t.Errorf("%q is read", text)
		}
	}
}

func trace(seed uint64) roughness.Profile {
	z := synth.Sum{
		synth.Correlated{Sigma: 0.4, Length: 9, Seed: seed}, synth.Correlated{Sigma: 0.2, Length: 3.5, Seed: seed + 1000},
		synth.Sine{Amplitude: 0.3, Wavelength: 1700 + float64(seed%7)*150, Phase: 0.3}, synth.Line{Offset: 1, Slope: 0.0004},
	}.Heights(3001, 1)
	return roughness.Profile{Z: z, Spacing: 1}
}

// Settings planted by seed over the whole grid are among the exact fits every time, with one value given and with two. The values of
// the whole grid come from a search that everything fits; one plant of each trace is searched for again by itself.
func TestFindHoldsPlanted(t *testing.T) {
	traces, trials := 2, 200
	if testing.Short() || underRace {
		traces, trials = 1, 20
	}
	r := rand.New(rand.NewPCG(7, 11))
	sizes, ranks := map[int][]int{}, map[int][]int{}
	anything := []roughness.Printed{{Symbol: "Ra", Half: 1e9}, {Symbol: "Rz", Half: 1e9}}
	for k := range traces {
		p := trace(uint64(k))
		g := roughness.DefaultGrid(p)
		if testing.Short() || underRace {
			g.Forms, g.Short = g.Forms[:2], g.Short[:2]
		}
		all, err := roughness.Find(context.Background(), p, anything, nil, g)
		if err != nil || len(all.Fits) != all.Tried {
			t.Fatalf("%d fits of %d, %v", len(all.Fits), all.Tried, err)
		}
		for trial := range trials / traces {
			plant := all.Fits[r.IntN(len(all.Fits))]
			// What was planted evaluates to the values that the search reports for it.
			e, err := roughness.Evaluate(p, &plant.Settings)
			if err != nil || math.Abs(e.Values[0].Value-plant.Values[0]) > 1e-12 || math.Abs(e.Values[1].Value-plant.Values[1]) > 1e-12 {
				t.Fatalf("the search has %v, an evaluation %v, %v", plant.Values, e.Values, err)
			}
			for n := 1; n <= 2; n++ {
				var printed []roughness.Printed
				for _, v := range e.Values[:n] {
					x, err := roughness.ParsePrinted(v.Symbol, strconv.FormatFloat(v.Value, 'f', 4, 64))
					if err != nil {
						t.Fatal(err)
					}
					printed = append(printed, x)
				}
				var fits []roughness.Fit
				for _, f := range all.Fits {
					if !slices.ContainsFunc(printed, func(x roughness.Printed) bool {
						return math.Abs(f.Values[slices.Index([]string{"Ra", "Rz"}, x.Symbol)]-x.Value) > x.Half*(1+1e-9)
					}) {
						fits = append(fits, f)
					}
				}
				if trial == 0 && n == 2 {
					f, err := roughness.Find(context.Background(), p, printed, nil, g)
					if err != nil || len(f.Fits) != len(fits) {
						t.Errorf("%d fits searched for, %d among all, %v", len(f.Fits), len(fits), err)
					} else {
						fits = f.Fits
					}
				}
				rank := slices.IndexFunc(fits, func(f roughness.Fit) bool {
					s, want := f.Settings, plant.Settings
					s.Parameters, want.Parameters = nil, nil
					return reflect.DeepEqual(s, want)
				})
				if rank < 0 {
					t.Errorf("%d fits, the planted settings are not among them: %+v", len(fits), plant.Settings)
				}
				sizes[n] = append(sizes[n], len(fits))
				ranks[n] = append(ranks[n], rank+1)
			}
		}
	}
	for n := 1; n <= 2; n++ {
		slices.Sort(sizes[n])
		slices.Sort(ranks[n])
		m := len(sizes[n])
		t.Logf("%d values of 4 decimals, %d trials: exact fits median %d, largest %d; rank of the planted median %d, largest %d",
			n, m, sizes[n][m/2], sizes[n][m-1], ranks[n][m/2], ranks[n][m-1])
	}
}

func TestFindIsHonest(t *testing.T) {
	p := trace(3)
	g := roughness.DefaultGrid(p)
	none, err := roughness.Find(context.Background(), p, []roughness.Printed{{Symbol: "Ra", Value: 99, Half: 0.005}}, nil, g)
	if err != nil || len(none.Fits) != 0 || len(none.Closest) != 5 || none.String() != fmt.Sprintf("None of %d combinations gives the printed values.", none.Tried) {
		t.Errorf("%v, %v", none, err)
	}
	if none.Tried < 2000 || none.Tried+none.Skipped != g.Size() {
		t.Errorf("%d tried and %d skipped of %d", none.Tried, none.Skipped, g.Size())
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := roughness.Find(ctx, p, []roughness.Printed{{Symbol: "Ra", Value: 1, Half: 0.5}}, nil, g); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if _, err := roughness.Find(context.Background(), p, nil, nil, g); !errors.Is(err, roughness.ErrNothingPrinted) {
		t.Errorf("nothing printed: %v", err)
	}
}

// All combinations of the default grid, one value given.
func BenchmarkFind(b *testing.B) {
	d := synth.Demos()[0]
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	g := roughness.DefaultGrid(p)
	b.ReportMetric(float64(g.Size()), "combinations")
	for b.Loop() {
		f, err := roughness.Find(context.Background(), p, []roughness.Printed{{Symbol: "Ra", Value: 0.41, Half: 0.005}}, nil, g)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(f.Tried), "tried")
	}
}

package filter_test

import (
	"encoding/binary"
	"math"
	"testing"

	"example.com/furrow/filter"
)

// FuzzFilters feeds any finite heights, spacing and size to every filter and form: the result is finite or an error, never a
// panic.
func FuzzFilters(f *testing.F) {
	bytes := func(v ...float64) []byte {
		var b []byte
		for _, x := range v {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
		}
		return b
	}
	f.Add(bytes(1, 2, 3, 4, 5), 1.0, 8.0)
	f.Add(bytes(0, 0, 0, 1e100, -1e100), 0.5, 1.0)
	f.Add(bytes(1e-300, -1e-300, 5e-324, 0), 1e-99, 1e99)
	f.Add(bytes(1e308, -1e308), 1.0, 2.0)
	f.Add(bytes(rough(40, 1)...), 0.3, 3.7)
	f.Add(bytes(rough(200, 2)...), 1.0, 90.0)
	f.Add(bytes(1, 1, 1, 1e9, 1, 1, 1, 1, 1), 2.0, 4.0)
	f.Add([]byte{}, 1.0, 1.0)
	f.Add(bytes(3), 7.0, 1e9)
	f.Fuzz(func(t *testing.T, data []byte, dx, size float64) {
		if len(data) > 8*400 {
			data = data[:8*400]
		}
		var z []float64
		for ; len(data) >= 8; data = data[8:] {
			if v := math.Float64frombits(binary.LittleEndian.Uint64(data)); !math.IsNaN(v) && !math.IsInf(v, 0) {
				z = append(z, v)
			}
		}
		finite := func(what string, w []float64, err error) {
			if err != nil {
				if w != nil {
					t.Fatalf("%s: both a result and %v", what, err)
				}
				return
			}
			if len(w) != len(z) {
				t.Fatalf("%s: %d points of %d", what, len(w), len(z))
			}
			for i, v := range w {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%s: %v at %d of %v, dx %v, size %v", what, v, i, z, dx, size)
				}
			}
		}
		weight := make([]float64, len(z))
		use := make([]bool, len(z))
		for i, v := range z {
			use[i] = math.Float64bits(v)%5 > 0
			weight[i] = float64(math.Float64bits(v)%7) / 6
		}
		filters := []filter.Filter{
			filter.Gaussian{Cutoff: size, Closed: true}, filter.Spline{Cutoff: size, Closed: true},
			filter.Spline{Cutoff: size, Tension: 0.6}, filter.RobustGaussian{Cutoff: size, Order: filter.Order0}, filter.TwoRCZeroPhase{Cutoff: size, Percent: 50},
		}
		for _, i := range filter.All() {
			filters = append(filters, i.New(size))
		}
		for e := filter.Retain; e <= filter.Discard; e++ {
			filters = append(filters, filter.Gaussian{Cutoff: size, Ends: e})
		}
		for _, g := range filters {
			w, err := g.Apply(nil, z, dx)
			finite(nameOf(g), w, err)
			if h, ok := g.(filter.Weighted); ok {
				w, err = h.ApplyWeighted(nil, z, weight, dx)
				finite(nameOf(g)+" weighted", w, err)
			}
		}
		for _, c := range forms {
			w, err := c.f.Fit(nil, z, dx, use)
			finite(c.name, w, err)
		}
		w, err := filter.Tip{Radius: size}.Trace(nil, z, dx)
		finite("tip", w, err)
		if _, _, err := (filter.Skid{Radius: size, Lead: 3 * dx}).Shown(z, dx); err == nil && len(z) < 4 {
			t.Fatal("a skid beyond the profile")
		}
	})
}

package filter_test

import (
	"fmt"
	"testing"

	"example.com/furrow/filter"
)

// benchmarked are the filters at spacing 0.5 and cut-off 800, or a like radius.
var benchmarked = []struct {
	name string
	f    filter.Filter
}{
	{"gaussian", filter.Gaussian{Cutoff: 800}},
	{"gaussian-short", filter.Gaussian{Cutoff: 2.5}},
	{"gaussian-regression-2", filter.GaussianRegression{Cutoff: 800, Order: 2}},
	{"robust-gaussian-2", filter.RobustGaussian{Cutoff: 800}},
	{"valley-suppression", filter.ValleySuppression{Cutoff: 800}},
	{"spline", filter.Spline{Cutoff: 800}},
	{"robust-spline", filter.RobustSpline{Cutoff: 800}},
	{"two-rc", filter.TwoRC{Cutoff: 800}},
	{"two-rc-zero-phase", filter.TwoRCZeroPhase{Cutoff: 800}},
	{"disk-closing", filter.DiskClosing{Radius: 5000}},
	{"segment-closing", filter.SegmentClosing{Length: 400}},
}

func BenchmarkApply(b *testing.B) {
	for _, c := range benchmarked {
		for _, n := range []int{8000, 80000, 1000000} {
			b.Run(fmt.Sprintf("%s/%d", c.name, n), func(b *testing.B) {
				z := rough(n, 1)
				dst := make([]float64, n)
				b.ReportAllocs()
				for b.Loop() {
					if _, err := c.f.Apply(dst, z, 0.5); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/point")
			})
		}
	}
}

func BenchmarkFit(b *testing.B) {
	for _, c := range forms {
		for _, n := range []int{8000, 80000, 1000000} {
			b.Run(fmt.Sprintf("%s/%d", c.name, n), func(b *testing.B) {
				base := arc(n, 4000/float64(n), 5000, 1)
				for i, v := range rough(n, 2) {
					base[i] += v
				}
				b.ReportAllocs()
				for b.Loop() {
					if _, err := c.f.Fit(nil, base, 4000/float64(n), nil); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

func BenchmarkOthers(b *testing.B) {
	for _, n := range []int{8000, 80000, 1000000} {
		z := rough(n, 2)
		run := func(name string, f func() error) {
			b.Run(fmt.Sprintf("%s/%d", name, n), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if err := f(); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
		run("tip", func() error { _, err := filter.Tip{Radius: 2}.Trace(nil, z, 0.5); return err })
		run("skid", func() error { _, _, err := filter.Skid{Radius: 5000, Lead: 2000}.Shown(z, 0.5); return err })
	}
}

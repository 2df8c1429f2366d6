package filter_test

import (
	"fmt"
	"math"

	"example.com/furrow/filter"
)

// A wave as long as the cut-off is halved; the roughness keeps the other half.
func ExampleGaussian() {
	const dx, cutoff = 0.5, 800 // µm
	z := make([]float64, 9600)
	for i := range z {
		z[i] = math.Cos(2 * math.Pi * float64(i) * dx / cutoff)
	}
	w, err := filter.Gaussian{Cutoff: cutoff}.Apply(nil, z, dx)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("crest %.4f, mean line %.4f, roughness %.4f\n", z[4800], w[4800], z[4800]-w[4800])
	// Output: crest 1.0000, mean line 0.5000, roughness 0.5000
}

// A ramp leaves no roughness to the last point: the default treatment of the ends keeps straight lines.
func ExampleGaussian_ends() {
	z := make([]float64, 21)
	for i := range z {
		z[i] = float64(i)
	}
	for _, ends := range []filter.Ends{filter.Retain, filter.Retain0, filter.LineSymmetric} {
		w, _ := filter.Gaussian{Cutoff: 0.8, Ends: ends}.Apply(nil, z, 0.1)
		fmt.Printf("%-15v R at the first point %.3f\n", ends, z[0]-w[0]+0)
	}
	// Output:
	// retain          R at the first point 0.000
	// retain-0        R at the first point -0.909
	// line-symmetric  R at the first point -1.151
}

// Discard computes all points and says which to cut away.
func ExampleGaussian_Trim() {
	head, tail := filter.Gaussian{Cutoff: 800, Ends: filter.Discard}.Trim(9601, 0.5)
	fmt.Println(head, tail)
	// Output: 800 800
}

// A missing point gets the weight zero; nothing is invented in its place.
func ExampleGaussianRegression() {
	z := []float64{1, 2, 3, math.NaN(), 5, 6, 7}
	weight := []float64{1, 1, 1, 0, 1, 1, 1}
	w, err := filter.GaussianRegression{Cutoff: 4}.ApplyWeighted(nil, z, weight, 1)
	fmt.Printf("%.3f %v\n", w, err)
	// Output: [1.000 2.000 3.000 4.000 5.000 6.000 7.000] <nil>
}

// A groove draws the Gaussian mean line down; the robust filter runs across it.
func ExampleRobustGaussian() {
	z := make([]float64, 2000)
	for i := range z {
		z[i] = 0.1 * math.Sin(float64(i))
		if i >= 990 && i < 1010 {
			z[i] = -5
		}
	}
	plain, _ := filter.Gaussian{Cutoff: 160}.Apply(nil, z, 1)
	robust, report, _ := filter.RobustGaussian{Cutoff: 160}.ApplyReport(nil, z, 1)
	fmt.Printf("in the groove: Gaussian %.2f, robust %.2f\n", plain[1000], robust[1000]+0)
	fmt.Printf("%d points weigh nothing; %v after %d passes\n", report.Excluded, report.Stop, report.Passes)
	// Output:
	// in the groove: Gaussian -1.31, robust 0.00
	// 20 points weigh nothing; settled after 5 passes
}

// The spline keeps the line of this profile to its ends, whatever lies on it.
func ExampleSpline() {
	z := make([]float64, 11)
	for i := range z {
		z[i] = 2 * float64(i)
	}
	w, _ := filter.Spline{Cutoff: 5}.Apply(nil, z, 1)
	fmt.Printf("%.3f\n", w)
	// Output: [0.000 2.000 4.000 6.000 8.000 10.000 12.000 14.000 16.000 18.000 20.000]
}

// One point far off is left behind.
func ExampleRobustSpline() {
	z := []float64{0, 0.1, 0, -0.1, 0, 9, 0, 0.1, 0, -0.1, 0}
	w, _ := filter.RobustSpline{Cutoff: 6}.Apply(nil, z, 1)
	fmt.Printf("%.2f\n", math.Abs(w[5]))
	// Output: 0.00
}

// Of a wave as long as the cut-off, an old instrument showed 75 %, a sixth of a wave early.
func ExampleTwoRC() {
	f := filter.TwoRC{Cutoff: 0.8}
	size, lead := f.Response(0.8)
	head, _ := f.Trim(11200, 0.0005)
	fmt.Printf("%.0f %%, %.0f° early; cut %d points of run-up away\n", 100*size, lead*180/math.Pi, head)
	// Output: 75 %, 60° early; cut 3200 points of run-up away
}

// The percentage names how much of a wave at the cut-off stays in the roughness.
func ExampleTwoRCZeroPhase() {
	for _, percent := range []float64{75, 50} {
		fmt.Printf("%.2f\n", 1-filter.TwoRCZeroPhase{Cutoff: 0.8, Percent: percent}.Transmission(0.8))
	}
	// Output:
	// 0.75
	// 0.50
}

// Grooves over a tenth of the surface draw a Gaussian down by a tenth of their depth, the second stage by a hundredth.
func ExampleValleySuppression() {
	z := make([]float64, 40000)
	for i := range z {
		if i%400 < 40 {
			z[i] = -5
		}
	}
	one, _ := filter.Gaussian{Cutoff: 4000}.Apply(nil, z, 1)
	two, _ := filter.ValleySuppression{Cutoff: 4000}.Apply(nil, z, 1)
	fmt.Printf("%.3f %.3f\n", one[20000], two[20000])
	// Output: -0.500 -0.050
}

// A disk of radius 5 bridges a valley four wide and sinks into it by 5 - √21.
func ExampleDiskClosing() {
	z := []float64{0, 0, 0, 0, -9, -9, -9, 0, 0, 0, 0}
	w, _ := filter.DiskClosing{Radius: 5}.Apply(nil, z, 1)
	fmt.Printf("%.4f\n", w[5])
	// Output: -0.4174
}

// From below, a ridge keeps only what the disk can reach.
func ExampleDiskOpening() {
	z := []float64{0, 0, 0, 0, 9, 9, 9, 0, 0, 0, 0}
	w, _ := filter.DiskOpening{Radius: 5}.Apply(nil, z, 1)
	fmt.Printf("%.4f\n", w[5])
	// Output: 0.4174
}

// Closing, then opening: the pit goes; of the spike, against which the closing leaned two fillets, a hump stays.
func ExampleDiskAlternating() {
	z := make([]float64, 40)
	z[10], z[25] = -9, 9
	w, _ := filter.DiskAlternating{Radius: 3}.Apply(nil, z, 1)
	fmt.Printf("%.2f %.2f\n", w[10], w[25])
	// Output: -0.17 1.53
}

// A level segment fills a valley to its lower rim.
func ExampleSegmentClosing() {
	w, _ := filter.SegmentClosing{Length: 4}.Apply(nil, []float64{2, 2, 2, -5, -9, -5, 1, 1, 1}, 1)
	fmt.Println(w)
	// Output: [2 2 2 1 1 1 1 1 1]
}

// And it cuts a ridge down to its higher foot.
func ExampleSegmentOpening() {
	w, _ := filter.SegmentOpening{Length: 4}.Apply(nil, []float64{2, 2, 2, 5, 9, 5, 1, 1, 1}, 1)
	fmt.Println(w)
	// Output: [2 2 2 2 2 2 1 1 1]
}

// A tip of 2 µm sinks into a slit of 2 µm by 0.268 µm only.
func ExampleTip() {
	const dx = 0.01
	z := make([]float64, 1001)
	for i := range z {
		if x := math.Abs(float64(i-500) * dx); x < 1-dx/2 {
			z[i] = -10
		}
	}
	tip := filter.Tip{Radius: 2}
	trace, _ := tip.Trace(nil, z, dx)
	fmt.Printf("traced depth %.3f\n", -trace[500])
	// Output: traced depth 0.268
}

// With a lead of one whole wave, a skid instrument shows nothing of a wave that its skid follows.
func ExampleSkid() {
	z := make([]float64, 2000)
	for i := range z {
		z[i] = math.Sin(2 * math.Pi * float64(i) / 200)
	}
	for _, lead := range []float64{100, 200} {
		shown, _, _ := filter.Skid{Radius: 1, Lead: lead}.Shown(z, 1)
		most := 0.0
		for _, v := range shown[300:1700] {
			most = max(most, math.Abs(v))
		}
		fmt.Printf("%.2f\n", most)
	}
	// Output:
	// 2.00
	// 0.00
}

// A cylinder traced across: the circle takes it away and tells its radius.
func ExampleCircle() {
	const dx = 0.5 // µm
	z := make([]float64, 8001)
	for i := range z {
		x := float64(i)*dx - 2000
		z[i] = math.Sqrt(12500*12500-x*x) - 12500
	}
	arc, _ := filter.Circle{}.Find(z, dx, nil)
	fmt.Printf("radius %.3f mm, centre at %.3f mm, bulging: %v\n", arc.Radius/1000, arc.X/1000, arc.Convex)
	// Output: radius 12.500 mm, centre at 2.000 mm, bulging: true
}

func ExampleAll() {
	for _, f := range filter.All()[:3] {
		fmt.Printf("%s: %s, %.0f %% at the %s (%s)\n", f.Key, f.Name, 100*f.AtCutoff, f.Size(), f.Source)
	}
	// Output:
	// gaussian: Gaussian, 50 % at the cutoff (ISO 16610-21:2011; ISO 16610-28:2016)
	// gaussian-regression: Gaussian regression, 50 % at the cutoff (ISO 16610-31:2016)
	// robust-gaussian: robust Gaussian regression, 50 % at the cutoff (ISO 16610-31:2016)
}

func ExampleAdvise() {
	fmt.Println(filter.Advise(9601, 0.5, 800))
	fmt.Println(filter.Advise(1000, 0.5, 800))
	// Output:
	// <nil>
	// profile is shorter than the cut-off, so that its mean line says little
}

// A gap of one point may be bridged, one of three may not.
func ExampleBridge() {
	nan := math.NaN()
	b, err := filter.Bridge(nil, []float64{1, nan, 3, 4, 5}, 0.5, 1)
	fmt.Println(b.Z, b.Filled, err)
	_, err = filter.Bridge(nil, []float64{1, nan, nan, nan, 5}, 0.5, 1)
	fmt.Println(err)
	// Output:
	// [1 2 3 4 5] [{1 2}] <nil>
	// filter: points 1 to 3 are missing: a gap of 1.5, and at most 1 may be bridged
}

// A tilt of a profile that is as high as it is long: the residual is still taken in z.
func ExampleTotalLine() {
	w, _ := filter.TotalLine{}.Fit(nil, []float64{0, 1, 2, 3}, 1, nil)
	fmt.Printf("%.3f\n", w)
	// Output: [0.000 1.000 2.000 3.000]
}

package decide_test

import (
	"fmt"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// A supplier reports Rz of ten ground rods (invented) against an upper limit of 3.2 µm.
func ExampleCapabilityOf() {
	c, err := decide.CapabilityOf([]float64{2.1, 2.3, 1.9, 2.2, 2.6, 2.0, 2.4, 2.2, 2.1, 2.5}, standards.Bound{Symbol: "Rz", Value: 3.2})
	fmt.Printf("%.2f, at least %.2f, %v\n", c.Index, c.LowerEnd, err)
	fmt.Println(c.Note)
	// Output:
	// 1.46, at least 0.87, <nil>
	// One-sided: roughness is bounded at 0 and usually skewed. 10 values cannot show a distribution; 25 to 50 are usual.
}

// Two places on a rod, traced three times each: what does the instrument repeat with, and what do the places differ by?
func ExampleSplitNested() {
	n, err := decide.SplitNested([][]float64{{0.80, 0.82, 0.81}, {0.95, 0.94, 0.96}})
	fmt.Printf("repeats %.3f µm, places %.3f µm, %v\n", n.Repeatability, n.Between, err)
	// Output: repeats 0.010 µm, places 0.099 µm, <nil>
}

// Two parts, two operators, two traces each.
func ExampleStudyGage() {
	g, err := decide.StudyGage([][][]float64{{{1.00, 1.02}, {1.01, 1.03}}, {{2.00, 1.98}, {2.02, 2.00}}})
	fmt.Printf("gage %.3f µm of %.3f µm, %.0f categories, %v\n", g.Gage, g.Total, g.NDC, err)
	// Output: gage 0.015 µm of 0.697 µm, 64 categories, <nil>
}

// How often does the 16 % rule accept a surface of which 16 % of the values are above the limit, and none below 70 % of it?
func ExampleSixteenCharacteristic() {
	c, err := decide.SixteenCharacteristic(0.16, 0)
	fmt.Printf("accepted %.1f %%, %.1f traces, %v\n", 100*c.Accept, c.Traces, err)
	// Output: accepted 84.7 %, 4.8 traces, <nil>
}

// The noise of the instrument, Rq0 on a flat, is taken out of Rq in squares.
func ExampleWithoutNoise() {
	rq, err := decide.WithoutNoise("Rq", 0.050, 0.030)
	fmt.Printf("%.3f µm, %v\n", rq, err)
	// Output: 0.040 µm, <nil>
}

package params_test

import (
	"errors"
	"fmt"
	"strconv"

	"example.com/furrow/params"
)

// The ten ordinates of Sharma, A Textbook of Production Engineering, example 11.2: 0.23 and 0.248 µm.
func ExampleRq() {
	z := []float64{.15, .25, .35, .25, .30, .15, .10, .30, .35, .10}
	fmt.Printf("Ra = %.2f, Rq = %.3f\n", params.Ra(z), params.Rq(z))
	// Output: Ra = 0.23, Rq = 0.248
}

// The 18 peaks and troughs of a classic exercise, as one section: the maximum height is not the ten-point height 20.4.
func ExampleRz() {
	z := []float64{35, 22, 38, 26, 35, 18, 43, 28, 32, 21, 39, 26, 41, 22, 29, 18, 36, 16}
	fmt.Println(params.Rz(z, 0))
	// Output: 27
}

func ExampleEvaluate() {
	in := params.Input{
		Z:       []float64{-1, 2, -3, 2, -1, 3, -2, 1, -2, 1, -1, 1},
		Dx:      10,
		Section: 6,
	}
	var calls []params.Call
	for _, name := range []string{"Ra", "Rz", "Rsm", "Rmr(0.5)", "Rt"} {
		call, err := params.Lookup("iso-21920", 'R', name)
		if err != nil {
			fmt.Println(err)
			return
		}
		calls = append(calls, call)
	}
	for _, v := range params.Evaluate(&in, calls...) {
		fmt.Printf("%s = %.4g %s   %s\n", v.Symbol, v.Value, v.Unit, v.Source)
	}
	// Output:
	// Ra = 1.667 µm   ISO 21920-2:2021, 4.2.2
	// Rz = 4.5 µm   ISO 21920-2:2021, 5.1.6
	// Rsm = 20.3 µm   ISO 21920-2:2021, 5.2
	// Rmr(0.5) = 33.86 %   ISO 21920-2:2021, 4.5.1
	// Rt = 6 µm   ISO 21920-2:2021, 4.2.6
}

// A name that means different things is asked back.
func ExampleLookup() {
	_, err := params.Lookup("iso-21920", 'R', "Rmax")
	var name *params.NameError
	if errors.As(err, &name) {
		fmt.Println(name.Name, name.Reason+";", name.Question+":")
		for _, r := range name.Readings {
			fmt.Println("-", r)
		}
	}
	// Output:
	// Rmax means different things; which height is meant:
	// - Rzx of iso-21920 (largest pit to peak of a section, wherever it stands)
	// - Rt of iso-21920 (lowest pit to highest peak of the evaluation length)
	// - Rmax of asme-b46.1 (largest pit to peak of the sampling lengths)
	// - Rmax of jis-b0601-1982 (pit to peak of the profile without a cut-off)
}

func ExampleConstruct() {
	in := params.Input{Z: []float64{-1, 2, -3, 2, -1, 3, -2, 1, -2, 1, -1, 1}, Dx: 10, Section: 6}
	call, _ := params.Lookup("iso-21920", 'R', "Rz")
	c, err := params.Construct(&in, call)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range c.Steps {
		fmt.Println(s.Text)
	}
	for _, a := range c.Worked {
		fmt.Println(a.Symbol, "=", a.Print(func(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }), "=", a.Result)
	}
	// Output:
	// section 1: peak 3.00 µm at 0.050 mm, pit -3.00 µm at 0.020 mm
	// section 2: peak 1.00 µm at 0.070 mm, pit -2.00 µm at 0.060 mm
	// Rz = (6.0 + 3.0) / 2 = 4.5
}

// A name on an old drawing, and what it may stand for.
func ExampleSynonyms() {
	for _, s := range params.Synonyms() {
		if s.Name == "RzDIN" {
			fmt.Println(s.Name, s.Readings[0])
		}
	}
	// Output: RzDIN Rz of iso-21920 (pit to peak of a section, mean of the sections)
}

func ExampleWatershed() {
	z := []float64{0, 2, 1.8, 1.9, 0, 3, 0}
	for _, x := range params.Watershed(z, 0.5) {
		fmt.Println(x.At, x.Z, x.Peak)
	}
	// Output:
	// 1 2 true
	// 4 0 false
	// 5 3 true
}

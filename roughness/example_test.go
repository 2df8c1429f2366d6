package roughness_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"math"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// A program reads a long trace from a file of 8-byte numbers and asks for the values over all of it but the ends.
func ExampleEvaluator_EvaluateLong() {
	var file bytes.Buffer // invented: a wave of 80 µm, one height each 0.5 µm, along 40 mm
	for i := range 80000 {
		binary.Write(&file, binary.LittleEndian, math.Sin(2*math.Pi*float64(i)/160))
	}
	start := 800.0
	evaluator, err := roughness.NewEvaluator(&roughness.Settings{Start: &start, Sections: 48, Parameters: []string{"Rq", "Rt", "Rk"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	e, err := evaluator.EvaluateLong(context.Background(), roughness.LongProfile{Heights: tracefile.Floats(&file), Spacing: 0.5})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, v := range e.Values {
		if v.Reason != "" {
			fmt.Println(v.Symbol+":", v.Reason)
			continue
		}
		fmt.Printf("%s %.3f\n", v.Symbol, v.Value)
	}
	// Output:
	// Rq 0.707
	// Rt 1.999
	// Rk: it needs all heights at once; a profile that is read in blocks has averages and extremes of heights and slopes
}

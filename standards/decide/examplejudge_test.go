package decide_test

import (
	"fmt"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// The 16 % rule counts all values and says how many more are needed.
func ExampleJudgement_Judge() {
	j := decide.Judgement{Bound: standards.Bound{Symbol: "Rz", Value: 4}, Rule: standards.SixteenPercent}
	for _, values := range [][]float64{{3.5}, {3.5, 4.1}, {3.5, 4.1, 3.9, 3.2, 3.3, 3.1}} {
		v, _ := j.Judge(values)
		fmt.Println(v.Word + ". " + decide.Word(v.Sentence))
		for _, line := range v.Log {
			fmt.Println("  " + line)
		}
	}
	// Output:
	// No verdict yet. The 16 % rule needs two more values: 1 of 3.
	//   The value, 3.5 µm, is above 70 % of 4 µm, that is 2.8 µm.
	//   Of one value none is above 4 µm.
	//   The 16 % rule needs two more values: 1 of 3.
	// No verdict yet. The 16 % rule needs four more values: 2 of 6.
	//   The largest value, 4.1 µm, is above 70 % of 4 µm, that is 2.8 µm.
	//   Of two values one is above 4 µm.
	//   The 16 % rule needs four more values: 2 of 6.
	// Conforms. Of six values one is above 4 µm; the 16 % rule allows one of six. Simple acceptance.
	//   Of six values one is above 4 µm.
}

// With an uncertainty there is a zone in which nothing is proven.
func ExampleGuard() {
	j := decide.Judgement{
		Bound: standards.Bound{Symbol: "Ra", Value: 0.8}, Rule: standards.Maximum,
		Guard: decide.Guard{Rule: decide.Probability, Expanded: 0.05, K: 2, Proof: decide.Maker},
	}
	for _, ra := range []float64{0.74, 0.78, 0.86} {
		v, _ := j.Judge([]float64{ra})
		fmt.Printf("%s: %s\n", v.Word, v.Sentence)
	}
	v, _ := j.Judge([]float64{0.78})
	fmt.Println(v.Log[0])
	// Output:
	// Conforms: The value 0.740 µm is below 0.759 µm: proven at 95 %. The maker must prove that the surface conforms, and has done so.
	// Not decided: The value 0.780 µm lies between 0.759 µm and 0.841 µm. Neither is proven. More values, or a smaller U, can decide it. The maker must prove that the surface conforms, and has not.
	// Does not conform: The value 0.860 µm exceeds 0.8 µm by at least the guard band. The maker must prove that the surface conforms, and has not.
	// Guard band (ISO 14253-1:2017, 95 %): at most 0.758878659326 µm proves that the surface conforms, from 0.841121340674 µm that it does not; the limit is 0.8 µm.
}

// The cut-off of a surface whose drawing does not state it, turn by turn.
func ExampleFindCutoff() {
	e, _ := standards.EditionByID("iso-4287")
	measured := map[float64]float64{800: 12.4, 2500: 14.1} // Rz of one trace with each cut-off
	f, _ := decide.FindCutoff(e, "Rz", 8, func(cutoff float64) (float64, error) { return measured[cutoff], nil })
	for _, t := range f.Turns {
		fmt.Println(t.Text)
	}
	fmt.Println(standards.Length(f.Cutoff))
	// Output:
	// With 0.8 mm, Rz is 12.4 µm, which asks for 2.5 mm.
	// With 2.5 mm, Rz is 14.1 µm, which agrees.
	// 2.5 mm
}

package standards_test

import (
	"fmt"

	"example.com/furrow/standards"
)

// read prints how an edition reads a text, and what it asks back.
func read(text, edition string) {
	rs, err := standards.ParseRequirement(text, edition)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i := range rs.Items {
		fmt.Println(rs.Items[i].Reading())
		for _, q := range rs.Items[i].Questions {
			fmt.Printf("? %s\n", q.Text)
		}
	}
}

// ISO 21920-1:2021: the limit chooses the setting class, and no value may exceed it. The first is an example of a school
// textbook.
func ExampleParseRequirement() {
	read("Rz 3,2", "iso-21920")
	read("U Ra 0,8 T16%", "iso-21920")
	read("RSm 0,2 mm", "iso-21920")
	read("Rz 3,2 mx", "iso-21920")
	// Output:
	// Upper limit 3.2 µm for Rz; no measured value may exceed it. Class Sc3: L-filter 0.8 mm, 5 sections. ISO 21920:2021
	// Upper limit 0.8 µm for Ra; at most 16 % of the measured values may exceed it. Class Sc3: L-filter 0.8 mm, 5 sections. ISO 21920:2021
	// Upper limit 0.2 mm for Rsm; no measured value may exceed it. ISO 21920:2021
	// ? Rsm needs a setting class or a nesting index: no default follows from its limit.
	// standards: line 1, column 8: "mx" has no meaning that is known here
}

// ISO 1302:2002 with ISO 4287, 4288 and 3274: band, number of sampling lengths and rule stand around the symbol.
func ExampleParseRequirement_iso4287() {
	read(`U "2RC" 0,008-0,8/Rz8max 3,3`, "iso-4287")
	read("Rz 12", "iso-4287")
	// Output:
	// Upper limit 3.3 µm for Rz; no measured value may exceed it. L-filter 0.8 mm (2RC), 8 sections. ISO 4287:1997
	// Upper limit 12 µm for Rz; at most 16 % of the measured values may exceed it. L-filter 2.5 mm to begin with (the measured value decides), 5 sections. ISO 4287:1997
}

// ISO 12085: motif parameters have operators instead of a cut-off, and an evaluation length of their own.
func ExampleParseRequirement_iso12085() {
	read("0,008-0,5/12/R 10", "iso-12085")
	// Output:
	// Upper limit 10 µm for R; at most 16 % of the measured values may exceed it. Motifs with A 0.5 mm and B 2.5 mm, S-filter 8 µm, one section of 12 mm. ISO 12085:1996
}

// ASME B46.1: a bare number is Ra, two are a maximum over a minimum.
func ExampleParseRequirement_asme() {
	read("63/32 µin cutoff=.03 in", "asme-b46.1")
	read("63", "asme-b46.1")
	// Output:
	// Upper limit 63 µin (1.600 µm) for Ra; no measured value may exceed it. L-filter 0.8 mm, 5 sections. ASME B46.1
	// Lower limit 32 µin (0.813 µm) for Ra; no measured value may fall below it. L-filter 0.8 mm, 5 sections. ASME B46.1
	// Upper limit 63 (unit open) for Ra; no measured value may exceed it. L-filter 0.8 mm to begin with (the measured value decides), 5 sections. ASME B46.1
	// ? The unit is that of the drawing, and the text does not say it.
}

// JIS B 0601:2013: as ISO 4287, with the ten-point height under a name of its own.
func ExampleParseRequirement_jis2013() {
	read("-0,8/RzJIS 6,3", "jis-b0601-2013")
	// Output:
	// Upper limit 6.3 µm for RzJIS; at most 16 % of the measured values may exceed it. L-filter 0.8 mm, 5 sections. JIS B 0601:2013
}

// JIS B 0601:1994: Rz is the ten-point height, and no filter takes the short waves away.
func ExampleParseRequirement_jis1994() {
	read("Rz 6.3 cutoff=0.8", "jis-b0601-1994")
	// Output:
	// Upper limit 6.3 µm for Rz (the ten-point height); no measured value may exceed it. L-filter 0.8 mm, 5 sections. JIS B 0601:1994
}

// JIS B 0601:1982: the centre-line average behind a 2RC filter.
func ExampleParseRequirement_jis1982() {
	read("Ra 1.6 cutoff=0.8", "jis-b0601-1982")
	// Output:
	// Upper limit 1.6 µm for Ra; no measured value may exceed it. L-filter 0.8 mm (2RC), 5 sections. JIS B 0601:1982
}

// An open question is answered by writing more on the drawing.
func ExampleParseRequirement_question() {
	rs, _ := standards.ParseRequirement("Rk 1,2", "iso-21920")
	q := rs.Items[0].Questions[0]
	fmt.Println(q.Text)
	for _, a := range q.Answers {
		fmt.Println(a.Then)
	}
	// Output:
	// Rk needs a setting class or a nesting index: no default follows from its limit.
	// Rk 1,2 Sc1
	// Rk 1,2 Sc2
	// Rk 1,2 Sc3
	// Rk 1,2 Sc4
	// Rk 1,2 Sc5
}

// The 16 % rule counts all values and says how many more are needed.
func ExampleJudgement_Judge() {
	j := standards.Judgement{Bound: standards.Bound{Symbol: "Rz", Value: 4}, Rule: standards.SixteenPercent}
	for _, values := range [][]float64{{3.5}, {3.5, 4.1}, {3.5, 4.1, 3.9, 3.2, 3.3, 3.1}} {
		v, _ := j.Judge(values)
		fmt.Println(v.Word + ". " + standards.Word(v.Sentence))
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
	j := standards.Judgement{
		Bound: standards.Bound{Symbol: "Ra", Value: 0.8}, Rule: standards.Maximum,
		Guard: standards.Guard{Rule: standards.Probability, Expanded: 0.05, K: 2, Proof: standards.Maker},
	}
	for _, ra := range []float64{0.74, 0.78, 0.86} {
		v, _ := j.Judge([]float64{ra})
		fmt.Printf("%s: %s\n", v.Word, v.Sentence)
	}
	v, _ := j.Judge([]float64{0.78})
	fmt.Println(v.Log[0])
	// Output:
	// Conforms: The value 0.740 µm is below 0.759 µm: proven at 95 %.
	// Not decided: The value 0.780 µm lies between 0.759 µm and 0.841 µm. Neither is proven. More values, or a smaller U, can decide it. The maker must prove that the surface conforms, and has not.
	// Does not conform: The value 0.860 µm exceeds 0.8 µm by at least the guard band.
	// Guard band (ISO 14253-1:2017, 95 %): at most 0.758878659326 µm proves that the surface conforms, from 0.841121340674 µm that it does not; the limit is 0.8 µm.
}

// A surface too short for five sections gets fewer, said so, and keeps its cut-off.
func ExampleAdvise() {
	rs, _ := standards.ParseRequirement("Ra 1,6", "iso-21920")
	p, _ := standards.Advise(rs.Items[0].Settings, standards.Surface{Length: 3500})
	fmt.Println(standards.Length(p.Traverse))
	fmt.Println(p.Fit.Text)
	// Output:
	// 4.8 mm
	// 1.3 mm are missing for five sections. Three sections fit with run-up: evaluate that many, and state the number. Four sections fit when the filter keeps the moments at the ends and needs no run-up. The cut-off stays as it is.
}

// The cut-off of a surface whose drawing does not state it, turn by turn.
func ExampleFindCutoff() {
	e, _ := standards.EditionByID("iso-4287")
	measured := map[float64]float64{800: 12.4, 2500: 14.1} // Rz of one trace with each cut-off
	f, _ := standards.FindCutoff(e, "Rz", 8, func(cutoff float64) (float64, error) { return measured[cutoff], nil })
	for _, t := range f.Turns {
		fmt.Println(t.Text)
	}
	fmt.Println(standards.Length(f.Cutoff))
	// Output:
	// With 0.8 mm, Rz is 12.4 µm, which asks for 2.5 mm.
	// With 2.5 mm, Rz is 14.1 µm, which agrees.
	// 2.5 mm
}

package callout_test

import (
	"fmt"

	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// read prints how an edition reads a text, and what it asks back.
func read(text string, edition standards.EditionID) {
	rs, err := callout.ParseRequirement(text, edition)
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
	// callout: line 1, column 8: "mx" has no meaning that is known here
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
	rs, _ := callout.ParseRequirement("Rk 1,2", "iso-21920")
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

// A surface too short for five sections gets fewer, said so, and keeps its cut-off.
func ExampleAdvise() {
	rs, _ := callout.ParseRequirement("Ra 1,6", "iso-21920")
	p, _ := callout.Advise(&rs.Items[0], callout.Surface{Length: 3500})
	fmt.Println(standards.Length(p.Traverse))
	fmt.Println(p.Fit.Text)
	// Output:
	// 4.8 mm
	// 1.3 mm are missing for five sections. Three sections fit with run-up: evaluate that many, and state the number. Four sections fit when the filter keeps the moments at the ends and needs no run-up. The cut-off stays as it is.
}

package record_test

import (
	"fmt"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
)

// A record of one trace of an invented rod, judged by what the drawing asks: written, opened again and verified.
func ExampleSheet_Record() {
	d := synth.Demos()[0]
	sheet := &record.Sheet{
		Name:     "Piston rod 7",
		Invented: true,
		Asked:    record.Asked{Text: "Rz 3,2", U: "0.12"},
		Traces:   []record.SheetTrace{{Profile: roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Name: "rod-place-1.csv"}}},
		Blanks:   record.Blanks{Part: "Piston rod 7", Place: "120 mm from the eye"},
	}
	r, err := sheet.Record(time.Now())
	if err != nil {
		fmt.Println(err)
		return
	}
	page := record.AppendPage(nil, r, record.Display{}) // or AppendRecord for JSON; WriteFile keeps either

	opened, err := record.Open(page)
	if err != nil {
		fmt.Println(err)
		return
	}
	v, err := opened.Verify()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %s. %s\n", opened.Name, opened.Word, v.Again.Verdict.Sentence)
	fmt.Println("comes out the same:", v.Same)
	for _, c := range r.Cautions {
		fmt.Println("-", c)
	}
	// Output:
	// Piston rod 7: Conforms. The value 2.92 µm is below 3.10 µm: proven at 95 %. The maker must prove that the surface conforms, and has done so.
	// comes out the same: true
	// - Invented data. Not a measurement.
	// - One trace is one place of the surface; three are usual (common practice).
	// - Specimen check: none kept.
	// - A profile cannot show lead on a sealing face.
}

package standards_test

import (
	"fmt"

	"example.com/furrow/standards"
)

// A grade is met by its upper limit, never by the nearest number.
func ExampleGradeMet() {
	fmt.Println(standards.GradeMet(7.4), standards.GradeMet(6.3))
	// Output: N10 N9
}

// Where the 0.8 mm of "Rz 3,2" come from.
func ExampleClass() {
	c, err := standards.Class("Rz", 3.2)
	fmt.Println(c.Reason(3.2), err)
	fmt.Println(standards.Length(c.Long), c.By.Source)
	// Output:
	// Sc3, from the limit of Rz (above 0.8 µm, up to 16 µm) <nil>
	// 0.8 mm ISO 21920-3:2021, 4.4.3
}

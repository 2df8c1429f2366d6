package params

// Input is one profile ready for evaluation, as every parameter sees it.
type Input struct {
	// Z holds the heights over the evaluation length, measured from the reference line, positive out of the
	// material. No parameter subtracts a further mean. All values are finite.
	Z []float64
	// Dx is the spacing, in the length unit of Z.
	Dx float64
	// Section is the number of points in a section; section k is Z[k*Section:(k+1)*Section]. 0 means all of Z.
	Section int
	// Lead and Tail hold up to three heights of the same profile just before and just after Z, where there are any:
	// the gradients at the ends use them.
	Lead, Tail []float64
	// Flat is the height up to which Rq counts as zero: the caller sets it to 1e-12 of the largest absolute height
	// read, so that the rounding of a constant trace has no shape. 0 means only an exactly constant profile is flat.
	Flat float64
	// Choices are the switches where the text of a standard leaves room; the zero value is the default of each.
	Choices Choices
}

package params

import (
	"math"
	"strconv"
)

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
	// read, so that the rounding of a constant trace has no shape. 0 means only an exactly constant profile is flat. By the same
	// measure heights are equal to a level: what a filter leaves of heights that are all at the level decides neither a material
	// ratio nor a count nor a crossing.
	Flat float64
	// Choices are the switches where the text of a standard leaves room; the zero value is the default of each.
	Choices Choices
}

// fault says what is wrong with the input, "" when nothing. No parameter has a value on a faulty one.
func (in *Input) fault() string {
	if in == nil {
		return reasonEmpty
	}
	if !(in.Dx > 0) || math.IsInf(in.Dx, 0) {
		return "the spacing " + strconv.FormatFloat(in.Dx, 'g', -1, 64) + " is not a length above 0"
	}
	for _, part := range []struct {
		z     []float64
		where string
	}{{in.Z, "the height"}, {in.Lead, "before the first height, the height"}, {in.Tail, "behind the last height, the height"}} {
		if i := notFinite(part.z); i >= 0 {
			return part.where + " at point " + strconv.Itoa(i+1) + " is no finite number"
		}
	}
	return ""
}

// notFinite returns the index of the first height that is no finite number, -1 when all are.
func notFinite(z []float64) int {
	for i, v := range z {
		if v-v != 0 {
			return i
		}
	}
	return -1
}

package roughness

// Readable literals: the library counts all lengths and heights in micrometres.
const (
	Nanometre  = 1e-3
	Micrometre = 1.0
	Millimetre = 1e3
	Metre      = 1e6
	Microinch  = 0.0254
	Inch       = 25400.0
)

// Profile is a trace as read: heights at equal spacing, in micrometres.
type Profile struct {
	Z       []float64 // heights, positive out of the material; NaN marks an invalid point
	Spacing float64   // distance between neighbouring points; N points are N*Spacing long
	Name    string    // free text, such as the file's name
	Traced  Traced    // how it came about, as far as that is known
}

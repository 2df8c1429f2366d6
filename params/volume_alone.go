package params

// Rvm returns the material volume of z at the material ratio p, in %.
//
//	Rvm(p) = ∫₀ᵖ (z(q) - z(p)) dq
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvm(p); Pvm(p) and Wvm(p) are the same on the other profiles.
//   - Input: heights, at least one; the material ratio in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvm(0) = 0
func Rvm(z []float64, p float64) float64 { return alone(Input{Z: z, Dx: 1}, materialAt, p) }

// Rvv returns the void volume of z at the material ratio p, in %.
//
//	Rvv(p) = ∫ₚ¹ (z(p) - z(q)) dq
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvv(p); Pvv(p) and Wvv(p) are the same on the other profiles.
//   - Input: heights, at least one; the material ratio in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvv(100) = 0
func Rvv(z []float64, p float64) float64 { return alone(Input{Z: z, Dx: 1}, voidAt, p) }

// Rvmp returns the peak material volume of z at the material ratio p, in %, by default 10.
//
//	Rvmp(p) = Rvm(p)
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvmp(p); Pvmp(p) and Wvmp(p) are the same on the other profiles.
//   - Input: heights, at least one; the material ratio in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvmp(0) = 0
func Rvmp(z []float64, p float64) float64 { return alone(Input{Z: z, Dx: 1}, materialAt, p) }

// Rvmc returns the core material volume of z between the material ratios p and q, in %, by default 10 and 80.
//
//	Rvmc(p,q) = Rvm(q) - Rvm(p)
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvmc(p,q); Pvmc(p,q) and Wvmc(p,q) are the same on the other profiles.
//   - Input: heights, at least one; the material ratios in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvmc(p,p) = 0
func Rvmc(z []float64, p, q float64) float64 { return alone(Input{Z: z, Dx: 1}, materialBetween, p, q) }

// Rvvc returns the core void volume of z between the material ratios p and q, in %, by default 10 and 80.
//
//	Rvvc(p,q) = Rvv(p) - Rvv(q)
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvvc(p,q); Pvvc(p,q) and Wvvc(p,q) are the same on the other profiles.
//   - Input: heights, at least one; the material ratios in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvvc(p,p) = 0
func Rvvc(z []float64, p, q float64) float64 { return alone(Input{Z: z, Dx: 1}, voidBetween, p, q) }

// Rvvv returns the dale void volume of z at the material ratio q, in %, by default 80.
//
//	Rvvv(q) = Rvv(q)
//
// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
//
//   - Symbol: Rvvv(q); Pvvv(q) and Wvvv(q) are the same on the other profiles.
//   - Input: heights, at least one; the material ratio in %.
//   - Unit: that of z; 1 µm is 1 ml/m².
//   - Evaluated over: the evaluation length.
//   - Source: ISO 21920-2:2021, 4.5.5.
//
// Special cases are:
//
//	Rvvv(100) = 0
func Rvvv(z []float64, q float64) float64 { return alone(Input{Z: z, Dx: 1}, voidAt, q) }

package params

// R returns the mean depth of the roughness motifs of z.
//
//	R = 1/m Σ H_j, m = 2n depths of n motifs
//
// where the H_j are the heights of a motif's two peaks over its pit.
//
//   - Symbol: R, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.
//
// Special cases are:
//
//	R(z, …) = NaN where there is no motif
func R(z []float64, dx, a float64) float64 { return rowAlone(motifRows, "R", Input{Z: z, Dx: dx}, a) }

// AR returns the mean width of the roughness motifs of z.
//
//	AR = 1/n Σ AR_i
//
// where AR_i is the distance of the two peaks of motif i.
//
//   - Symbol: AR, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.1.
//
// Special cases are:
//
//	AR(z, …) = NaN where there is no motif
func AR(z []float64, dx, a float64) float64 { return rowAlone(motifRows, "AR", Input{Z: z, Dx: dx}, a) }

// Rx returns the greatest depth of the roughness motifs of z.
//
//	Rx = max H_j
//
// where the H_j are the heights of a motif's two peaks over its pit.
//
//   - Symbol: Rx, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.
//
// Special cases are:
//
//	Rx(z, …) = NaN where there is no motif
func Rx(z []float64, dx, a float64) float64 { return rowAlone(motifRows, "Rx", Input{Z: z, Dx: dx}, a) }

// Nr returns the number of roughness motifs of z.
//
//	Nr = n
//
// where a roughness motif is one at most A wide.
//
//   - Symbol: Nr, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: none.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	Nr(z, …) = 0 where there is no motif, NaN for no heights
func Nr(z []float64, dx, a float64) float64 { return rowAlone(motifRows, "Nr", Input{Z: z, Dx: dx}, a) }

// SR returns the standard deviation of the depths of the roughness motifs of z.
//
//	SR = √(1/m Σ (H_j - R)²)
//
// over all m = 2n depths.
//
//   - Symbol: SR, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	SR(z, …) = NaN where there is no motif
func SR(z []float64, dx, a float64) float64 { return rowAlone(motifRows, "SR", Input{Z: z, Dx: dx}, a) }

// SAR returns the standard deviation of the widths of the roughness motifs of z.
//
//	SAR = √(1/n Σ (AR_i - AR)²)
//
// over all n motifs.
//
//   - Symbol: SAR, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limit A, which is usually 500 µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	SAR(z, …) = NaN where there is no motif
func SAR(z []float64, dx, a float64) float64 {
	return rowAlone(motifRows, "SAR", Input{Z: z, Dx: dx}, a)
}

// W returns the mean depth of the waviness motifs of z.
//
//	W = 1/m Σ HW_j, m = 2n depths of n motifs of the envelope
//
// where the envelope is the line through the peaks that end roughness motifs, outstanding ones lowered.
//
//   - Symbol: W, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.5.
//
// Special cases are:
//
//	W(z, …) = NaN where there is no motif
func W(z []float64, dx, a, b float64) float64 {
	return rowAlone(motifRows, "W", Input{Z: z, Dx: dx}, a, b)
}

// AW returns the mean width of the waviness motifs of z.
//
//	AW = 1/n Σ AW_i
//
// where AW_i is the distance of the two peaks of the envelope that end motif i.
//
//   - Symbol: AW, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.4.
//
// Special cases are:
//
//	AW(z, …) = NaN where there is no motif
func AW(z []float64, dx, a, b float64) float64 {
	return rowAlone(motifRows, "AW", Input{Z: z, Dx: dx}, a, b)
}

// Wx returns the greatest depth of the waviness motifs of z.
//
//	Wx = max HW_j
//
// where the HW_j are the heights of a motif's two peaks over its pit, on the envelope.
//
//   - Symbol: Wx, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.
//
// Special cases are:
//
//	Wx(z, …) = NaN where there is no motif
func Wx(z []float64, dx, a, b float64) float64 {
	return rowAlone(motifRows, "Wx", Input{Z: z, Dx: dx}, a, b)
}

// Wte returns the total depth of the waviness of z.
//
//	Wte = max - min of the envelope
//
// where the envelope is the line through the peaks that end roughness motifs, outstanding ones lowered.
//
//   - Symbol: Wte, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996, 3.2.
//
// Special cases are:
//
//	Wte(z, …) = NaN where there is no envelope
func Wte(z []float64, dx, a, b float64) float64 {
	return rowAlone(motifRows, "Wte", Input{Z: z, Dx: dx}, a, b)
}

// Nw returns the number of waviness motifs of z.
//
//	Nw = n
//
// where a waviness motif is one of the envelope, at most B wide.
//
//   - Symbol: Nw, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: none.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	Nw(z, …) = 0 where there is no motif, NaN for no heights
func Nw(z []float64, dx, a, b float64) float64 {
	return rowAlone(motifRows, "Nw", Input{Z: z, Dx: dx}, a, b)
}

// SW returns the standard deviation of the depths of the waviness motifs of z.
//
//	SW = √(1/m Σ (HW_j - W)²)
//
// over all m = 2n depths.
//
//   - Symbol: SW, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of z.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	SW(z, …) = NaN where there is no motif
func SW(z []float64, dx, a, b float64) float64 {
	return rowAlone(motifRows, "SW", Input{Z: z, Dx: dx}, a, b)
}

// SAW returns the standard deviation of the widths of the waviness motifs of z.
//
//	SAW = √(1/n Σ (AW_i - AW)²)
//
// over all n motifs.
//
//   - Symbol: SAW, on this profile only.
//   - Input: heights of the primary profile, the spacing, and the limits A and B, which are usually 500 µm and 2500 µm.
//   - Unit: that of dx.
//   - Evaluated over: the evaluation length.
//   - Source: ISO 12085:1996.
//
// Special cases are:
//
//	SAW(z, …) = NaN where there is no motif
func SAW(z []float64, dx, a, b float64) float64 {
	return rowAlone(motifRows, "SAW", Input{Z: z, Dx: dx}, a, b)
}

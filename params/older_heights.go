package params

// olderHeightRows are heights and means under the names of older editions and of ASME B46.1.
var olderHeightRows = []row{
	// func Rmax(z []float64, section int) float64
	//
	// Rmax returns the largest height of z in a sampling length, cut into sections of the given number of points.
	//
	//	Rmax = max of (max z - min z) over the sections
	//
	// where the sections are the sampling lengths.
	//
	//   - Symbol: Rmax of ASME B46.1; JIS B 0601:1982 means [Rmax1982].
	//   - Input: heights; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the largest.
	//   - Source: ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	Rmax(nil, n) = NaN
	{`Rmax: largest height of a sampling length
in asme-b46.1, each section, then the largest: ASME B46.1-2009, 1-4 (memory)
formula: Rmax = max{i}{(Zp_i + Zv_i)}
says: The height from lowest to highest point in the sampling length where it is largest.
blind: All other sampling lengths. A peak and a pit on the two sides of a border are not taken together.`,
		evalMaximumHeight, constructExtremes(true, true)},
	// func Rmax1982(z []float64, section int) float64
	//
	// Rmax1982 returns the maximum height of the section profile z, cut into sections of the given number of points.
	//
	//	Rmax = 1/n Σ (max z - min z) in section k
	//
	// where z has not been filtered.
	//
	//   - Symbol: Rmax of JIS B 0601:1982; ASME B46.1 means [Rmax].
	//   - Input: heights of the primary profile; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: JIS B 0601:1982.
	//
	// Special cases are:
	//
	//	Rmax1982(nil, n) = NaN
	{`Rmax1982: maximum height of the section profile
in jis-b0601-1982, each section, then the mean: JIS B 0601:1982 (memory)
on: primary
formula: Rmax = frac{1}{nsc} * sum{i=1}{nsc}{(Zp_i + Zv_i)}
says: The height from lowest to highest point of a reference length, on the profile without a cut-off, as the mean over the reference lengths.
practice: On Japanese drawings up to 1993.
blind: Everything between the two points. Waviness adds to it. The standard asks for a place without outstanding scratches; a calculation cannot choose the place.`,
		evalMaximumHeight, constructExtremes(true, true)},
	// func Ra75(z []float64) float64
	//
	// Ra75 returns the centre-line mean roughness of z, a profile behind the 2RC filter with 75 % at the cut-off.
	//
	//	Ra75 = 1/l ∫ |z(x)| dx      as defined
	//	Ra75 = 1/N Σ |zᵢ|           as computed
	//
	// where z is measured from the mean line.
	//
	//   - Symbol: Ra75; JIS B 0601:1982, whose only filter is the 2RC, calls it Ra.
	//   - Input: heights from the mean line, at least one.
	//   - Unit: that of z.
	//   - Evaluated over: the evaluation length.
	//   - Source: JIS B 0601:2013, annex; JIS B 0601:1994.
	//
	// Special cases are:
	//
	//	Ra75(nil) = NaN
	{`Ra75: centre-line mean roughness
in jis-b0601-2013, the evaluation length: JIS B 0601:2013, annex (excerpt)
in jis-b0601-1994, the evaluation length: JIS B 0601:1994 (excerpt)
on: two-rc
formula: Ra75 = frac{1}{N} * sum{i=1}{N}{abs{z_i}} text{, behind the 2RC filter}
says: The mean distance from the mean line behind a filter that works as the electric 2RC filter of older instruments: it passes 75 % of a sine at the cut-off.
practice: Needed to compare with Japanese values from before 1994.
blind: Peaks or pits. The number differs from Ra behind a Gaussian filter.`,
		over(unflat(Ra), "", ""), constructMean},
}

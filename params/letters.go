package params

import "slices"

// A Letter is a letter of the formulas. It has one meaning in all of them.
type Letter struct {
	Key     string // in the notation: "nsc"
	Shown   string // in plain text: "n_sc"
	Meaning string
}

// FormulaLetters returns the letters of the right-hand side of the formula, in their order there. Symbols of parameters are not
// among them.
func (p *Parameter) FormulaLetters() []Letter {
	var found []Letter
	var walk func(n formulaNode)
	walk = func(n formulaNode) {
		if n.kind == formulaName {
			for _, l := range letters {
				if l.Key == n.text && !slices.Contains(found, l) {
					found = append(found, l)
				}
			}
		}
		for _, of := range n.of {
			walk(of)
		}
	}
	walk(p.right())
	return found
}

var letters = []Letter{
	{"i", "i", "The running number under a sum: it counts points, sections, elements or motifs, as the sum says."},
	{"N", "N", "The number of points in the evaluation length."},
	{"z", "z", "A height above the reference line; below the line it is negative. With a number or with i it is the height of that point, z(x) is the height at the place x."},
	{"x", "x", "The place along the trace, from the start of the evaluation length."},
	{"dx", "Δx", "The point spacing: the distance from one point of the trace to the next."},
	{"le", "l_e", "The evaluation length: the part of the trace from which the values are computed."},
	{"lm", "l_m", "The length from the first point of the evaluation length to its last: (N − 1) Δx, one point spacing less than l_e. Material ratios divide by it."},
	{"l", "l", "The length of the piece that Rzx looks at; the section length unless stated."},
	{"nsc", "n_sc", "The number of sections in the evaluation length."},
	{"Zp", "Zp", "The height of the highest point of a section above the reference line; negative if the whole section is below it."},
	{"Zv", "Zv", "The depth of the lowest point of a section below the reference line, counted positive downwards; negative if the whole section is above the line."},
	{"m", "m", "The number of profile elements; in ISO 21920 the number of hills and dales that are left after joining, minus 1."},
	{"Xs", "Xs", "The spacing of a profile element: its width on the reference line, from its first crossing to its last."},
	{"Zt", "Zt", "The height of a profile element: the height of its hill plus the depth of its dale."},
	{"L", "L", "The length that a count refers to: 10 mm."},
	{"g", "g", "The local slope of the profile at a point, computed from three neighbours on each side."},
	{"Ng", "N_g", "The number of points that have a slope: N where the profile goes on beyond the evaluation length, fewer where it ends there, because a slope needs neighbours on both sides."},
	{"c", "c", "A height at which the profile is cut, measured from the reference line; c(p) is the height of the material ratio curve at the ratio p. In tp(c) it is a depth below the highest peak."},
	{"Ml", "Ml", "The material length: the total length on which the profile is at or above the cut."},
	{"p", "p", "A material ratio: the share of the length that is at or above a height. With a second ratio q, p is the smaller."},
	{"q", "q", "The larger of two material ratios."},
	{"r", "r", "The material ratio that runs from the lower to the upper bound of an integral."},
	{"d", "d", "A depth below a reference height, counted downwards."},
	{"cu", "c_u", "The upper limit of the core: the height of the equivalent straight line at 0 %."},
	{"cl", "c_l", "The lower limit of the core: the height of the equivalent straight line at 100 %."},
	{"Ar", "A", "An area between the material ratio curve and a limit of the core: 1 above the core, 2 below it."},
	{"a", "a", "The height of a regression line on the probability graph at the ratio 50 %; 1 is the plateau line, 2 the dale line."},
	{"b", "b", "The slope of a regression line on the probability graph; 1 is the plateau line, 2 the dale line. Both are negative."},
	{"Phi", "Φ", "The normal distribution function: it turns a number of standard deviations into a ratio between 0 and 1."},
	{"t", "t", "A shift of the profile along itself."},
	{"f", "f", "The autocorrelation function: how much the profile resembles itself after the shift t. It is 1 at t = 0."},
	{"s", "s", "The threshold to which the autocorrelation function has to fall; 0.2 unless stated."},
	{"jd", "j_d", "The number of whole waves of the sine that is strongest in the profile."},
	{"lam", "λ", "A wavelength: the length of one wave."},
	{"w", "w", "The height at a point of the profile that holds only the dominant wave."},
	{"P", "P", "A peak height in order of size: 1 is the highest. Which peaks take part depends on the parameter."},
	{"V", "V", "A pit depth in order of size: 1 is the deepest. Which pits take part depends on the parameter."},
	{"np", "n_p", "The number of peaks that are left after pruning; for Rmpc only those with three points on both sides."},
	{"nv", "n_v", "The number of pits that are left after pruning; for Rmvc only those with three points on both sides."},
	{"k2", "κ", "The curvature at a peak or pit: one divided by the radius of the circle that fits there."},
	{"n", "n", "The number of motifs: of roughness motifs, or of waviness motifs, as the parameter says."},
	{"H", "H", "A depth of a roughness motif: one of its two end peaks minus its lowest point. Each motif has two."},
	{"Wr", "A_R", "The width of a roughness motif, from peak to peak; the symbol ARᵢ in the standard."},
	{"Hw", "H_W", "A depth of a waviness motif, on the envelope."},
	{"Ww", "A_W", "The width of a waviness motif, on the envelope; the symbol AWᵢ in the standard."},
	{"E", "E", "The envelope: straight lines through the peaks that end the roughness motifs. For waviness, outstanding peaks are lowered first; for Rke, Rpke, Rvke, Mr1e and Mr2e they keep their height."},
	{"St", "S", "The distance from one local peak of the profile to the next."},
	{"nt", "n_t", "The number of distances between neighbouring local peaks in a section."},
	{"nc", "n_c", "The number of times the profile rises above the upper level and then falls below the lower one."},
	{"nh", "n_h", "The number of separate regions of the profile above a level."},
	{"pi", "π", "The circle number, 3.1416."},
}

package standards

import (
	"errors"
	"math"
)

// Caution stands beside every verdict and every check.
const Caution = "A calculation aid, not a calibrated instrument. The drawing, the contract, local codes and licensed practice decide; where a " +
	"part's failure can hurt someone, a qualified person decides."

// A ProcessRange is the Ra that a process usually leaves, in micrometres. Finer and coarser values occur under special
// conditions.
type ProcessRange struct {
	Process string
	Low     float64
	High    float64
	Note    string
}

// ProcessSource is where the ranges come from.
var ProcessSource = Ref{"ASME B46.1, appendix; the chart of machinist's handbooks", "two public copies", Excerpt}

// ProcessRanges returns the chart of roughness by process, from the coarsest to the finest in its upper end.
func ProcessRanges() []ProcessRange {
	return []ProcessRange{
		{"flame cutting", 12.5, 25, ""}, {"snagging", 6.3, 25, ""}, {"sawing", 1.6, 25, ""}, {"sand casting, hot rolling", 12.5, 25, ""},
		{"planing, shaping", 1.6, 12.5, ""}, {"forging", 3.2, 12.5, ""},
		{"drilling", 1.6, 6.3, ""}, {"chemical milling", 1.6, 6.3, ""}, {"milling", 0.8, 6.3, ""}, {"electron beam, laser", 0.8, 6.3, ""},
		{"boring, turning", 0.4, 6.3, ""}, {"electrical discharge machining", 1.6, 4.75, ""},
		{"broaching", 0.8, 3.2, ""}, {"reaming", 0.8, 3.2, ""}, {"electrochemical machining", 0.2, 3.2, ""},
		{"permanent mould and investment casting", 1.6, 3.2, ""}, {"extruding, cold rolling, drawing", 0.8, 3.2, ""},
		{"die casting", 0.8, 1.6, ""}, {"grinding", 0.1, 1.6, ""}, {"diamond turning", 0.1, 1.6, "in one of the two copies"},
		{"barrel finishing", 0.2, 0.8, ""}, {"honing", 0.1, 0.8, ""}, {"electropolishing", 0.1, 0.8, ""},
		{"electrolytic grinding", 0.2, 0.6, ""}, {"roller burnishing", 0.2, 0.4, ""}, {"polishing", 0.1, 0.4, ""},
		{"lapping", 0.05, 0.4, "one copy prints 0.5 for the lower end, a slip"},
		{"superfinishing", 0.025, 0.2, "0.05 for the lower end in the other copy"},
	}
}

// A Guide is what handbooks ask of a surface for a use. It is guidance and no requirement.
type Guide struct {
	Use    string
	Limits []GuideLimit
	Note   string
	Source Ref
}

// A GuideLimit is one parameter of a Guide, in micrometres or per cent; 0 leaves an end open.
type GuideLimit struct {
	Symbol    string
	Low, High float64
}

// Guides returns guidance by use.
func Guides() []Guide {
	textbook := func(what string) Ref { return Ref{what, "", Memory} }
	return []Guide{
		{"running face of a rotary shaft seal", []GuideLimit{{"Ra", 0.2, 0.8}, {"Rz", 1, 4}, {"Rmax", 0, 6.3}},
			"Plunge ground, without lead. Below Ra 0.2 µm the lip starves. Another text gives Rz 1 to 5 µm. A profile cannot show lead: it needs a test of its own.",
			Ref{"seal guidance after DIN 3760 and DIN 3761", "", Excerpt}},
		{"reciprocating rod, cylinder wall", []GuideLimit{{"Ra", 0.05, 0.3}, {"Rmax", 0, 2.5}, {"Rmr", 50, 90}},
			"Rmr at 0.5 Rz below the level of 0 % material.", Ref{"published design guide for hydraulic seals", "", Excerpt}},
		{"static O-ring groove, bottom", []GuideLimit{{"Ra", 0, 1.6}, {"Rmax", 0, 6.3}}, "", Ref{"published design guide for hydraulic seals", "", Excerpt}},
		{"static O-ring groove, flanks", []GuideLimit{{"Rmax", 0, 15}}, "", Ref{"published design guide for hydraulic seals", "", Excerpt}},
		{"ground seat of a rolling bearing, shaft", []GuideLimit{{"Ra", 0, 0.8}}, "0.4 µm for precision.", textbook("bearing handbook")},
		{"ground seat of a rolling bearing, housing", []GuideLimit{{"Ra", 0, 1.6}}, "", textbook("bearing handbook")},
		{"journal of a plain bearing", []GuideLimit{{"Ra", 0.2, 0.4}, {"Rz", 1, 2.5}}, "", textbook("bearing handbook")},
		{"cold-rolled sheet to be painted", []GuideLimit{{"Ra", 0.6, 1.9}}, "Cut-off 2.5 mm; peaks counted at ±0.5 µm.", textbook("practice of sheet makers")},
		{"contact with food", []GuideLimit{{"Ra", 0, 0.8}}, "0.4 µm in pharmacy.", textbook("hygiene guidance")},
		{"blast-cleaned steel before coating", nil, "Comparator segments for grit: 25, 60, 100 and 150 µm of the largest height in five (Ry5); for shot 25, 40, 70 and 100 µm. A tape and a stylus do not measure the same.",
			textbook("ISO 8503-1")},
		{"sliding pair", nil, "Negative Rsk, a small Rpk and some Rvk.", textbook("textbooks")},
		{"fillet under alternating load", nil, "A small Rv and Rzx; marks along the stress.", textbook("textbooks")},
	}
}

// IdealTurning returns the height Rt and the Ra that a round tool of the given nose radius leaves at a feed per
// revolution, all in one length unit.
//
//	Rt = f²/(8r)        Ra = 4/(9√3) · Rt = 0.032 08 f²/r
//
// Both treat the arc as a parabola, which is right for feeds that are small beside the radius. f = 200 µm and
// r = 800 µm give Rt 6.25 µm and Ra 1.60 µm.
//
// Source: common practice.
func IdealTurning(feed, radius float64) (rt, ra float64, err error) {
	if !(feed > 0) || !(radius > 0) || feed > radius {
		return 0, 0, errors.New("standards: the feed must be above 0 and no larger than the nose radius")
	}
	rt = feed * feed / (8 * radius)
	return rt, rt * 4 / (9 * math.Sqrt(3)), nil // mean of |z - mean| of a parabola of height 1
}

// A CautionCard is what can spoil a value without being seen in it.
type CautionCard struct {
	Key  string // "skid", "tip", "soft" ...
	Text string
}

// CautionSource is where the cautions come from.
var CautionSource = Ref{"general practice of the trade", "", Trade}

// Cautions returns what should be thought of before a value is trusted; the keys let a program show one where it matters.
func Cautions() []CautionCard {
	return []CautionCard{
		{"skid", "A skid hides waviness and distorts wide grooves; a peak under it shows as a valley. No P, W or material ratio of a wavy part with a skid."},
		{"soft", "A tip of 2 µm at 0.75 mN can leave a mark on aluminium, copper, gold, plastics and lacquer. Look at the track; use a larger radius, less force or a replica."},
		{"steep", "Flanks steeper than 60° (45° with a cone of 90°) are cut off, and valleys narrower than the tip are closed: Rv and Rvk come out too small."},
		{"clean", "Clean and demagnetise the part. Dust raises Rz."},
		{"lay", "Trace across the lay, where the values are largest. On a crosshatch, state the direction."},
		{"flaws", "Keep off scratches, pores, burrs and edges: they are no roughness unless it is agreed."},
		{"level", "A tilt uses up the range of the instrument and falsifies an unfiltered profile."},
		{"vibration", "Compare with a trace on a flat: what shows there is the instrument and the room."},
		{"compare", "Compare only values with the same cut-offs, filter, number of sections and tip."},
		{"cylinder", "On a cylinder trace along the axis at the crest, or remove its form."},
		{"lead", "A profile cannot show lead, the spiral that pumps oil past a seal."},
		{"replica", "A replica turns heights over: peaks and valleys change places."},
		{"safety", "Stop and lock the machine, clamp the part, mind sharp burrs and laser light. Keep fingers from under the drive; a diamond tip breaks under a side load."},
	}
}

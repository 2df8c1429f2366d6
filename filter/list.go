package filter

import "slices"

// An Info describes one filter: what settings, their schema, the menus of a page and requirements on a drawing know about it.
type Info struct {
	Key     string // the word in settings: "two-rc-zero-phase"
	Name    string // in a menu or a table
	Said    string // in a sentence, in the terms of the trade
	Says    string // what it does, in one sentence
	Hint    string // why a person would choose it, in a few words
	Letters string // in a requirement of ISO 21920-1, as in ISO 1101: "RG"; empty for a filter without
	Word    string // in the text form of ISO 1302: "2RC"; empty for a filter without

	Options   []string // the keys of what it takes, its size first: see [Options]
	AnyEnds   bool     // every treatment of the ends can be asked for, not only discarding
	Order     int      // degree of the local polynomial where settings leave it out
	Base      string   // key of the linear filter it is built on; empty for a linear filter and for an envelope
	AtCutoff  float64  // share of a sine at the cut-off that stays in the long waves w; 0 for an envelope
	Short     float64  // share that stays in the short waves z - w; 0 for an envelope
	Symmetric bool     // the same from left to right and from right to left
	Keeps     int      // degree of the polynomials kept to the very ends by default: -1 none, 0 constants, 1 lines, 2 parabolas
	Source    string   // document and clause
	Basis     string   // how it is known: "excerpt", "memory", "own choice" ...

	build func(s Spec) Filter
}

// Size returns the key of the option that says how large the filter is: "cutoff", "radius" or "length".
func (i *Info) Size() string { return i.Options[0] }

// Envelope reports whether the filter computes an envelope, not a mean line.
func (i *Info) Envelope() bool { return i.Size() != "cutoff" }

// Linear reports whether sums of profiles give sums of results.
func (i *Info) Linear() bool { return !i.Envelope() && i.Base == "" }

// New makes the filter of the given cut-off, radius or length with everything else at its default.
func (i *Info) New(size float64) Filter {
	s := Spec{Filter: i.Key}
	optionOf(i.Size()).Set(&s, size)
	return i.build(s)
}

// Find returns the filter of a key, nil where there is none.
func Find(key string) *Info {
	for i := range list {
		if list[i].Key == key {
			return &list[i]
		}
	}
	return nil
}

// All returns every filter, in the order of the documents.
func All() []Info { return slices.Clone(list) }

// The list of filters. A new one is a file with its type, and a row here: settings, schema, menus and requirements read the row.
var list = []Info{
	{
		Key: "gaussian", Name: "Gaussian", Said: "Gaussian", Letters: "G", Word: "Gauss",
		Says: "Weighted mean with bell-shaped weights; moment retainment at the ends.", Hint: "without a shift along the trace",
		Options: []string{"cutoff", "support"}, AnyEnds: true, AtCutoff: 0.5, Short: 0.5, Symmetric: true, Keeps: 1,
		Source: "ISO 16610-21:2011; ISO 16610-28:2016", Basis: "excerpt",
		build: func(s Spec) Filter { return s.gaussian() },
	},
	{
		Key: "gaussian-regression", Name: "Gaussian regression", Said: "Gaussian regression",
		Says: "Local polynomial with bell-shaped weights; single points can be excluded.", Hint: "follows curved form and ends",
		Options: []string{"cutoff", "order", "support"}, Order: 1, AtCutoff: 0.5, Short: 0.5, Symmetric: true, Keeps: 1,
		Source: "ISO 16610-31:2016", Basis: "memory",
		build: func(s Spec) Filter { return GaussianRegression{s.Cutoff, s.degree(), s.Support} },
	},
	{
		Key: "robust-gaussian", Name: "robust Gaussian regression", Said: "robust Gaussian", Letters: "RG",
		Says: "Local polynomial, repeated without the outliers; grooves do not pull it down.", Hint: "deep pits do not pull it",
		Options: []string{"cutoff", "order", "support", "tolerance", "passes"}, Order: 2, Base: "gaussian-regression", AtCutoff: 0.5, Short: 0.5, Symmetric: true, Keeps: 2,
		Source: "ISO 16610-31:2016", Basis: "memory",
		build: func(s Spec) Filter { return RobustGaussian{s.Cutoff, s.degree(), s.Tolerance, s.Passes, s.Support} },
	},
	{
		Key: "spline", Name: "spline", Said: "spline", Letters: "S",
		Says: "Smoothing spline; follows a straight line up to both ends.", Hint: "defined up to the ends",
		Options: []string{"cutoff", "tension"}, AtCutoff: 0.5, Short: 0.5, Symmetric: true, Keeps: 1,
		Source: "ISO 16610-22:2015", Basis: "excerpt",
		build: func(s Spec) Filter { return Spline{Cutoff: s.Cutoff, Tension: s.Tension} },
	},
	{
		Key: "robust-spline", Name: "robust spline", Said: "robust spline", Letters: "RS",
		Says: "Smoothing spline, repeated without the outliers.", Hint: "deep pits do not pull it",
		Options: []string{"cutoff", "tension"}, Base: "spline", AtCutoff: 0.5, Short: 0.5, Symmetric: true, Keeps: 1,
		Source: "ISO/TR 16610-32:2023", Basis: "excerpt",
		build: func(s Spec) Filter { return RobustSpline{Cutoff: s.Cutoff, Tension: s.Tension} },
	},
	{
		Key: "two-rc", Name: "2RC, of older instruments", Said: "2RC", Word: "2RC",
		Says: "Two analogue high-passes in the direction of travel; shifts the waves, needs a run-up of two cut-offs.", Hint: "75 % pass at the cut-off, with a shift along the trace",
		Options: []string{"cutoff"}, AtCutoff: 0.901387818865997, Short: 0.75, Keeps: 0,
		Source: "ISO 3274:1975; ASME B46.1-2002", Basis: "memory",
		build: func(s Spec) Filter { return TwoRC{Cutoff: s.Cutoff} },
	},
	{
		Key: "two-rc-zero-phase", Name: "2RC without shift", Said: "2RC without phase shift",
		Says: "One analogue high-pass in each direction; transmission is the percentage that passes at the cut-off.", Hint: "75 % pass at the cut-off, applied in both directions",
		Options: []string{"cutoff", "transmission"}, AtCutoff: 0.25, Short: 0.75, Symmetric: true, Keeps: 1,
		Source: "ASME B46.1-2002", Basis: "memory",
		build: func(s Spec) Filter { return TwoRCZeroPhase{s.Cutoff, s.Transmission} },
	},
	{
		Key: "valley-suppression", Name: "Gaussian in two passes", Said: "two passes that ignore valleys, ISO 13565-1",
		Says: "Gaussian of the profile after its valleys were filled up to a first mean line.", Hint: "valleys are cut off after the first pass",
		Options: []string{"cutoff", "support"}, AnyEnds: true, Base: "gaussian", AtCutoff: 0.5, Short: 0.5, Symmetric: true, Keeps: 1,
		Source: "ISO 13565-1:1996", Basis: "memory",
		build: func(s Spec) Filter { return ValleySuppression(s.gaussian()) },
	},
	{
		Key: "disk-closing", Name: "closing by a disk", Said: "closing by a disk",
		Says: "Envelope of a disk rolling above; bridges narrow valleys.", Hint: "bridges narrow valleys",
		Options: []string{"radius"}, Symmetric: true, Keeps: 0, Source: "ISO 16610-41:2015", Basis: "excerpt",
		build: func(s Spec) Filter { return DiskClosing{s.Radius} },
	},
	{
		Key: "disk-opening", Name: "opening by a disk", Said: "opening by a disk",
		Says: "Envelope of a disk rolling below; cuts narrow peaks.", Hint: "cuts narrow peaks",
		Options: []string{"radius"}, Symmetric: true, Keeps: 0, Source: "ISO 16610-41:2015", Basis: "excerpt",
		build: func(s Spec) Filter { return DiskOpening{s.Radius} },
	},
	{
		Key: "segment-closing", Name: "closing by a level segment", Said: "closing by a level segment",
		Says: "Fills valleys narrower than the segment to their lower rim.", Hint: "fills narrow valleys",
		Options: []string{"length"}, Symmetric: true, Keeps: 0, Source: "ISO 16610-41:2015", Basis: "excerpt",
		build: func(s Spec) Filter { return SegmentClosing{s.Length} },
	},
	{
		Key: "segment-opening", Name: "opening by a level segment", Said: "opening by a level segment",
		Says: "Cuts peaks narrower than the segment.", Hint: "cuts narrow peaks",
		Options: []string{"length"}, Symmetric: true, Keeps: 0, Source: "ISO 16610-41:2015", Basis: "excerpt",
		build: func(s Spec) Filter { return SegmentOpening{s.Length} },
	},
	{
		Key: "disk-alternating", Name: "alternating closing and opening by a disk", Said: "alternating closing and opening by a disk",
		Says: "Closing, then opening: peaks and valleys narrower than the disk both go.", Hint: "cuts narrow peaks and bridges narrow valleys",
		Options: []string{"radius"}, Symmetric: true, Keeps: 0, Source: "ISO 16610-49:2015", Basis: "excerpt",
		build: func(s Spec) Filter { return DiskAlternating{Radius: s.Radius} },
	},
}

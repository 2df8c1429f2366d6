package filter

// An Info describes one filter, for tables and choices.
type Info struct {
	Key       string // the word in settings: "two-rc-zero-phase"
	Name      string // in the terms of the trade
	Says      string // what it does, in one sentence
	Size      string // what its size is called: "cut-off", "radius" or "length"
	Options   []string
	AtCutoff  float64 // share of a sine at the cut-off that stays in the long waves w; 0 for an envelope
	Short     float64 // share that stays in the short waves z - w; 0 for an envelope
	Linear    bool    // sums of profiles give sums of results
	Symmetric bool    // the same from left to right and from right to left
	Keeps     int     // degree of the polynomials kept to the very ends: -1 none, 0 constants, 1 lines, 2 parabolas
	Envelope  bool    // an envelope, not a mean line
	Source    string  // document and clause
	Basis     string  // how it is known: "excerpt", "memory", "own choice" ...

	// New makes the filter of the given cut-off, radius or length with everything else at its default.
	New func(size float64) Filter
}

// All returns every filter, in the order of the documents. Keeps is for the default options.
func All() []Info {
	return []Info{
		{
			Key: "gaussian", Name: "Gaussian", Says: "Weighted mean with bell-shaped weights; moment retainment at the ends.",
			Size: "cut-off", Options: []string{"support", "ends", "fit", "discard_length"}, AtCutoff: 0.5, Short: 0.5, Linear: true, Symmetric: true, Keeps: 1,
			Source: "ISO 16610-21:2011; ISO 16610-28:2016", Basis: "excerpt",
			New: func(v float64) Filter { return Gaussian{Cutoff: v} },
		},
		{
			Key: "gaussian-regression", Name: "Gaussian regression", Says: "Local polynomial with bell-shaped weights; single points can be excluded.",
			Size: "cut-off", Options: []string{"order", "support"}, AtCutoff: 0.5, Short: 0.5, Linear: true, Symmetric: true, Keeps: 1,
			Source: "ISO 16610-31:2016", Basis: "memory",
			New: func(v float64) Filter { return GaussianRegression{Cutoff: v} },
		},
		{
			Key: "robust-gaussian", Name: "robust Gaussian regression", Says: "Local polynomial, repeated without the outliers; grooves do not pull it down.",
			Size: "cut-off", Options: []string{"order", "tolerance", "passes", "support"}, AtCutoff: 0.5, Short: 0.5, Symmetric: true, Keeps: 2,
			Source: "ISO 16610-31:2016", Basis: "memory",
			New: func(v float64) Filter { return RobustGaussian{Cutoff: v} },
		},
		{
			Key: "spline", Name: "spline", Says: "Smoothing spline; follows a straight line up to both ends.",
			Size: "cut-off", Options: []string{"tension"}, AtCutoff: 0.5, Short: 0.5, Linear: true, Symmetric: true, Keeps: 1,
			Source: "ISO 16610-22:2015", Basis: "excerpt",
			New: func(v float64) Filter { return Spline{Cutoff: v} },
		},
		{
			Key: "robust-spline", Name: "robust spline", Says: "Smoothing spline, repeated without the outliers.",
			Size: "cut-off", Options: []string{"tension", "tolerance", "passes"}, AtCutoff: 0.5, Short: 0.5, Symmetric: true, Keeps: 1,
			Source: "ISO/TR 16610-32:2023", Basis: "excerpt",
			New: func(v float64) Filter { return RobustSpline{Cutoff: v} },
		},
		{
			Key: "two-rc", Name: "2RC", Says: "Two analogue high-passes in the direction of travel; shifts the waves, needs a run-up of two cut-offs.",
			Size: "cut-off", Options: []string{"constant"}, AtCutoff: 0.901387818865997, Short: 0.75, Linear: true, Keeps: 0,
			Source: "ISO 3274:1975; ASME B46.1-2002", Basis: "memory",
			New: func(v float64) Filter { return TwoRC{Cutoff: v} },
		},
		{
			Key: "two-rc-zero-phase", Name: "2RC without phase shift", Says: "One analogue high-pass in each direction; transmission is the percentage that passes at the cut-off.",
			Size: "cut-off", Options: []string{"transmission"}, AtCutoff: 0.25, Short: 0.75, Linear: true, Symmetric: true, Keeps: 1,
			Source: "ASME B46.1-2002", Basis: "memory",
			New: func(v float64) Filter { return TwoRCZeroPhase{Cutoff: v} },
		},
		{
			Key: "valley-suppression", Name: "valley suppression in two stages", Says: "Gaussian of the profile after its valleys were filled up to a first mean line.",
			Size: "cut-off", Options: []string{"support", "ends", "fit", "discard_length"}, AtCutoff: 0.5, Short: 0.5, Symmetric: true, Keeps: 1,
			Source: "ISO 13565-1:1996", Basis: "memory",
			New: func(v float64) Filter { return ValleySuppression{Cutoff: v} },
		},
		{
			Key: "disk-closing", Name: "closing by a disk", Says: "Envelope of a disk rolling above; bridges narrow valleys.",
			Size: "radius", Symmetric: true, Keeps: 0, Envelope: true,
			Source: "ISO 16610-41:2015", Basis: "excerpt",
			New: func(v float64) Filter { return DiskClosing{Radius: v} },
		},
		{
			Key: "disk-opening", Name: "opening by a disk", Says: "Envelope of a disk rolling below; cuts narrow peaks.",
			Size: "radius", Symmetric: true, Keeps: 0, Envelope: true,
			Source: "ISO 16610-41:2015", Basis: "excerpt",
			New: func(v float64) Filter { return DiskOpening{Radius: v} },
		},
		{
			Key: "segment-closing", Name: "closing by a level segment", Says: "Fills valleys narrower than the segment to their lower rim.",
			Size: "length", Symmetric: true, Keeps: 0, Envelope: true,
			Source: "ISO 16610-41:2015", Basis: "excerpt",
			New: func(v float64) Filter { return SegmentClosing{Length: v} },
		},
		{
			Key: "segment-opening", Name: "opening by a level segment", Says: "Cuts peaks narrower than the segment.",
			Size: "length", Symmetric: true, Keeps: 0, Envelope: true,
			Source: "ISO 16610-41:2015", Basis: "excerpt",
			New: func(v float64) Filter { return SegmentOpening{Length: v} },
		},
		{
			Key: "disk-alternating", Name: "alternating closing and opening by a disk", Says: "Closing, then opening: peaks and valleys narrower than the disk both go.",
			Size: "radius", Options: []string{"open_first"}, Symmetric: true, Keeps: 0, Envelope: true,
			Source: "ISO 16610-49:2015", Basis: "excerpt",
			New: func(v float64) Filter { return DiskAlternating{Radius: v} },
		},
	}
}

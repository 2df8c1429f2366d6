// Package filter splits a surface profile into its long waves and its short ones, and removes its form.
//
// Everything works on plain slices: heights z at equal spacing dx. Cut-off, spacing, radius and wavelength share one
// length unit with each other, and with the heights wherever a circle, a disk or a total least-squares line is involved.
//
// # The filters
//
// A [Filter] computes the long-wave part w (the mean line, or waviness); the short-wave part is z - w.
//
//   - [Gaussian], the standard one (ISO 16610-21, -28).
//   - [GaussianRegression] and [RobustGaussian], local polynomials with Gaussian weights (ISO 16610-31).
//   - [Spline] and [RobustSpline] (ISO 16610-22, ISO/TR 16610-32).
//   - [TwoRC] and [TwoRCZeroPhase], the filters of analogue instruments (ISO 3274:1975, ASME B46.1).
//   - [ValleySuppression], two stages of a Gaussian (ISO 13565-1).
//   - [DiskClosing], [DiskOpening], [DiskAlternating], [SegmentClosing], [SegmentOpening] (ISO 16610-41, -49).
//
// [All] lists them as data, and [Options] what they take; a [Spec] is a filter as settings state it. A [Weighted] filter leaves out single
// points; a [Trimmer] says which ends to cut away. A [Local] filter works on a profile of any length, in blocks: [Stream].
//
// # The forms
//
// A [Form] fits a shape to all or to some of the points: [Mean], [Line], [TotalLine], [Polynomial], [Circle], [Ellipse].
//
// # What a filter refuses
//
// A cut-off that is not positive or that spans fewer than two samples, a spacing that is not positive, a height that is not
// a finite number (a [PointError] says which one). A result is computed or refused, never guessed: no NaN comes out of
// finite numbers. What is allowed yet unwise, such as a cut-off of fewer than four samples or a profile shorter than two
// cut-offs, is told by [Advise].
//
// # Sources
//
// The texts of the ISO 16610 series are not public. What rests on public excerpts, on derivation from the definition, on
// memory or on a choice of our own is said at each filter.
package filter

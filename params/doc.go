// Package params holds the catalogue of surface texture parameters: what each is called, what it means in each
// edition, how it is computed, and how its value came about.
//
// There are two ways in. Every parameter is an exported function on plain slices, named by its symbol: heights first,
// then the spacing where a length along the trace enters, then the number of points in a section where sections enter,
// then the arguments. And [Lookup] finds a parameter by the name an edition gives it, [Evaluate] computes many at
// once, sharing what they share, and [Construct] shows the work.
//
// Heights are measured from the reference line and positive out of the material; no parameter subtracts a further
// mean. The functions keep to one length unit for heights and lengths; counts and densities are per millimetre and so
// take micrometres, as the catalogue does throughout.
//
// # Where a parameter is computed
//
// A family is one file or a few: the row (a card with names, meanings, formula and texts) under its doc comment, then the evaluator,
// then the construction. Clauses are those of ISO 21920-2 unless another document is named.
//
//	4.2.2 to 4.2.5   Ra, Rq, Rsk, Rku                       height.go
//	4.2.6, 4.2.7     Rt, Rzx                                extreme.go
//	5.1              Rp, Rv, Rz, Rpt, Rvt                   extreme.go
//	4.3              Ral, Rsw                               spectrum.go
//	4.4              Rdq, Rda, Rdt, Rdl, Rdr                gradient.go
//	4.5.1, 4.5.2     Rmr, Rmc, Rdc                          ratio.go
//	4.5.3            Rk, Rpk, Rvk and what goes with them   core.go, core_construct.go, on the curve of curve.go
//	4.5.4            Rpq, Rvq, Rmq                          probability.go, probability_conic.go, probability_normal.go
//	4.5.5            volumes                                volume.go, on the curve of curve.go
//	5.2              Rsm, Rc, Rpc and their kin             spacing.go, on the elements of element.go
//	5.3              R5p, R10z, Rpd, Rmpc and their kin     feature.go, on the extremes of feature_watershed.go
//	works standard   WDSm, WDc, WDt                         dominant.go
//	ISO 12085        R, AR, Rx and their kin                motif_roughness.go, on the motifs of motif.go
//	ISO 12085        W, AW, Wx and their kin                motif_waviness.go
//	ISO 12085        Rke, Rpke, Rvke, Mr1e, Mr2e            motif_envelope.go
//	older, ASME      ten-point heights, R3z                 older_ten.go
//	older, ASME      Rmax, Ra75                             older_heights.go
//	older, ASME      S, D, λa, λq, lr                       older_spacing.go
//	older, ASME      tp                                     older_bearing.go
//	EN 10049, ASME   RPc in a band, Pc, HSC                 older_count.go
//
// An edition that only calls a parameter by another name has it as a meaning of the row: Ry is Rz, Rpm is Rp, Lo is Rdl, Htp is Rdc.
// The exported functions in functions_gen.go are made from the comments above the rows; each says which file its row stands in.
// How constructions are built stands in construction.go, how worked lines are printed in worked.go, how formulas are read and written in
// formula.go and formula_writing.go, and how a card is read in catalogue.go. A
// construction is drawn by roughness/figure/construction.go, which takes the axes by the [Plane] of each step; ratio.go there has those of
// [RatioPlane].
//
// # How to add a parameter
//
// Write a row in the family's list, with the card, the evaluator on the shared work, the construction, and the doc comment above it
// (formula, symbol, input, unit, evaluated over, source, special cases: the order of [Rq]). The first line of the comment is the
// signature of the exported function, which generate_test.go writes into functions_gen.go; a test holds comment and row together.
package params

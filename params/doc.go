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
// # How to add a parameter
//
// Write the evaluator on the shared work, the exported function with its doc comment (formula, symbol, input, unit,
// evaluated over, source, special cases: the order of [Rq]), and a row in the group's list with its references; a test
// holds the three together.
package params

// Package inspect looks at a trace before it is used, and says what a person should look at before believing its values: gaps,
// clipping, spikes, steps, coarse heights, form, filters that were applied before. [Look] makes the looks one after the other:
//
//	inspect.go   gaps, flat, too-coarse, too-short, drift, form, upside-down, one-sign
//	points.go    clipped, repeated-end, quantised, spikes, step
//	spectrum.go  long-waves-missing, short-waves-missing, periodic
package inspect

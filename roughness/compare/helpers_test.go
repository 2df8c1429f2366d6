package compare_test

import "example.com/furrow/testdata/trial"

var (
	off      = trial.Off
	gaussian = trial.Gaussian
	evaluate = trial.Evaluate
	value    = trial.Value
	near     = trial.Near
	sine     = trial.Sine
	trace    = trial.Trace
	tipOver  = trial.TipOver
)

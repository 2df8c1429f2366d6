//go:build race

package tracefile_test

// underRace says that the race detector watches, which makes long searches ten times longer.
const underRace = true

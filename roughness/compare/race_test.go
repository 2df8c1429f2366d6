//go:build race

package compare_test

// underRace says that the race detector watches, which makes long searches ten times longer.
const underRace = true

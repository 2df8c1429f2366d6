//go:build !race

package tracefile_test

const underRace = false

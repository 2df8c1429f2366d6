//go:build !race

package compare_test

const underRace = false

//go:build !race

package roughness_test

const underRace = false

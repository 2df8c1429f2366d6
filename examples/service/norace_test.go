//go:build !race

package main

import "time"

// longestStop is how long after the end of its context a request may end.
const longestStop = 10 * time.Millisecond

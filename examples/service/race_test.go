//go:build race

package main

import "time"

// longestStop is longer where the race detector watches, which makes everything ten times slower and more.
const longestStop = time.Second

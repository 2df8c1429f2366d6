//go:build unix

package main

import (
	"syscall"
	"testing"
)

// pipe makes a named pipe, which nobody writes to, and returns how many it made.
func pipe(t *testing.T, name string) int {
	if err := syscall.Mkfifo(name, 0o600); err != nil {
		t.Fatal(err)
	}
	return 1
}

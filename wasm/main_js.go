package main

import (
	"fmt"
	"os"

	"github.com/hack-pad/safejs"
)

// registration is the name of the callback that furrow.js puts on the global object before it starts the module, and
// takes away as soon as it was called. Nothing of furrow stays there.
const registration = "__furrow_ready"

func main() {
	if err := register(&module{}); err != nil {
		fmt.Fprintln(os.Stderr, "wasm:", err)
		os.Exit(1)
	}
	select {} // calls come in from here on
}

// register hands the functions to the waiting script.
func register(m *module) error {
	table, err := newObject()
	if err != nil {
		return err
	}
	for _, f := range functions {
		wrapped, err := export(m, f)
		if err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
		if err := table.Set(f.name, wrapped); err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
	}
	_, err = safejs.Global().Call(registration, table)
	return err
}

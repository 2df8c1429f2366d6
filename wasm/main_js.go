package main

import (
	"fmt"
	"os"

	"github.com/hack-pad/safejs"
)

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
	_, err = safejs.Global().Call(registrationName, table)
	return err
}

//go:build !js

package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "wasm: this program runs in a browser; build it with  go run ./wasm/build  or see it with  go run ./wasm/serve")
	os.Exit(2)
}

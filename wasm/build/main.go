// Build compiles the evaluation to WebAssembly and puts it, with its loader,
// into the page's folder, which is then complete: any web server that sends
// .wasm as application/wasm can serve it.
//
//	go run ./wasm/build
package main

import (
	"fmt"
	"log"
	"path/filepath"

	"example.com/furrow/wasm/build/bundle"
)

func main() {
	log.SetFlags(0)
	p, err := bundle.Build()
	if err != nil {
		log.Fatal(err)
	}
	for _, f := range []bundle.Generated{p.Module, p.Loader} {
		fmt.Printf("%-12s %9d bytes, %8d after gzip\n", filepath.Base(f.Path), len(f.Data), len(f.Gzip))
	}
}

// Build compiles the evaluation to WebAssembly and puts it, with its loader,
// into the page's folder, which is then complete: any web server that sends
// .wasm as application/wasm can serve it.
//
//	go run ./wasm/build
//	go run ./wasm/build -out FOLDER
//	go run ./wasm/build -npm
//
// Beside each file lies its packed form for servers that send it: .gz, and .br where node is installed.
//
// With -out it copies what a browser asks for into a folder as well, to be put on any static server. With -npm it also makes the npm
// package in wasm/npm/package, of which `npm pack` makes one file.
package main

import (
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"

	"example.com/furrow/wasm/build/bundle"
)

func main() {
	log.SetFlags(0)
	out := flag.String("out", "", "`folder` to copy the page into")
	npm := flag.Bool("npm", false, "make the npm package as well")
	flag.Parse()
	if flag.NArg() > 0 {
		log.Fatalf("build: %q is not an option", flag.Arg(0))
	}
	p, err := bundle.Build()
	if err != nil {
		log.Fatal(err)
	}
	if !*npm || *out != "" { // the package is not served
		if err := p.Pack(); err != nil {
			log.Fatal(err)
		}
	}
	for _, f := range []bundle.Generated{p.Module, p.Loader} {
		fmt.Printf("%-12s %9d bytes", filepath.Base(f.Path), len(f.Data))
		for _, packing := range bundle.Packings() {
			if is, err := os.Stat(f.Path + packing.Suffix); err == nil {
				fmt.Printf(", %8d as %s", is.Size(), packing.Coding)
			}
		}
		fmt.Println()
	}
	if *npm {
		dir, err := p.Package()
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println("the npm package is in", dir)
	}
	if *out == "" {
		return
	}
	if err := p.Copy(*out); err != nil {
		log.Fatal(err)
	}
	fmt.Println("the page is in", *out)
}

// Serve builds the page and serves it to this machine alone.
//
//	go run ./wasm/serve
//	go run ./wasm/serve -addr 127.0.0.1:9000
//
// It prints the address to open on a line of its own. Nothing is cached, so a
// changed script or style shows at the next reload; changed Go code needs a
// new start.
package main

import (
	"flag"
	"fmt"
	"log"
	"net"
	"net/http"
	"time"

	"example.com/furrow/wasm/build/bundle"
)

// usual keeps what the browser remembers for the page, which goes by port,
// from one start to the next.
const usual = "127.0.0.1:8417"

func main() {
	log.SetFlags(0)
	addr := flag.String("addr", "", "`host:port` to listen on; port 0 is any free one (default "+usual+", or any free port)")
	flag.Parse()
	if flag.NArg() > 0 {
		log.Fatalf("serve: unexpected argument %q", flag.Arg(0))
	}
	log.Print("Building the page; the first time this takes a minute.")
	page, err := bundle.Build()
	if err != nil {
		log.Fatal(err)
	}
	l, err := listen(*addr)
	if err != nil {
		log.Fatalf("serve: %v", err)
	}
	fmt.Printf("The page is open to this machine alone; Control+C ends it.\nhttp://%s/\n", l.Addr())
	server := &http.Server{Handler: handler(page), ReadHeaderTimeout: 10 * time.Second}
	log.Fatal(server.Serve(l))
}

// listen opens the address asked for, or the usual one, or, where that is
// taken, any free port.
func listen(addr string) (net.Listener, error) {
	if addr != "" {
		return net.Listen("tcp", addr)
	}
	if l, err := net.Listen("tcp", usual); err == nil {
		return l, nil
	}
	return net.Listen("tcp", "127.0.0.1:0")
}

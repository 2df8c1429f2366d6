// Serve builds the page and serves it on this machine.
//
//	go run ./wasm/serve
//	go run ./wasm/serve -addr 127.0.0.1:9000
//
// It answers to localhost, 127.x.x.x and [::1] only, whatever the address it
// listens on. It prints the address to open on a line of its own. What has changed
// shows after a new start.
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
	pages, err := handler(page)
	if err != nil {
		log.Fatalf("serve: %v", err)
	}
	fmt.Print(greeting(l.Addr()))
	server := &http.Server{Handler: pages, ReadHeaderTimeout: 10 * time.Second}
	log.Fatal(server.Serve(l))
}

// greeting says who can reach the page, and where to open it.
func greeting(at net.Addr) string {
	tcp, ok := at.(*net.TCPAddr)
	switch {
	case ok && tcp.IP.IsLoopback():
		return fmt.Sprintf("Only this machine can reach the page; Control+C ends it.\nhttp://%s/\n", at)
	case ok && tcp.IP.IsUnspecified():
		return fmt.Sprintf("Other machines can reach this address too (%s), and no password protects the page. A browser on another machine gets it "+
			"only through a tunnel to localhost. Control+C ends it.\nhttp://localhost:%d/\n", at, tcp.Port)
	}
	return fmt.Sprintf("Other machines can reach this address too (%s), and no password protects the page. The page answers only to localhost, "+
		"127.0.0.1 and [::1], so a browser gets it only through a tunnel from there. Control+C ends it.\n", at)
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

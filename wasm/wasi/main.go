// Command wasi is furrow for programs in other languages, as a module for any WASI runtime (preview 1).
//
//	GOOS=wasip1 GOARCH=wasm go build -buildmode=c-shared -o furrow.wasm ./wasm/wasi
//
// The module is a reactor: call _initialize once, then
//
//	furrow_version() -> i32                       the number of this interface, 1
//	furrow_alloc(bytes i32) -> i32                lends memory at an address divisible by 8; 0: more than 1 GiB, or nothing, was asked for
//	furrow_free(address i32)                      takes it back
//	furrow_evaluate(heights i32, points i32, spacing f64, settings i32, length i32) -> i32
//	                                              0: the answer is a result, 1: it is an error
//	furrow_answer() -> i32                        address of the answer of the latest call
//	furrow_answer_length() -> i32                 its length in bytes
//
// Heights are 8-byte little-endian numbers in µm, NaN for an invalid point; the spacing is in µm. Settings are a settings file as JSON, UTF-8
// ("furrow_settings"), and a length of 0 stands for the defaults. A result is what examples/evaluate -json prints, in JSON:
//
//	{"caution": "...", "result": {"furrow_result": 2, "settings": ..., "values": [{"symbol": "Ra", "value": 0.41, "unit": "µm", ...}], ...}}
//
// and an error says its kind, settings, trace or memory, and the place where it has one:
//
//	{"caution": "...", "error": {"kind": "settings", "key": "long.cutoff", "text": "..."}}
//
// The order of a call: alloc for heights and settings, write them, evaluate, read the answer, free. The memory of the module grows: take a new
// view of it after every call. The answer is good until the next call. One module works on one call at a time; for several threads make
// several. It needs no file, no clock and no argument of its host. A host in JavaScript is node.mjs beside this file, one in Go lies in host/.
package main

// A module of the build mode c-shared has a main that is not called.
func main() {}

// Command wasm is the evaluation compiled to WebAssembly, for the page in wasm/page and for any script that imports
// page/furrow.js. It registers these functions with the script that started it, and then waits for calls:
//
//	version     what this module is
//	catalogue   the editions with their setting classes and parameters, and the filters and forms that settings can state
//	demos       the invented traces of the demonstration by title
//	demo        the heights of one of them
//	read        the text or bytes of a trace file, as heights at equal spacing
//	evaluate    a profile with settings, as a result
//	profiles    the profiles after the steps that are asked for
//	close       the end of an evaluation with a handle
//	construct   how a value of the latest evaluation came about, as geometry and arithmetic
//	figure      a picture of the latest evaluation as SVG, with the numbers it shows
//	transmit    the share of a wave's height that the filters of the latest evaluation let into each profile
//	make        a surface made up to try things out, and what is known of it beforehand
//	steady      how far a value of the latest evaluation moves when conditions move that nothing fixes, and what digits are sure
//	requirement what the text of a drawing asks: readings, settings, limits, open questions
//	judge       the verdict on the latest evaluation, or on a series of traces, by such a text
//	record      the record of a sheet as JSON, as a page that prints and carries it, and as tables
//	reopen      what a record holds, from the bytes of its file
//	verify      what of a record comes out otherwise when its traces are evaluated again
//	digest      the size and the SHA-256 of the bytes of a file
//	compare     what makes two values of the latest trace differ: shares of each change, settings that give printed values, editions, steadiness
//	instrument  a check of the instrument: specimen, flat, groove, tip, earlier checks, or the uncertainty budget of a value
//	selfcheck   the check register as it comes out on this machine, and its validation sheet
//	study       the Study sheet: an exercise evaluated and drawn after one move, its questions, blanks, table, link and codes
//	hold        a trace of a series, kept for the calls below
//	measure     the values of a held trace
//	summary     what is to say of the values of a series: mean, scatter, range, and which lie apart
//
// Every function takes JSON text and, where it needs heights or a file, one typed array; it answers {value} or {error}
// and never throws. A script may number its evaluations: a call with the number as third argument is about that one, which for it is the
// latest. page/furrow.js turns all this into what a script expects, and page/furrow.d.ts declares it.
//
// Build it with
//
//	go run ./wasm/build
package main

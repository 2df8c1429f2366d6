// Package tracefile reads traces of surface texture from files, and writes them.
//
// [Read] tells what kind of file it has by the content:
//
//   - delimited text in nearly every way people write it (see [Hints]);
//   - SMD, the reference data file of ISO 5436-2, text;
//   - SDF, ISO 25178-71, as text and binary; a profile, or a row or column of an area;
//   - X3P, ISO 25178-72, a ZIP archive; a profile, or a row or column of an area.
//
// What a file does not say, and what could be read in more than one way, is never guessed: the error wraps [Questions], which name
// the hints that answer. How the file was read is in the [Report] of a [Trace].
//
// Lengths and heights come out in micrometres. Places in errors are lines and columns from 1; a column counts characters.
//
// # Text
//
// Delimiter and decimal mark are those under which every row is numbers. Where several pairs are left, a header that splits into as
// many names as the rows have cells decides the delimiter, and with it the mark; otherwise it is a question. Units come from names
// ("x_mm", "Height (nm)", "Weg [mm]", "Position / µm"), from a row of units below them, or from a line of their own ("unit z: um",
// "dx [um]: 0.5"). A hint overrides what the file says.
//
// A row that cannot be read is an error with its place, in the first row as in any other. Empty cells and the words NaN, NA, n/a,
// BAD, ***, -, 1.#QNAN and #N/A are invalid points; their capitals do not matter.
//
// # What it costs
//
// Reading text takes at most six times the file in memory, the file included, and 4 MB besides; two columns as programs print them take
// twice the file. What would take more, nearly nothing but blank lines that stand for missing points, is refused before its numbers are
// read, and so is a file of more than [MaxSize] bytes. Numbers come out correctly rounded, the same bits as strconv's. A file
// of 10 million points goes through [Decode], which tells how far it is and can be stopped.
//
// # What is not trusted
//
// Counts in headers cost nothing until the numbers come. An archive may have 1000 members; what unpacks to more than 16 MB and more
// than 50 times its size is refused, and so are document types, entities, and links that lead out of the archive. main.xml is read as
// it is unpacked, up to 64 MB of it; beside its cells it may have 10000 elements with 4 MB of text, and no tag, text or remark may be
// longer than 1 MB. A profile in an X3P file may have 16.7 million points. A checksum that does not fit is a note: people edit their files.
//
// A file of another kind, a picture or a spreadsheet, is [ErrForeign]. No error quotes more than a few words of a file.
//
// # Why was line 12 refused?
//
// Every sentence of an error or of a question stands once in this package: search for its words. An error of text comes from one of
// three passes, and the sentinel it wraps says where to look. The commands print FILE:LINE:COLUMN before it (Located in examples/internal/cli).
//
//	encoding.go        bytes -> UTF-8                      ErrFormat (a zero byte), ErrForeign (foreign.go)
//	tokens.go          1 tokenise: lines and cells with their places; no errors
//	types.go, rows.go  2 type: each cell a number, missing, or neither; each line a row, a remark, blank, or other
//	                     ErrNumber, ErrQuote, ErrCells, ErrMissingX   readRow and readHeights in rows.go
//	                     the words of ErrNumber, and of ErrCells      notNumber in types.go by strangeCell in rows.go, and wrongCells there
//	                     ErrNumber, ErrQuote above the rows           attempt in types.go, wrongRow in decide.go, noRows in decide_layout.go
//	decide.go          3 decide: the questions in their order, and the trace
//	decide_layout.go     delimiter and decimal mark: ErrOpen (ambiguous), ErrNoData (noRows)
//	decide_header.go     names, units and statements above the rows
//	decide_columns.go    which columns, which rows: ErrOpen, ErrHint
//	decide_units.go      units and spacing: ErrOpen
//	grid.go              ErrUneven, ErrRepeated, ErrTurns: x against an even grid
//
// The words that a file may use stand in words.go. The other formats have a file or a group of files each: smd.go, sdf.go, x3p*.go, and
// write*.go for all of them.
package tracefile

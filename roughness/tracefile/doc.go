// Package tracefile reads traces of surface texture from files.
//
// [Read] tells what kind of file it has by the content. What a file does not say, and what could be read in more than one
// way, is never guessed: the error wraps [Questions], which name the hints that answer.
//
// Lengths and heights come out in micrometres. Places in errors are lines and columns from 1; a column counts characters.
package tracefile

// Package study holds what a person learns a parameter with: surfaces made of ingredients, the one thing that moves, questions to be
// answered before the value is shown, worked lines with blanks, and the text of a link that holds an exercise.
//
// A [State] is a whole exercise: symbol, surface, filter, sections and what moves. A [Desk] evaluates states and keeps what the next
// one can use again. Every value comes from package roughness; nothing is calculated here that a parameter is.
//
// Lengths along the trace are millimetres in a State, spacings and widths micrometres, as a person types them. Heights are micrometres.
package study

// Package standards holds editions of surface-texture standards as data: setting classes and cut-off tables, references
// with what they rest on, the text of a drawing requirement, acceptance rules and conformity decisions on plain numbers.
//
// It computes nothing on profiles and imports nothing of furrow.
package standards

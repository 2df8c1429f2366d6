// Package roughness is the entry point of furrow: it computes values from a measured profile and settings.
//
// All lengths, heights and cut-offs are micrometres, x and z alike.
//
// For one trace: [Evaluate] with [Settings], nil for the defaults. For many traces, or one again and again: [NewEvaluator]. From the
// text of a drawing to a verdict: package judge. For a trace that is too long to hold: [Evaluator.EvaluateLong].
//
// # Order of operations
//
// [Evaluate] goes through these steps and keeps the profile after each of them:
//
//  1. Read: the trace as it came, turned over, cropped and with parts left out as the settings say; invalid points at
//     the ends fall away, short gaps inside are bridged by a straight line and counted.
//  2. S-filter: the short waves are removed (ISO 21920-3, nesting index Nis; cut-off λs in ISO 3274).
//  3. F-operation: the nominal form is fitted and subtracted. What is left is the primary profile, P.
//  4. L-filter: the long waves (nesting index Nic, cut-off λc) are the waviness profile, W; P - W is the roughness
//     profile, R. With a waviness limit λf the waves longer than it are taken out of W as well.
//  5. Sections: the ends where a filter is not reliable are cut off, and the sections are laid in the middle of the rest.
//  6. Parameters: each value is computed on its profile over the sections or the evaluation length.
//
// The order S, F, L is that of ISO 21920-2:2021 and ISO 25178-2 (basis: excerpt).
package roughness

package callout_test

import (
	"errors"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// A refusal names the correction where one is plain, and none where two are possible.
func TestTry(t *testing.T) {
	for _, c := range []struct {
		text    string
		edition standards.EditionID
		try     string
	}{
		{"Rz 12,5 16", "iso-21920", "Rz 12,5 T16%"},
		{"L Ra 1,6; U Ra 0,8", "iso-21920", "U Ra 1,6; L Ra 0,8"},
		{"0,8-0,008/Ra 3,2", "iso-4287", "0,008-0,8/Ra 3,2"},
		{"8-0,8/Wz 3", "iso-4287", "0,8-8/Wz 3"}, {"2,5-0,8/Ra 1,6", "iso-4287", ""}, {"Rz => 3,2", "iso-21920", ""}, {"Ra 1.6 λc0.8 L4", "jis-b0601-2013", ""}, // 2,5 µm and 0,8 mm; an arrow
		{"Ra 0,8µmSc3", "iso-21920", "Ra 0,8µm Sc3"},
		{"Ra 1,6 max Rz 6,3", "iso-21920", ""}, {"Ra 1.6 3.2", "iso-21920", ""}, {"Rz 3,2 foo", "iso-21920", ""}, {"Ra 3 1,6", "iso-4287", ""},
		// Two limits or a limit and a cut-off.
		{"Rz 25 -0,8", "iso-21920", ""}, {"Ra 3,2 –0,8", "iso-4287", ""}, {"Ra 0,8 -2,5", "iso-21920", ""}, {"Rz 25 -0,8 mm", "iso-21920", ""},
	} {
		_, err := callout.ParseRequirement(c.text, c.edition)
		e := &callout.TextError{}
		if !errors.As(err, &e) || e.Try != c.try {
			t.Errorf("%q (%s): %v, try %q; want %q", c.text, c.edition, err, e.Try, c.try)
		}
	}
}

// Texts with two readings on one line ask, and names of other times are never read as motif parameters.
func TestAsked(t *testing.T) {
	for _, c := range []struct {
		text    string
		edition standards.EditionID
		key     string
	}{
		{"U Rz 5 / L Rz 1 Sc3", "iso-21920", "class"}, {"Ra 1,6, Rz 6,3 Sc3", "iso-21920", "class"}, {"Rz 3,2 λc 0,8 Ra 0,4", "iso-21920", "class"},
		{"Rz 3,2 G 0.0025 G 0.8", "iso-21920", "unit"}, {"Wmax 5", "iso-12085", "symbol"}, {"R max 5", "iso-12085", "symbol"}, {"Rmr(5,1) 60 Sc3", "iso-21920", "number"},
		{"Rz1 max 3,3", "iso-4287", "rz1max"}, {"Rz1  max 3,3", "iso-21920", "rz1max"}, {"Ra 1,6 lr 1,5", "iso-4287", "lengths"}, // as without the blank; lr is the cut-off
		{"Ra 1,6/63", "iso-21920", "pair"}, {"R 8", "iso-4287", "edition"}, {"Ra max 0,8 min 0,2", "iso-4287", "rule"}, {"Rpd 30 Sc3", "iso-21920", "unit"},
	} {
		rs, err := callout.ParseRequirement(c.text, c.edition)
		if err != nil || len(rs.Open()) == 0 || rs.Open()[0].Key != c.key {
			t.Errorf("%q (%s): %v; want the question %s", c.text, c.edition, err, c.key)
		}
	}
}

package tracefile_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

const sdfText = `aISO-1.0
ManufacID = lock shop
CreateDate = 020320260900
ModDate = 020320260900
NumPoints = 4
NumProfiles = 1
Xscale = 0.5e-6
Yscale = 0
Zscale = 1e-9
Zresolution = -1
Compression = 0
DataType = 7
CheckType = 0
*
1 2 3 4
*
`

// What stands against a header is told at its own line.
func TestSDFTextHeaderPlaces(t *testing.T) {
	if _, err := tracefile.Read([]byte(sdfText), nil); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		from, to string
		line     int
	}{
		{"NumPoints = 4", "NumPoints = 0", 5},
		{"NumProfiles = 1", "NumProfiles = 0", 6},
		{"Xscale = 0.5e-6", "Xscale = 0", 7},
		{"Zscale = 1e-9", "Zscale = 0", 9},
		{"Compression = 0", "Compression = 1", 11},
		{"DataType = 7", "DataType = 99", 12},
		{"CheckType = 0", "Xscale = 1e-6", 13}, // a second one
	} {
		_, err := tracefile.Read([]byte(strings.Replace(sdfText, c.from, c.to, 1)), nil)
		var wrong *tracefile.Error
		if !errors.As(err, &wrong) || wrong.Line != c.line {
			t.Errorf("%s: %v, want line %d", c.to, err, c.line)
		}
	}
}

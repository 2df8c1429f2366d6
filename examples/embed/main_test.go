package main

import (
	"bytes"
	"strings"
	"testing"

	"example.com/furrow/standards"
)

func TestRun(t *testing.T) {
	var out bytes.Buffer
	if err := run(nil, &out); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Upper limit 3.2 µm for Rz", "Rz = 2.920 µm", "ISO 21920-2:2021, 5.1.6", "Conforms. The value 2.92 µm does not exceed 3.2 µm.", standards.Caution,
		"cut-off 250 µm: Rz = 2.222 µm", "cut-off 800 µm: Rz = 2.920 µm"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in\n%s", want, &out)
		}
	}
	if err := run([]string{"absent.txt"}, &out); err == nil {
		t.Error("a file that is not there is no error")
	}
}

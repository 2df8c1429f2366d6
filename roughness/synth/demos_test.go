package synth_test

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness/synth"
)

// digest is the start of the checksum of the heights as whole thousandths of a micrometre. The same sums on amd64,
// 386 and wasm show that the traces do not depend on the platform.
func digest(z []float64) string {
	h := sha256.New()
	for _, v := range z {
		fmt.Fprintf(h, "%d\n", int64(math.Round(v*1000)))
	}
	return hex.EncodeToString(h.Sum(nil))[:16]
}

func TestDemosAreTheSameEverywhere(t *testing.T) {
	want := map[string]string{
		"ground-rod": "9451790210904037",
		"turned-pin": "58f06a2b5f5c7b9a",
		"honed-bore": "5ea428b19c2f1d08",
		"cast-face":  "36ca9318d4b26fa5",
	}
	for _, d := range synth.Demos() {
		if got := digest(d.Heights()); got != want[d.Key] {
			t.Errorf("%s: checksum %s, want %s", d.Key, got, want[d.Key])
		}
		if len(d.Heights()) != 9601 || d.Spacing != 0.5 {
			t.Errorf("%s: %d points at %g", d.Key, len(d.Heights()), d.Spacing)
		}
		if !strings.HasPrefix(d.Note, "Invented: ") {
			t.Errorf("%s is not marked as invented", d.Key)
		}
	}
}

func TestFindDemo(t *testing.T) {
	for _, d := range synth.Demos() {
		if found, ok := synth.FindDemo(d.Key); !ok || digest(found.Heights()) != digest(d.Heights()) {
			t.Errorf("FindDemo(%q) is not the one of Demos", d.Key)
		}
	}
	if _, ok := synth.FindDemo("moon"); ok {
		t.Error("found a demonstration trace that does not exist")
	}
}

package compare_test

import (
	"slices"
	"testing"

	"example.com/furrow/roughness"
)

// A symbol that an older edition gives another meaning is named as such: the ten-point height of JIS B 0601:1994 was its Rz.
func TestOtherMeaning(t *testing.T) {
	p := trace(3)
	e, err := roughness.Evaluate(p, &roughness.Settings{Edition: "jis-b0601-1994", Parameters: []string{"Rz", "Ra"}})
	if err != nil {
		t.Fatal(err)
	}
	f := find(t, p, "Rz "+digits(e.Values[0].Value, 5)+"; Ra "+digits(e.Values[1].Value, 4))
	if len(f.Fits) == 0 || !slices.Contains(f.Fits[0].Against, "Rz is another parameter in JIS B 0601:1994: ten-point height instead of maximum height.") {
		t.Errorf("%+v", f.Fits)
	}
}

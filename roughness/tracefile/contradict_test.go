package tracefile_test

import "testing"

// What a file says twice and not the same is a question at the second place; a hint answers it.
func TestContradictions(t *testing.T) {
	for _, c := range []struct{ name, text, hints, want string }{
		{"unit row against names", "x [µm];z [µm]\nmm;mm\n0;1\n1;2\n", "", "2:1 ask x_unit z_unit"},
		{"answered", "x [µm];z [µm]\nmm;mm\n0;1\n1;2\n", `{"x_unit":"mm","z_unit":"µm"}`, "1000: 1 2"},
		{"one answered", "x [µm];z [µm]\nmm;mm\n0;1\n1;2\n", `{"x_unit":"mm"}`, "2:4 ask z_unit"},
		{"statement against name", "Z unit = nm\nz [µm]\n1\n2\n", `{"spacing":1}`, "2:1 ask z_unit"},
		{"statement against statement", "Z unit = nm\nZ unit = µm\n1\n2\n", `{"spacing":1}`, "2:1 ask z_unit"},
		{"of x", "unit x: mm\nunit x: µm\nunit z: µm\n0;1\n1;2\n", "", "2:1 ask x_unit"},
		{"statements, answered", "Z unit = nm\nZ unit = µm\n1\n2\n", z1, "1: 1 2"},
		{"spacing", "Spacing = 0.5 µm\nSpacing = 0.7 µm\nZ unit = µm\n1\n2\n", "", "2:1 ask spacing"},
		{"spacing, answered", "Spacing = 0.5 µm\nSpacing = 0.7 µm\nZ unit = µm\n1\n2\n", `{"spacing":0.7}`, "0.7: 1 2"},
		{"spacing without a unit", "Spacing = 0.5\nSpacing = 0.7\nZ unit = µm\n1\n2\n", "", "2:1 ask spacing"},
		{"the same twice", "Spacing = 500 nm\nSpacing = 0.5 µm\nZ unit = um\nz [µm]\n1\n2\n", "", "0.5: 1 2"},
		{"together with what is open", "Spacing = 0.5 µm\nSpacing = 0.7 µm\n1\n2\n", "", "2:1 ask spacing z_unit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := outcome(c.text, c.hints); got != c.want {
				t.Errorf("%q with %s:\n got %s\nwant %s", c.text, c.hints, got, c.want)
			}
		})
	}
}

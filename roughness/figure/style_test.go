package figure_test

import (
	"regexp"
	"strings"
	"testing"

	"example.com/furrow/roughness/figure"
)

// Every class of every picture is in the style sheet, and every colour of the style sheet has a value.
func TestStyleSheetCoversEveryClass(t *testing.T) {
	sheet := figure.StyleSheet()
	for name, d := range drawings(t) {
		for _, width := range []int{350, 736} {
			for _, n := range nodes(t, d.Draw(figure.Options{Width: width}).SVG) {
				if n.name == "svg" {
					continue
				}
				for _, class := range strings.Fields(n.attrs["class"]) {
					if !strings.Contains(sheet, "."+class+" {") && !strings.Contains(sheet, "."+class+".") {
						t.Errorf("%s: class %q of a %s is not in the style sheet", name, class, n.name)
					}
				}
			}
		}
	}
	colours := figure.Colours()
	for _, m := range regexp.MustCompile(`var\(--([a-z0-9-]+)\)`).FindAllStringSubmatch(sheet, -1) {
		if colours[m[1]] == "" {
			t.Errorf("colour %s has no value", m[1])
		}
	}
}

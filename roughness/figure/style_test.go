package figure_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"example.com/furrow/roughness/figure"
)

// Every class of every picture is in the style sheet.
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
}

// The page's style sheet has the classes from here, and sets every colour and face that they name.
func TestPageStyle(t *testing.T) {
	const (
		name  = "../../wasm/page/style/pictures.css"
		begin = "/* made by go test ./roughness/figure -run PageStyle -update */\n"
		end   = "/* end */\n"
	)
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, begun := strings.Cut(string(data), begin)
	has, after, ended := strings.Cut(rest, end)
	want := figure.StyleSheet()
	switch {
	case !begun || !ended:
		t.Fatalf("%s has nothing between %q and %q", name, begin, end)
	case has == want:
	case !*update:
		t.Errorf("%s is out of date: go test ./roughness/figure -run PageStyle -update", name)
	default:
		if err := os.WriteFile(name, []byte(before+begin+want+end+after), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	tokens, err := os.ReadFile("../../wasm/page/style/tokens.css")
	if err != nil {
		t.Fatal(err)
	}
	alone := ""
	for _, d := range drawings(t) {
		alone += d.Draw(figure.Options{Standalone: true}).SVG
	}
	for _, m := range regexp.MustCompile(`var\(--([a-z0-9-]+)\)`).FindAllStringSubmatch(want, -1) {
		light := regexp.MustCompile(`--` + m[1] + `: ([^;]*);`).FindStringSubmatch(string(tokens))
		if light == nil {
			t.Errorf("the page does not set --%s", m[1])
		} else if strings.HasPrefix(light[1], "#") && !strings.Contains(alone, light[1]) {
			t.Errorf("no file of its own has the page's colour --%s, %s", m[1], light[1])
		}
	}
}

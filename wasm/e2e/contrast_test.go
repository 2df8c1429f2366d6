package e2e

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var (
	style   = filepath.Join(root, "wasm", "page", "style")
	token   = regexp.MustCompile(`--([a-z0-9-]+):\s*(#[0-9a-f]{6})\b`)
	literal = regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|\b(rgb|hsl|oklch|lab)a?\(`)
	paper   = regexp.MustCompile(`#fff\b|#000\b`) // print is black on white, whatever the device prefers
)

// Tools that judge a page's contrast do not look into pictures, so the colours
// are judged where they are named: text needs 4.5, what must be seen needs 3
// (WCAG 2.2, success criteria 1.4.3 and 1.4.11).
func TestContrast(t *testing.T) {
	themes := palettes(t)
	for _, theme := range []string{"light", "dark"} {
		palette := themes[theme]
		judge := func(front, back string, need float64) {
			if palette[front] == "" || palette[back] == "" {
				t.Errorf("%s: no colour %s or %s", theme, front, back)
				return
			}
			if got := contrast(palette[front], palette[back]); got < need {
				t.Errorf("%s: %s on %s has %.2f, needs %g", theme, front, back, got, need)
			}
		}
		for _, back := range []string{"paper", "field", "wash", "wash2", "accent-wash"} {
			for _, text := range []string{"ink", "ink2", "accent"} {
				judge(text, back, 4.5)
			}
		}
		judge("paper", "accent", 4.5) // the filled button
		for _, back := range []string{"paper", "field", "wash"} {
			judge("edge", back, 3)
		}
		for _, back := range []string{"paper", "wash", "accent-wash"} {
			judge("trace", back, 3)
		}
		judge("faint", "paper", 3)
	}
}

// The formula of WCAG 2.2, checked with its two ends.
func TestContrastFormula(t *testing.T) {
	if got := contrast("#ffffff", "#000000"); math.Abs(got-21) > 1e-12 {
		t.Errorf("white on black %v, want 21", got)
	}
	if got := contrast("#777777", "#777777"); got != 1 {
		t.Errorf("a colour on itself %v, want 1", got)
	}
}

// A colour named anywhere else would escape the judgement, and the dark theme.
func TestColoursNamedOnce(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(style, "*.css"))
	if err != nil || len(files) < 2 {
		t.Fatalf("style sheets: %v, %v", files, err)
	}
	for _, file := range files {
		switch filepath.Base(file) {
		case "tokens.css", "all.css", "record.css": // all.css is the others together; the record is black on white, and its style that of roughness/record
			continue
		}
		for i, line := range strings.Split(read(t, file), "\n") {
			if filepath.Base(file) == "print.css" {
				line = paper.ReplaceAllString(line, "")
			}
			if literal.MatchString(line) && !strings.Contains(line, "--") {
				t.Errorf("%s:%d: names a colour: %s", filepath.Base(file), i+1, strings.TrimSpace(line))
			}
		}
	}
}

// palettes reads the light and the dark tokens.
func palettes(t *testing.T) map[string]map[string]string {
	t.Helper()
	light, rest, ok := strings.Cut(read(t, filepath.Join(style, "tokens.css")), "@media (prefers-color-scheme: dark)")
	if !ok {
		t.Fatal("tokens.css has no dark theme")
	}
	dark, _, _ := strings.Cut(rest, "@media")
	themes := map[string]map[string]string{"light": {}, "dark": {}}
	for _, m := range token.FindAllStringSubmatch(light, -1) {
		themes["light"][m[1]], themes["dark"][m[1]] = m[2], m[2]
	}
	for _, m := range token.FindAllStringSubmatch(dark, -1) {
		themes["dark"][m[1]] = m[2]
	}
	return themes
}

func contrast(a, b string) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// luminance is the relative luminance of a colour #rrggbb.
func luminance(colour string) float64 {
	var sum float64
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		if err != nil {
			panic(err) // the expression that found it lets nothing else through
		}
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

func read(t *testing.T, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

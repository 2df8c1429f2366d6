package e2e

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// No width of window, and no size of text, needs a sideways scroll (WCAG 2.2,
// success criteria 1.4.4 and 1.4.10).
func TestWidths(t *testing.T) {
	s := open(t, 1280, 900)
	for _, width := range []int{320, 360, 390, 640, 768, 820, 1024, 1280, 1440, 1920} {
		s.fits(width, "width")
	}
}

func TestLargeText(t *testing.T) {
	s := openIn(t, large, 1280, 900)
	if size := eval[string](s, `getComputedStyle(document.documentElement).fontSize`); size != "32px" {
		t.Fatalf("the text of the reader is %s", size)
	}
	for _, width := range []int{390, 640, 1280} {
		s.fits(width, "large-text")
	}
}

// What answers stands on the first screen, and the whole sheet with the demonstration has its bounds.
func TestFirstScreen(t *testing.T) {
	s := open(t, 1280, 900)
	var five []file
	for i := range 5 {
		five = append(five, file{fmt.Sprintf("rod-place-%d.csv", i+1), []byte(table("x [mm];z [µm]", ";", ".", surface(uint64(60+i), 9600, 0.5), 0.5))})
	}
	look := func(state string) {
		for _, size := range [][2]int64{{1280, 900}, {390, 844}} {
			s.do(chromedp.EmulateViewport(size[0], size[1]))
			eval[bool](s, `(scrollTo(0, 0), true)`)
			s.settle()
			for _, id := range []string{"requirement-text", "trace-file", "answer-picture", "answer-values", "answer-word"} {
				box := eval[[]float64](s, fmt.Sprintf(`(r => [r.left, r.top, r.right, r.bottom])(document.getElementById(%q).getBoundingClientRect())`, id))
				if box[0] < 0 || box[1] < 0 || box[2] > float64(size[0]) || box[3] > float64(size[1]) || box[3] <= box[1] {
					t.Errorf("%s, %d × %d: %s lies at %v", state, size[0], size[1], id, box)
				}
			}
			s.picture(fmt.Sprintf("first-%s-%d", state, size[0]))
			if bound := map[int64]int{1280: 5000, 390: 7000}[size[0]]; state == "demonstration" {
				if high := eval[int](s, `document.documentElement.scrollHeight`); high > bound {
					parts := eval[map[string]int](s, `Object.fromEntries([...document.querySelectorAll('.top, .name, .pair, #answer, .jump, details.step, #keys, .foot')].map(e => [e.id || e.className, e.offsetHeight]))`)
					t.Errorf("%d px wide the sheet is %d px high: %v", size[0], high, parts)
				}
			}
		}
		s.do(chromedp.EmulateViewport(1280, 900))
	}
	look("demonstration")
	s.write("requirement-text", "Rz 3,2")
	s.says("answer-word", "Conforms")
	look("conforms")
	s.write("requirement-text", "RSm 0,2")
	s.says("answer-word", "No verdict yet")
	look("question")
	s.dropBytes(five)
	s.says("trace-reading", "5 files, 5 traces")
	s.write("requirement-text", "Rz 8")
	s.says("answer-word", "Conforms")
	look("five")
}

// fits checks that nothing is wider than the window, with all workings closed
// and with one open.
func (s *sheet) fits(width int, what string) {
	s.t.Helper()
	s.do(chromedp.EmulateViewport(int64(width), 900))
	for _, state := range []string{"", "-open"} {
		if state != "" {
			s.click("value-Rz")
			s.wait(`document.getElementById('mark-next')?.checkVisibility()`, "the working of Rz is open")
		}
		s.settle() // pictures are drawn anew for the width they get
		if over := eval[int](s, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
			widest := eval[[]string](s, `[...document.querySelectorAll('body *')].filter(e => {
				if (!e.checkVisibility() || e.getBoundingClientRect().right <= document.documentElement.clientWidth + 1) return false;
				for (let p = e.parentElement; p; p = p.parentElement) if (getComputedStyle(p).overflowX !== 'visible') return false;
				return true;
			}).slice(0, 6).map(e => e.tagName.toLowerCase() + ' in ' + e.closest('[id]')?.id)`)
			s.t.Errorf("%s%s %d: %d px too wide: %s", what, state, width, over, strings.Join(widest, ", "))
		}
		s.picture(fmt.Sprintf("%s%s-%d", what, state, width))
	}
	s.click("value-Rz")
}

// The spacings that a reader may set (WCAG 2.2, success criterion 1.4.12) hide
// nothing and widen nothing.
func TestTextSpacing(t *testing.T) {
	s := open(t, 390, 900)
	eval[bool](s, `(() => {
		const own = new CSSStyleSheet();
		own.replaceSync('* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important } p { margin-bottom: 2em !important }');
		document.adoptedStyleSheets = [own];
		return true;
	})()`)
	s.settle()
	if over := eval[int](s, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
		t.Errorf("%d px too wide", over)
	}
}

// axe finds what a program can find of the rules for access; its rules are
// those of WCAG 2.2, A and AA, and its own best practices.
func TestAccess(t *testing.T) {
	open(t, 1280, 900).accessible("access")
}

// accessible has axe look at the page in all its looks.
func (s *sheet) accessible(what string) {
	t := s.t
	t.Helper()
	source := filepath.Join(root, ".tools", "node_modules", "axe-core", "axe.min.js")
	if _, err := os.Stat(source); err != nil {
		t.Skip("no axe-core in .tools; ./check installs it")
	}
	axe := read(t, source)
	for _, c := range []struct {
		name, media, scheme string
		width               int64
	}{
		{"light, wide", "screen", "light", 1366},
		{"light", "screen", "light", 1280},
		{"dark", "screen", "dark", 1280},
		{"light, phone", "screen", "light", 390},
		{"dark, phone", "screen", "dark", 390},
		{"print", "print", "light", 1280},
	} {
		s.do(chromedp.EmulateViewport(c.width, 900))
		scheme := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: c.scheme}}
		if _, err := chromedp.Call(s.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: c.media, Features: scheme}); err != nil {
			t.Fatal(err)
		}
		s.settle()
		found := get(s, chromedp.Evaluate[[]string](axe+`;axe.run().then(r => r.violations.map(v =>
			v.id + ': ' + v.help + ': ' + v.nodes.slice(0, 4).map(n => n.target.join(' ')).join(', ')))`, chromedp.EvalAwaitPromise))
		for _, v := range found {
			t.Errorf("%s, %s: %s", what, c.name, v)
		}
		s.picture(what + "-" + strings.ReplaceAll(c.name, ", ", "-"))
	}
	if _, err := chromedp.Call(s.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{}); err != nil {
		t.Fatal(err)
	}
}

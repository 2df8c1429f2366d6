package e2e

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"example.com/furrow/roughness"
	"example.com/furrow/standards"
)

// oldWords are those that the page said before and that plain English says otherwise.
var oldWords = strings.Split(`goes in|comes out|lasts as long as|what serves|serves meanwhile|waits for|wait for a|what was taken for what|taken as|looked at before use|look here
takes away|take away|taken away|to take away|turn it over|turned over|are not told apart|has to prove|does not see|steady to|follows from the requirement|your own trace in step 2
table to copy|before anyone acts|fold|unfold|rests on|form left|known beforehand|worked here|read it so|for want of|cannot be told|goes before|named by its percentage|as for a replica|the earlier reading`, "|")

// No sentence of the page says an old word, in whichever state.
func TestWords(t *testing.T) {
	var old []string
	for _, line := range oldWords {
		old = append(old, strings.Split(line, "\n")...)
	}
	pattern := regexp.MustCompile(`(?i)\b(` + strings.Join(old, "|") + `)\b`)
	s := open(t, 1280, 900)
	look := func(state string) {
		t.Helper()
		s.settle()
		said := eval[string](s, `[document.body.textContent, ...[...document.querySelectorAll('[aria-label], [title], [placeholder]')].flatMap(e => [e.ariaLabel, e.title, e.placeholder]),
			...[...document.querySelectorAll('summary')].map(e => getComputedStyle(e, '::after').content)].join('\n')`)
		for _, m := range pattern.FindAllStringIndex(said, -1) {
			t.Errorf("%s: %q", state, said[max(0, m[0]-40):min(len(said), m[1]+40)])
		}
	}
	look("demonstration")
	for _, id := range []string{"value-Rz", "trace-make", "trace-paste", "profile-leave-out"} {
		s.click(id)
	}
	look("with everything open")
	s.fill("long-cutoff", "0.25")
	s.fill("short-cutoff", "8")
	s.fill("sections-count", "3")
	s.wait(`document.getElementById('profile-changed').checkVisibility()`, "three sections")
	look("changed settings")
	s.drop("silent.txt", oneColumn("", 4, 1))
	s.wait(`document.getElementById('trace-question').checkVisibility()`, "the file asks")
	look("question")
	s.drop("bad.csv", "x [mm];z [µm]\n0;x\n")
	s.wait(`!document.getElementById('trace-wrong').hidden`, "a bad file is refused")
	look("error")
	s.write("requirement-text", "RSm 0,2")
	s.wait(`!document.getElementById('requirement-question').hidden`, "the requirement asks")
	look("requirement with a question")
	s.clear()
	s.wait(`document.getElementById('trace-empty').checkVisibility()`, "nothing is left")
	look("empty")
}

// A trace of one's own gives the sheet its name, until the sheet is renamed; the record carries the same name and never that of the
// demonstration.
func TestName(t *testing.T) {
	s := open(t, 1280, 900)
	demonstration := s.text("sheet-title")
	named := func(want string) {
		t.Helper()
		s.wait(fmt.Sprintf(`document.getElementById('sheet-title').textContent === %q`, want), "the sheet is called "+want)
		s.wait(fmt.Sprintf(`document.querySelector('#record-page h2')?.textContent === %q`, want), "the record is called "+want)
		if got := eval[string](s, `document.title`); !strings.HasPrefix(got, want) {
			t.Errorf("the window is called %q, the sheet %q", got, want)
		}
	}
	named(demonstration)
	text := heightsOver("x [mm];z [µm]", ";", ".", 21)
	s.drop("gate 7, rod.left.csv", text)
	s.agree(readTrace(t, text), roughness.Settings{})
	named("gate 7, rod.left")
	if record := s.text("record-page"); strings.Contains(record, demonstration) || strings.Contains(strings.ToLower(record), "invented") {
		t.Errorf("the record still names the demonstration: %s", record)
	}
	s.paste(table("x [mm]\tz [µm]", "\t", ".", surface(22, enough, 0.5), 0.5))
	s.says("trace-reading", "2 traces")
	named("gate 7, rod.left")
	s.click("sheet-name")
	s.press("Rod 12, place 3", kb.Enter)
	named("Rod 12, place 3")
	s.drop("another.csv", text)
	s.says("trace-reading", "3 traces")
	named("Rod 12, place 3")
}

// A file name of 200 letters, a name of 120 and a text without a blank widen nothing.
func TestLongText(t *testing.T) {
	s := open(t, 1280, 900)
	long := strings.Repeat("ab", 60)
	text := table("x [mm];z [µm]", ";", ".", surface(23, 11600, 0.5), 0.5)
	s.dropBytes([]file{{strings.Repeat("f", 200) + ".csv", []byte(text)}, {strings.Repeat("g", 200) + ".csv", nil}})
	s.says("trace-wrong", "gggg")
	s.agree(readTrace(t, text), roughness.Settings{})
	s.click("sheet-name")
	s.press(long, kb.Enter)
	s.says("sheet-title", long)
	s.write("requirement-text", long)
	s.wait(`document.getElementById('requirement-text-fault') !== null`, "the text is refused")
	s.drop(strings.Repeat("h", 200)+".csv", "x [mm];z [µm]\n0;"+long+"\n")
	s.wait(`!document.getElementById('trace-wrong').hidden`, "a bad file is refused")
	for _, width := range []int{320, 390, 640, 768, 1024, 1280, 1920} {
		s.fits(width, "long-text")
	}
	s.drop(strings.Repeat("q", 200)+".csv", oneColumn("", 4, 24))
	s.wait(`document.getElementById('trace-question').checkVisibility()`, "the file asks")
	for _, width := range []int{320, 1280} {
		s.fits(width, "long-question")
	}
}

// The list of standards keeps those in force apart from older ones.
func TestStandardsGrouped(t *testing.T) {
	s := open(t, 1280, 900)
	got := eval[map[string][]string](s, `Object.fromEntries([...document.querySelectorAll('#requirement-edition optgroup')].map(g => [g.label, [...g.children].map(o => o.value)]))`)
	offered := eval[int](s, `document.querySelectorAll('#requirement-edition option').length`)
	if len(got) != 2 || len(got["Standards in force"])+len(got["Older standards"]) != offered {
		t.Fatalf("the groups are %v", got)
	}
	for _, e := range standards.Editions() {
		if group := map[bool]string{true: "Standards in force", false: "Older standards"}[e.Replaced == ""]; slices.Contains(got["Standards in force"], string(e.ID)) != (group == "Standards in force") && slices.Contains(append(got["Standards in force"], got["Older standards"]...), string(e.ID)) {
			t.Errorf("%s is not among the %s", e.ID, group)
		}
	}
}

// No script of the page says an old word either, where no test led to it.
func TestWordsOfScripts(t *testing.T) {
	pattern := regexp.MustCompile(`(?i)\b(waits for|wait for a trace|taken away|goes in|comes out|cannot be told|beforehand|turn it over|looked at before|look here|does not see|steady to)\b`)
	files, err := filepath.Glob(filepath.Join(root, "wasm", "page", "*", "*.js"))
	if err != nil || len(files) < 20 {
		t.Fatalf("scripts: %v, %v", files, err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(text), "\n") {
			if code := strings.TrimSpace(line); strings.HasPrefix(code, "//") || strings.HasPrefix(code, "*") || strings.HasPrefix(code, "/*") {
				continue
			}
			if m := pattern.FindString(line); m != "" {
				t.Errorf("%s:%d says %q", filepath.Base(name), i+1, m)
			}
		}
	}
}

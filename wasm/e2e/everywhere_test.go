package e2e

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"example.com/furrow/roughness/synth"
)

// The module in the browser writes the records to which every platform is held: the checksums of their blocks are those of
// roughness/record/testdata/everywhere.txt, and a record kept from another platform comes out the same.
func TestRecordsAreTheSameInTheBrowser(t *testing.T) {
	s := blankTab(t, usual)
	s.load(1280, 900)
	testdata := filepath.Join(root, "roughness", "record", "testdata")
	lines, err := os.ReadFile(filepath.Join(testdata, "everywhere.txt"))
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for i, asks := range []string{`"asked": {"text": "Ra 0,8; Rz 6,3", "u": "Rz 0.12; Ra 0.02"}`, `"asked": {"text": "Rz 12,5", "edition": "iso-4287"}`, `"settings": {"profile": "W"}`} {
		d := synth.Demos()[i+1]
		parts := get(s, chromedp.Evaluate[map[string]string](fmt.Sprintf(`(async () => {
			const { load } = await import('./furrow.js');
			const furrow = await load();
			const { z, spacing } = furrow.demo(%q).profile;
			const { forms } = furrow.record({ %s, traces: [{ name: %q, spacing }] }, [{ z: z.slice(0, 9601), spacing }], { want: ['json'] });
			return JSON.parse(forms.json).sha256.parts;
		})()`, d.Key, asks, d.Key+".csv"), chromedp.EvalAwaitPromise))
		for name, sum := range parts {
			want := ""
			for line := range strings.Lines(string(lines)) {
				if begin := fmt.Sprintf("record %d %s ", i+2, name); strings.HasPrefix(line, begin) {
					want, compared = strings.TrimSpace(line[len(begin):]), compared+1
				}
			}
			if want != "" && sum != want {
				t.Errorf("record %d, %s: %s, want %s", i+2, name, sum, want)
			}
		}
	}
	if compared != 21 {
		t.Errorf("%d blocks were compared", compared)
	}
	kept, err := os.ReadFile(filepath.Join(testdata, "kept-linux-amd64.html"))
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(string(kept))
	if err != nil {
		t.Fatal(err)
	}
	if same := eval2[bool](s, fmt.Sprintf(`(async () => {
		const furrow = await (await import('./furrow.js')).load();
		return furrow.verify(new TextEncoder().encode(%s)).same;
	})()`, text)); !same {
		t.Error("a record made on linux/amd64 comes out otherwise in the browser")
	}
}

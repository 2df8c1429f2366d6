package bundle

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What more than one page uses stands once, in an order that runs, and only comments on lines of their own are left out.
func TestJoin(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"a/main.js":     "import { two } from '../shared/two.js';\nimport { own } from './own.js';\nown(two);\n",
		"b/main.js":     "import { one } from '../shared/one.js';\nimport { two } from '../shared/two.js';\n",
		"a/own.js":      "/**\n * Words, a star * and a line.\n */\nexport function own() {\n  /** @type {number} */ (1); // stays\n  // goes\n  return 'https://a/*b*/';\n}\n",
		"shared/one.js": "export const one = 1;\n",
		"shared/two.js": "import { one } from './one.js';\nexport const two = one + 1;\n",
	} {
		at := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := join(dir, []string{"a/main.js", "b/main.js"}); err != nil {
		t.Fatal(err)
	}
	text := map[string]string{}
	for _, name := range []string{"a/all.js", "b/all.js", common} {
		data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		text[name] = string(data)
	}
	own := "const $a_own_js = (() => {\nfunction own() {\n  /** @type {number} */ (1); // stays\n  return 'https://a/*b*/';\n}\nreturn { own };\n})();\n"
	if !strings.Contains(text["a/all.js"], `import { $shared_one_js, $shared_two_js } from "../shared/all.js";`+"\n"+own) || strings.Contains(text["b/all.js"], "own") {
		t.Errorf("%s\nand\n%s", text["a/all.js"], text["b/all.js"])
	}
	one, two := strings.Index(text[common], "const one = 1"), strings.Index(text[common], "const two = one + 1")
	if one < 0 || two < one || !strings.HasSuffix(text[common], "export { $shared_one_js, $shared_two_js };\n") {
		t.Error(text[common])
	}
}

package record_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/selfcheck"
	"example.com/furrow/standards"
)

// The document keeps to its schema, also where a check has failed; the page shows every check and the caution.
func TestSelfcheckDocument(t *testing.T) {
	checks := selfcheck.Run("standards")
	checks[1].Found, checks[1].Word, checks[1].Fault = math.NaN(), selfcheck.Differs, "no table knows <it>"
	schema, err := os.ReadFile("selfcheck.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	document := record.AppendSelfcheck(nil, checks)
	if err := validate(string(schema), document); err != nil {
		t.Error(err)
	}
	if !strings.Contains(string(document), `"failed": 1,`) {
		t.Errorf("one failed check is not counted: %s", document[len(document)-400:])
	}
	sheet := string(record.AppendValidation(nil, checks, "2026-03-12"))
	for _, want := range []string{"35 of 36 checks agree.", "no table knows &lt;it&gt;", standards.Caution, "2026-03-12"} {
		if !strings.Contains(sheet, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	if n := strings.Count(sheet, "<td>agrees"); n != len(checks)-1 {
		t.Errorf("%d of %d checks are shown to agree", n, len(checks)-1)
	}
}

package params_test

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// What a value is checked by that did not come out of this project's code.
const (
	closedForm = "closed form" // follows from the definition with pencil and paper
	published  = "published"   // an example with its answer, found in public
	library    = "library"     // computed by a general numeric library
)

// outside says for every parameter, by its key, what checks it from outside: one check each, though most have more.
var outside = []struct{ kind, source, test, keys string }{
	{published, "classic exercise with 18 peak and trough heights; its answers are arithmetic", "TestTextbookPeaksAndTroughs",
		"Ra Rq Rsk Rku Rp Rv Rz Rt"},
	{closedForm, "integrals over the sine of amplitude 1 and wavelength 400", "TestClosedForms",
		"Rzx Rpt Rvt Rsm Rsmx Rc Rcx Rpc Rmr Rmc Rdc Rk Rpk Rvk Rmrk1 Rmrk2 Rpkx Rvkx Rvm Rvv Rvmc Rvvc Rvvv"},
	{closedForm, "complete elliptic integral of the second kind, length of a sine", "TestDevelopedLength", "Rdr Rdl"},
	{library, "NumPy and SciPy: slopes, deviations, root finding and areas by trapezoids", "TestGolden", "Rda Rdt RmrFrom Rsmq Rcq Rak1 Rak2"},
	{closedForm, "what the seven-point formula leaves of the slope of a sine", "TestGradientGain", "Rdq"},
	{closedForm, "integral over the normal distribution", "TestCoreGaussian", "Rvmp"},
	{closedForm, "two straight lines on normal paper", "TestProbabilityOfTwoLines", "Rpq Rvq Rmq"},
	{closedForm, "autocorrelation of sine, triangle, sawtooth and square", "TestAutocorrelationLength", "Ral"},
	{library, "NumPy: largest bin of the discrete Fourier transform", "TestSpectrumAgainstLibraries", "Rsw"},
	{closedForm, "a sine of amplitude a is its own dominant waviness, 2a high", "TestDominantWavinessOfASine", "WDSm WDc WDt"},
	{library, "SciPy: peaks of a least prominence; NumPy: second derivative from a Vandermonde system", "TestFeaturesAgainstLibraries",
		"R5p R5v R10z Rpd Rvd Rmpc Rmvc S D"},
	{library, "SciPy: peaks; NumPy: mean and standard deviation of their depths and spacings", "TestMotifsAgainstLibraries",
		"R AR Rx Nr SR SAR W AW Wx Wte Nw SW SAW"},
	{closedForm, "Rk family of the sine, which stands below its level envelope", "TestEnvelopeCoreOfASine", "Rke Rvke Mr2e"},
	{closedForm, "Rk family of the parabola, which stands below its level envelope", "TestEnvelopeCoreOfTurning", "Rpke Mr1e"},
	{published, "student exercise on a mean line, ten-point height 20.4", "TestTenPointOfTheExercise", "RzJIS"},
	{library, "SciPy: labelled parts above and below the line, least-squares lines, counts and bearing line; NumPy: slopes and section heights",
		"TestOlderAgainstLibraries", "Rz1982 R3z R3zm Rmax Rmax1982 Ra75 LambdaA LambdaQ LengthRatio Tp RPcBand Pc HSC"},
}

// always are the parameters most asked for, which must have a check from outside.
const always = "Ra Rq Rsk Rku Rp Rv Rz Rzx Rt Rpt Rvt Rsm Rc Rdq Rmr Rmc Rdc Rk Rpk Rvk Rmrk1 Rmrk2"

// TestOutsideCoverage: every row of the catalogue has a check from outside in a test that exists and names it, or stands
// in README with the reason why not.
func TestOutsideCoverage(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	unchecked := uncheckedIn(t, string(readme))
	if len(unchecked) > 10 {
		t.Errorf("README lists %d parameters without a check from outside, ten are the most", len(unchecked))
	}
	for _, key := range strings.Fields(always) {
		if _, ok := unchecked[key]; ok {
			t.Errorf("%s must not be without a check from outside", key)
		}
	}
	rows := map[string]bool{}
	for _, p := range params.Catalogue() {
		rows[p.Key] = true
	}
	named := keysByTest(t)
	stands := map[string]int{}
	for _, o := range outside {
		if o.source == "" || !slices.Contains([]string{closedForm, published, library}, o.kind) {
			t.Errorf("%s: kind %q, source %q", o.keys, o.kind, o.source)
		}
		keys, exists := named[o.test]
		if !exists {
			t.Errorf("there is no test %s, which is to check %s", o.test, o.keys)
		}
		for _, key := range strings.Fields(o.keys) {
			stands[key]++
			if !rows[key] {
				t.Errorf("the catalogue has no %s", key)
			}
			if exists && !keys[key] {
				t.Errorf("%s does not name %s", o.test, key)
			}
		}
	}
	for key := range unchecked {
		stands[key]++
		if !rows[key] {
			t.Errorf("README lists %s as unchecked; the catalogue has no such row", key)
		}
	}
	for key := range rows {
		if stands[key] != 1 {
			t.Errorf("%s stands %d times among the checks from outside and the list in README, want once", key, stands[key])
		}
	}
}

const uncheckedHeading = "### Parameters without an outside check\n"

// uncheckedIn returns the list of README: key and reason. A list is lines "- `Key`: reason", and "There are none" stands for none.
func uncheckedIn(t *testing.T, readme string) map[string]string {
	t.Helper()
	_, section, ok := strings.Cut(readme, uncheckedHeading)
	if !ok {
		t.Fatalf("README has no %q", uncheckedHeading)
	}
	section, _, _ = strings.Cut(section, "\n#")
	list := map[string]string{}
	item := regexp.MustCompile("^- `([A-Za-z0-9]+)`: (.+)$")
	for line := range strings.Lines(section) {
		if !strings.HasPrefix(line, "-") {
			continue
		}
		m := item.FindStringSubmatch(strings.TrimSpace(line))
		if m == nil {
			t.Errorf("README: %q is not \"- `Key`: reason\"", line)
			continue
		}
		if _, twice := list[m[1]]; twice {
			t.Errorf("README lists %s twice", m[1])
		}
		list[m[1]] = m[2]
	}
	if none := strings.HasPrefix(strings.TrimSpace(section), "There are none"); none != (len(list) == 0) {
		t.Errorf("README says that there are none: %t, and lists %d", none, len(list))
	}
	return list
}

func TestOutsideList(t *testing.T) {
	got := uncheckedIn(t, "# a\n"+uncheckedHeading+"\nThese:\n\n- `Rz1982`: no example known\n- `Nw`: none either\n\n## b\n- `Ra`: not of the list\n")
	if !maps.Equal(got, map[string]string{"Rz1982": "no example known", "Nw": "none either"}) {
		t.Errorf("%v", got)
	}
}

// keysByTest returns the parameters that each test of the table names, by key: as a call params.Key, in a string that
// is looked up by that name, or in a golden file it reads; itself or in the helpers it calls.
func keysByTest(t *testing.T) map[string]map[string]bool {
	t.Helper()
	files, err := filepath.Glob("*_test.go")
	if err != nil {
		t.Fatal(err)
	}
	bodies := map[string]*ast.BlockStmt{}
	for _, name := range files {
		if name == "outside_test.go" {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range f.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil {
				bodies[f.Name.Name] = f.Body
			}
		}
	}
	r := &namesRead{t: t, bodies: bodies, names: map[string]string{}}
	tests := map[string]map[string]bool{}
	for _, o := range outside {
		if bodies[o.test] != nil && strings.HasPrefix(o.test, "Test") {
			tests[o.test] = map[string]bool{}
			r.collect(o.test, tests[o.test], map[string]bool{})
		}
	}
	return tests
}

// namesRead goes through the bodies of functions for names of parameters.
type namesRead struct {
	t      *testing.T
	bodies map[string]*ast.BlockStmt
	names  map[string]string // texts met so far, with the key they stand for
}

func (r *namesRead) collect(function string, keys, seen map[string]bool) {
	seen[function] = true
	ast.Inspect(r.bodies[function], func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			if x, ok := n.X.(*ast.Ident); ok && x.Name == "params" {
				keys[n.Sel.Name] = true
				return false
			}
		case *ast.Ident:
			if r.bodies[n.Name] != nil && !seen[n.Name] {
				r.collect(n.Name, keys, seen)
			}
		case *ast.BasicLit:
			text, err := strconv.Unquote(n.Value)
			if n.Kind != token.STRING || err != nil {
				break
			}
			if strings.HasSuffix(text, ".json") {
				r.golden(text, keys)
			} else {
				keys[r.key(text)] = true
			}
		}
		return true
	})
}

// golden adds what the fields of a file of JSON are called by.
func (r *namesRead) golden(file string, keys map[string]bool) {
	data, err := os.ReadFile(file)
	if err != nil {
		r.t.Fatal(err)
	}
	var value any
	if err := json.Unmarshal(data, &value); err != nil {
		r.t.Fatal(err)
	}
	var walk func(v any)
	walk = func(v any) {
		switch v := v.(type) {
		case []any:
			for _, x := range v {
				walk(x)
			}
		case map[string]any:
			for name, x := range v {
				keys[r.key(name)] = true
				walk(x)
			}
		}
	}
	walk(value)
}

var symbolLike = regexp.MustCompile(`^[\pL\d]{1,6}(\(.*\))?$`)

// key returns the key of the parameter that a text names, "" for none: with an edition before it in that edition, alone in
// the first that knows it.
func (r *namesRead) key(text string) string {
	if key, ok := r.names[text]; ok {
		return key
	}
	editions, name := standards.EditionIDs(), text
	if before, after, ok := strings.Cut(text, " "); ok && slices.Contains(editions, standards.EditionID(before)) {
		editions, name = []standards.EditionID{standards.EditionID(before)}, after
	}
	if !symbolLike.MatchString(name) {
		return ""
	}
	key := ""
	for _, e := range editions {
		for _, letter := range []byte("RWP") {
			if call, err := params.Lookup(e, letter, name); err == nil && key == "" {
				key = call.Parameter.Key
			}
		}
	}
	r.names[text] = key
	return key
}

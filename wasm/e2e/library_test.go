package e2e

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/roughness/tracefile"
	"github.com/chromedp/chromedp"
)

// values returns every value of the page's table, unrounded; NaN where the page
// says that it is not defined.
func (s *sheet) values() map[string]float64 {
	s.t.Helper()
	shown := eval[map[string]string](s, `Object.fromEntries([...document.querySelectorAll('#values-table tr[data-row]')].map(
		row => [row.dataset.row, row.querySelector('[data-value]')?.dataset.value ?? 'NaN']))`)
	values := map[string]float64{}
	for symbol, text := range shown {
		v, err := strconv.ParseFloat(text, 64)
		if err != nil {
			s.t.Fatalf("%s is shown as %q", symbol, text)
		}
		values[symbol] = v
	}
	return values
}

// agree waits until the page shows the values that the library computes for the
// profile with the settings, to 12 significant digits, all of them.
func (s *sheet) agree(p roughness.Profile, settings roughness.Settings) map[string]float64 {
	s.t.Helper()
	var wrong []string
	for end := time.Now().Add(patience); ; time.Sleep(50 * time.Millisecond) {
		got := s.values()
		if len(got) < 10 {
			s.t.Fatalf("the table has %d values", len(got))
		}
		settings.Parameters = settings.Parameters[:0]
		for symbol := range got {
			settings.Parameters = append(settings.Parameters, symbol)
		}
		want, err := roughness.Evaluate(p, &settings)
		var setting *roughness.SettingError
		if errors.As(err, &setting) && time.Now().Before(end) {
			continue // the table still shows the profile before
		}
		if err != nil {
			s.t.Fatal(err)
		}
		wrong = wrong[:0]
		for symbol, page := range got {
			if v, ok := want.Value(symbol); !ok || !same(page, v.Value) {
				wrong = append(wrong, fmt.Sprintf("%s: %v on the page, %v by the library", symbol, page, v.Value))
			}
		}
		if len(wrong) == 0 {
			return got
		}
		if time.Now().After(end) {
			s.picture("disagree")
			s.t.Fatalf("of %d values differ:\n%s", len(got), strings.Join(wrong, "\n"))
		}
	}
}

// same says whether two values print alike with 12 significant digits. One in
// 10¹² covers two that lie on either side of a rounding.
func same(a, b float64) bool {
	if math.IsNaN(a) || math.IsNaN(b) {
		return math.IsNaN(a) && math.IsNaN(b)
	}
	return strconv.FormatFloat(a, 'g', 12, 64) == strconv.FormatFloat(b, 'g', 12, 64) || math.Abs(a-b) <= 1e-12*math.Abs(b)
}

func TestSame(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		want bool
	}{
		{1.23456789012, 1.23456789012, true}, {1.23456789012, 1.23456789014, false}, {0, 0, true}, {0, 1e-9, false},
		{math.NaN(), math.NaN(), true}, {math.NaN(), 1, false},
	} {
		if same(c.a, c.b) != c.want {
			t.Errorf("same(%v, %v) is %v", c.a, c.b, !c.want)
		}
	}
}

// demo returns a trace of the demonstration as the page should take it.
func demo(t *testing.T, key string) roughness.Profile {
	t.Helper()
	d, ok := synth.FindDemo(key)
	if !ok {
		t.Fatalf("no demonstration %q", key)
	}
	return roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Name: d.Title}
}

// readTrace reads a file as the library does.
func readTrace(t *testing.T, text string) roughness.Profile {
	t.Helper()
	trace, err := tracefile.Read([]byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return trace.Profile
}

// table writes heights as an instrument's export might look: a heading with
// units, then two columns.
func table(heading, separator, decimal string, z []float64, dx float64) string {
	var b strings.Builder
	fmt.Fprintln(&b, heading)
	for i, h := range z {
		row := fmt.Sprintf("%.4f%s%.3f", float64(i)*dx/roughness.Millimetre, "|", h)
		row = strings.ReplaceAll(row, ".", decimal)
		fmt.Fprintln(&b, strings.Replace(row, "|", separator, 1))
	}
	return b.String()
}

// A script may give heights of several kinds: they are converted or refused, and none is read as the bytes of another.
func TestHeightsOfAScript(t *testing.T) {
	s := blankTab(t, usual)
	s.load(1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	trace.Z = trace.Z[:9600] // even, so that pairs of 32 bits fill numbers of 64
	ra := func(convert func(float64) float64) string {
		p := trace
		p.Z = make([]float64, len(trace.Z))
		for i, z := range trace.Z {
			p.Z[i] = convert(z)
		}
		e, err := roughness.Evaluate(p, &roughness.Settings{Parameters: []string{"Ra"}})
		if err != nil {
			t.Fatal(err)
		}
		v, _ := e.Value("Ra")
		return strconv.FormatFloat(v.Value, 'g', 12, 64)
	}
	exact := ra(func(z float64) float64 { return z })
	single := ra(func(z float64) float64 { return float64(float32(z)) })
	whole := ra(func(z float64) float64 { return math.Trunc(1000 * z) })
	want := map[string]string{
		"array": exact, "Float64Array": exact, "Float32Array": single, "Int32Array": whole, "Int16Array": whole, "held Float32Array": single,
		"BigInt64Array": "request", "Uint8Array": "request", "buffer": "request", "none": "request", "texts": "request", "nulls": "request", "hole": "request",
		"held nulls": "request",
	}
	got := get(s, chromedp.Evaluate[map[string]string](fmt.Sprintf(`(async () => {
		const { load } = await import('./furrow.js');
		const furrow = await load();
		const { spacing, z: all } = furrow.demo(%q).profile;
		const z = all.slice(0, 9600), large = z.map(v => 1000 * v), list = [...z], settings = { parameters: ['Ra'] };
		const said = (heights, of = z => furrow.evaluate({ z, spacing }, settings).result) => {
			try {
				return String(Number(of(heights).values[0].value.toPrecision(12)));
			} catch (error) {
				return error.kind;
			}
		};
		const held = z => (furrow.hold({ id: 'a', profile: { z, spacing, name: '' } }), furrow.measure('a', settings));
		return {
			array: said(list), Float64Array: said(z), Float32Array: said(Float32Array.from(z)),
			Int32Array: said(Int32Array.from(large)), Int16Array: said(Int16Array.from(large)), 'held Float32Array': said(Float32Array.from(z), held),
			BigInt64Array: said(BigInt64Array.from(large, v => BigInt(Math.round(v)))), Uint8Array: said(new Uint8Array(z.buffer)), buffer: said(z.buffer),
			none: said(undefined), texts: said(list.map(String)), nulls: said(list.with(5, null)), hole: said([...list.slice(1), , 1]),
			'held nulls': said(list.with(5, null), held),
		};
	})()`, synth.Demos()[0].Key), chromedp.EvalAwaitPromise))
	for kind, v := range want {
		if got[kind] != v {
			t.Errorf("%s: %q, want %q", kind, got[kind], v)
		}
	}
}

// surface is a trace that the demonstration does not hold.
func surface(seed uint64, n int, dx float64) []float64 {
	noise := synth.Correlated{Sigma: 0.6, Length: 12, Seed: seed}.Heights(n, dx)
	wave := synth.Sine{Amplitude: 1.5, Wavelength: 1900}.Heights(n, dx)
	for i := range noise {
		noise[i] += wave[i] + 0.0002*float64(i)
	}
	return noise
}

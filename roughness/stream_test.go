package roughness_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"flag"
	"io"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
)

// longTrace has turned marks, waves, noise and a slope: invented.
func longTrace(n int) []float64 {
	rng := rand.New(rand.NewPCG(5, 8))
	z := make([]float64, n)
	for i := range z {
		z[i] = math.Abs(math.Mod(float64(i), 160)/80-1) + 0.5*math.Sin(float64(i)/800) + 0.1*rng.NormFloat64() + 1e-5*float64(i)
	}
	return z
}

// inTurn gives heights in blocks of uneven size.
func inTurn(z []float64) func([]float64) (int, error) {
	step := 1
	return func(dst []float64) (int, error) {
		if len(z) == 0 {
			return 0, io.EOF
		}
		n := copy(dst[:min(len(dst), step)], z)
		step = 3*step%5000 + 1
		z = z[n:]
		return n, nil
	}
}

// longSettings are some that a trace read in blocks can have, for n points at 0.5 µm.
func longSettings(n int) []*roughness.Settings {
	var list []*roughness.Settings
	for _, edition := range []string{"iso-21920", "iso-4287", "asme-b46.1"} {
		for _, ends := range filter.EndTreatments() {
			list = append(list, &roughness.Settings{Edition: standards.EditionID(edition),
				Long: roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: 250, Ends: ends.Key}}, Form: roughness.FormSpec{Kind: "none"}})
		}
		list = append(list, &roughness.Settings{Edition: standards.EditionID(edition)})
	}
	zero := 0.0
	none := roughness.FormSpec{Kind: "none"}
	return append(list,
		&roughness.Settings{Start: &zero, Sections: 100000}, &roughness.Settings{Sections: n / 1600}, &roughness.Settings{Invert: true, Crop: [2]float64{700, 0}},
		&roughness.Settings{Profile: roughness.P, Form: none}, &roughness.Settings{Profile: roughness.P, Form: none, Long: roughness.Band{Off: true}, Short: roughness.Band{Off: true}},
		&roughness.Settings{Profile: roughness.W, Form: none}, &roughness.Settings{Input: roughness.Filtered}, &roughness.Settings{Form: roughness.FormSpec{Kind: "mean"}},
		&roughness.Settings{Edition: "iso-4287", SectionLength: 130.3, Start: floatPointer(211.2), Sections: 7, Parameters: []string{"Ra", "Rz", "Rt", "RΔq"}})
}

// sameLong compares a long evaluation with that of the whole trace, and returns the greatest relative difference of a value. Skewness, a sum
// that cancels, is held against 1.
func sameLong(t *testing.T, long, whole *roughness.Evaluation) float64 {
	t.Helper()
	worst, compared := 0.0, 0
	away := func(symbol string, a, b float64) {
		scale := math.Abs(b)
		if strings.HasSuffix(symbol, "sk") {
			scale = max(scale, 1)
		}
		if math.IsNaN(a) != math.IsNaN(b) {
			worst = math.Inf(1)
		} else if a != b && !math.IsNaN(a) {
			worst = max(worst, math.Abs(a-b)/scale)
		}
	}
	if long.Points != whole.Points || long.Invalid != whole.Invalid || long.First != whole.First || long.Start != whole.Start || long.Sections != whole.Sections ||
		long.SectionPoints != whole.SectionPoints || long.Settings.SectionLength != whole.Settings.SectionLength || len(long.Origins) != len(whole.Origins) {
		t.Errorf("places differ: %d points, %d invalid, from %d, start %d, %d sections; and %d, %d, %d, %d, %d",
			long.Points, long.Invalid, long.First, long.Start, long.Sections, whole.Points, whole.Invalid, whole.First, whole.Start, whole.Sections)
	}
	for i, v := range long.Values {
		w := whole.Values[i]
		if strings.HasPrefix(v.Reason, "it needs all heights") {
			continue
		}
		compared++
		away(v.Symbol, v.Value, w.Value)
		if v.Symbol != w.Symbol || v.Reason != w.Reason || v.Note != w.Note || len(v.Sections) != len(w.Sections) {
			t.Errorf("%+v is not %+v", v, w)
			continue
		}
		for k := range v.Sections {
			away(v.Symbol, v.Sections[k], w.Sections[k])
		}
	}
	if compared < 3 {
		t.Errorf("only %d values", compared)
	}
	text := func(e *roughness.Evaluation) (all []string) {
		for _, n := range e.Notes {
			if n.Code != "stratified-filter" && n.Code != "two-rc" && n.Code != "value" {
				all = append(all, n.Text)
			}
		}
		return all
	}
	if !slices.Equal(text(long), text(whole)) {
		t.Errorf("notes %q, not %q", text(long), text(whole))
	}
	return worst
}

func TestLongIsWhole(t *testing.T) {
	for _, n := range []int{9601, 70011} {
		z := longTrace(n)
		gaps := slices.Clone(z)
		for _, at := range []int{0, 1, 2000, 2001, 2002, n / 2, n - 3000} {
			gaps[at] = math.NaN()
		}
		gaps[40] = math.Inf(1)
		for k, s := range longSettings(n) {
			for _, trace := range [][]float64{z, gaps} {
				if s.Sections == n/1600 && &trace[0] == &gaps[0] {
					continue // two points are missing for the last section
				}
				p := roughness.Profile{Z: trace, Spacing: 0.5}
				whole, refused := roughness.Evaluate(p, s)
				ev, err := roughness.NewEvaluator(s)
				if err != nil {
					t.Fatal(err)
				}
				long, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Heights: inTurn(trace), Spacing: 0.5, Points: n})
				if refused != nil && err != nil && err.Error() == refused.Error() && s.Start != nil {
					continue // the trace begins behind the start of the sections
				}
				if err != nil || refused != nil {
					t.Fatalf("settings %d: %v; whole %v", k, err, refused)
				}
				if d := sameLong(t, long, whole); d > 1e-10 {
					t.Errorf("settings %d, %d points: differs by %.1e", k, n, d)
				}
			}
		}
	}
}

func TestLongErrors(t *testing.T) {
	n := 20000
	z := longTrace(n)
	var big *roughness.Settings
	for _, tt := range []struct {
		key    string
		s      *roughness.Settings
		points int
	}{
		{"start", nil, 0},
		{"section", &roughness.Settings{Profile: roughness.P, Form: roughness.FormSpec{Kind: "none"}, Long: roughness.Band{Off: true}}, 0},
		{"form.kind", &roughness.Settings{Form: roughness.FormSpec{Kind: "circle"}}, n},
		{"form.kind", &roughness.Settings{Profile: roughness.P}, n},
		{"form.kind", &roughness.Settings{Long: roughness.Band{Spec: roughness.FilterSpec{Cutoff: 800, Ends: "retain-0"}}}, n},
		{"form.kind", &roughness.Settings{Long: roughness.Band{Off: true}}, n},
		{"long.filter", &roughness.Settings{Long: roughness.Band{Spec: roughness.FilterSpec{Filter: "spline", Cutoff: 800}}}, n},
		{"long.filter", &roughness.Settings{Long: roughness.Band{Spec: roughness.FilterSpec{Filter: "robust-gaussian", Cutoff: 800}}}, n},
		{"short.filter", &roughness.Settings{Short: roughness.Band{Spec: roughness.FilterSpec{Filter: "spline", Cutoff: 2.5}}}, n},
		{"waviness_limit", &roughness.Settings{WavinessLimit: 4000}, n},
		{"exclude", &roughness.Settings{Exclude: []roughness.Exclusion{{From: 5, To: 9, Reason: "scratch"}}}, n},
		{"crop", &roughness.Settings{Crop: [2]float64{0, 9}}, n},
	} {
		ev, err := roughness.NewEvaluator(tt.s)
		if err != nil {
			t.Fatal(err)
		}
		e, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Heights: inTurn(z), Spacing: 0.5, Points: tt.points})
		var setting *roughness.SettingError
		if !errors.As(err, &setting) || setting.Key != tt.key || e != nil {
			t.Errorf("%s: %v", tt.key, err)
		}
	}
	ev, err := roughness.NewEvaluator(big)
	if err != nil {
		t.Fatal(err)
	}
	gap := slices.Clone(z)
	for i := range 2000 {
		gap[9000+i] = math.NaN()
	}
	high := slices.Clone(z)
	high[15000] = 2e9
	blank := make([]float64, n)
	for i := range blank {
		blank[i] = math.NaN()
	}
	// What the whole trace is refused for, the long one is in the same words.
	for _, trace := range [][]float64{gap, high, blank, z[:1000]} {
		_, want := roughness.Evaluate(roughness.Profile{Z: trace, Spacing: 0.5}, nil)
		e, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Heights: inTurn(trace), Spacing: 0.5, Points: len(trace)})
		if want == nil {
			t.Fatal("no error of the whole trace")
		}
		if err == nil || err.Error() != want.Error() {
			t.Errorf("%v, not %v", err, want)
		}
		if e == nil || !math.IsNaN(e.Values[0].Value) || e.Values[0].Reason == "" {
			t.Errorf("%v: no reasons", err)
		}
	}
	if _, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Heights: inTurn(z), Spacing: 0.5, Points: n + 900}); !errors.Is(err, roughness.ErrStart) {
		t.Errorf("fewer points than stated: %v", err)
	}
	if _, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Heights: inTurn(z), Points: n}); !errors.Is(err, roughness.ErrSpacing) {
		t.Errorf("no spacing: %v", err)
	}
	if _, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Heights: inTurn(z), Spacing: 500, Points: n}); !errors.Is(err, roughness.ErrFilter) {
		t.Errorf("points too far apart: %v", err)
	}
	broken := errors.New("the line is dead")
	if e, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Heights: func([]float64) (int, error) { return 0, broken }, Spacing: 0.5, Points: n}); err != broken || e != nil {
		t.Errorf("the error of the reader: %v", err)
	}
	if _, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Heights: func([]float64) (int, error) { return 0, nil }, Spacing: 0.5, Points: n}); err != io.ErrNoProgress {
		t.Errorf("a reader that gives nothing: %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	read := inTurn(z)
	if e, err := ev.EvaluateLong(ctx, roughness.LongProfile{Heights: func(z []float64) (int, error) {
		n, err := read(z)
		if n > 1000 {
			cancel()
		}
		return n, err
	}, Spacing: 0.5, Points: n}); err != context.Canceled || e != nil {
		t.Errorf("stopped: %v", err)
	}
}

var longest = flag.Int("long", 100_000, "points of the longest trace that is held against the whole one; ten times as many are read in TestLongMemory")

// -long 10000000 -run TestLongGrowth -v prints the growth with the length.
func TestLongGrowth(t *testing.T) {
	for n := 1000; n <= *longest; n *= 10 {
		z := longTrace(n)
		var data bytes.Buffer
		if err := binary.Write(&data, binary.LittleEndian, z); err != nil {
			t.Fatal(err)
		}
		section := 400.0
		if n < 5000 {
			section = 80
		}
		s := &roughness.Settings{Long: roughness.Band{Spec: roughness.FilterSpec{Cutoff: section}}, Sections: int(float64(n) / 2 / section)}
		ev, err := roughness.NewEvaluator(s)
		if err != nil {
			t.Fatal(err)
		}
		begin := time.Now()
		long, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Heights: tracefile.Floats(&data), Spacing: 0.5, Points: n})
		took := time.Since(begin)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range long.Values { // of the whole trace only what can be compared
			if v.Reason == "" {
				s.Parameters = append(s.Parameters, v.Symbol)
			}
		}
		whole, err := roughness.Evaluate(roughness.Profile{Z: z, Spacing: 0.5}, s)
		if err != nil {
			t.Fatal(err)
		}
		long.Values = slices.DeleteFunc(long.Values, func(v roughness.Value) bool { return v.Reason != "" })
		d := sameLong(t, long, whole)
		t.Logf("%9d points, %5d sections: %.3g s, %.0f ns a point, differs by %.1e", n, long.Sections, took.Seconds(), float64(took.Nanoseconds())/float64(n), d)
		if d > 1e-12 {
			t.Errorf("%d points: differs by %.1e", n, d)
		}
	}
}

// A trace that no slice holds: the memory in use stays below a bound whatever the length.
func TestLongMemory(t *testing.T) {
	n := 10 * *longest
	at := 0
	s := &roughness.Settings{Sections: n / 1600, Start: floatPointer(0)}
	ev, err := roughness.NewEvaluator(s)
	if err != nil {
		t.Fatal(err)
	}
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	before, most, blocks := m.HeapAlloc, uint64(0), 0
	begin := time.Now()
	e, err := ev.EvaluateLong(context.Background(), roughness.LongProfile{Spacing: 0.5, Heights: func(z []float64) (int, error) {
		if blocks++; blocks%16 == 0 {
			runtime.ReadMemStats(&m)
			most = max(most, m.HeapAlloc)
		}
		if at == n {
			return 0, io.EOF
		}
		k := min(len(z), n-at)
		for i := range k {
			x := at + i
			z[i] = float64(x%160)/80 + float64(x*7919%1009)/5000
		}
		at += k
		return k, nil
	}})
	if err != nil {
		t.Fatal(err)
	}
	ra, _ := e.Value("Ra")
	used := int64(most) - int64(before)
	t.Logf("%d points, %d sections, %v: %.1f MB in use; Ra %v", n, e.Sections, time.Since(begin), float64(used)/1e6, ra.Value)
	if e.Sections != n/1600 || e.Points != n || !(ra.Value > 0.4 && ra.Value < 0.7) {
		t.Errorf("%d points, %d sections, Ra %v", e.Points, e.Sections, ra.Value)
	}
	if used > 100e6 {
		t.Errorf("%d bytes in use", used)
	}
}

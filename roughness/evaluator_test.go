package roughness_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

func demoTrace(i int) roughness.Profile {
	d := synth.Demos()[i]
	return roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Name: d.Title}
}

// profiles are those of an evaluation; most are nil for some settings.
func profiles(e *roughness.Evaluation) []*[]float64 {
	return []*[]float64{&e.Read, &e.Smoothed, &e.Form, &e.Primary, &e.Waviness, &e.Roughness, &e.Stratified, &e.TwoRC}
}

// sameEvaluation compares all that an evaluation has, to the bit.
func sameEvaluation(a, b *roughness.Evaluation) string {
	x, y := *a, *b
	p, q := profiles(&x), profiles(&y)
	for i := range p {
		if (*p[i] == nil) != (*q[i] == nil) || !slices.Equal(*p[i], *q[i]) {
			return fmt.Sprintf("profile %d differs", i)
		}
		*p[i], *q[i] = nil, nil
	}
	return cmp.Diff(x, y, cmpopts.EquateNaNs(), cmp.AllowUnexported(roughness.Evaluation{}), cmpopts.EquateEmpty(),
		cmpopts.IgnoreFields(roughness.Evaluation{}, "bare"))
}

func floatPointer(v float64) *float64 { return &v }

// manySettings differ in every stage, one after the other, so that an Evaluator that goes through them keeps some and repeats others.
func manySettings() []*roughness.Settings {
	gaussian := func(cutoff float64) roughness.Band {
		return roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: cutoff}}
	}
	off := roughness.Band{Off: true}
	list := []*roughness.Settings{
		nil,
		{Long: roughness.Band{Spec: roughness.FilterSpec{Cutoff: 250}}, Parameters: []string{"Rk", "Ra"}},
		{Long: gaussian(800)},
		{Long: gaussian(800), Short: off},
		{Long: gaussian(800), Short: off, Form: roughness.FormSpec{Kind: "none"}},
		{Long: off, Short: off, Form: roughness.FormSpec{Kind: "none"}, Parameters: []string{"Ra"}},
		{Long: gaussian(800), Form: roughness.FormSpec{Kind: "polynomial", Degree: 2}},
		{Long: gaussian(800), Crop: [2]float64{100, 0}},
		{Long: gaussian(800), Exclude: []roughness.Exclusion{{From: 900, To: 1000, Reason: "pore"}}},
		{Long: gaussian(800), Exclude: []roughness.Exclusion{{From: 900, To: 1900, Reason: "too long to bridge"}}},
		{Long: gaussian(800)},
		{Long: gaussian(800), Invert: true},
		{Input: roughness.Filtered},
		{Profile: roughness.P},
		{Profile: roughness.W, WavinessLimit: 2500},
		{Profile: roughness.W, WavinessLimit: 2600, Sections: 1},
		{Long: gaussian(1e7)},
		{Edition: "jis-b0601-1994"},
		{Edition: "iso-4287", Parameters: []string{"Rz", "Rk"}, Start: floatPointer(50)},
		{Start: floatPointer(1e6)},
		{Stratified: roughness.StratifiedByLong},
		nil,
	}
	for _, s := range list { // few parameters, because many evaluations are made
		if s != nil && len(s.Parameters) == 0 {
			s.Parameters = []string{map[roughness.Letter]string{0: "Rz", roughness.P: "Pz", roughness.W: "Wz"}[s.Profile]}
		}
	}
	return list
}

// An Evaluator that has seen other traces and other settings gives what a new evaluation gives, in everything.
func TestEvaluatorEqualsEvaluate(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	ev, err := roughness.NewEvaluator(nil)
	if err != nil {
		t.Fatal(err)
	}
	a, b := demoTrace(0), demoTrace(1)
	coarse := roughness.Profile{Z: a.Z, Spacing: 2.5}
	gap := roughness.Profile{Z: slices.Clone(a.Z), Spacing: a.Spacing}
	for i := range 40 {
		gap.Z[2000+i] = math.NaN()
	}
	huge := roughness.Profile{Z: []float64{1, 1e30, 2}, Spacing: 1}
	for i, s := range manySettings() {
		with, err := ev.With(s)
		if err != nil {
			t.Fatalf("settings %d: %v", i, err)
		}
		for k, p := range []roughness.Profile{a, a, b, coarse, gap, huge, {Spacing: 1}, {Z: a.Z}} {
			want, wantErr := roughness.Evaluate(p, s)
			got, err := with.Evaluate([]context.Context{ctx, context.Background()}[k%2], p)
			if !reflect.DeepEqual(err, wantErr) {
				t.Errorf("settings %d, trace %d: error %v, want %v", i, k, err, wantErr)
			}
			if d := sameEvaluation(want, got); d != "" {
				t.Errorf("settings %d, trace %d (-want +got):\n%.2000s", i, k, d)
			}
			got, err = with.Measure(ctx, p)
			if !reflect.DeepEqual(err, wantErr) {
				t.Errorf("settings %d, trace %d: Measure: error %v, want %v", i, k, err, wantErr)
			}
			bare := *want
			bare.Origins, bare.Notes = nil, nil
			for _, z := range profiles(&bare) {
				*z = nil
			}
			if d := sameEvaluation(&bare, got); d != "" {
				t.Errorf("settings %d, trace %d: Measure (-want +got):\n%.2000s", i, k, d)
			}
		}
	}
	var wrong *roughness.SettingError
	if _, err := ev.With(&roughness.Settings{Sections: -1}); !errors.As(err, &wrong) || wrong.Key != "sections" {
		t.Errorf("settings that cannot be followed: %v", err)
	}
}

// scribble overwrites all that the caller of an evaluation can reach.
func scribble(e *roughness.Evaluation) {
	for _, z := range profiles(e) {
		for i := range *z {
			(*z)[i] = 1e6 + float64(i%7)
		}
	}
	for k := range e.Origins {
		delete(e.Origins, k)
	}
	s := &e.Settings
	for _, p := range []*float64{s.Bridge, s.Start} {
		if p != nil {
			*p = -1
		}
	}
	for _, p := range []*int{s.Short.Spec.Order, s.Long.Spec.Order} {
		if p != nil {
			*p = 77
		}
	}
	for i := range s.Parameters {
		s.Parameters[i] = "nonsense"
	}
	for i := range s.Exclude {
		s.Exclude[i] = roughness.Exclusion{From: -5}
	}
	for i := range e.Values {
		e.Values[i] = roughness.Value{}
	}
	for i := range e.Notes {
		e.Notes[i] = roughness.Note{}
	}
}

// What the caller does with settings, trace or result changes neither the Evaluator nor another evaluation.
func TestEvaluatorSharesNothing(t *testing.T) {
	for i, s := range manySettings() {
		p := demoTrace(0)
		want, _ := roughness.Evaluate(p, s)
		own := &roughness.Settings{}
		if s != nil {
			*own = *s
			own.Parameters, own.Exclude = slices.Clone(s.Parameters), slices.Clone(s.Exclude)
			if s.Start != nil {
				own.Start = floatPointer(*s.Start)
			}
		}
		ev, err := roughness.NewEvaluator(own)
		if err != nil {
			t.Fatal(err)
		}
		if own.Start != nil {
			*own.Start = 4000
		}
		for k := range own.Parameters {
			own.Parameters[k] = "nonsense"
		}
		for k := range own.Exclude {
			own.Exclude[k].Reason = ""
		}
		first, _ := ev.Evaluate(context.Background(), p)
		second, _ := ev.Evaluate(context.Background(), p)
		short, _ := roughness.Evaluate(p, s)
		for name, e := range map[string]*roughness.Evaluation{"first": first, "short": short} {
			all := append(profiles(e), &p.Z)
			for _, a := range all {
				if len(*a) == 0 {
					continue
				}
				old, same := (*a)[0], 0
				(*a)[0] = 12345
				for _, b := range all {
					if len(*b) > 0 && (*b)[0] == 12345 {
						same++
					}
				}
				(*a)[0] = old
				if same != 1 {
					t.Errorf("settings %d, %s: %d profiles share memory", i, name, same)
				}
			}
		}
		scribble(first)
		scribble(short)
		*ev.Settings() = roughness.Settings{}
		if d := sameEvaluation(want, second); d != "" {
			t.Errorf("settings %d: an evaluation changed with another one (-want +got):\n%.1000s", i, d)
		}
		third, _ := ev.Evaluate(context.Background(), p)
		if d := sameEvaluation(want, third); d != "" {
			t.Errorf("settings %d: the evaluator changed with its evaluation (-want +got):\n%.1000s", i, d)
		}
		for k := range p.Z { // the heights that the evaluator has seen, at their old address
			p.Z[k] = 2 * p.Z[k]
		}
		double, _ := roughness.Evaluate(p, s)
		fourth, _ := ev.Evaluate(context.Background(), p)
		if d := sameEvaluation(double, fourth); d != "" {
			t.Errorf("settings %d: the evaluator did not see that the trace changed (-want +got):\n%.1000s", i, d)
		}
	}
}

// Many goroutines on one Evaluator and on those made of it, each with its own trace and settings (run with the race detector).
func TestEvaluatorConcurrent(t *testing.T) {
	ev, err := roughness.NewEvaluator(nil)
	if err != nil {
		t.Fatal(err)
	}
	settings := manySettings()[:8]
	want := map[[2]int]*roughness.Evaluation{}
	for i, s := range settings {
		for k := range 2 {
			want[[2]int{i, k}], _ = roughness.Evaluate(demoTrace(k), s)
		}
	}
	traces := []roughness.Profile{demoTrace(0), demoTrace(1)}
	var wg sync.WaitGroup
	for g := range 8 {
		wg.Go(func() {
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			for i := range settings {
				i = (i + g) % len(settings)
				with, err := ev.With(settings[i])
				if err != nil {
					t.Error(err)
					return
				}
				e, _ := with.Evaluate(ctx, traces[g%2])
				if d := sameEvaluation(want[[2]int{i, g % 2}], e); d != "" {
					t.Errorf("settings %d: %.500s", i, d)
				}
				scribble(e)
			}
		})
	}
	wg.Wait()
}

// A million points: the call returns within 10 ms of the end of its context, wherever it is, and the Evaluator goes on.
func TestEvaluatorStops(t *testing.T) {
	z := make([]float64, 1_000_000)
	for i := range z {
		z[i] = math.Sin(float64(i)/40) + 0.3*math.Sin(float64(i)/7)
	}
	p := roughness.Profile{Z: z, Spacing: 0.5}
	ev, err := roughness.NewEvaluator(nil)
	if err != nil {
		t.Fatal(err)
	}
	before := runtime.NumGoroutine()
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	if e, err := ev.Evaluate(ended, p); e != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("with a context that has ended: %v", err)
	}
	took := time.Hour // at the quickest: the first time new memory is touched
	for range 3 {
		start := time.Now()
		if _, err := ev.Evaluate(context.Background(), p); err != nil {
			t.Fatal(err)
		}
		took = min(took, time.Since(start))
	}
	for _, share := range []float64{0.05, 0.2, 0.4} {
		if runtime.GOARCH == "wasm" {
			break // one thread, on which nothing interrupts a step: there the context counts between steps
		}
		best, stopped := time.Hour, 0 // of a few tries: other work of the machine is not what is measured
		for try := 0; try < 20 && stopped < 5; try++ {
			ctx, cancel := context.WithCancel(context.Background())
			end := make(chan time.Time, 1)
			after, start := time.Duration(share*float64(took)), time.Now()
			time.AfterFunc(after, func() { end <- time.Now(); cancel() })
			e, err := ev.Evaluate(ctx, p)
			returned := time.Now()
			if err == nil {
				<-end
				took = min(took, returned.Sub(start)) // through before the end of the context: other work had slowed the first ones
				continue
			}
			if e != nil || !errors.Is(err, context.Canceled) {
				t.Fatalf("after %v: %v, %v", after, e != nil, err)
			}
			best, stopped = min(best, returned.Sub(<-end)), stopped+1
			// The step that was going on ends in the background. What is measured next is not to wait for it.
			for wait := time.Now(); runtime.NumGoroutine() > before && time.Since(wait) < 10*time.Second; {
				time.Sleep(time.Millisecond)
			}
		}
		limit := 10 * time.Millisecond
		if underRace { // all is ten times slower
			limit *= 10
		}
		if stopped == 0 || best > limit {
			t.Errorf("%d of the tries stopped, at best %v after the end of the context at %v of %v", stopped, best, time.Duration(share*float64(took)), took)
		}
	}
	q := demoTrace(0)
	want, _ := roughness.Evaluate(q, nil)
	if got, err := ev.Evaluate(context.Background(), q); err != nil || sameEvaluation(want, got) != "" {
		t.Errorf("after that: %v", err)
	}
	for range 600 { // the steps in hand end
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Errorf("%d goroutines are left of %d", runtime.NumGoroutine(), before)
}

// A stream of traces of 9 601 points through an Evaluator.
func TestEvaluatorAllocations(t *testing.T) {
	if underRace {
		return // the race detector allocates too
	}
	p := demoTrace(0)
	if len(p.Z) != 9601 {
		t.Fatalf("%d points", len(p.Z))
	}
	traces := []roughness.Profile{p, {Z: slices.Clone(p.Z), Spacing: p.Spacing}, {Z: slices.Clone(p.Z), Spacing: p.Spacing}}
	for i := range p.Z {
		traces[1].Z[i] *= 1.1
		traces[2].Z[i] += 0.01 * math.Sin(float64(i))
	}
	for _, c := range []struct {
		name   string
		set    *roughness.Settings
		values bool
		most   float64 // allocations
		bytes  uint64
	}{
		{"Ra and Rz", &roughness.Settings{Parameters: []string{"Ra", "Rz"}}, true, 30, 300_000},
		{"catalogue", nil, true, 60, 300_000},
		{"Ra and Rz with profiles", &roughness.Settings{Parameters: []string{"Ra", "Rz"}}, false, 60, 700_000},
		{"catalogue with profiles", nil, false, 100, 700_000},
	} {
		ev, err := roughness.NewEvaluator(c.set)
		if err != nil {
			t.Fatal(err)
		}
		next := 0
		one := func() {
			do := ev.Evaluate
			if c.values {
				do = ev.Measure
			}
			if _, err := do(context.Background(), traces[next%len(traces)]); err != nil {
				t.Fatal(err)
			}
			next++
		}
		one()
		one()
		// Of some rounds the least: the garbage collector empties what is lent from trace to trace now and then.
		const runs, rounds = 10, 6
		fewest := math.Inf(1)
		for range rounds {
			fewest = min(fewest, testing.AllocsPerRun(runs, one))
		}
		if fewest > c.most {
			t.Errorf("%s: %v allocations a trace, want at most %v", c.name, fewest, c.most)
		}
		least := uint64(math.MaxUint64)
		for range rounds {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			for range runs {
				one()
			}
			runtime.ReadMemStats(&after)
			least = min(least, (after.TotalAlloc-before.TotalAlloc)/runs)
		}
		if least > c.bytes {
			t.Errorf("%s: %d bytes a trace, want at most %d", c.name, least, c.bytes)
		}
	}
}

func ExampleEvaluate() {
	d := synth.Demos()[0] // an invented trace
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	e, err := roughness.Evaluate(p, &roughness.Settings{Edition: "iso-21920", Parameters: []string{"Ra", "Rz"}})
	if err != nil {
		fmt.Println(err) // a *SettingError, or a *ProfileError beside values that are all undefined
		return
	}
	for _, v := range e.Values {
		fmt.Printf("%s = %.3f %s (%s)\n", v.Symbol, v.Value, v.Unit, v.Source)
	}
	fmt.Printf("cut-off %g µm: %s\n", e.Settings.Long.Spec.Cutoff, e.Origins["long.cutoff"].Text)
	// Output:
	// Ra = 0.406 µm (ISO 21920-2:2021, 4.2.2)
	// Rz = 2.920 µm (ISO 21920-2:2021, 5.1.6)
	// cut-off 800 µm: default class Sc3
}

func ExampleEvaluator() {
	ev, err := roughness.NewEvaluator(&roughness.Settings{Parameters: []string{"Rz"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	ctx := context.Background()
	for _, d := range synth.Demos()[:2] { // a stream of traces, values only
		e, err := ev.Measure(ctx, roughness.Profile{Z: d.Heights(), Spacing: d.Spacing})
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%s: %.3f µm\n", d.Title, e.Values[0].Value)
	}
	// A moved cut-off on one trace repeats neither the S-filter nor the form.
	d := synth.Demos()[0]
	p := roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}
	for _, cutoff := range []float64{250, 800} {
		s := ev.Settings()
		s.Long.Spec.Cutoff, s.SectionLength = cutoff, cutoff
		with, err := ev.With(s)
		if err != nil {
			fmt.Println(err)
			return
		}
		e, err := with.Evaluate(ctx, p)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("cut-off %g µm: %.3f µm, lowest point of R %.2f µm\n", cutoff, e.Values[0].Value, slices.Min(e.Roughness))
	}
	// Output:
	// Ground piston rod: 2.920 µm
	// Turned hinge pin: 6.850 µm
	// cut-off 250 µm: 2.222 µm, lowest point of R -2.25 µm
	// cut-off 800 µm: 2.920 µm, lowest point of R -2.48 µm
}

package params_test

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// What the filters refuse, the parameters state: a height that is no finite number, a spacing that is none. No parameter of any
// edition has a value then, and the reason names the place.
func TestFaultyInput(t *testing.T) {
	for _, c := range []struct {
		change func(in *params.Input)
		want   string
	}{
		{func(in *params.Input) { in.Z[16] = math.NaN() }, "point 17"},
		{func(in *params.Input) { in.Z[0] = math.Inf(1) }, "point 1"},
		{func(in *params.Input) { in.Z[len(in.Z)-1] = math.Inf(-1) }, "point 1000"},
		{func(in *params.Input) { in.Lead = []float64{1, math.NaN()} }, "before the first"},
		{func(in *params.Input) { in.Tail = []float64{math.NaN()} }, "behind the last"},
		{func(in *params.Input) { in.Dx = 0 }, "spacing 0"},
		{func(in *params.Input) { in.Dx = -1 }, "spacing -1"},
		{func(in *params.Input) { in.Dx = math.NaN() }, "spacing NaN"},
		{func(in *params.Input) { in.Dx = math.Inf(1) }, "spacing +Inf"},
	} {
		in := params.Input{Z: ground(1000), Dx: 0.5, Section: 200}
		c.change(&in)
		for _, edition := range standards.EditionIDs() {
			for _, letter := range []byte("PRW") {
				calls := params.Defaults(edition, letter)
				for i, v := range params.Evaluate(&in, calls...) {
					if !math.IsNaN(v.Value) || !strings.Contains(v.Reason, c.want) || v.Unit != calls[i].Parameter.Unit || v.Sections != nil {
						t.Fatalf("%s %s: %v, reason %q, want %q", edition, v.Symbol, v.Value, v.Reason, c.want)
					}
					var e *params.ConstructError
					if _, err := params.Construct(&in, calls[i]); !errors.As(err, &e) || !strings.Contains(e.Reason, c.want) {
						t.Fatalf("%s %s: construction error %v", edition, v.Symbol, err)
					}
				}
			}
		}
	}
	if v := params.Evaluate(nil, params.Defaults("iso-21920", 'R')[0])[0]; !math.IsNaN(v.Value) || v.Reason == "" {
		t.Errorf("without an input: %+v", v)
	}
}

// The functions of the parameters give NaN for the same: not a height of the points before it, not a spacing of 0.
func TestFaultyAlone(t *testing.T) {
	z := ground(1000)
	z[500] = math.NaN()
	for name, v := range map[string]float64{
		"Ra": params.Ra(z), "Rq": params.Rq(z), "Rsk": params.Rsk(z), "Rz": params.Rz(z, 200), "Rp": params.Rp(z, 0), "Rt": params.Rt(z), "Rpt": params.Rpt(z), "Rvt": params.Rvt(z),
		"Rsm": params.Rsm(z, 1, 0), "Rmr": params.Rmr(z, 0), "Rmc": params.Rmc(z, 10), "Rk": params.Rk(z), "Rmrk2": params.Rmrk2(z), "R5p": params.R5p(z), "RzJIS": params.RzJIS(z, 0),
		"Rvmp": params.Rvmp(z, 10), "HSC": params.HSC(z, 1, 0), "Rzx": params.Rzx(z, 1, 100),
	} {
		if !math.IsNaN(v) {
			t.Errorf("%s of heights with a NaN = %v", name, v)
		}
	}
	good := ground(1000)
	for _, dx := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		for name, v := range map[string]float64{
			"Rsm": params.Rsm(good, dx, 0), "Rpc": params.Rpc(good, dx, 0), "Rdq": params.Rdq(good, dx), "HSC": params.HSC(good, dx, 0), "Rzx": params.Rzx(good, dx, 100), "AR": params.AR(good, dx, 500),
		} {
			if !math.IsNaN(v) {
				t.Errorf("%s at a spacing of %v = %v", name, dx, v)
			}
		}
	}
}

// A Call that no Lookup made is answered with a reason, and the others have their values.
func TestEmptyCall(t *testing.T) {
	in := params.Input{Z: ground(1000), Dx: 0.5}
	ra := lookup(t, "iso-21920", 'R', "Ra")
	values := params.Evaluate(&in, params.Call{}, ra, params.Call{Parameter: ra.Parameter, Symbol: "Ra"})
	for _, i := range []int{0, 2} {
		if v := values[i]; !math.IsNaN(v.Value) || !strings.Contains(v.Reason, "the call is empty") {
			t.Errorf("call %d: %+v", i, v)
		}
	}
	holds(t, "Ra beside empty calls", values[1].Value, params.Ra(in.Z), 0, "the function")
	var e *params.ConstructError
	if _, err := params.Construct(&in, params.Call{}); !errors.As(err, &e) {
		t.Errorf("Construct: %v", err)
	}
	var none params.Call
	if m := none.Meaning(); m.Refs != nil || none.String() != "" {
		t.Errorf("meaning %+v, %q", m, none.String())
	}
}

// A caller that changes every word and number of the catalogue it was given changes nothing.
func TestCatalogueIsACopy(t *testing.T) {
	before, spoilt := params.Catalogue(), params.Catalogue()
	for i := range spoilt {
		p := &spoilt[i]
		for j := range p.Meanings {
			for k := range p.Meanings[j].Editions {
				p.Meanings[j].Editions[k] = "spoilt"
			}
			for k := range p.Meanings[j].Refs {
				p.Meanings[j].Refs[k].Doc = "spoilt"
			}
			p.Meanings[j].Over = 3
		}
		for j := range p.Args {
			p.Args[j] = params.Arg{Name: "spoilt"}
		}
		p.Key, p.Symbol, p.Unit = "spoilt", "spoilt", "spoilt"
	}
	after := params.Catalogue()
	for i := range before {
		a, b := before[i], after[i]
		for j := range a.Args { // NaN is not equal to itself
			if math.IsNaN(a.Args[j].Default) && math.IsNaN(b.Args[j].Default) {
				a.Args[j].Default, b.Args[j].Default = 0, 0
			}
		}
		if !reflect.DeepEqual(a.Args, b.Args) || a.Key != b.Key || a.Symbol != b.Symbol || a.Unit != b.Unit || len(a.Meanings) != len(b.Meanings) {
			t.Errorf("%s changed: %+v", a.Key, b)
		}
		for j := range a.Meanings {
			if !reflect.DeepEqual(a.Meanings[j].Editions, b.Meanings[j].Editions) || !reflect.DeepEqual(a.Meanings[j].Refs, b.Meanings[j].Refs) || a.Meanings[j].Over != b.Meanings[j].Over {
				t.Errorf("%s: a meaning changed: %+v", a.Key, b.Meanings[j])
			}
		}
	}
}

package main

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/study"
)

// registrationName is the callback that furrow.js puts on the global object before it starts the module, and takes away as
// soon as it was called. Nothing of furrow stays there.
const registrationName = "__furrow_ready"

// A module is what one loaded instance remembers: the latest evaluation, which pictures and constructions are made of. An evaluation with a
// handle is a module of its own, beside others; see handle.go.
type module struct {
	home   *module // of an evaluation with a handle
	open   map[int]*module
	used   []int // handles, the latest one last
	points int   // heights of all of them

	trace  roughness.Profile
	latest *roughness.Evaluation

	// Of the latest call of all, shared by the evaluations with handles: what the next one leaves alone is not computed again.
	evaluator *roughness.Evaluator
	looked    roughness.Profile // the trace that was looked at
	looker    *inspect.Looker

	judgedOn roughness.Profile     // what the latest call of evaluate was about, whether it came to values or not
	judged   *roughness.Evaluation // so that no verdict is about an earlier trace
	problem  string                // why it came to none

	search       *searching           // that is going on
	ledger       *compare.Ledger      // of the latest call of compare, for the pictures
	sides        [2]string            // what its two evaluations are called
	steadyValues []compare.Steadiness // likewise
	checked      *instrument.Check    // of the latest call of instrument
	budget       *instrument.TraceBudget
	grooves      []roughness.Profile // that were measured
	grooveOf     instrument.Specimen
	desk         *study.Desk
	series       map[string]*held // traces of the same surface
	verdict      *judge.Verdict   // the latest one
}

// A function is one entry of the table that the bridge registers. text is JSON, data the bytes of a typed array.
type function struct {
	name string
	call func(m *module, text string, data []byte) (answer, error)
}

// An answer is JSON text with arrays beside it, because heights never cross as text.
type answer struct {
	of     any // what the text is made of, where it is not there yet
	text   string
	arrays []array
}

// none is the request of a function that needs none.
type none struct{}

// on makes an entry of the table of a method: it reads the request, and writes what the method answers with: a value as JSON, JSON as it is, or an
// answer.
func on[T any](method func(m *module, req *T, data []byte) (any, error)) func(*module, string, []byte) (answer, error) {
	return func(m *module, text string, data []byte) (answer, error) {
		req := new(T)
		if err := decode(text, req); err != nil {
			return answer{}, err
		}
		v, err := method(m, req, data)
		if err != nil {
			return answer{}, err
		}
		a, ok := v.(answer)
		if !ok {
			a.of = v
		}
		switch of := a.of.(type) {
		case nil:
		case []byte:
			a.text = string(of)
		case string:
			a.text = of
		default:
			a.text = jsonText(of)
		}
		return a, nil
	}
}

type array struct {
	name string
	z    []float64
}

// functions is the table of doc.go.
var functions = []function{
	{"version", on((*module).version)},
	{"catalogue", on((*module).catalogue)},
	{"demos", on((*module).demos)},
	{"demo", on((*module).demo)},
	{"read", on((*module).read)},
	{"evaluate", on((*module).evaluate)},
	{"profiles", on((*module).profiles)},
	{"close", on((*module).close)},
	{"construct", on((*module).construct)},
	{"figure", on((*module).figure)},
	{"transmit", on((*module).transmit)},
	{"make", on((*module).make)},
	{"steady", on((*module).steady)},
	{"requirement", on((*module).requirement)},
	{"judge", on((*module).judge)},
	{"record", on((*module).record)},
	{"reopen", on((*module).reopen)},
	{"verify", on((*module).verify)},
	{"digest", on((*module).digest)},
	{"compare", on((*module).compare)},
	{"instrument", on((*module).instrument)},
	{"selfcheck", on((*module).selfcheck)},
	{"study", (*module).study},
	{"hold", on((*module).hold)},
	{"measure", on((*module).measure)},
	{"summary", on((*module).summary)},
}

// The kinds of a fault.
const (
	kindRequest  = "request"  // the call itself is wrong: a name or an option that does not exist
	kindSettings = "settings" // the settings cannot be followed; Key says which
	kindTrace    = "trace"    // the trace cannot be read; Line and Column say where
	kindQuestion = "question" // the file leaves open how it is to be read; Questions say what
	kindFile     = "file"     // the file is no trace: of another kind, or larger than can be read; there is no place in it to show
	kindRecord   = "record"   // the file is no record, or one that is refused: cut short, changed, of another version
	kindInternal = "internal" // a fault of furrow
)

// A fault is an error as a script sees it.
type fault struct {
	Kind      string     `json:"kind"`
	Message   string     `json:"message"`
	Line      int        `json:"line,omitempty"`
	Column    int        `json:"column,omitempty"`
	Key       string     `json:"key,omitempty"`
	Questions []question `json:"questions,omitempty"`
}

// A question is one thing that a trace file leaves open, and the hint that answers it.
type question struct {
	Hint    string       `json:"hint"`
	Text    string       `json:"text"`
	Answers []fileAnswer `json:"answers"`
}

// A fileAnswer is a reading of the file: the hint that says so and what it is given as, or the unit of the number that it takes.
type fileAnswer struct {
	Hint  string          `json:"hint"`
	Value json.RawMessage `json:"value"` // null where a number is to be given
	Unit  string          `json:"unit"`
	Text  string          `json:"text"`
}

func (f *fault) Error() string { return f.Message }

// faultOf turns an error of the library into a fault.
func faultOf(err error) *fault {
	var f *fault
	if errors.As(err, &f) {
		return f
	}
	var setting *roughness.SettingError
	if errors.As(err, &setting) {
		return &fault{Kind: kindSettings, Message: setting.Err.Error(), Key: setting.Key}
	}
	var document *record.DocumentError
	if errors.As(err, &document) {
		return &fault{Kind: kindSettings, Message: document.Err.Error(), Key: document.Key, Line: document.Line, Column: document.Column}
	}
	return &fault{Kind: kindTrace, Message: err.Error()}
}

func requestf(format string, args ...any) error {
	return &fault{Kind: kindRequest, Message: fmt.Sprintf(format, args...)}
}

// decode reads the JSON of a request; an empty text leaves v as it is.
func decode(text string, v any) error {
	if text == "" {
		return nil
	}
	if err := json.Unmarshal([]byte(text), v); err != nil {
		return requestf("the request cannot be read: %v", err)
	}
	return nil
}

// jsonText is the JSON of a value that holds nothing JSON cannot say.
func jsonText(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic("wasm: an answer cannot fail to encode: " + err.Error())
	}
	return string(b)
}

// heights reads the bytes of a Float64Array.
func heights(data []byte) ([]float64, error) {
	if len(data)%8 != 0 {
		return nil, requestf("the heights must come as a Float64Array")
	}
	z := make([]float64, len(data)/8)
	for i := range z {
		z[i] = math.Float64frombits(binary.LittleEndian.Uint64(data[8*i:]))
	}
	return z, nil
}

// A number is null in JSON where it is undefined.
type number float64

// MarshalJSON writes the shortest decimal that reads back as the same number.
func (n number) MarshalJSON() ([]byte, error) {
	v := float64(n)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return []byte("null"), nil
	}
	return json.Marshal(v)
}

package main

import "slices"

// mostHeights is how many heights the evaluations of handles may have together. An evaluation holds some eight profiles, so that they take at
// most 130 MB; a longer trace is there alone.
var mostHeights = 1 << 21

// kindGone is the kind of the fault of a call on an evaluation that made room for others, or was closed. The script that holds the handle
// gives the trace again and repeats the call; no one else sees this kind.
const kindGone = "gone"

// call makes the call f on the evaluation with this handle, which the script chooses when it calls evaluate; 0 is the module itself.
func (m *module) call(f function, handle int, text string, data []byte) (answer, error) {
	if handle == 0 {
		return f.call(m, text, data)
	}
	if f.name == "evaluate" {
		if m.series == nil {
			m.series = map[string]*held{}
		}
		e := &module{home: m, series: m.series}
		a, err := f.call(e, text, data)
		if err == nil {
			m.keep(handle, e)
		}
		return a, err
	}
	e, ok := m.open[handle]
	if !ok {
		return answer{}, &fault{Kind: kindGone, Message: "the evaluation is not here"}
	}
	m.keep(handle, e)
	return f.call(e, text, data)
}

// keep notes that an evaluation is in use. Those whose use is longest ago make room.
func (m *module) keep(handle int, e *module) {
	if m.open == nil {
		m.open = map[int]*module{}
	}
	m.drop(handle)
	m.open[handle] = e
	m.used = append(m.used, handle)
	m.points += len(e.judgedOn.Z)
	for m.points > mostHeights && len(m.used) > 1 {
		m.drop(m.used[0])
	}
}

func (m *module) drop(handle int) {
	e, ok := m.open[handle]
	if !ok {
		return
	}
	delete(m.open, handle)
	m.used = slices.DeleteFunc(m.used, func(h int) bool { return h == handle })
	m.points -= len(e.judgedOn.Z)
}

type closeRequest struct {
	Handle int `json:"handle"`
}

// close lets go of an evaluation; one that is not there is no error.
func (m *module) close(req *closeRequest, _ []byte) (any, error) {
	m.drop(req.Handle)
	return "null", nil
}

// shared is the module that keeps what evaluations share.
func (m *module) shared() *module {
	if m.home != nil {
		return m.home
	}
	return m
}

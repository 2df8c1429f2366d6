package roughness

import (
	"math"

	"example.com/furrow/params"
)

// Traced says how a trace came about. Every field may be left empty; it goes into the record as it stands.
type Traced struct {
	Instrument string  // kind and identification of the instrument
	Skid       SkidUse // whether the pickup slid on a skid
	TipRadius  float64 // µm
	ConeAngle  float64 // degrees
	Force      float64 // mN
	Speed      float64 // mm/s
	Direction  string  // to the lay: "across"
	Place      string  // where on the part
	Date       string  // ISO 8601
}

// SkidUse says whether a trace was taken with a skid. A skid is a mechanical high-pass: what the instrument shows is not the
// height above a straight guide.
type SkidUse uint8

const (
	SkidUnknown SkidUse = iota
	WithoutSkid
	WithSkid
)

// skidReason is the reason given where a value makes no sense behind a skid (common practice; ISO 3274:1996 deals with
// instruments without one).
const skidReason = "traced with a skid, which follows long waves and distorts wide dales: P, W and the parameters of stratified surfaces are not available"

// refuseSkid withdraws the values that a skid leaves without meaning, unless the settings insist.
func (e *Evaluation) refuseSkid(plan *plan) {
	if e.Traced.Skid != WithSkid {
		return
	}
	any := false
	for i, c := range plan.calls {
		if e.Settings.Profile == R && c.Parameter.On == params.OwnProfile || math.IsNaN(e.Values[i].Value) {
			continue
		}
		any = true
		if !e.Settings.InsistOnSkid {
			e.Values[i].Value, e.Values[i].Sections, e.Values[i].Reason = math.NaN(), nil, skidReason
		}
	}
	if any && e.Settings.InsistOnSkid {
		e.note("skid", "The trace was taken with a skid; P, W and the parameters of stratified surfaces are given because the settings insist on them.")
	}
}

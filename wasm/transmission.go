package main

import (
	"math"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/figure"
)

func drawTransmission(e *roughness.Evaluation, o figureOptions) (figure.Drawing, error) {
	short, long := e.Settings.Short, e.Settings.Long
	s, _ := short.Linear()
	l, _ := long.Linear()
	return figure.Transmission{Short: s, ShortCutoff: short.Spec.Cutoff, Long: l, LongCutoff: long.Spec.Cutoff, Wave: o.Wave}, nil
}

// borrowed says of which filter the transmission is, where the one in use has none of its own.
func borrowed(e *roughness.Evaluation) string {
	for _, b := range []roughness.Band{e.Settings.Short, e.Settings.Long} {
		if _, own := b.Linear(); !own {
			return " A filter of this kind weighs by height too and has no transmission of its own; drawn is that of the linear filter it is built on."
		}
	}
	return ""
}

type transmitRequest struct {
	Wavelength float64 `json:"wavelength"`
}

type transmitAnswer struct {
	Roughness number `json:"roughness"`
	Waviness  number `json:"waviness"`
	Short     number `json:"short"` // taken away by the S-filter
}

// transmit answers, in percent, where the height of a wave goes; null where a filter in use cannot tell.
func (m *module) transmit(req *transmitRequest, _ []byte) (any, error) {
	if !(req.Wavelength > 0) {
		return nil, requestf("a wavelength must be a length above 0")
	}
	e, err := m.evaluation()
	if err != nil {
		return nil, err
	}
	share := func(b roughness.Band, otherwise float64) float64 {
		switch f, own := b.Linear(); {
		case f == nil:
			return otherwise
		case !own:
			return math.NaN()
		default:
			return f.Transmission(req.Wavelength)
		}
	}
	passed := share(e.Settings.Short, 1)
	waviness := passed * share(e.Settings.Long, 0)
	roughness := passed - waviness
	if l, _ := e.Settings.Long.Linear(); l != nil {
		if f, ok := l.(filter.Shifting); ok { // the two parts are out of step: their sizes do not sum to that of the wave
			roughness, _ = f.Response(req.Wavelength)
			roughness *= passed
		}
	}
	return transmitAnswer{number(100 * roughness), number(100 * waviness), number(100 * (1 - passed))}, nil
}

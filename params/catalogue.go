package params

import (
	"slices"
	"strings"
	"sync"

	"example.com/furrow/standards"
)

// A group is a list of rows with the heading they stand under.
type group struct {
	heading string
	rows    []Parameter
}

// groups are the rows of the catalogue in its order of print.
func groups() []group {
	return []group{
		{GroupHeight, heightRows},
		{GroupHeight, extremeRows},
		{GroupSpacing, spacingRows},
		{GroupGradient, slopeRows},
		{GroupRatio, ratioRows},
		{GroupCore, coreRows},
		{GroupProbability, probabilityRows},
		{GroupVolume, volumeRows},
		{GroupSpatial, spatialRows},
		{GroupSpatial, dominantRows},
		{GroupFeature, featureRows},
		{GroupMotif, motifRows},
		{GroupMotif, wavinessRows},
		{GroupMotif, envelopeRows},
		{GroupLegacy, tenPointRows},
		{GroupLegacy, olderHeightRows},
		{GroupLegacy, olderSpacingRows},
		{GroupLegacy, bearingRows},
		{GroupLegacy, countRows},
	}
}

// Catalogue returns all parameters, group by group. It is a copy: what a caller changes in it, down to an edition or an
// argument, changes nothing elsewhere.
func Catalogue() []Parameter {
	rows := slices.Clone(catalogue().rows)
	for i := range rows {
		p := &rows[i]
		p.Args, p.Meanings = slices.Clone(p.Args), slices.Clone(p.Meanings)
		for j := range p.Meanings {
			m := &p.Meanings[j]
			m.Editions, m.Refs = slices.Clone(m.Editions), slices.Clone(m.Refs)
		}
	}
	return rows
}

// A listed parameter is a row with the symbol and the meaning that an edition has for it on one profile.
type listed struct {
	parameter *Parameter
	symbol    *standards.Symbol
	meaning   *Meaning
}

type editionLetter struct {
	edition standards.EditionID
	letter  byte
}

// all is the catalogue attached to the list of symbols.
type all struct {
	rows []Parameter
	by   map[editionLetter][]listed // in the order of the rows
}

// catalogue returns the catalogue, made when it is first asked for.
var catalogue = sync.OnceValue(func() *all {
	c := &all{by: map[editionLetter][]listed{}}
	for _, g := range groups() {
		for _, p := range g.rows {
			p.Group = g.heading
			c.rows = append(c.rows, p)
		}
	}
	index := make(map[string]int, len(c.rows))
	for i := range c.rows {
		index[c.rows[i].Key] = i
	}
	for _, edition := range Editions() {
		symbols := standards.Symbols(edition)
		for i := range symbols {
			s := &symbols[i]
			row, ok := index[s.Key]
			if !ok {
				panic("params: no row for the symbol " + s.Name)
			}
			p := &c.rows[row]
			p.attach(s, edition)
			at := editionLetter{edition, s.Letter}
			c.by[at] = append(c.by[at], listed{p, s, p.of(edition)})
		}
	}
	return c
})

// units are those of the quantities.
var units = [...]Unit{
	standards.Height: Micrometre, standards.Spacing: Micrometre, standards.Area: Micrometre, standards.Ratio: Percent,
	standards.Number: None, standards.PeakCount: PerCentimetre, standards.PerLength: PerMillimetre,
}

// attach fills in what the list of symbols knows of the row. The first edition that has it gives symbol and letters.
func (p *Parameter) attach(s *standards.Symbol, edition standards.EditionID) {
	if p.Symbol == "" {
		p.Symbol, p.Unit, p.first = s.Name, units[s.Quantity], edition
		p.Args = slices.Clone(p.Args)
		for i := range p.Args {
			p.Args[i].HasDefault = i >= s.Min
		}
	}
	if p.first == edition && strings.IndexByte(p.Letters, s.Letter) < 0 {
		p.Letters += string(rune(s.Letter))
		if s.Letter == 'R' {
			p.Symbol = s.Name
		}
	}
}

// of returns the meaning of the row in an edition, nil when it has none.
func (p *Parameter) of(edition standards.EditionID) *Meaning {
	for i := range p.Meanings {
		if slices.Contains(p.Meanings[i].Editions, edition) {
			return &p.Meanings[i]
		}
	}
	return nil
}

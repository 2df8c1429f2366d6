package tracefile

import (
	"math"
	"strings"

	"example.com/furrow/roughness"
)

// Every word that a file may use to say something stands in this file.

// units are the names of the units, in small letters.
var units = named([]struct {
	names string
	unit  unit
}{
	{"m metre meter", unit{factor: roughness.Metre}},
	{"dm", unit{factor: 1e5}},
	{"cm", unit{factor: 1e4}},
	{"mm millimetre millimeter", unit{factor: roughness.Millimetre}},
	{"µm micron micrometre micrometer mikrometer", unit{factor: 1}},
	{"nm nanometre nanometer", unit{factor: roughness.Nanometre, per: 1e3}},
	{"pm", unit{factor: 1e-6, per: 1e6}},
	{"å angstrom", unit{factor: 1e-4, per: 1e4}},
	{"in inch inche", unit{factor: roughness.Inch}},
	{"µin µinch microinch", unit{factor: roughness.Microinch}},
	{"mil mils thou", unit{factor: 25.4}},

	{"rad", unit{factor: 1, slope: true, angle: true}},
	{"mrad", unit{factor: 1e-3, slope: true, angle: true}},
	{"µrad microrad micro-rad micror-rad microradian", unit{factor: 1e-6, slope: true, angle: true}}, // misspelt so in open data files
	{"nrad", unit{factor: 1e-9, slope: true, angle: true}},
	{"deg °", unit{factor: math.Pi / 180, slope: true, angle: true}},
	{"arcsec", unit{factor: math.Pi / 648000, slope: true, angle: true}},
	{"mm/mm µm/µm", unit{factor: 1, slope: true}},
	{"µm/mm mm/m", unit{factor: 1e-3, slope: true}},
	{"nm/mm µm/m", unit{factor: 1e-6, slope: true}},
})

func named(rows []struct {
	names string
	unit  unit
}) map[string]unit {
	all := map[string]unit{}
	for _, row := range rows {
		for name := range strings.FieldsSeq(row.names) {
			all[name] = row.unit
		}
	}
	return all
}

// role is what a column's name says about it.
type role uint8

const (
	unnamed role = iota
	isX
	isZ
	isY
	isCounter
	isSlope
)

// roleWords are the words that say what a column holds.
var roleWords = map[role]string{
	isX:       " x position pos distance dist weg abstand travel path abscissa abscisse strecke lateral length ",
	isZ:       " z height heights hgt höhe hoehe hauteur profile profil amplitude elevation altura altezza ordinate heigth ", // misspelt so in open data files
	isY:       " y ",
	isCounter: " no nr index idx i n # point points punkt sample count row number num numéro ",
	isSlope:   " slope slp gradient neigung pente steigung ",
}

// roleOfWord is the role that a word names.
func roleOfWord(word string) role {
	for ro, words := range roleWords {
		if strings.Contains(words, " "+word+" ") {
			return ro
		}
	}
	return unnamed
}

// stepWords and pointWords are what a header calls the distance between points, and their number.
var stepWords = []string{"dx", "step", "step size", "stepsize", "spacing", "sampling interval", "sampling distance", "sample spacing",
	"sample distance", "point spacing", "point distance", "increment", "measurement step", "x step", "delta x", "schrittweite", "punktabstand", "pas"}

var pointWords = []string{"points", "number of points", "count", "point count", "punkte", "anzahl punkte", "nombre de points", "n", "samples"}

// absentWords are the cells that mean an invalid point in any file.
var absentWords = []string{"", "nan", "na", "n/a", "bad", "***", "-", "1.#qnan", "#n/a"}

// instead is what programs write where they have no number, besides the errors of spreadsheets.
var instead = []string{"null", "none", "nil", "?", "??", "--", "---"}

// sheetErrors are what a spreadsheet shows where it has no value. The first is a mark of an invalid point, the others are errors.
var sheetErrors = []string{"#N/A", "#VALUE!", "#DIV/0!", "#REF!", "#NUM!", "#NAME?", "#NULL!"}

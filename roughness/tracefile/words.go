package tracefile

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/roughness"
)

// Every word that a file may use to say something stands in this file.

// units are the units by their names in small letters.
var units = named()

func named() map[string]unit {
	all := map[string]unit{}
	add := func(names map[float64]string, slope, angle bool) {
		for factor, list := range names {
			u := unit{factor: factor, slope: slope, angle: angle}
			if !slope {
				u = u.times(1)
			}
			for word := range strings.FieldsSeq(list) {
				all[word] = u
			}
		}
	}
	add(map[float64]string{
		roughness.Metre:      "m metre meter",
		1e5:                  "dm",
		1e4:                  "cm",
		roughness.Millimetre: "mm millimetre millimeter",
		1:                    "µm micron micrometre micrometer mikrometer",
		roughness.Nanometre:  "nm nanometre nanometer",
		1e-6:                 "pm",
		1e-4:                 "å angstrom",
		roughness.Inch:       "in inch inche",
		roughness.Microinch:  "µin µinch microinch",
		25.4:                 "mil mils thou",
	}, false, false)
	add(map[float64]string{
		1:                "rad",
		1e-3:             "mrad",
		1e-6:             "µrad microrad micro-rad micror-rad microradian", // misspelt so in open data files
		1e-9:             "nrad",
		math.Pi / 180:    "deg °",
		math.Pi / 648000: "arcsec",
	}, true, true)
	add(map[float64]string{
		1:    "mm/mm µm/µm",
		1e-3: "µm/mm mm/m",
		1e-6: "nm/mm µm/m",
	}, true, false)
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

// programmers reports whether a cell is a number to a programmer.
func programmers(cell []byte) bool {
	text := strings.ReplaceAll(string(cell[:min(len(cell), 4000)]), "_", "")
	_, err := strconv.ParseFloat(text, 64)
	return err == nil || errors.Is(err, strconv.ErrRange)
}

// placeholder reports whether a cell is what a program writes instead of a number, or a number gone wrong: 0x5, 1.#INF, nan(1), 1..5
// and 1,2,3, but not the date 1.2.2003.
func placeholder(cell []byte) bool {
	if len(cell) > 40 {
		return false
	}
	s := strings.ToLower(string(cell))
	if slices.Contains(instead, s) || slices.Contains(sheetErrors, strings.ToUpper(s)) || strings.HasPrefix(s, "nan(") || strings.HasPrefix(s, "-nan") {
		return true
	}
	digits := strings.TrimLeft(s, "+-")
	if digits == "" || digits[0] < '0' || digits[0] > '9' {
		return false
	}
	return strings.HasPrefix(digits, "0x") || strings.Contains(s, ".#") ||
		strings.Trim(digits, "0123456789.,") == "" && (strings.Contains(s, "..") || strings.Count(s, ",") > 1)
}

// sheetError reports whether a line begins with one of them, and is no remark then.
func sheetError(t []byte) bool {
	for _, word := range sheetErrors {
		if len(t) >= len(word) && strings.EqualFold(string(t[:len(word)]), word) {
			return true
		}
	}
	return false
}

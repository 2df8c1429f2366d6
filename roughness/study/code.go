package study

import (
	"fmt"
	"math"
	"strings"
)

// mostQuestions is how many answers a code holds.
const mostQuestions = 16

// What stands in a code for an answer that is no option.
const (
	Unsure      = 6 // "I do not know"
	NotAnswered = 7
)

// Answers are the first answers to the questions of an exercise, as a code holds them.
type Answers struct {
	Options []int   // in the order of the questions; the option as listed, Unsure or NotAnswered
	Guess   float64 // NaN: none
	Tag     int     // random for device and exercise, 12 bits
}

// bits are a code in the making or in the reading, the highest bit first.
type bits struct{ b []byte }

func (b *bits) add(v uint32, n int) {
	for i := n - 1; i >= 0; i-- {
		b.b = append(b.b, byte(v>>i&1))
	}
}

func (b *bits) take(n int) (v uint32) {
	for _, bit := range b.b[:n] {
		v = v<<1 | uint32(bit)
	}
	b.b = b.b[n:]
	return v
}

// sum is the check of the first 100 bits, followed by four zeros, as 13 bytes.
func (b *bits) sum() uint32 {
	p := bits{append(append([]byte(nil), b.b[:100]...), 0, 0, 0, 0)}
	var data []byte
	for len(p.b) > 0 {
		data = append(data, byte(p.take(8)))
	}
	return checksum(data)
}

const codeVersion = 1

// Code returns the answers as 24 signs in six groups: version 3 bits, exercise 20, tag 12, answers 16 times 3, guess 17, check 20.
func (s State) Code(a Answers) (string, error) {
	check, err := s.Check()
	if err != nil {
		return "", err
	}
	if len(a.Options) > mostQuestions || a.Tag < 0 || a.Tag > 0xfff {
		return "", &RefusedError{"code-copy", fmt.Sprintf("At most %d answers, and a tag of 12 bits.", mostQuestions)}
	}
	b := &bits{}
	b.add(codeVersion, 3)
	for _, c := range check {
		b.add(uint32(strings.IndexRune(signs, c)), 5)
	}
	b.add(uint32(a.Tag), 12)
	for i := range mostQuestions {
		o := NotAnswered
		if i < len(a.Options) {
			o = a.Options[i]
		}
		if o < 0 || o > NotAnswered {
			return "", &RefusedError{"code-copy", fmt.Sprintf("No answer %d.", o)}
		}
		b.add(uint32(o), 3)
	}
	b.add(guessBits(a.Guess), 17)
	b.add(b.sum(), 20)
	var groups []string
	for range 6 {
		group := ""
		for range 4 {
			group += signs[b.take(5):][:1]
		}
		groups = append(groups, group)
	}
	return strings.Join(groups, "-"), nil
}

// powerOffset is added to the power of ten of a guess.
const powerOffset = 6

// guessBits: given 1, sign 1, power of ten 4, three digits 10, spare 1.
func guessBits(v float64) uint32 {
	if math.IsNaN(v) {
		return 0
	}
	sign := uint32(0)
	if v < 0 {
		sign, v = 1, -v
	}
	power, digits := 0, 0.0
	if v > 0 {
		power = int(math.Floor(math.Log10(v)))
		power = max(-powerOffset, min(15-powerOffset, power))
		digits = math.Round(v / math.Pow(10, float64(power-2)))
		if digits > 999 && power < 15-powerOffset {
			power, digits = power+1, math.Round(digits/10)
		}
		digits = min(digits, 999)
	}
	return 1<<16 | sign<<15 | uint32(power+powerOffset)<<11 | uint32(digits)<<1
}

func guessOf(b uint32) float64 {
	if b>>16&1 == 0 {
		return math.NaN()
	}
	v := float64(b>>1&0x3ff) * math.Pow(10, float64(int(b>>11&15)-powerOffset-2))
	if b>>15&1 == 1 {
		v = -v
	}
	return v
}

// A ClassAnswers is what the codes of a class say of one exercise.
type ClassAnswers struct {
	Read []Answers
	Said []string // sentences: how many were read, and what was wrong with others
}

// reading accepts lower case and the signs that are mistaken for others.
var mistaken = strings.NewReplacer("I", "1", "L", "1", "O", "0")

// codeIn finds a code on a line: six groups of four signs, or 24 signs. begun tells that something like a code stands there.
func codeIn(line string) (code string, begun bool) {
	words := strings.Fields(strings.ToUpper(line))
	for i := range words {
		joined := ""
		for j := i; j < len(words) && len(joined) <= 24; j++ {
			joined += strings.ReplaceAll(words[j], "-", "")
			if plain := mistaken.Replace(joined); len(plain) == 24 && strings.Trim(plain, signs) == "" && (strings.Contains(words[i], "-") || j-i == 5 || i == j) {
				return plain, true
			}
		}
		if strings.Count(words[i], "-") >= 3 {
			begun = true
		}
	}
	return "", begun
}

// ReadCodes reads codes, one a line; other text on a line is passed over.
func (s State) ReadCodes(text string) (ClassAnswers, error) {
	check, err := s.Check()
	if err != nil {
		return ClassAnswers{}, err
	}
	var c ClassAnswers
	var damaged []string
	none, other, twice, tags := 0, 0, 0, 0
	seen, tagged := map[string]bool{}, map[int]bool{}
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		code, begun := codeIn(line)
		if code == "" && !begun {
			none++
			continue
		}
		b := &bits{}
		for _, r := range code {
			b.add(uint32(strings.IndexRune(signs, r)), 5)
		}
		if code == "" || b.sum() != (&bits{b.b[100:]}).take(20) {
			damaged = append(damaged, fmt.Sprintf("Line %d: one sign is wrong or missing.", i+1))
			continue
		}
		version, exercise := b.take(3), written(b.take(20), 4)
		if version != codeVersion || exercise != check {
			other++
			continue
		}
		if seen[code] {
			twice++
			continue
		}
		seen[code] = true
		a := Answers{Tag: int(b.take(12))}
		for range mostQuestions {
			a.Options = append(a.Options, int(b.take(3)))
		}
		a.Guess = guessOf(b.take(17))
		if tagged[a.Tag] {
			tags++
		}
		tagged[a.Tag] = true
		c.Read = append(c.Read, a)
	}
	c.say(len(c.Read), "%d code%s read.")
	c.say(none, "%d line%s without a code.")
	c.say(other, "%d code%s of another exercise.")
	c.say(twice, "%d code%s more than once, counted once.")
	c.say(tags, "%d code%s with the tag of a different code: perhaps one student twice, perhaps chance.")
	c.Said = append(c.Said, damaged...)
	return c, nil
}

func (c *ClassAnswers) say(n int, sentence string) {
	plural := "s"
	if n == 1 {
		plural = ""
	}
	if n > 0 || len(c.Said) == 0 {
		c.Said = append(c.Said, fmt.Sprintf(sentence, n, plural))
	}
}

// Command yardsticks makes profiles with known values, as text, SMD and X3P, to hold any evaluation of surface texture against.
//
//	go run ./testdata/yardsticks -out FOLDER   writes the profiles and values.csv
//	go run ./testdata/yardsticks               checks that the profiles and values are those of sums.txt, and furrow against them
//
// README.md says how to use them.
package main

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"fmt"
	"io"
	"log"
	"math"
	"math/big"
	"os"
	"path/filepath"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/tracefile"
)

const (
	points   = 4000
	sections = 5
	spacing  = 1.0 // µm
	grid     = 1 << 20
)

// A yardstick is a profile on a grid of 2^-20 µm, which every number format of these files holds exactly or to the last bit.
type yardstick struct{ name, says string }

var yardsticks = []yardstick{
	{"sines", "three sines of 20, 50 and 400 µm with the amplitudes 0.5, 0.8 and 1 µm"},
	{"cusps", "turning cusps, feed 200 µm, nose radius 800 µm, as parabolas"},
	{"plateau", "the same cusps worn level to half their height"},
	{"steps", "two levels 2 µm apart, a quarter of each 100 µm above"},
	{"noise", "normal noise of 0.4 µm, seed 1"},
	{"two-process", "the lower of a fine process of 0.2 µm and of one of 1.5 µm that stands 1 µm higher, seed 2"},
}

func (y yardstick) heights() []float64 {
	z := make([]float64, points)
	seed := map[string]uint64{"noise": 1, "two-process": 2}[y.name]
	normal := func() (sum float64) { // twelve uniform numbers, less their mean
		for range 12 {
			seed = seed*6364136223846793005 + 1442695040888963407
			sum += float64(seed>>40) / (1 << 24)
		}
		return sum - 6
	}
	for i := range z {
		x := float64(i) * spacing
		u := math.Mod(x, 200)/200 - 0.5
		switch y.name {
		case "sines":
			z[i] = 0.5*math.Sin(2*math.Pi*x/20) + 0.8*math.Sin(2*math.Pi*x/50) + math.Sin(2*math.Pi*x/400)
		case "cusps":
			z[i] = 25 * u * u
		case "plateau":
			z[i] = min(25*u*u, 3.125)
		case "steps":
			if math.Mod(x, 100) < 25 {
				z[i] = 2
			}
		case "noise":
			z[i] = 0.4 * normal()
		case "two-process":
			fine, coarse := 0.2*normal(), 1+1.5*normal()
			z[i] = min(fine, coarse)
		}
		z[i] = math.Round(z[i]*grid) / grid
	}
	return z
}

// A value is one parameter of a yardstick with its uncertainty.
type value struct {
	symbol, text, uncertainty, how string
}

const precision = 220 // bits: more than 60 digits

func number(v float64) *big.Float       { return new(big.Float).SetPrec(precision).SetFloat64(v) }
func add(a, b *big.Float) *big.Float    { return new(big.Float).SetPrec(precision).Add(a, b) }
func less(a, b *big.Float) *big.Float   { return new(big.Float).SetPrec(precision).Sub(a, b) }
func times(a, b *big.Float) *big.Float  { return new(big.Float).SetPrec(precision).Mul(a, b) }
func over(a, b *big.Float) *big.Float   { return new(big.Float).SetPrec(precision).Quo(a, b) }
func root(a *big.Float) *big.Float      { return new(big.Float).SetPrec(precision).Sqrt(a) }
func magnitude(a *big.Float) *big.Float { return new(big.Float).SetPrec(precision).Abs(a) }
func larger(a, b *big.Float) *big.Float {
	if a.Cmp(b) > 0 {
		return a
	}
	return b
}

// exact are the values of the heights as they stand, less their mean, without a filter: definitions summed with 220 bits.
func exact(heights []float64) []value {
	n := number(float64(len(heights)))
	mean := number(0)
	for _, h := range heights {
		mean = add(mean, over(number(h), n))
	}
	var power [5]*big.Float // Σ |z|, Σ z², Σ z³, Σ z⁴ over n, at their exponents
	for k := range power {
		power[k] = number(0)
	}
	tall, deep, slope, rz := number(0), number(0), number(0), number(0)
	high, low := number(0), number(0)
	z := make([]*big.Float, len(heights))
	for i, h := range heights {
		z[i] = less(number(h), mean)
		square := times(z[i], z[i])
		for k, term := range []*big.Float{1: magnitude(z[i]), 2: square, 3: times(square, z[i]), 4: times(square, square)} {
			if term != nil {
				power[k] = add(power[k], over(term, n))
			}
		}
		if i%(len(heights)/sections) == 0 {
			rz = add(rz, add(high, low))
			high, low = number(-1e9), number(-1e9)
		}
		high, low = larger(high, z[i]), larger(low, less(number(0), z[i]))
		tall, deep = larger(tall, z[i]), larger(deep, less(number(0), z[i]))
	}
	rz = over(add(rz, add(high, low)), number(sections))
	inner := 0
	for i := 3; i+3 < len(z); i++ { // the seven-point formula
		sum := number(0)
		for k, c := range []float64{-1, 9, -45, 0, 45, -9, 1} {
			sum = add(sum, times(number(c), z[i-3+k]))
		}
		g := over(sum, number(60*spacing))
		slope = add(slope, times(g, g))
		inner++
	}
	rq := root(power[2])
	how := "the heights less their mean, by the definition, with 60 digits"
	var list []value
	for _, v := range []struct {
		symbol string
		v      *big.Float
	}{
		{"Ra", power[1]}, {"Rq", rq}, {"Rsk", over(power[3], times(rq, power[2]))}, {"Rku", over(power[4], times(power[2], power[2]))},
		{"Rpt", tall}, {"Rvt", deep}, {"Rt", add(tall, deep)}, {"Rz", rz}, {"Rdq", root(over(slope, number(float64(inner))))},
	} {
		list = append(list, value{v.symbol, v.v.Text('g', 50), "1e-50", how})
	}
	return list
}

// filtered is Rq of the sines behind the Gaussian of 0.8 mm: the heights in the middle, 1.6 mm in whole waves, where the ends are not felt.
func filtered() value {
	sum := 0.0
	for _, s := range [][2]float64{{20, 0.5}, {50, 0.8}, {400, 1}} {
		r := s[1] * (1 - math.Exp2(-math.Pow(800/s[0], 2)))
		sum += r * r / 2
	}
	return value{"Rq", fmt.Sprintf("%.9f", math.Sqrt(sum)), "3e-6", "Gaussian of 0.8 mm, one cut-off cut away at each end, sections of 0.4 mm; closed form; the bell may end at one cut-off"}
}

// settings are those of a kind of value.
func settings(v value) *roughness.Settings {
	off := roughness.Band{Off: true}
	s := &roughness.Settings{Form: roughness.FormSpec{Kind: "mean"}, Short: off, Long: off, Sections: sections, SectionLength: points * spacing / sections, Parameters: []string{v.symbol}}
	if strings.HasPrefix(v.how, "Gaussian") {
		s.Form.Kind, s.Long, s.SectionLength = "none", roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: 800, Ends: "discard"}}, 400
	}
	return s
}

func (y yardstick) values(z []float64) []value {
	list := exact(z)
	if y.name == "sines" {
		list = append(list, filtered())
	}
	return list
}

func main() {
	log.SetFlags(0)
	folder := flag.String("out", "", "where the files go")
	flag.Parse()
	table := "yardstick,parameter,value,uncertainty,how\n"
	sums := ""
	worst, count := 0.0, 0
	for _, y := range yardsticks {
		z := y.heights()
		t := &tracefile.Trace{Profile: roughness.Profile{Name: y.name, Z: z, Spacing: spacing}}
		for _, v := range y.values(z) {
			table += fmt.Sprintf("%s,%s,%s,%s,%q\n", y.name, v.symbol, v.text, v.uncertainty, v.how)
		}
		for _, f := range []struct {
			ending string
			write  func(w io.Writer, t *tracefile.Trace) error
		}{{"txt", tracefile.WriteText}, {"smd", tracefile.WriteSMD}, {"x3p", tracefile.WriteX3P}} {
			var b bytes.Buffer
			if err := f.write(&b, t); err != nil {
				log.Fatalf("%s.%s: %v", y.name, f.ending, err)
			}
			name := y.name + "." + f.ending
			sums += fmt.Sprintf("%x  %s\n", sha256.Sum256(b.Bytes()), name)
			if *folder != "" {
				if err := record.WriteFile(filepath.Join(*folder, name), b.Bytes()); err != nil {
					log.Fatal(err)
				}
				continue
			}
			read, err := tracefile.Read(b.Bytes(), nil)
			if err != nil {
				log.Fatalf("%s: %v", name, err)
			}
			for _, v := range y.values(z) {
				e, err := roughness.Evaluate(read.Profile, settings(v))
				if err != nil {
					log.Fatalf("%s, %s: %v", name, v.symbol, err)
				}
				var want, u float64
				fmt.Sscan(v.text, &want)
				fmt.Sscan(v.uncertainty, &u)
				d := math.Abs(e.Values[0].Value - want)
				if !(d <= u+1e-11*max(1, math.Abs(want))) {
					log.Fatalf("%s: %s = %.15g %s, want %s ± %s (%s)", name, v.symbol, e.Values[0].Value, e.Values[0].Reason, v.text, v.uncertainty, v.how)
				}
				if count++; u < 1e-40 {
					worst = max(worst, d/max(1e-3, math.Abs(want)))
				}
			}
		}
	}
	sums += fmt.Sprintf("%x  values.csv\n", sha256.Sum256([]byte(table)))
	if *folder != "" {
		if err := record.WriteFile(filepath.Join(*folder, "values.csv"), []byte(table)); err != nil {
			log.Fatal(err)
		}
		if err := record.WriteFile(filepath.Join(*folder, "sums.txt"), []byte(sums)); err != nil {
			log.Fatal(err)
		}
		return
	}
	kept, err := os.ReadFile("testdata/yardsticks/sums.txt")
	if err != nil || string(kept) != sums {
		log.Fatalf("the yardsticks are not those of testdata/yardsticks/sums.txt (%v)", err)
	}
	fmt.Printf("%d values of %d yardsticks agree in three formats; worst relative deviation from 50 digits %.0e\n", count, len(yardsticks), worst)
}

// Command soak runs furrow on random traces, settings and requirements for as long as it is told, and says whether it crashed, grew or drifted.
//
//	go run ./testdata/soak -for 1h
package main

import (
	"flag"
	"fmt"
	"log"
	"math/rand/v2"
	"os"
	"runtime"
	"time"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// round evaluates one random trace and returns its result as JSON, or why there is none.
func round(seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 1))
	some := func(words ...string) string { return words[r.IntN(len(words))] }
	surface := synth.Made{Wave: 3 * r.Float64(), Length: 20 + 2000*r.Float64(), Feed: float64(r.IntN(2)) * 200, Nose: 800, Noise: r.Float64(), Scratch: float64(r.IntN(2)) * 8 * r.Float64(),
		Plateau: float64(r.IntN(2)) * 60, Seed: seed}
	p := roughness.Profile{Z: surface.Heights(1+r.IntN(12000), 0.5), Spacing: []float64{0.25, 0.5, 1, 5}[r.IntN(4)]}
	all := filter.All()
	ids := standards.EditionIDs()
	s := &roughness.Settings{Edition: ids[r.IntN(len(ids))], Profile: roughness.Letter("RWP"[r.IntN(3)])}
	if r.IntN(2) == 0 {
		s.Long.Spec = roughness.FilterSpec{Filter: all[r.IntN(8)].Key, Cutoff: []float64{80, 250, 800, 2500}[r.IntN(4)]}
	}
	var text []byte
	if e, err := roughness.Evaluate(p, s); err != nil {
		text = []byte(err.Error())
	} else {
		text = record.AppendResult(nil, e, nil)
	}
	asked, err := judge.ReadRequirement(some("Rz ", "Ra ", "Rk ", "U Rmr(0.5) ", "Rsm ", "Wt ", "0,8/Ra ", "Rz* ")+some("3,2", "0.8", "16", "1,6 T16%", "-1", "n"), s.Edition)
	return fmt.Sprint(string(text), asked != nil, err)
}

func main() {
	log.SetFlags(0)
	length := flag.Duration("for", time.Hour, "how long")
	flag.Parse()
	const kept = 50 // rounds that come again, and must come out the same
	var first [kept]string
	var memory runtime.MemStats
	heap := func() uint64 {
		runtime.GC()
		runtime.GC() // what pools keep goes with the second one
		runtime.ReadMemStats(&memory)
		return memory.HeapAlloc / 1024
	}
	for i := range first {
		first[i] = round(uint64(i))
	}
	before, rounds := heap(), 0
	for end := time.Now().Add(*length); time.Now().Before(end); rounds++ {
		round(uint64(kept + rounds))
		if k := rounds % kept; rounds%7 == 0 && round(uint64(k)) != first[k] {
			log.Printf("round %d came out otherwise after %d rounds", k, rounds)
			os.Exit(1)
		}
	}
	after := heap()
	fmt.Printf("%d random evaluations and requirements in %v: no crash, no drift; heap %d kB before, %d kB after\n", rounds, *length, before, after)
	if after > before+16*1024 {
		log.Fatal("the heap has grown by more than 16 MB")
	}
}

package e2e

import (
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// workers keeps those that the page starts where a test can end them.
const workers = `
	window.workers = [];
	window.Worker = class extends Worker {
		constructor(...args) { super(...args); window.workers.push(this); }
		terminate() { super.terminate(); window.workers = window.workers.filter(w => w !== this); }
	};
	window.kill = (worker) => { Worker.prototype.__proto__.terminate.call(worker); worker.dispatchEvent(new ErrorEvent('error', { message: 'killed' })); };`

// A worker that dies is replaced as often as it dies, the sheet is as it was, and nothing is fetched for it.
func TestKilledWorker(t *testing.T) {
	s := blankTab(t, usual)
	s.before(workers)
	s.load(1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	s.agree(trace, roughness.Settings{})
	s.settle()
	served := len(asked.all())
	s.mu.Lock()
	fetched := len(s.fetched)
	s.mu.Unlock()
	cutoffs := []float64{250, 400, 80, 800, 250, 80}
	for i, c := range []string{"0.25", "0.4", "0.08", "0.8", "0.25", "0.08"} {
		eval[bool](s, `(window.kill(workers[0]), window.kill(workers.at(-1)), true)`)
		s.says("trouble", "started again")
		s.fill("long-cutoff", c)
		if cutoffs[i] == 800 {
			s.agree(trace, roughness.Settings{})
		} else {
			s.agree(trace, roughness.Settings{Long: stating(cutoffs[i])})
		}
	}
	if n := eval[int](s, `workers.length`); n != 2 {
		t.Errorf("%d workers are alive", n)
	}
	// The browser itself looks for a new version of what is kept, whenever it likes.
	if again := slices.DeleteFunc(asked.all()[served:], func(path string) bool { return path == "/sw.js" }); len(again) > 0 {
		t.Errorf("the server was asked again for %v", again)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, address := range s.fetched[fetched:] {
		if !strings.HasPrefix(address, "data:") && !strings.HasPrefix(address, "blob:") {
			t.Errorf("the page asked again for %s", address)
		}
	}
}

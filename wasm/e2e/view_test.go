package e2e

import "testing"

// While a slider moves, a picture out of view stays as it was, and it is drawn anew when it comes into view; one in view follows each step.
func TestOutOfView(t *testing.T) {
	s := open(t, 1280, 900)
	s.reveal("long-slide")
	s.settle()
	for _, wrong := range eval2[[]string](s, `(async () => {
		const slide = document.getElementById('long-slide'), out = document.getElementById('answer-picture'), wrong = [];
		slide.scrollIntoView({ block: 'center' });
		const seen = f => { const r = f.getBoundingClientRect(); return r.height > 0 && r.bottom > 0 && r.top < innerHeight; };
		const frame = () => new Promise(requestAnimationFrame);
		while (seen(out)) await frame();
		const view = [...document.querySelectorAll('figure')].find(f => f.checkVisibility() && seen(f) && f.querySelector('svg'));
		if (!view) return ['no picture is in view'];
		let step = 0;
		const move = () => {
			slide.value = String(20 + (step++ * 7) % 60);
			slide.dispatchEvent(new Event('input', { bubbles: true }));
		};
		const next = async (f) => {
			const before = f.querySelector('svg');
			while (f.querySelector('svg') === before) {
				move();
				await frame();
			}
		};
		await next(view);
		const still = out.querySelector('svg');
		for (let i = 0; i < 3; i++) await next(view);
		if (out.querySelector('svg') !== still) wrong.push('the picture out of view was drawn');
		out.scrollIntoView({ block: 'center' });
		while (out.querySelector('svg') === still) {
			move();
			await frame();
		}
		if (!seen(out)) wrong.push('it was drawn out of view');
		slide.dispatchEvent(new Event('change', { bubbles: true }));
		return wrong;
	})()`) {
		t.Error(wrong)
	}
}

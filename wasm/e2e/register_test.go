package e2e

import (
	"fmt"
	"strings"
	"testing"

	"example.com/furrow/roughness/selfcheck"
)

// The check register runs in the browser: every check agrees there too, each is shown, and the sheet can be kept.
func TestRegister(t *testing.T) {
	s := checks(t, 1280, 900)
	s.click("register-run")
	s.wait(`document.getElementById('register-said').textContent.includes('agree.')`, "the outcome of the checks")
	n := len(selfcheck.Run())
	if want, got := fmt.Sprintf("%d of %d checks agree.", n, n), s.text("register-said"); got != want {
		t.Errorf("the page says %q, want %q", got, want)
	}
	if rows := eval[int](s, `document.querySelectorAll('#register-list tbody tr td:last-child:not([colspan])').length`); rows != n {
		t.Errorf("%d checks are shown, want %d", rows, n)
	}
	if !strings.Contains(s.text("register-caution"), "A calculation aid") {
		t.Error("the caution is missing")
	}
	if eval[bool](s, `document.getElementById('register-save').disabled`) {
		t.Error("the sheet cannot be saved")
	}
	s.click("register-lines")
	s.picture("register-1280")
}

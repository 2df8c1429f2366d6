package parallel

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"testing"
	"time"
)

// The error is that of the lowest call that fails, however late it comes, and no call begins once the failure is known.
func TestErrorOfTheLowestCall(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(4))
	for range 20 {
		err := Do(t.Context(), 100, func(i int) error {
			switch i {
			case 2:
				time.Sleep(2 * time.Millisecond)
				return errors.New("two")
			case 3, 50:
				return fmt.Errorf("call %d", i)
			}
			return nil
		})
		if err == nil || err.Error() != "two" {
			t.Fatal(err)
		}
	}
	calls := make([]int, 100)
	runtime.GOMAXPROCS(1)
	if err := Do(t.Context(), 100, func(i int) error {
		calls[i]++
		if i == 7 {
			return errors.New("seven")
		}
		return nil
	}); err == nil || calls[7] != 1 || calls[8] != 0 {
		t.Errorf("%v, %v", err, calls)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := Do(ctx, 3, func(int) error { return errors.New("called") }); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	if err := Do(t.Context(), 0, nil); err != nil {
		t.Error(err)
	}
}

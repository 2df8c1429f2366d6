// Package parallel runs the parts of one calculation on all cores.
package parallel

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// Do calls do for 0..n-1 on all cores until one call fails or the context ends; it returns that error.
func Do(ctx context.Context, n int, do func(i int) error) error {
	var next atomic.Int64
	var once sync.Once
	var first error
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				err := ctx.Err()
				if err == nil {
					err = do(i)
				}
				if err != nil {
					once.Do(func() { first = err; cancel() })
					return
				}
			}
		})
	}
	wg.Wait()
	return first
}

// Package parallel runs the parts of one calculation on all cores.
package parallel

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// Do calls do for 0..n-1 on all cores until one call fails or the context ends. It returns the error of the lowest call that failed, so that
// it is the same on every machine: calls begin in their order, and those that have begun are waited for.
func Do(ctx context.Context, n int, do func(i int) error) error {
	var next atomic.Int64
	var stop atomic.Bool
	var lock sync.Mutex
	var first error
	lowest := n
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for !stop.Load() {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				err := ctx.Err()
				if err == nil {
					err = do(i)
				}
				if err != nil {
					stop.Store(true)
					lock.Lock()
					if i < lowest {
						lowest, first = i, err
					}
					lock.Unlock()
				}
			}
		})
	}
	wg.Wait()
	return first
}

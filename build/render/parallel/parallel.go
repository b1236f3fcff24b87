// Package parallel does independent pieces of work on all processors.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each runs f for 0 … n-1 on all processors. A panic in f is one of the caller.
func Each(n int, f func(int)) {
	next := make(chan int)
	var wg sync.WaitGroup
	var panicked atomic.Pointer[any]
	guarded := func(i int) {
		defer func() {
			if what := recover(); what != nil {
				panicked.CompareAndSwap(nil, &what)
			}
		}()
		f(i)
	}
	for range min(runtime.GOMAXPROCS(0), n) {
		wg.Go(func() {
			for i := range next {
				guarded(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
	if what := panicked.Load(); what != nil {
		panic(*what)
	}
}

package web

import (
	"fmt"
	"runtime/debug"
)

// beside runs do beside the caller, who waits for it by calling what is returned. A panic in do is one
// there, so that it ends in the 500 page and not the program.
func beside[T any](do func() (T, error)) (wait func() (T, error)) {
	var value T
	var err error
	var fault any
	done := make(chan struct{})
	go func() {
		defer close(done)
		defer func() {
			if fault = recover(); fault != nil {
				fault = fmt.Errorf("%v\n%s", fault, debug.Stack())
			}
		}()
		value, err = do()
	}()
	return func() (T, error) {
		<-done
		if fault != nil {
			panic(fault)
		}
		return value, err
	}
}

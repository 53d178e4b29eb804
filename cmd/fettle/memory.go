package main

import "runtime/debug"

// The program holds little and makes much that is thrown away at once, so it gains by collecting less
// often; where photos are taken in, the limit makes it collect in time.
const (
	collectAt   = 400       // per cent of what is held, where the runtime's own is 100
	memoryLimit = 160 << 20 // bytes, soft
)

// tuneMemory leaves alone what GOGC and GOMEMLIMIT say.
func tuneMemory(env func(string) string) {
	if env("GOGC") == "" {
		debug.SetGCPercent(collectAt)
	}
	if env("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryLimit)
	}
}

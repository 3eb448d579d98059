package bridge

import "runtime"

// Rest collects the heap when half of what may be used before the collector starts
// by itself is used. It is to be called when an answer is out and nobody waits.
//
// In a browser the core has one thread and nothing interrupts it: a collection that
// starts inside a long answer is ended only after it, and until then every pointer
// that is written goes through the collector's barrier. The sweep of all faults of a
// small panel took two thirds longer so.
func Rest() {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	if m.HeapAlloc > m.NextGC/2 {
		runtime.GC()
	}
}

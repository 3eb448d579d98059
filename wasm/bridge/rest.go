package bridge

import "runtime"

// room is more than most answers use, in bytes: the sweep of a small panel takes 2 MB.
// Choice.
const room = 8 << 20

// Rest collects the heap when the collector might start by itself in the next answer:
// when less than room is left until then, or less than half of what there is between
// two collections. It is to be called when an answer is out and nobody waits.
//
// In a browser the core has one thread and nothing interrupts it: a collection that
// starts inside a long answer is ended only after it, and until then every pointer
// that is written goes through the collector's barrier. The sweep of all faults of a
// small panel took two thirds longer so.
func Rest() {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	if m.HeapAlloc+min(room, m.NextGC/2) > m.NextGC {
		runtime.GC()
	}
}

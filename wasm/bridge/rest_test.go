package bridge_test

import (
	"runtime"
	"testing"

	"halfsplit/wasm/bridge"
)

func collections() uint32 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.NumGC
}

func TestRestCollectsOnlyWhatIsWorthIt(t *testing.T) {
	runtime.GC()
	before := collections()
	bridge.Rest()
	if now := collections(); now != before {
		t.Errorf("a heap that was just collected was collected again, %d times", now-before)
	}

	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	// Not so much more than half that the collector starts by itself.
	left := make([]byte, m.NextGC*11/20-m.HeapAlloc)
	before = collections()
	bridge.Rest()
	if now := collections(); now != before+1 {
		t.Errorf("a heap more than half used was collected %d times, want once", now-before)
	}
	runtime.KeepAlive(left)
}

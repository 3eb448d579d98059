package api

import (
	"testing"

	"halfsplit/core/parts"
)

// What lies between the sides of a block is drawn as what it is: only what a
// person can open is a fuse or a blade.
func TestCut(t *testing.T) {
	sided := 0
	for _, k := range parts.Kinds() {
		if !k.Block || k.Metals[0].Side == "" {
			continue
		}
		sided++
		want := "diode"
		switch {
		case k.Fused:
			want = "fuse"
		case k.Isolates:
			want = "blade"
		}
		if got := cutOf(k); got != want {
			t.Errorf("%s is drawn as a %s, want a %s", k.Name, got, want)
		}
	}
	if sided < 3 {
		t.Errorf("only %d kinds of block have two sides", sided)
	}
}

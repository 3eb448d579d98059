package sim_test

import (
	"testing"

	"halfsplit/core/sim"
)

// A joint of 300 Ω leaves a coil of 794 Ω 17.4 V of 24: too little to operate at
// 75 %, more than enough to hold above 10 %. So the relay rides through a joint
// that came loose in operation, and does not come in again after a stop (by hand:
// 24 V · 794/1094).
func TestOnsetDecidesWhatHolds(t *testing.T) {
	m := open(t, "training-bench")
	const loose = "W15@K1:A2=loose:300ohm"
	wantStates(t, run(t, m, "normal", sim.Running, loose), "K1 operated", "P1 lit")
	wantStates(t, run(t, m, "normal", sim.Start, loose), "K1 released", "P1 dark")
}

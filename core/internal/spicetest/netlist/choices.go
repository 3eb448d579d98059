package netlist

// Choices of the model, in ohms unless said otherwise: no standard gives them.
const (
	terminalLeak = 1e-9 // S a piece of metal
	wireLeak     = 1e-9 // S a kilometre, half of it at each end

	clampOhms  = 0.25e-3
	fingerOhms = 0.3e-3
	footOhms   = 0.3e-3
	leverOhms  = 2e-3
	bladeOhms  = 2e-3
	contactOhm = 30e-3

	strandShort = 0.1 // two strands, or two terminals bridged
	earthShort  = 0.5 // a core on its gland
	frameShort  = 1.0 // a winding on its frame
	burntCoil   = 0.5
	burntDiode  = 0.05

	supplyOhms   = 10e-3
	supplyBleed  = 10e3
	supplyInput  = 1e6 // when off
	supplyIdle   = 1.0 // W
	breakerWatts = 1.5 // W a pole at rated current
	cardOhms     = 1200.0
	outputOhms   = 0.2
	outputRated  = 24.0 // V, at which leakage is told
	lampAmps     = 1e-3 // A of a blown-link indicator at its nominal voltage

	diodeSlope   = 50e-3
	diodeReverse = 1e9
	unfed        = 10e6 // electronics without supply, or reversed
	guard        = 0.7  // V of the diode that guards against reversal
	transistor   = 10.0 // of a sensor's output, beyond its drop
	presence     = 10e3 // light that shows an input of a redundancy module
	twoWireOff   = 10e6
	twoWireSlope = 1.0
	fourWireOff  = 1e6
	fourWireKnee = 10.0

	barOhms         = 1e-3 // the primary of a current transformer
	magnetisingOhms = 1e6
	coreOhms        = 1.0 // of a saturated core

	wireLeast   = 1e-5
	plainLength = 1.0  // m, where the document is silent, in the panel
	fieldLength = 20.0 // m, to the field
)

// Resistance of a neutral or star point's way to earth, and of the protective
// conductor's, for each system of IEC 60364.
var earthing = map[string][2]float64{"TN-S": {0.01, 0.05}, "TN-C-S": {0.01, 0.05}, "TT": {1, 10}, "IT": {1e6, 1}}

// IEC 60228, class 5, plain copper at 20 °C: Ω/km by mm².
var class5 = map[float64]float64{0.5: 39.0, 0.75: 26.0, 1: 19.5, 1.5: 13.3, 2.5: 7.98, 4: 4.95, 6: 3.30, 10: 1.91, 16: 1.21}

// copperPerKM is Ω/km of a copper wire: of a size that is none of the list, from
// 17.241 Ω·mm²/km (100 % IACS) and 2 % of stranding.
func copperPerKM(mm2 float64) float64 {
	if r, ok := class5[mm2]; ok {
		return r
	}
	return 17.241 * 1.02 / mm2
}

// Cold resistance of time-lag 5 × 20 mm links by rating, data sheets.
var coldLink = [][2]float64{{0.2, 1.60}, {0.5, 0.37}, {1, 0.117}, {2, 0.045}, {4, 0.017}, {10, 0.007}}

// linkOhms reads the table above on straight lines, and on a curve of ohms times
// amperes beyond its ends.
func linkOhms(amps float64) float64 {
	first, last := coldLink[0], coldLink[len(coldLink)-1]
	if amps < first[0] {
		return first[0] * first[1] / amps
	}
	if amps > last[0] {
		return last[0] * last[1] / amps
	}
	for k := 1; ; k++ {
		lo, hi := coldLink[k-1], coldLink[k]
		if amps <= hi[0] {
			share := (amps - lo[0]) / (hi[0] - lo[0])
			return lo[1]*(1-share) + hi[1]*share
		}
	}
}

// holds is the multiple of its rating that a link or breaker carries for ever, by
// characteristic: IEC 60127-2 (F, T), IEC 60269-1 conventional fusing current
// (gG), IEC 60898-1 conventional tripping current (B, C, D).
func holds(class string) float64 {
	switch class {
	case "gG":
		return 1.9
	case "B", "C", "D":
		return 1.45
	}
	return 2.1
}

// loopAmps is the signal of a process value from 0 to 1: IEC 60381-1, held within
// the measuring range of NAMUR NE 43.
func loopAmps(x float64) float64 {
	return min(max(4e-3+16e-3*x, 3.8e-3), 20.5e-3)
}

// The failure signals, a tenth and half a milliampere beyond the limits of NE 43.
const (
	failLow  = 3.6e-3 - 0.1e-3
	failHigh = 21e-3 + 0.5e-3
)

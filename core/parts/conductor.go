package parts

// conductors is the maximum resistance at 20 °C of plain annealed copper, class
// 5, in Ω/km by cross-section in mm². Source: IEC 60228, class 5 and 6 column.
var conductors = []struct{ mm2, ohmsPerKM float64 }{
	{0.5, 39.0}, {0.75, 26.0}, {1.0, 19.5}, {1.5, 13.3}, {2.5, 7.98},
	{4, 4.95}, {6, 3.30}, {10, 1.91}, {16, 1.21},
}

// copper is the resistivity of annealed copper (100 % IACS) at 20 °C, in
// Ω·mm²/km. Source: NBS Handbook 100.
const copper = 17.241

// OhmsPerKM gives the resistance of a copper conductor of mm2 at 20 °C: the
// IEC 60228 class 5 limit for a standard size, otherwise resistivity over area
// with the 2 % that stranding adds (the ratio of the stranded to the solid column
// of NEC chapter 9 table 8).
func OhmsPerKM(mm2 float64) float64 {
	for _, c := range conductors {
		if mm2 == c.mm2 {
			return c.ohmsPerKM
		}
	}
	return copper * 1.02 / mm2
}

// AtTemperature corrects a resistance at 20 °C to celsius. Source: IEC 60228,
// 254.5/(234.5+t) inverted.
func AtTemperature(ohms20, celsius float64) float64 {
	return ohms20 * (234.5 + celsius) / 254.5
}

// Joints, in ohms. A healthy 2.5 mm² terminal of two clamping points is allowed
// 1.33 mΩ by the voltage drop test of IEC 60947-7-1 (3.2 mV at 24 A divided by
// the 0.1 of the test is the limit; half of it a clamp, and a good one a quarter).
const (
	clampOhms  = 0.25e-3
	jumperOhms = 0.3e-3 // choice: a comb's finger and its bar
	footOhms   = 0.3e-3 // choice: rail foot
	leverOhms  = 2e-3   // choice: the two contacts of a fuse lever
	bladeOhms  = 2e-3   // choice: a disconnect blade
)

// Loose joints that the model tries: a few milliohms short of nothing to a
// joint that starves a small load. Common practice: 0.1 to some hundred ohms.
var looseOhms = []struct {
	ohms float64
	text string
}{{10, "10ohm"}, {300, "300ohm"}}

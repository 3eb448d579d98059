package meter

import (
	"math"
	"strconv"
)

// figure writes v as a display of so many counts does: the lowest range has the
// last digit step, each next one ten times that, and the first in which v fits is
// taken. scale divides what is shown: 1e3 for kilo. Minus zero is zero. Halves are
// rounded away from zero, so that a host's last bit does not show.
func (m Meter) figure(v, step, scale float64) string {
	step = m.rangeOf(v, step) / scale
	decimals, pow := 0, 1.0
	for decimals < 9 && float64(step*pow) < 0.999 {
		decimals++
		pow *= 10
	}
	whole := max(1, math.Round(float64(step*pow))) // the last digit moves by this
	r := math.Round(float64(v*pow)/scale/whole) * whole / pow
	if r == 0 {
		r = 0
	}
	return strconv.FormatFloat(r, 'f', decimals, 64)
}

// rangeOf is the last digit of the range that v is shown in.
func (m Meter) rangeOf(v, step float64) float64 {
	for math.Round(math.Abs(v)/step) > m.Counts && step < 1e12 {
		step *= 10
	}
	return step
}

// Volts writes a voltage as the display does in that mode.
func (m Meter) Volts(v float64, mode Mode) string {
	step := m.StepDC
	if mode == VAC {
		step = m.StepAC
	}
	return m.figure(v, step, 1) + " V"
}

// Resistance writes ohms as the display does.
func (m Meter) Resistance(v float64) string {
	full := m.rangeOf(v, m.StepOhms) * m.Counts
	switch {
	case full < 1e3:
		return m.figure(v, m.StepOhms, 1) + " Ω"
	case full < 1e6:
		return m.figure(v, m.StepOhms, 1e3) + " kΩ"
	}
	return m.figure(v, m.StepOhms, 1e6) + " MΩ"
}

// Milliamps writes a current in the mA range.
func (m Meter) Milliamps(amps float64) string { return m.figure(amps, m.StepMA, 1e-3) + " mA" }

// Amps writes a current of the clamp.
func (m Meter) Amps(amps float64) string { return m.figure(amps, m.StepAmp, 1) + " A" }

// Volts writes a voltage as the typical display does.
func Volts(v float64, mode Mode) string { return Typical.Volts(v, mode) }

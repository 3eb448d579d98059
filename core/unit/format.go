package unit

import (
	"math"
	"strconv"
)

// Format writes a value for people: three significant figures and an SI prefix
// ("24.0 V", "12.1 mA", "4.80 kΩ"). Zero and anything below a millionth of the
// unit is written as 0.
func Format(v float64, d Dimension) string {
	a := math.Abs(v)
	prefix, factor := "", 1.0
	switch {
	case a < 1e-6 && d != Capacitance:
		return "0 " + symbols[d]
	case a >= 1e9:
		prefix, factor = "G", 1e-9
	case a >= 1e6:
		prefix, factor = "M", 1e-6
	case a >= 1e3:
		prefix, factor = "k", 1e-3
	case a >= 1:
	case a >= 1e-3:
		prefix, factor = "m", 1e3
	case a >= 1e-6:
		prefix, factor = "µ", 1e6
	default:
		prefix, factor = "n", 1e9
	}
	x := v * factor
	decimals := 2
	if m := math.Abs(x); m >= 100 {
		decimals = 0
	} else if m >= 10 {
		decimals = 1
	}
	return strconv.FormatFloat(x, 'f', decimals, 64) + " " + prefix + symbols[d]
}

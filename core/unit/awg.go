package unit

import (
	"strconv"
	"strings"
)

// awg reads "18 AWG", "18AWG", "#18", "AWG 18", "1/0 AWG" to "4/0 AWG".
func awg(s string) (mm2 float64, ok bool) {
	t := strings.ToUpper(strings.ReplaceAll(s, " ", ""))
	switch {
	case strings.HasPrefix(t, "#"):
		t = strings.TrimSuffix(t[1:], "AWG")
	case strings.HasSuffix(t, "AWG"):
		t = strings.TrimSuffix(t, "AWG")
	case strings.HasPrefix(t, "AWG"):
		t = t[3:]
	default:
		return 0, false
	}
	n := 0
	if zeros, found := strings.CutSuffix(t, "/0"); found {
		m, err := strconv.Atoi(zeros)
		if err != nil || m < 1 || m > 4 {
			return 0, false
		}
		n = 1 - m
	} else {
		var err error
		if n, err = strconv.Atoi(t); err != nil || n < 0 || n > 40 {
			return 0, false
		}
	}
	return AWGArea(n), true
}

// AWGArea gives the cross-section of a solid round wire in mm² for gauge n from
// 40 down to 0 and on to 1-m for m/0.
//
// Source: ASTM B258: diameter 0.005 in · 92^((36-n)/39), 36 AWG = 0.0050 in. The
// power is taken as a product of the step ratio 92^(1/39), the same on every host.
func AWGArea(n int) float64 {
	const step = 1.1229321965298 // 92^(1/39)
	d := 0.005 * 25.4            // mm
	for k := n; k < 36; k++ {
		d *= step
	}
	for k := 36; k < n; k++ {
		d /= step
	}
	const quarterPi = 0.78539816339744831
	return quarterPi * d * d
}

// Package unit reads quantities the way people write them on drawings ("24 V",
// "0,75 mm2", "18 AWG", "2 A T", "4,8 kΩ", "12 m") and writes them for displays.
//
// Inside the core a quantity is a float64 in its SI unit; Parse and Format are
// the border. Decimal point and decimal comma are both read.
package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A Dimension is a kind of quantity.
type Dimension int

// The dimensions. The comment names the unit of the float64.
const (
	Voltage     Dimension = iota + 1 // volts
	Current                          // amperes
	Resistance                       // ohms
	Power                            // watts
	Frequency                        // hertz
	Length                           // metres
	Area                             // square millimetres: conductors; AWG is converted by ASTM B258
	Time                             // milliseconds
	Capacitance                      // farads
	Ratio                            // 1; written plain or with %
)

type scale struct {
	suffix string // lower case
	factor float64
}

// scales lists the suffixes of each dimension, the plain unit first. Case folds
// except where it decides: M and m are told apart in mega and milli by Parse.
var scales = map[Dimension][]scale{
	Voltage:     {{"v", 1}, {"mv", 1e-3}, {"kv", 1e3}, {"vdc", 1}, {"vac", 1}, {"v dc", 1}, {"v ac", 1}},
	Current:     {{"a", 1}, {"ma", 1e-3}, {"ua", 1e-6}, {"ka", 1e3}},
	Resistance:  {{"ohm", 1}, {"mohm", 1e-3}, {"kohm", 1e3}, {"gohm", 1e9}, {"ohms", 1}, {"k", 1e3}},
	Power:       {{"w", 1}, {"mw", 1e-3}, {"kw", 1e3}, {"va", 1}},
	Frequency:   {{"hz", 1}, {"khz", 1e3}},
	Length:      {{"m", 1}, {"mm", 1e-3}, {"cm", 1e-2}, {"km", 1e3}, {"ft", 0.3048}},
	Area:        {{"mm2", 1}},
	Time:        {{"ms", 1}, {"s", 1e3}, {"min", 60e3}},
	Capacitance: {{"f", 1}, {"uf", 1e-6}, {"nf", 1e-9}, {"pf", 1e-12}},
	Ratio:       {{"", 1}, {"%", 0.01}},
}

// symbols are what Format appends.
var symbols = map[Dimension]string{
	Voltage: "V", Current: "A", Resistance: "Ω", Power: "W", Frequency: "Hz",
	Length: "m", Area: "mm²", Time: "ms", Capacitance: "F",
}

var fold = strings.NewReplacer("Ω", "ohm", "Ω", "ohm", "²", "2", "µ", "u", "μ", "u", " ", " ")

// An Error says that a text is not a quantity of the dimension asked for.
type Error struct {
	Text string
	Want Dimension
}

func (e *Error) Error() string {
	return fmt.Sprintf("%q is not a %s", e.Text, e.Want)
}

// String names the dimension with an example, for error messages.
func (d Dimension) String() string {
	switch d {
	case Voltage:
		return "voltage like 24 V"
	case Current:
		return "current like 0.5 A"
	case Resistance:
		return "resistance like 4.8 kohm"
	case Power:
		return "power like 5 W"
	case Frequency:
		return "frequency like 50 Hz"
	case Length:
		return "length like 12 m"
	case Area:
		return "conductor size like 0.75 mm2 or 18 AWG"
	case Time:
		return "time like 20 ms"
	case Capacitance:
		return "capacitance like 100 nF"
	case Ratio:
		return "number or percentage like 50 %"
	}
	return "quantity"
}

// Parse reads a quantity in the unit its Dimension names. The error is an
// *Error; NaN, infinities and more than 40 characters are refused.
func Parse(s string, d Dimension) (float64, error) {
	bad := &Error{Text: s, Want: d}
	if len(s) > 40 {
		return 0, bad
	}
	t := strings.TrimSpace(fold.Replace(s))
	if d == Area {
		if mm2, ok := awg(t); ok {
			return mm2, nil
		}
	}
	n := numberLen(t)
	if n == 0 {
		return 0, bad
	}
	v, err := strconv.ParseFloat(strings.Replace(t[:n], ",", ".", 1), 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, bad
	}
	suffix := strings.TrimSpace(t[n:])
	if (d == Resistance) && strings.HasPrefix(suffix, "M") {
		return v * 1e6, mega(suffix, bad)
	}
	suffix = strings.ToLower(suffix)
	for _, sc := range scales[d] {
		if suffix == sc.suffix {
			return v * sc.factor, nil
		}
	}
	return 0, bad
}

func mega(suffix string, bad error) error {
	switch strings.ToLower(suffix) {
	case "m", "mohm", "mohms":
		return nil
	}
	return bad
}

// numberLen is how many bytes at the head of s are a decimal number with an
// optional sign, point or comma and exponent-free.
func numberLen(s string) int {
	i, digits, seps := 0, 0, 0
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		i++
	}
	for i < len(s) {
		switch c := s[i]; {
		case c >= '0' && c <= '9':
			digits++
		case (c == '.' || c == ',') && seps == 0:
			seps++
		default:
			if digits == 0 {
				return 0
			}
			return i
		}
		i++
	}
	if digits == 0 {
		return 0
	}
	return i
}

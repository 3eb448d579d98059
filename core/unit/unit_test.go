package unit_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"halfsplit/core/unit"
)

func TestParse(t *testing.T) {
	for _, tc := range []struct {
		in   string
		dim  unit.Dimension
		want float64
	}{
		{"24 V", unit.Voltage, 24},
		{"230V", unit.Voltage, 230},
		{"-12,5 mV", unit.Voltage, -0.0125},
		{"24 V DC", unit.Voltage, 24},
		{"20 mA", unit.Current, 0.02},
		{"4,8 kΩ", unit.Resistance, 4800},
		{"10 Mohm", unit.Resistance, 10e6},
		{"10 mohm", unit.Resistance, 0.01},
		{"250", unit.Ratio, 250},
		{"50 %", unit.Ratio, 0.5},
		{"0,75 mm²", unit.Area, 0.75},
		{".75mm2", unit.Area, 0.75},
		{"100 ft", unit.Length, 30.48},
		{"0.8 s", unit.Time, 800},
	} {
		got, err := unit.Parse(tc.in, tc.dim)
		if err != nil || !(math.Abs(got-tc.want) <= 1e-12*math.Abs(tc.want)) {
			t.Errorf("Parse(%q) = %g, %v; want %g", tc.in, got, err, tc.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, in := range []string{"", "V", "24", "24 A", "1e999 V", "--2 V", "1.2.3 V", "0x10 V", "NaN V", "24 V x"} {
		var e *unit.Error
		if v, err := unit.Parse(in, unit.Voltage); !errors.As(err, &e) {
			t.Errorf("Parse(%q) = %g, %v; want an *Error", in, v, err)
		}
	}
}

// Source: areas computed from ASTM B258 (36 AWG = 0.0050 in, 4/0 = 0.4600 in) as
// printed in common AWG tables.
func TestAWG(t *testing.T) {
	for _, tc := range []struct {
		in   string
		want float64
	}{
		{"24 AWG", 0.205}, {"#18", 0.823}, {"AWG 14", 2.081}, {"10AWG", 5.261}, {"1/0 AWG", 53.48}, {"4/0 AWG", 107.2},
	} {
		got, err := unit.Parse(tc.in, unit.Area)
		if err != nil || !(math.Abs(got-tc.want) <= 0.0015*tc.want) {
			t.Errorf("%s = %g mm2, %v; want %g", tc.in, got, err, tc.want)
		}
	}
}

func TestParseFuse(t *testing.T) {
	for _, tc := range []struct {
		in   string
		want unit.Fuse
	}{
		{"2 A T", unit.Fuse{Rated: 2, Class: "T"}},
		{"T2A", unit.Fuse{Rated: 2, Class: "T"}},
		{"2AT", unit.Fuse{Rated: 2, Class: "T"}},
		{"500mA F", unit.Fuse{Rated: 0.5, Class: "F"}},
		{"F2AL", unit.Fuse{Rated: 2, Class: "F", Breaking: "L"}},
		{"T 3,15 A H", unit.Fuse{Rated: 3.15, Class: "T", Breaking: "H"}},
		{"C6", unit.Fuse{Rated: 6, Class: "C"}},
		{"6 A gG", unit.Fuse{Rated: 6, Class: "gG"}},
		{"4 A", unit.Fuse{Rated: 4}},
	} {
		if got, err := unit.ParseFuse(tc.in); err != nil || got != tc.want {
			t.Errorf("ParseFuse(%q) = %+v, %v; want %+v", tc.in, got, err, tc.want)
		}
	}
	for _, in := range []string{"", "T", "0 A", "2 V", "2 A X", "-2 A"} {
		if f, err := unit.ParseFuse(in); err == nil {
			t.Errorf("ParseFuse(%q) = %+v, want an error", in, f)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add("24 V", 1)
	f.Add("18 AWG", 7)
	f.Add("1,5 mm²", 7)
	f.Fuzz(func(t *testing.T, s string, d int) {
		v, err := unit.Parse(s, unit.Dimension(d))
		if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("Parse(%q) = %g", s, v)
		}
	})
}

func ExampleFormat() {
	fmt.Println(unit.Format(23.97, unit.Voltage))
	fmt.Println(unit.Format(0.0121, unit.Current))
	fmt.Println(unit.Format(4800, unit.Resistance))
	// Output:
	// 24.0 V
	// 12.1 mA
	// 4.80 kΩ
}

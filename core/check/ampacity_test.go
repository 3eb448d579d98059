package check

import "testing"

func TestAllows(t *testing.T) {
	for _, tc := range []struct {
		size   string
		amps   float64
		source string
	}{
		{"18 AWG", 7, "NEC 240.4(D)(1)"},
		{"16 AWG", 10, "NEC 240.4(D)(2)"},
		{"14 AWG", 15, "NEC 240.4(D)(3)"},
		{"12 AWG", 20, "NEC 240.4(D)(5)"},
		{"10 AWG", 30, "NEC 240.4(D)(7)"},
		{"20 AWG", 5, "NFPA 79 table 12.5.1, from memory"},
		{"22 AWG", 3, "NFPA 79 table 12.5.1, from memory"},
		{"0.75 mm2", 8.5, "IEC 60204-1 table 6, B2"},
		{"1 mm2", 10.1, "IEC 60204-1 table 6, B2"},
		{"1,5 mm²", 13.1, "IEC 60204-1 table 6, B2"},
		{"2.5 mm2", 17.4, "IEC 60204-1 table 6, B2"},
		{"4 mm2", 23, "IEC 60204-1 table 6, B2"},
		{"6 mm2", 30, "IEC 60204-1 table 6, B2"},
		{"10 mm2", 40, "IEC 60204-1 table 6, B2"},
		{"16 mm2", 54, "IEC 60204-1 table 6, B2"},
		{"1.2 mm2", 10.1, "between two sizes: the thinner one"},
		{"0.5 mm2", 5, "choice: 20 AWG is 0.52 mm²"},
	} {
		if got, ok := allows(tc.size); !ok || got != tc.amps {
			t.Errorf("%s allows %g A, %v; want %g A (%s)", tc.size, got, ok, tc.amps, tc.source)
		}
	}
	for _, size := range []string{"", "thick", "0.05 mm2", "25 mm2", "1/0 AWG"} {
		if got, ok := allows(size); ok {
			t.Errorf("%q allows %g A; want nothing claimed", size, got)
		}
	}
}

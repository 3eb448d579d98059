package check

import "testing"

func TestAllows(t *testing.T) {
	for _, tc := range []struct {
		size   string
		want   capacity
		source string
	}{
		{"18 AWG", capacity{7, 7}, "NEC 240.4(D)(1)"},
		{"16 AWG", capacity{10, 10}, "NEC 240.4(D)(2)"},
		{"14 AWG", capacity{15, 20}, "NEC 240.4(D)(3); NFPA 79 table 12.5.1, from memory"},
		{"12 AWG", capacity{20, 25}, "NEC 240.4(D)(5); NFPA 79 table 12.5.1, from memory"},
		{"10 AWG", capacity{30, 30}, "NEC 240.4(D)(7)"},
		{"20 AWG", capacity{5, 5}, "NFPA 79 table 12.5.1, from memory"},
		{"22 AWG", capacity{3, 3}, "NFPA 79 table 12.5.1, from memory"},
		{"0.75 mm2", capacity{8.5, 10.4}, "IEC 60204-1 table 6, B2 and E"},
		{"1 mm2", capacity{10.1, 12.4}, "IEC 60204-1 table 6, B2 and E"},
		{"1,5 mm²", capacity{13.1, 16.1}, "IEC 60204-1 table 6, B2 and E"},
		{"2.5 mm2", capacity{17.4, 22}, "IEC 60204-1 table 6, B2 and E"},
		{"4 mm2", capacity{23, 30}, "IEC 60204-1 table 6, B2 and E"},
		{"6 mm2", capacity{30, 37}, "IEC 60204-1 table 6, B2 and E"},
		{"10 mm2", capacity{40, 52}, "IEC 60204-1 table 6, B2 and E"},
		{"16 mm2", capacity{54, 70}, "IEC 60204-1 table 6, B2 and E"},
		{"1.2 mm2", capacity{10.1, 12.4}, "between two sizes: the thinner one"},
		{"0.5 mm2", capacity{5, 5}, "choice: 20 AWG is 0.52 mm²"},
	} {
		if got, ok := allows(tc.size); !ok || got != tc.want {
			t.Errorf("%s allows %v A, %v; want %v A (%s)", tc.size, got, ok, tc.want, tc.source)
		}
	}
	for _, size := range []string{"", "thick", "0.05 mm2", "25 mm2", "1/0 AWG"} {
		if got, ok := allows(size); ok {
			t.Errorf("%q allows %v A; want nothing claimed", size, got)
		}
	}
}

package panel_test

import (
	"testing"

	"halfsplit/core/panel"
)

func TestParsePoint(t *testing.T) {
	for _, tc := range []struct {
		in   string
		want panel.Point
	}{
		{"K1:A1", panel.Point{Device: "K1", Terminal: "A1"}},
		{"X1:4/out", panel.Point{Device: "X1", Terminal: "4", Side: "out"}},
		{"X3:7.1/in", panel.Point{Device: "X3", Terminal: "7.1", Side: "in"}},
		{"W12@X1:4/out", panel.Point{Wire: "W12", Device: "X1", Terminal: "4", Side: "out"}},
		{"-X1:4", panel.Point{Device: "X1", Terminal: "4"}},
		{"=A1+P1-X2:12", panel.Point{Device: "X2", Terminal: "12"}}, // IEC 81346
		{" X1 : PE1 ", panel.Point{Device: "X1", Terminal: "PE1"}},
	} {
		if got, ok := panel.ParsePoint(tc.in); !ok || got != tc.want {
			t.Errorf("ParsePoint(%q) = %+v, %v; want %+v", tc.in, got, ok, tc.want)
		}
	}
	for _, in := range []string{"", "X1", "X1:", ":4", "-:4", "X1:4/up", "X1:4/", "@X1:4", "X1:4:5", "X1:4/in/out", "a@b@X1:4"} {
		if p, ok := panel.ParsePoint(in); ok {
			t.Errorf("ParsePoint(%q) = %+v, want it refused", in, p)
		}
	}
}

package panel_test

import (
	"testing"

	"halfsplit/core/panel"
)

func indexed() *panel.Index {
	return panel.NewIndex(&panel.Panel{
		Mains: []panel.Mains{{Ref: "Q0"}},
		Strips: []panel.Strip{
			{Ref: "X1", Blocks: []panel.Block{{No: "1"}, {No: "7"}, {No: "8"}, {No: "8.1", Label: "marked"}, {No: "PE1"}, {No: "1", Label: "again"}}},
			{Ref: "-X2", Blocks: []panel.Block{{No: "1", Label: "of X2"}}},
		},
		Parts: []panel.Part{{Ref: "K1", Label: "first"}, {Ref: "K1", Label: "second"}},
		Wires: []panel.Wire{{No: "12"}},
	})
}

func TestIndexFindsByName(t *testing.T) {
	x := indexed()
	if p := x.Part("-K1"); p == nil || p.Label != "first" {
		t.Errorf("-K1 = %+v, want the first K1", p)
	}
	if b := x.Block("=A+P-X2", "1"); b == nil || b.Label != "of X2" {
		t.Errorf("=A+P-X2 block 1 = %+v", b)
	}
	if b := x.Block("X1", "1"); b == nil || b.Label != "" {
		t.Errorf("X1 block 1 = %+v, want the first of the two", b)
	}
	if x.MainsByRef("Q0") == nil || x.Strip("X2") == nil || x.Wire("12") == nil {
		t.Error("mains, strip or wire not found")
	}
	if x.MainsByRef("Q1") != nil || x.Strip("X3") != nil || x.Wire("13") != nil || x.Part("X1") != nil || x.Block("X1", "9") != nil {
		t.Error("found what is not there")
	}
}

// A marking in the document wins over a dot read as a level.
func TestSplit(t *testing.T) {
	x := indexed()
	for _, tc := range []struct {
		point string
		no    string
		level int
		ok    bool
	}{
		{"X1:7", "7", 0, true},
		{"X1:7.1/in", "7", 1, true},
		{"X1:7.2/out", "7", 2, true},
		{"W1@X1:7.2/out", "7", 2, true},
		{"X1:8.1", "8.1", 0, true},
		{"X1:8.1.2", "8.1", 2, true},
		{"X1:8.2", "8", 2, true},
		{"X1:PE1", "PE1", 0, true},
		{"X1:7.0", "", 0, false},
		{"X1:7.10", "", 0, false},
		{"X1:7.", "", 0, false},
		{"X1:7.a", "", 0, false},
		{"X1:9.1", "", 0, false},
		{"K1:7", "", 0, false},
	} {
		pt, ok := panel.ParsePoint(tc.point)
		if !ok {
			t.Fatalf("%s does not parse", tc.point)
		}
		b, level, ok := x.Split(pt)
		no := ""
		if b != nil {
			no = b.No
		}
		if ok != tc.ok || ok && (no != tc.no || level != tc.level) {
			t.Errorf("Split(%s) = %q, %d, %v; want %q, %d, %v", tc.point, no, level, ok, tc.no, tc.level, tc.ok)
		}
	}
}

package draft_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"halfsplit/core/draft"
	"halfsplit/core/parts"
)

// A designation is read by IEC 81346-2 (class letters), a tag by the tables of
// ISA 5.1 (first letter the variable, the last the function), device letters by
// American practice (NFPA 79, from memory).
func TestGuess(t *testing.T) {
	for _, tc := range []struct{ text, kind, code, ref, tag, source string }{
		{"K7", "relay", "guess.iec", "K7", "", "IEC 81346-2: K processes signals, relays"},
		{"-K7", "relay", "guess.iec", "K7", "", "IEC 81346-2"},
		{"F2", "fuse", "guess.iec", "F2", "", "IEC 81346-2: F protects"},
		{"M1", "motor", "guess.iec", "M1", "", "IEC 81346-2: M drives"},
		{"PT-102", "transmitter-2wire", "guess.isa", "", "PT-102", "ISA 5.1: P pressure, T transmitter"},
		{"pt 102", "transmitter-2wire", "guess.isa", "", "PT-102", "ISA 5.1"},
		{"LT-101", "transmitter-2wire", "guess.isa", "", "LT-101", "ISA 5.1: L level"},
		{"LT1", "pilot-light", "guess.letters", "LT1", "", "NFPA 79: LT pilot light"},
		{"LSH-203", "float-switch", "guess.isa", "", "LSH-203", "ISA 5.1: L level, S switch, H high"},
		{"FS-9", "flow-switch", "guess.isa", "", "FS-9", "ISA 5.1: F flow, S switch"},
		{"ZSC-4", "limit-switch", "guess.isa", "", "ZSC-4", "ISA 5.1: Z position, S switch"},
		{"XV-201", "solenoid", "guess.isa", "", "XV-201", "ISA 5.1: V valve"},
		{"10-XV-201A", "solenoid", "guess.isa", "", "10-XV-201A", "with its area and suffix, common practice"},
		{"HS-3", "button", "guess.isa", "", "HS-3", "ISA 5.1: H hand, S switch"},
		{"P-101", "motor", "guess.equipment", "", "P-101", "a pump on a flow sheet, common practice"},
		{"P1", "pilot-light", "guess.iec", "P1", "", "IEC 81346-2: P presents information"},
		{"CR3", "relay", "guess.letters", "CR3", "", "NFPA 79: CR control relay"},
		{"lamp", "pilot-light", "guess.trade", "", "", "common practice"},
		{"solenoid valve", "solenoid", "guess.trade", "", "", "common practice"},
		{"PSU 24 V", "dc-supply", "guess.trade", "", "", "common practice"},
		{"lam", "pilot-light", "guess.trade", "", "", "while typing"},
	} {
		list := draft.Guess(tc.text, trade)
		if len(list) == 0 {
			t.Errorf("%s: nothing, want %s (%s)", tc.text, tc.kind, tc.source)
			continue
		}
		c := list[0]
		if c.Kind != tc.kind || c.Code != tc.code || c.Ref != tc.ref || c.Tag != tc.tag {
			t.Errorf("%s: %+v, want %s by %s (%s)", tc.text, c, tc.kind, tc.code, tc.source)
		}
	}
	for _, text := range []string{"", " ", "???", "zzz", "7", "=", strings.Repeat("K", 5000)} {
		if list := draft.Guess(text, trade); len(list) > 0 {
			t.Errorf("%q is taken for %s", text, list[0].Kind)
		}
	}
}

// Figures in the text become the ratings that take them; what is neither word
// nor figure is the label.
func TestGuessReadsFigures(t *testing.T) {
	for _, tc := range []struct {
		text    string
		ratings map[string]string
		label   string
	}{
		{"PSU 24 V 10 A", map[string]string{"voltage": "24 V", "current": "10 A"}, ""},
		{"relay 24VDC", map[string]string{"voltage": "24V"}, ""},
		{"resistor 4,8 kohm", map[string]string{"resistance": "4,8 kohm"}, ""},
		{"solenoid valve tank 2", nil, "solenoid valve tank 2"},
	} {
		c := draft.Guess(tc.text, trade)[0]
		if !reflect.DeepEqual(c.Ratings, tc.ratings) || c.Label != tc.label {
			t.Errorf("%s: ratings %v, label %q", tc.text, c.Ratings, c.Label)
		}
	}
	if c := draft.Guess("fused 2 A T", trade)[0]; c.Fuse != "2 A T" || !c.Block {
		t.Errorf("fused 2 A T: %+v", c)
	}
	if c := draft.Guess("AI card 4 ch", trade)[0]; c.Channels != 4 {
		t.Errorf("AI card 4 ch: %+v", c)
	}
}

// Several readings are ranked, and all are told.
func TestGuessRanks(t *testing.T) {
	var kinds []string
	for _, c := range draft.Guess("LT-101", trade) {
		kinds = append(kinds, c.Kind)
	}
	four, light := slices.Index(kinds, "transmitter-4wire"), slices.Index(kinds, "pilot-light")
	if kinds[0] != "transmitter-2wire" || four < 0 || light < four {
		t.Errorf("LT-101 may be %v: a transmitter of two wires, then of four, and by its letters a lamp", kinds)
	}
}

// Every kind can be found by its name, so that a new kind needs no word more.
func TestGuessFindsEveryKind(t *testing.T) {
	self := func(kind string) []string { return []string{strings.ReplaceAll(kind, "-", " ")} }
	for _, k := range parts.Kinds() {
		list := draft.Guess(strings.ReplaceAll(k.Name, "-", " "), self)
		if !slices.ContainsFunc(list, func(c draft.Candidate) bool { return c.Kind == k.Name }) && k.Name != "mains" {
			t.Errorf("%s is not found by its name: %+v", k.Name, list)
		}
	}
}

func ExampleGuess() {
	c := draft.Guess("PT-102", nil)[0]
	fmt.Println(c.Kind, c.Tag, c.At, c.Code, c.Args)
	// Output: transmitter-2wire PT-102 field guess.isa [PT]
}

func ExampleApply() {
	p, made, err := draft.Apply(draft.New(), []draft.Edit{
		{Op: draft.Strip, Ref: "X1", Count: 24},
		{Op: draft.Blocks, Ref: "X1", From: "1", To: "4", Kind: "fuse-block", Fuse: "2 A T"},
		{Op: draft.Jumper, Ref: "X1", From: "1", To: "4"},
	}, nil)
	fmt.Println(len(p.Strips[0].Blocks), p.Strips[0].Blocks[3].Fuse, p.Strips[0].Jumpers[0].Blocks, err)
	fmt.Println(made[2].Code, made[2].Args)
	// Output:
	// 24 2 A T [1 2 3 4] <nil>
	// draft.made-jumper [X1 1…4]
}

package draft_test

import (
	"errors"
	"strings"
	"testing"

	"halfsplit/core/draft"
	"halfsplit/core/panel"
)

// loop is one instrument as it is wired in practice: a fuse block fed by a bar,
// the minus through a terminal to a channel, both cores in one cable.
var loop = []draft.Edit{
	{Op: draft.Strip, Ref: "X1", Count: 2, Kind: "fuse-block", Fuse: "500 mA F"},
	{Op: draft.Strip, Ref: "X2", Count: 8},
	{Op: draft.Jumper, Ref: "X1", From: "1", To: "2"},
	{Op: draft.Part, Ref: "T1", Word: "PSU 24 V"},
	{Op: draft.Part, Ref: "A1", Word: "AI card"},
	{Op: draft.Part, Word: "PT-102", Ref: "B1"},
	{Op: draft.Blocks, Ref: "X1", From: "2", Label: "PT-102"},
	{Op: draft.Wire, Ref: "W1", From: "T1:+", To: "X1:1/in"},
	{Op: draft.Wire, Ref: "W11", From: "X1:2/out", To: "B1:+", Cable: "C1", Core: "1", Length: "20 m"},
	{Op: draft.Wire, Ref: "W12", From: "B1:-", To: "X2:3", Cable: "C1", Core: "2", Length: "20 m"},
	{Op: draft.Wire, Ref: "W13", From: "X2:3", To: "A1:0"},
	{Op: draft.Wire, Ref: "W2", From: "A1:M", To: "T1:-"},
	{Op: draft.Condition, Positions: map[string]string{"B1": "50 %"}},
}

func wires(p *panel.Panel) string {
	var list []string
	for _, w := range p.Wires {
		s := w.No + " " + w.From + " " + w.To
		if w.Cable != "" {
			s += " " + w.Cable + "." + w.Core
		}
		list = append(list, s)
	}
	return strings.Join(list, "\n")
}

// "The next two are like this one": by hand, what a person would write.
func TestCopyCountsOn(t *testing.T) {
	p := apply(t, nil, append(loop[:len(loop):len(loop)], draft.Edit{Op: draft.Copy, Ref: "B1", Count: 2})...)
	want := `W1 T1:+ X1:1/in
W11 X1:2/out B1:+ C1.1
W12 B1:- X2:3 C1.2
W13 X2:3 A1:0
W2 A1:M T1:-
W14 X1:3/out B2:+ C2.1
W15 B2:- X2:4 C2.2
W16 X2:4 A1:1
W17 X1:4/out B3:+ C3.1
W18 B3:- X2:5 C3.2
W19 X2:5 A1:2`
	if got := wires(p); got != want {
		t.Errorf("wires\n%s\nwant\n%s", got, want)
	}
	if got := markings(&p.Strips[0]); got != "1 2 3 4" || p.Strips[0].Blocks[3].Label != "PT-104" || p.Strips[0].Blocks[3].Fuse != "500 mA F" {
		t.Errorf("blocks %+v", p.Strips[0].Blocks)
	}
	if got := strings.Join(p.Strips[0].Jumpers[0].Blocks, " "); got != "1 2 3 4" {
		t.Errorf("the bar joins %s", got)
	}
	if got := markings(&p.Strips[1]); got != "1 2 3 4 5 6 7 8" {
		t.Errorf("X2 %s: free blocks are taken, not made again", got)
	}
	if p.Parts[3].Tag != "PT-103" || p.Parts[4].Ref != "B3" || p.Parts[4].At != "field" || p.Conditions[0].Set["B3"] != "50 %" {
		t.Errorf("parts %+v, set %v", p.Parts[3:], p.Conditions[0].Set)
	}
}

// An instrument on two neighbouring blocks: the next one is two further on, the
// common of both lands where the first one's does.
func TestCopyByTwo(t *testing.T) {
	p := apply(t, nil,
		draft.Edit{Op: draft.Strip, Ref: "X1", Count: 2, First: "7"},
		draft.Edit{Op: draft.Strip, Ref: "X2", Count: 1},
		draft.Edit{Op: draft.Part, Word: "lamp", Ref: "P1"},
		draft.Edit{Op: draft.Part, Word: "lamp", Ref: "P9"},
		draft.Edit{Op: draft.Part, Word: "relay", Ref: "K1"},
		draft.Edit{Op: draft.Wire, From: "P9:X1", To: "X2:1"},
		draft.Edit{Op: draft.Wire, From: "P9:X2", To: "X2:1"},
		draft.Edit{Op: draft.Wire, From: "X1:7", To: "K1:A1"},
		draft.Edit{Op: draft.Wire, From: "X1:8", To: "K1:A2"},
		draft.Edit{Op: draft.Wire, From: "X2:1", To: "K1:11"},
		draft.Edit{Op: draft.Copy, Ref: "K1", Count: 1})
	if got := markings(&p.Strips[0]); got != "7 8 9 10" {
		t.Errorf("blocks %s", got)
	}
	if got, want := wires(p), "W6 X1:9 K2:A1\nW7 X1:10 K2:A2\nW8 X2:1 K2:11"; !strings.HasSuffix(got, want) {
		t.Errorf("wires\n%s\nwant at the end\n%s", got, want)
	}
}

// What the count meets is not overwritten: the whole edit is refused, with what
// is in the way.
func TestCopyRefuses(t *testing.T) {
	for _, tc := range []struct {
		name string
		more []draft.Edit
		ref  string
		n    int
		code string
		args string
	}{
		{"a designation", []draft.Edit{{Op: draft.Part, Word: "relay", Ref: "B2"}}, "B1", 1, "draft.ref-taken", "B2"},
		{"a tag", []draft.Edit{{Op: draft.Part, Word: "PT-104", Ref: "B8"}}, "B1", 2, "draft.tag-taken", "PT-104 B8"},
		{"a block in use", []draft.Edit{{Op: draft.Wire, Ref: "W99", From: "X2:5", To: "T1:-"}}, "B1", 2, "draft.copy-block-taken", "X2:5 W99"},
		{"a channel in use", []draft.Edit{{Op: draft.Wire, Ref: "W99", From: "A1:1", To: "T1:-"}}, "B1", 1, "draft.copy-channel-taken", "A1:1 W99"},
		{"no channel left", nil, "B1", 8, "draft.copy-no-channel", "A1 8"},
		{"no count", nil, "B1", 0, "draft.copies-missing", "B1"},
		{"no such part", nil, "B9", 1, "draft.unknown-part", "B9 B1"},
	} {
		p := apply(t, nil, append(loop[:len(loop):len(loop)], tc.more...)...)
		before := string(panel.Write(p))
		_, _, err := draft.Apply(p, []draft.Edit{{Op: draft.Copy, Ref: tc.ref, Count: tc.n}}, trade)
		var e *draft.Error
		if !errors.As(err, &e) || e.Code != tc.code || strings.Join(e.Args, " ") != tc.args {
			t.Errorf("%s: %v, want %s %s", tc.name, err, tc.code, tc.args)
		}
		if string(panel.Write(p)) != before {
			t.Errorf("%s: the refused edit changed the panel", tc.name)
		}
	}
}

// A two-level block holds both cores of an instrument: one block further each.
func TestCopyOnLevels(t *testing.T) {
	p := apply(t, nil,
		draft.Edit{Op: draft.Strip, Ref: "X3", Count: 3, Kind: "double-level-fused", Fuse: "500 mA F"},
		draft.Edit{Op: draft.Jumper, Ref: "X3", From: "1", To: "3", Level: 2},
		draft.Edit{Op: draft.Part, Ref: "A1", Word: "AI card"},
		draft.Edit{Op: draft.Part, Word: "LT-101", Ref: "B1"},
		draft.Edit{Op: draft.Wire, From: "X3:1.2", To: "B1:+"},
		draft.Edit{Op: draft.Wire, From: "B1:-", To: "X3:1.1"},
		draft.Edit{Op: draft.Wire, From: "X3:1.1/in", To: "A1:0"},
		draft.Edit{Op: draft.Copy, Ref: "B1", Count: 2})
	want := `W1 X3:1.2/out B1:+
W2 B1:- X3:1.1
W3 X3:1.1/in A1:0
W4 X3:2.2/out B2:+
W5 B2:- X3:2.1
W6 X3:2.1/in A1:1
W7 X3:3.2/out B3:+
W8 B3:- X3:3.1
W9 X3:3.1/in A1:2`
	if got := wires(p); got != want {
		t.Errorf("wires\n%s\nwant\n%s", got, want)
	}
	if bar := strings.Join(p.Strips[0].Jumpers[0].Blocks, " "); len(p.Strips[0].Blocks) != 3 || bar != "1 2 3" {
		t.Errorf("%d blocks, the bar joins %s", len(p.Strips[0].Blocks), bar)
	}
}

package draft_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"halfsplit/core/draft"
	"halfsplit/core/panel"
)

// apply carries out edits on an empty panel, or on what before made of it.
func apply(t *testing.T, before *panel.Panel, edits ...draft.Edit) *panel.Panel {
	t.Helper()
	if before == nil {
		before = draft.New()
	}
	p, _, err := draft.Apply(before, edits, trade)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// trade is a small dictionary, so that these tests do not depend on the words of
// a language.
func trade(kind string) []string {
	return map[string][]string{
		"relay": {"relay", "control relay"}, "fuse-block": {"fused"}, "ground": {"ground"}, "dc-supply": {"PSU"},
		"solenoid": {"solenoid valve", "valve"}, "pilot-light": {"lamp"}, "resistor": {"resistor"}, "analogue-input": {"AI card"},
	}[kind]
}

func markings(s *panel.Strip) string {
	var list []string
	for _, b := range s.Blocks {
		list = append(list, b.No)
	}
	return strings.Join(list, " ")
}

func TestStrip(t *testing.T) {
	for _, tc := range []struct {
		edit draft.Edit
		want string
	}{
		{draft.Edit{Count: 4}, "1 2 3 4"},
		{draft.Edit{Count: 3, First: "101"}, "101 102 103"},
		{draft.Edit{Count: 3, First: "1", Step: 2}, "1 3 5"},
		{draft.Edit{Count: 3, First: "3", Step: -1}, "3 2 1"},
		{draft.Edit{Count: 3, First: "PE1"}, "PE1 PE2 PE3"},
		{draft.Edit{Count: 3, First: "09"}, "09 10 11"},
		{draft.Edit{Count: 2, First: "1a"}, "1a 2a"},
		{draft.Edit{Count: 1, First: "PE"}, "PE"},
	} {
		tc.edit.Op, tc.edit.Ref = draft.Strip, "X1"
		p := apply(t, nil, tc.edit)
		if got := markings(&p.Strips[0]); got != tc.want {
			t.Errorf("%+v: %s, want %s", tc.edit, got, tc.want)
		}
	}
	p := apply(t, nil, draft.Edit{Op: draft.Strip, Count: 2}, draft.Edit{Op: draft.Strip, Ref: "X1", Count: 2}, draft.Edit{Op: draft.Strip, Count: 1})
	if got := markings(&p.Strips[0]); got != "1 2 3 4" || p.Strips[1].Ref != "X2" {
		t.Errorf("%s and %s: more blocks go on from the last, a new strip takes the next name", got, p.Strips[1].Ref)
	}
}

func TestBlocksAndJumpers(t *testing.T) {
	p := apply(t, nil,
		draft.Edit{Op: draft.Strip, Ref: "X1", Count: 8},
		draft.Edit{Op: draft.Blocks, Ref: "X1", From: "1", To: "3", Word: "fused 2 A T"},
		draft.Edit{Op: draft.Blocks, Ref: "X1", List: []string{"8"}, Word: "ground"},
		draft.Edit{Op: draft.Blocks, Ref: "X1", From: "2", Fuse: "500 mA F", Label: "LT-1 +"},
		draft.Edit{Op: draft.Jumper, Ref: "X1", From: "1", To: "3"},
		draft.Edit{Op: draft.Jumper, Ref: "X1", List: []string{"5", "7"}})
	want := []panel.Block{
		{No: "1", Type: "fuse-block", Fuse: "2 A T"}, {No: "2", Type: "fuse-block", Fuse: "500 mA F", Label: "LT-1 +"}, {No: "3", Type: "fuse-block", Fuse: "2 A T"},
		{No: "4", Type: "feed-through"}, {No: "5", Type: "feed-through"}, {No: "6", Type: "feed-through"}, {No: "7", Type: "feed-through"},
		{No: "8", Type: "ground"}}
	if !reflect.DeepEqual(p.Strips[0].Blocks, want) {
		t.Errorf("blocks %+v", p.Strips[0].Blocks)
	}
	if bars := []panel.Jumper{{Blocks: []string{"1", "2", "3"}, Side: "in"}, {Blocks: []string{"5", "7"}}}; !reflect.DeepEqual(p.Strips[0].Jumpers, bars) {
		t.Errorf("jumpers %+v, want %+v", p.Strips[0].Jumpers, bars)
	}
	p = apply(t, p, draft.Edit{Op: draft.Unjumper, Ref: "X1", From: "1", To: "3"}, draft.Edit{Op: draft.Remove, Ref: "X1:5"})
	if len(p.Strips[0].Jumpers) != 0 {
		t.Errorf("jumpers left: %+v", p.Strips[0].Jumpers)
	}
}

// The drawing an edit is applied to stays as it was, and the same edits on it
// give the same bytes.
func TestPureAndRepeatable(t *testing.T) {
	p := apply(t, nil, draft.Edit{Op: draft.Strip, Ref: "X1", Count: 4}, draft.Edit{Op: draft.Part, Word: "lamp"})
	before := string(panel.Write(p))
	edits := []draft.Edit{
		{Op: draft.Blocks, Ref: "X1", From: "1", Word: "fused 1 A T"}, {Op: draft.Jumper, Ref: "X1", From: "2", To: "3"},
		{Op: draft.Wire, From: "X1:1", To: "P1:X1"}, {Op: draft.Set, Ref: "P1", Ratings: map[string]string{"voltage": "24 V"}},
		{Op: draft.Condition, Positions: map[string]string{"X1:1": "open"}}, {Op: draft.Remove, Ref: "X1:4"},
		{Op: draft.MoveWire, Ref: "W1", End: "to", To: "P1:X2", AsFound: true},
	}
	one, two := apply(t, p, edits...), apply(t, p, edits...)
	if string(panel.Write(p)) != before {
		t.Error("the edits changed the panel they were given")
	}
	if string(panel.Write(one)) != string(panel.Write(two)) {
		t.Error("the same edits gave two panels")
	}
	step := p
	for _, e := range edits {
		step = apply(t, step, e)
	}
	if string(panel.Write(step)) != string(panel.Write(one)) {
		t.Error("edits one by one give another panel than all at once")
	}
}

// A wire lands on the side its other end lies on: in towards the panel, out
// towards the field (common practice); a side that is given stays.
func TestSides(t *testing.T) {
	p := apply(t, nil,
		draft.Edit{Op: draft.Strip, Ref: "X1", Count: 2},
		draft.Edit{Op: draft.Part, Kind: "transmitter-2wire", Ref: "B1", At: "field"},
		draft.Edit{Op: draft.Part, Kind: "relay", Ref: "K1"},
		draft.Edit{Op: draft.Wire, From: "X1:1", To: "B1:+"},
		draft.Edit{Op: draft.Wire, From: "K1:A1", To: "X1:1"},
		draft.Edit{Op: draft.Blocks, Ref: "X1", From: "1", Kind: "disconnect-block"}, // the wires are there already
		draft.Edit{Op: draft.Wire, From: "X1:1", To: "K1:A2"},
		draft.Edit{Op: draft.Wire, From: "X1:1/out", To: "K1:11"},
		draft.Edit{Op: draft.Wire, From: "X1:2", To: "K1:12"})
	if got, want := wires(p), "W1 X1:1/out B1:+\nW2 K1:A1 X1:1/in\nW3 X1:1/in K1:A2\nW4 X1:1/out K1:11\nW5 X1:2 K1:12"; got != want {
		t.Errorf("wires\n%s\nwant\n%s", got, want)
	}
}

// What goes takes with it what would name it, and what another type cannot have.
func TestNothingIsLeftBehind(t *testing.T) {
	p := apply(t, nil, append(loop[:len(loop):len(loop)],
		draft.Edit{Op: draft.Condition, Name: "idle", Positions: map[string]string{"B1": "0 %", "A1": "on", "X1:2": "open"}, Steps: []string{"open X1:2"}},
		draft.Edit{Op: draft.Blocks, Ref: "X1", From: "1", Indicator: "24 V"},
		draft.Edit{Op: draft.Blocks, Ref: "X1", From: "1", Kind: "feed-through"},
		draft.Edit{Op: draft.Rename, Ref: "X1:2", Name: "7"},
		draft.Edit{Op: draft.Remove, Ref: "B1"})...)
	if b := p.Strips[0].Blocks[0]; b.Fuse != "" || b.Indicator != "" {
		t.Errorf("a plain block with %+v", b)
	}
	c := p.Conditions[1]
	if want := map[string]string{"A1": "on", "X1:7": "open"}; !reflect.DeepEqual(c.Set, want) || c.Steps[0] != "open X1:7" || len(p.Conditions[0].Set) != 0 {
		t.Errorf("the conditions are %+v, want %v", p.Conditions, want)
	}
	if got, want := wires(p), "W1 T1:+ X1:1/in\nW13 X2:3 A1:0\nW2 A1:M T1:-"; got != want {
		t.Errorf("wires\n%s\nwant\n%s", got, want)
	}
	if got := p.Strips[0].Jumpers[0].Blocks; !reflect.DeepEqual(got, []string{"1", "7"}) {
		t.Errorf("the bar joins %v", got)
	}
}

func TestConditions(t *testing.T) {
	p := apply(t, nil,
		draft.Edit{Op: draft.Condition, Name: "tank full", About: "Full.", Positions: map[string]string{"-B1": "wet", "B2": "free"}, Steps: []string{"press S2"}},
		draft.Edit{Op: draft.Condition, Name: "dry"},
		draft.Edit{Op: draft.Condition, Positions: map[string]string{"B1": "wet"}})
	names := func(p *panel.Panel) (list []string) {
		for _, c := range p.Conditions {
			list = append(list, c.Name)
		}
		return list
	}
	if got := strings.Join(names(p), ", "); got != "normal, tank full, dry" {
		t.Errorf("%s: a panel opens in normal", got)
	}
	q := apply(t, p,
		draft.Edit{Op: draft.Condition, Ref: "tank full", Name: "overflowing", Positions: map[string]string{"B1": "dry", "B2": ""}},
		draft.Edit{Op: draft.Uncondition, Ref: "dry"})
	c := q.Conditions[1]
	if got := strings.Join(names(q), ", "); got != "normal, overflowing" || !reflect.DeepEqual(c.Set, map[string]string{"B1": "dry"}) || c.About != "Full." {
		t.Errorf("%s, %+v: another spelling is the same thing, and the rest stays", got, c)
	}
	q = apply(t, q, draft.Edit{Op: draft.Condition, Ref: "overflowing", Clear: []string{"about", "steps"}})
	if c := q.Conditions[1]; c.Name != "overflowing" || c.About != "" || c.Steps != nil || c.Set["B1"] != "dry" {
		t.Errorf("%+v: only what was named is emptied", c)
	}
	for _, bad := range []struct {
		edit draft.Edit
		code string
	}{
		{draft.Edit{Op: draft.Condition, Ref: "tank full", Name: "dry"}, "draft.condition-taken"},
		{draft.Edit{Op: draft.Condition, Ref: "tank full", Name: "normal"}, "draft.condition-taken"},
		{draft.Edit{Op: draft.Condition, Ref: "tank", Name: "full"}, "draft.unknown-condition"},
		{draft.Edit{Op: draft.Condition, Ref: "normal", Name: "running"}, "draft.condition-kept"},
		{draft.Edit{Op: draft.Condition, Name: "power-off"}, "draft.condition-kept"},
		{draft.Edit{Op: draft.Condition, Name: "wet; cold"}, "draft.condition-form"},
		{draft.Edit{Op: draft.Condition, Name: "dry", Clear: []string{"set"}}, "draft.unknown-field"},
		{draft.Edit{Op: draft.Uncondition, Ref: "normal"}, "draft.condition-kept"},
		{draft.Edit{Op: draft.Uncondition, Ref: "wet"}, "draft.unknown-condition"},
		{draft.Edit{Op: draft.Remove, Ref: "dry"}, "draft.unknown-thing"},
	} {
		_, _, err := draft.Apply(p, []draft.Edit{bad.edit}, trade)
		var refused *draft.Error
		if !errors.As(err, &refused) || refused.Code != bad.code {
			t.Errorf("%+v: %v, want %s", bad.edit, err, bad.code)
		}
	}
}

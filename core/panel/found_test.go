package panel_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"halfsplit/core/panel"
)

const corrected = `{
"format": "halfsplit-panel", "version": 1, "name": "x",
"strips": [{"ref": "X1", "blocks": [
 {"no": "1", "type": "feed-through"},
 {"no": "2", "type": "feed-through"},
 {"no": "3", "type": "feed-through"}],
 "jumpers": [{"blocks": ["1", "2"]}]}],
"parts": [
 {"ref": "P1", "kind": "lamp"},
 {"ref": "P2", "kind": "lamp"}],
"wires": [
 {"no": "1", "from": "X1:1", "to": "P1:1"},
 {"no": "2", "from": "X1:2", "to": "P1:2"},
 {"no": "3", "from": "X1:3", "to": "P2:1"}],
"found": [
 {"op": "remove-wire", "wire": "1"},
 {"op": "move-wire", "wire": "2", "end": "to", "point": "P2:2"},
 {"op": "add-wire", "add": {"no": "9", "from": "X1:1", "to": "P3:1"}},
 {"op": "remove-part", "point": "-P1"},
 {"op": "add-part", "part": {"ref": "P3", "kind": "lamp"}},
 {"op": "remove-jumper", "strip": "X1", "jump": {"blocks": ["1", "2"]}},
 {"op": "add-jumper", "strip": "X1", "jump": {"blocks": ["2", "3"]}},
 {"op": "set-block", "strip": "X1", "block": {"no": "2", "type": "knife-disconnect"}},
 {"op": "set-block", "strip": "X1", "block": {"no": "4", "type": "ground"}},
 {"op": "remove-block", "point": "X1:1"}
]}`

func TestAsFound(t *testing.T) {
	d := read(t, corrected)
	before := panel.Write(d.Panel)
	q, problems := panel.AsFound(d.Panel)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	want := &panel.Panel{
		Format: panel.Format, Version: panel.Version, Name: "x",
		Strips: []panel.Strip{{Ref: "X1",
			Blocks:  []panel.Block{{No: "2", Type: "knife-disconnect"}, {No: "3", Type: "feed-through"}, {No: "4", Type: "ground"}},
			Jumpers: []panel.Jumper{{Blocks: []string{"2", "3"}}}}},
		Parts: []panel.Part{{Ref: "P2", Kind: "lamp"}, {Ref: "P3", Kind: "lamp"}},
		Wires: []panel.Wire{
			{No: "2", From: "X1:2", To: "P2:2"},
			{No: "3", From: "X1:3", To: "P2:1"},
			{No: "9", From: "X1:1", To: "P3:1"}},
	}
	if !reflect.DeepEqual(q, want) {
		t.Errorf("as found:\n%s", panel.Write(q))
	}
	if string(panel.Write(d.Panel)) != string(before) {
		t.Error("AsFound changed the drawing")
	}
}

// A value of the panel as found is shown where it was written: in the drawing,
// or in the edit that made it so.
func TestAsFoundKeepsPlaces(t *testing.T) {
	f, _ := read(t, corrected).AsFound()
	for _, tc := range []struct{ path, origin string }{
		{"name", "name"},
		{"wires[0].from", "wires[1].from"},
		{"wires[0].to", "found[1].point"},
		{"wires[1].to", "wires[2].to"},
		{"wires[2].to", "found[2].add.to"},
		{"wires[2]", "found[2].add"},
		{"parts[0].kind", "parts[1].kind"},
		{"parts[1].kind", "found[4].part.kind"},
		{"strips[0].ref", "strips[0].ref"},
		{"strips[0].blocks[0].type", "found[7].block.type"},
		{"strips[0].blocks[1].type", "strips[0].blocks[2].type"},
		{"strips[0].blocks[2]", "found[8].block"},
		{"strips[0].jumpers[0].blocks[1]", "found[6].jump.blocks[1]"},
	} {
		if got := f.Origin(tc.path); got != tc.origin {
			t.Errorf("Origin(%s) = %s, want %s", tc.path, got, tc.origin)
		}
	}
	if line, col := f.Pos("wires[0].to"); line != 17 || col != 57 {
		t.Errorf("moved end at %d:%d, want 17:57", line, col)
	}
}

// An edit that does not apply says why and leaves the others to apply.
func TestAsFoundReports(t *testing.T) {
	const head = `{"format":"halfsplit-panel","version":1,"name":"x",
"strips":[{"ref":"X1","blocks":[{"no":"12","type":"feed-through"}],"jumpers":[{"blocks":["1","2"]}]}],
"parts":[{"ref":"P1","kind":"lamp"}],
"wires":[{"no":"101","from":"X1:1","to":"P1:1"}],
"found":[
`
	for _, tc := range []struct{ edit, code, path, args string }{
		{`{"op":"remove-wire","wire":"102"}`, "edit-unknown-wire", "found[0].wire", "102 101"},
		{`{"op":"remove-wire"}`, "edit-field-missing", "found[0]", "remove-wire wire"},
		{`{"op":"move-wire","wire":"101","end":"too","point":"P1:2"}`, "edit-unknown-end", "found[0].end", "too"},
		{`{"op":"move-wire","wire":"101","point":"P1:2"}`, "edit-field-missing", "found[0]", "move-wire end"},
		{`{"op":"move-wire","wire":"101","end":"to"}`, "edit-field-missing", "found[0]", "move-wire point"},
		{`{"op":"add-wire"}`, "edit-field-missing", "found[0]", "add-wire add"},
		{`{"op":"add-wire","add":{"no":"101","from":"","to":""}}`, "edit-wire-exists", "found[0].add.no", "101"},
		{`{"op":"add-part"}`, "edit-field-missing", "found[0]", "add-part part"},
		{`{"op":"add-part","part":{"ref":"-P1","kind":"lamp"}}`, "edit-part-exists", "found[0].part.ref", "-P1"},
		{`{"op":"remove-part","point":"P2"}`, "edit-unknown-part", "found[0].point", "P2 P1"},
		{`{"op":"remove-part"}`, "edit-field-missing", "found[0]", "remove-part point"},
		{`{"op":"add-jumper","jump":{"blocks":["1","2"]}}`, "edit-field-missing", "found[0]", "add-jumper strip"},
		{`{"op":"add-jumper","strip":"X1"}`, "edit-field-missing", "found[0]", "add-jumper jump"},
		{`{"op":"remove-jumper","strip":"X2","jump":{"blocks":["1","2"]}}`, "edit-unknown-strip", "found[0].strip", "X2 X1"},
		{`{"op":"remove-jumper","strip":"X1","jump":{"blocks":["1","3"]}}`, "edit-unknown-jumper", "found[0].jump", "X1 1-3 1-2"},
		{`{"op":"set-block","strip":"X1"}`, "edit-field-missing", "found[0]", "set-block block"},
		{`{"op":"remove-block"}`, "edit-field-missing", "found[0]", "remove-block point"},
		{`{"op":"remove-block","point":"12"}`, "edit-bad-point", "found[0].point", "12"},
		{`{"op":"remove-block","point":"X1:21"}`, "edit-unknown-block", "found[0].point", "X1 21 12"},
		{`{"op":"remove-block","point":"X4:1"}`, "edit-unknown-strip", "found[0].point", "X4 X1"},
		{`{"op":"swap-wire"}`, "edit-unknown-op", "found[0].op", "swap-wire " + strings.Join(panel.Ops(), ", ") + " "},
		{`{}`, "edit-op-missing", "found[0]", strings.Join(panel.Ops(), ", ")},
	} {
		d := read(t, head+tc.edit+`,{"op":"remove-part","point":"P1"}]}`)
		f, problems := d.AsFound()
		if len(problems) != 1 || problems[0].Code != tc.code || problems[0].Path != tc.path || strings.Join(problems[0].Args, " ") != tc.args {
			t.Errorf("%s: %+v, want %s at %s: %s", tc.edit, problems, tc.code, tc.path, tc.args)
			continue
		}
		if line, _ := d.Pos(tc.path); problems[0].Line != line {
			t.Errorf("%s: on line %d, want %d", tc.edit, problems[0].Line, line)
		}
		if len(f.Panel.Parts) != 0 {
			t.Errorf("%s: the edit after it did not apply", tc.edit)
		}
	}
}

func TestNearest(t *testing.T) {
	names := []string{"A1", "A2", "13", "14", "21", "feed-through", "fuse-block"}
	for _, tc := range []struct{ name, want string }{
		{"A3", "A2"}, // of equals the nearer
		{"22", "21"},
		{"7", ""}, // any character is one slip from any other
		{"a", ""},
		{"a2", "A2"},
		{"41", "14"}, // swapped
		{"B7", ""},
		{"feedthrough", "feed-through"},
		{"Fuse-Block", "fuse-block"},
		{"valve", ""},
		{"", ""},
		{strings.Repeat("A", 1000), ""},
	} {
		if got := panel.Nearest(tc.name, names); got != tc.want {
			t.Errorf("Nearest(%s) = %q, want %q", tc.name, got, tc.want)
		}
	}
}

func TestSortProblems(t *testing.T) {
	list := []panel.Problem{{Line: 2, Col: 1, Code: "b"}, {Line: 2, Col: 1, Code: "a", Args: []string{"2"}}, {Line: 1, Col: 9, Code: "z"}, {Line: 2, Col: 1, Code: "a", Args: []string{"1"}}}
	panel.SortProblems(list)
	var got []string
	for _, p := range list {
		got = append(got, fmt.Sprintf("%d %d %s %s", p.Line, p.Col, p.Code, p.Args))
	}
	if want := []string{"1 9 z []", "2 1 a [1]", "2 1 a [2]", "2 1 b []"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

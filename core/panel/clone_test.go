package panel_test

import (
	"reflect"
	"testing"

	"halfsplit/core/panel"
)

// A clone is the same document, and nothing that is done to it reaches the
// original.
func TestClone(t *testing.T) {
	d := read(t, corrected)
	p := d.Panel
	p.Conditions = []panel.Condition{{Name: "normal", Set: map[string]string{"S1": "pressed"}, Steps: []string{"press S2"}}}
	p.Parts[0].Ratings, p.Parts[0].Contacts = map[string]string{"voltage": "24 V"}, []string{"13-14"}
	p.Mains = []panel.Mains{{Ref: "G0"}}
	before := string(panel.Write(p))
	q := p.Clone()
	if !reflect.DeepEqual(p, q) {
		t.Fatalf("the clone is another panel:\n%s", panel.Write(q))
	}
	q.Mains[0].Ref, q.Name = "x", "x"
	q.Strips[0].Blocks[0].No, q.Strips[0].Jumpers[0].Blocks[0] = "x", "x"
	q.Parts[0].Ratings["voltage"], q.Parts[0].Contacts[0] = "x", "x"
	q.Wires[0].To = "x"
	q.Conditions[0].Set["S1"], q.Conditions[0].Steps[0] = "x", "x"
	for i := range q.Found {
		e := &q.Found[i]
		e.Note = "x"
		if e.Add != nil {
			e.Add.To = "x"
		}
		if e.Part != nil {
			e.Part.Kind = "x"
		}
		if e.Jump != nil {
			e.Jump.Blocks[0] = "x"
		}
		if e.Block != nil {
			e.Block.No = "x"
		}
	}
	if string(panel.Write(p)) != before {
		t.Error("a change to the clone reached the original")
	}
}

package draft_test

import (
	"errors"
	"strings"
	"testing"

	"halfsplit/core/draft"
	"halfsplit/core/panel"
)

// Any edit of wires, parts, blocks and jumpers, made as found, comes to the same
// panel as the edit of the drawing does, and leaves the drawing as it was.
func TestAsFoundComesToTheSame(t *testing.T) {
	for _, e := range []draft.Edit{
		{Op: draft.Wire, From: "X2:5", To: "T1:-"},
		{Op: draft.MoveWire, Ref: "W12", End: "to", To: "X2:4"},
		{Op: draft.Between, Ref: "W12", Word: "resistor", Name: "R1", Ratings: map[string]string{"resistance": "10 ohm"}},
		{Op: draft.Remove, Ref: "W12"},
		{Op: draft.Remove, Ref: "X2:3"},
		{Op: draft.Remove, Ref: "X1:2"},
		{Op: draft.Set, Ref: "T1", Ratings: map[string]string{"voltage": "12 V"}},
		{Op: draft.Set, Ref: "W12", Colour: "RD"},
		{Op: draft.Part, Word: "lamp"},
		{Op: draft.Blocks, Ref: "X1", From: "1", Fuse: "4 A T"},
		{Op: draft.Jumper, Ref: "X2", From: "1", To: "4"},
		{Op: draft.Unjumper, Ref: "X1", From: "1", To: "2"},
		{Op: draft.Label, Ref: "X2:3", Label: "minus"},
	} {
		p := apply(t, nil, append(loop[:len(loop)-1:len(loop)-1], draft.Edit{Op: draft.Name, Name: "x"})...)
		drawn := apply(t, p, e)
		e.AsFound, e.Note, e.By = true, "the felt pen says so", "night shift"
		corrected := apply(t, p, e)
		found, problems := panel.AsFound(corrected)
		if len(problems) > 0 {
			t.Errorf("%s: %v", e.Op, problems)
		}
		if got, want := string(panel.Write(sorted(found))), string(panel.Write(sorted(drawn))); got != want {
			t.Errorf("%s as found:\n%s\nas drawn:\n%s", e.Op, got, want)
		}
		for _, c := range corrected.Found {
			if c.Note != e.Note || c.By != e.By {
				t.Errorf("%s: the correction %+v has lost its note", e.Op, c)
			}
		}
		corrected.Found = nil
		if string(panel.Write(corrected)) != string(panel.Write(p)) {
			t.Errorf("%s: the drawing changed", e.Op)
		}
	}
}

// sorted puts wires and parts in an order of their own: a correction that redraws
// a thing sets it at the end.
func sorted(p *panel.Panel) *panel.Panel {
	q := p.Clone()
	for i := range q.Wires {
		for j := i; j > 0 && q.Wires[j].No < q.Wires[j-1].No; j-- {
			q.Wires[j], q.Wires[j-1] = q.Wires[j-1], q.Wires[j]
		}
	}
	for i := range q.Parts {
		for j := i; j > 0 && q.Parts[j].Ref < q.Parts[j-1].Ref; j-- {
			q.Parts[j], q.Parts[j-1] = q.Parts[j-1], q.Parts[j]
		}
	}
	return q
}

// What corrections cannot say is refused, not lost.
func TestAsFoundRefuses(t *testing.T) {
	p := apply(t, nil, loop...)
	for _, e := range []draft.Edit{
		{Op: draft.Strip, Count: 3}, {Op: draft.Mains}, {Op: draft.Name, Name: "x"}, {Op: draft.Condition, Steps: []string{"press S1"}},
		{Op: draft.Label, Ref: "X1", Label: "x"},
	} {
		e.AsFound = true
		_, _, err := draft.Apply(p, []draft.Edit{e}, trade)
		var refused *draft.Error
		if !errors.As(err, &refused) || refused.Code != "draft.not-a-correction" {
			t.Errorf("%s as found: %v", e.Op, err)
		}
	}
}

func TestAdoptAndForget(t *testing.T) {
	p := apply(t, nil, append(loop[:len(loop):len(loop)],
		draft.Edit{Op: draft.Remove, Ref: "W2", AsFound: true},
		draft.Edit{Op: draft.MoveWire, Ref: "W12", End: "to", To: "X2:4", AsFound: true})...)
	if len(p.Found) != 2 {
		t.Fatalf("%d corrections", len(p.Found))
	}
	if q := apply(t, p, draft.Edit{Op: draft.ForgetFound}); len(q.Found) != 1 || q.Found[0].Wire != "W2" {
		t.Errorf("after taking back one: %+v", q.Found)
	}
	q := apply(t, p, draft.Edit{Op: draft.AdoptFound})
	if got := wires(q); len(q.Found) != 0 || strings.Contains(got, "W2 ") || !strings.Contains(got, "W12 B1:- X2:4") {
		t.Errorf("adopted:\n%s", got)
	}
}

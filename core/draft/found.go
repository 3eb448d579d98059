package draft

import (
	"reflect"
	"slices"
	"strconv"

	"halfsplit/core/panel"
)

// correct carries out an edit on the panel as it was found, and writes down what
// became otherwise as corrections; the drawing stays. It fails where an edit
// changes what corrections cannot say: strips as a whole, incoming supplies,
// conditions, the name.
func (d *drafter) correct(e *Edit) {
	drawing := d.p
	before, problems := panel.AsFound(drawing)
	if len(problems) > 0 {
		d.fail("draft.found-broken", strconv.Itoa(len(problems)))
		return
	}
	plain := *e
	plain.AsFound = false
	d.p = before.Clone()
	d.draw(&plain)
	after := d.p
	d.p = drawing
	if d.err != nil {
		return
	}
	list, ok := corrections(before, after)
	if !ok {
		d.fail("draft.not-a-correction", e.Op)
		return
	}
	for i := range list {
		list[i].Note, list[i].By, list[i].When = e.Note, e.By, e.When
	}
	d.p.Found = append(d.p.Found, list...)
}

// corrections lists what turns one panel as found into another; ok is false
// where corrections cannot say it. Things go before things come, so that a wire
// that is drawn otherwise may keep its number.
func corrections(before, after *panel.Panel) (list []panel.Edit, ok bool) {
	if before.Name != after.Name || before.About != after.About || len(before.Strips) != len(after.Strips) ||
		!reflect.DeepEqual(before.Mains, after.Mains) || !reflect.DeepEqual(before.Conditions, after.Conditions) {
		return nil, false
	}
	list = wireCorrections(before, after)
	list = append(list, partCorrections(before, after)...)
	for i := range before.Strips {
		a, z := &before.Strips[i], &after.Strips[i]
		if a.Ref != z.Ref || a.Label != z.Label {
			return nil, false
		}
		list = append(list, stripCorrections(a, z)...)
	}
	return list, true
}

func wireCorrections(before, after *panel.Panel) (list []panel.Edit) {
	was := panel.NewIndex(before)
	is := panel.NewIndex(after)
	for i := range before.Wires {
		a := &before.Wires[i]
		z := is.Wire(a.No)
		if z == nil {
			list = append(list, panel.Edit{Op: panel.OpRemoveWire, Wire: a.No})
			continue
		}
		moved := *a
		moved.From, moved.To = z.From, z.To
		if moved != *z { // another size or colour: that wire is not there, this one is
			wire := *z
			list = append(list, panel.Edit{Op: panel.OpRemoveWire, Wire: a.No}, panel.Edit{Op: panel.OpAddWire, Add: &wire})
			continue
		}
		if a.From != z.From {
			list = append(list, panel.Edit{Op: panel.OpMoveWire, Wire: a.No, End: "from", Point: z.From})
		}
		if a.To != z.To {
			list = append(list, panel.Edit{Op: panel.OpMoveWire, Wire: a.No, End: "to", Point: z.To})
		}
	}
	for i := range after.Wires {
		if z := after.Wires[i]; was.Wire(z.No) == nil {
			list = append(list, panel.Edit{Op: panel.OpAddWire, Add: &z})
		}
	}
	return list
}

func partCorrections(before, after *panel.Panel) (list []panel.Edit) {
	was, is := panel.NewIndex(before), panel.NewIndex(after)
	for i := range before.Parts {
		a := &before.Parts[i]
		z := is.Part(a.Ref)
		if z != nil && reflect.DeepEqual(*a, *z) {
			continue
		}
		list = append(list, panel.Edit{Op: panel.OpRemovePart, Point: a.Ref})
		if z != nil {
			part := *z
			list = append(list, panel.Edit{Op: panel.OpAddPart, Part: &part})
		}
	}
	for i := range after.Parts {
		if z := after.Parts[i]; was.Part(z.Ref) == nil {
			list = append(list, panel.Edit{Op: panel.OpAddPart, Part: &z})
		}
	}
	return list
}

func stripCorrections(a, z *panel.Strip) (list []panel.Edit) {
	same := func(x, y panel.Jumper) bool {
		return slices.Equal(x.Blocks, y.Blocks) && x.Level == y.Level && x.Side == y.Side
	}
	for _, j := range a.Jumpers {
		if !slices.ContainsFunc(z.Jumpers, func(k panel.Jumper) bool { return same(j, k) }) {
			bar := j
			list = append(list, panel.Edit{Op: panel.OpRemoveJumper, Strip: a.Ref, Jump: &bar})
		}
	}
	for _, b := range a.Blocks {
		if blockAt(z, b.No) < 0 {
			list = append(list, panel.Edit{Op: panel.OpRemoveBlock, Point: a.Ref + ":" + b.No})
		}
	}
	for _, b := range z.Blocks {
		if i := blockAt(a, b.No); i < 0 || a.Blocks[i] != b {
			block := b
			list = append(list, panel.Edit{Op: panel.OpSetBlock, Strip: a.Ref, Block: &block})
		}
	}
	for _, j := range z.Jumpers {
		if !slices.ContainsFunc(a.Jumpers, func(k panel.Jumper) bool { return same(j, k) }) {
			bar := j
			list = append(list, panel.Edit{Op: panel.OpAddJumper, Strip: a.Ref, Jump: &bar})
		}
	}
	return list
}

// adopt makes the panel as found the drawing.
func (d *drafter) adopt() {
	n := len(d.p.Found)
	found, problems := panel.AsFound(d.p)
	if len(problems) > 0 {
		d.fail("draft.found-broken", strconv.Itoa(len(problems)))
		return
	}
	d.p = found
	d.say("", "draft.made-adopted", strconv.Itoa(n))
}

// forget takes back the last corrections.
func (d *drafter) forget(e *Edit) {
	n := max(1, e.Count)
	if n > len(d.p.Found) {
		d.fail("draft.forget-count", strconv.Itoa(n), strconv.Itoa(len(d.p.Found)))
		return
	}
	d.p.Found = d.p.Found[:len(d.p.Found)-n]
	d.say("", "draft.made-forgot", strconv.Itoa(n))
}

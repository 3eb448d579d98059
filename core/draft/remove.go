package draft

import (
	"slices"
	"strings"

	"halfsplit/core/panel"
)

// remove takes a thing away, and the wires that would end nowhere.
func (d *drafter) remove(e *Edit) {
	if s, i := d.findBlock(e.Ref); s != nil && i >= 0 {
		d.removeBlock(s, i)
		return
	}
	ref := panel.Designation(e.Ref)
	switch {
	case d.findPart(ref) != nil:
		d.removeWires(func(end string) bool { return onPart(end, ref) })
		d.p.Parts = slices.DeleteFunc(d.p.Parts, func(p panel.Part) bool { return panel.Designation(p.Ref) == ref })
	case d.findStrip(ref) != nil:
		d.removeWires(func(end string) bool { return onPart(end, ref) })
		d.p.Strips = slices.DeleteFunc(d.p.Strips, func(s panel.Strip) bool { return panel.Designation(s.Ref) == ref })
	case slices.ContainsFunc(d.p.Mains, func(m panel.Mains) bool { return panel.Designation(m.Ref) == ref }):
		d.removeWires(func(end string) bool { return onPart(end, ref) })
		d.p.Mains = slices.DeleteFunc(d.p.Mains, func(m panel.Mains) bool { return panel.Designation(m.Ref) == ref })
	case d.findWire(e.Ref) != nil:
		d.p.Wires = slices.DeleteFunc(d.p.Wires, func(w panel.Wire) bool { return w.No == e.Ref })
	default:
		refs := sorted(d.refs())
		d.refuse(refs, "draft.unknown-thing", e.Ref, panel.Nearest(e.Ref, refs))
		return
	}
	d.forgetPositions(ref)
	d.say("", "draft.gone", e.Ref)
}

func (d *drafter) removeBlock(s *panel.Strip, i int) {
	no := s.Blocks[i].No
	d.removeWires(func(end string) bool { return d.onBlock(end, s, i) })
	s.Jumpers = leave(s.Jumpers, no)
	s.Blocks = slices.Delete(s.Blocks, i, i+1)
	d.forgetPositions(s.Ref + ":" + no)
	d.say("", "draft.gone", s.Ref+":"+no)
}

// leave takes a block out of the bars it is in; a bar of one block is none.
func leave(bars []panel.Jumper, no string) []panel.Jumper {
	var rest []panel.Jumper
	for _, j := range bars {
		j.Blocks = slices.DeleteFunc(slices.Clone(j.Blocks), func(b string) bool { return b == no })
		if len(j.Blocks) > 1 {
			rest = append(rest, j)
		}
	}
	return rest
}

func (d *drafter) removeWires(ends func(string) bool) {
	d.p.Wires = slices.DeleteFunc(d.p.Wires, func(w panel.Wire) bool {
		gone := ends(w.From) || ends(w.To)
		if gone {
			d.say("", "draft.gone-wire", w.No, w.From, w.To)
		}
		return gone
	})
}

// forgetPositions takes a thing out of the conditions that set it.
func (d *drafter) forgetPositions(ref string) {
	for i := range d.p.Conditions {
		for key := range d.p.Conditions[i].Set {
			if of(key, ref) {
				delete(d.p.Conditions[i].Set, key)
			}
		}
	}
}

// of says that a name is that of ref, or of a terminal or level of it.
func of(name, ref string) bool {
	name = panel.Designation(name)
	if name == ref {
		return true
	}
	rest, ok := strings.CutPrefix(name, ref)
	return ok && (rest[0] == ':' || rest[0] == '.' && strings.Contains(ref, ":"))
}

// rename gives a thing another name wherever it is named.
func (d *drafter) rename(e *Edit) {
	if s, i := d.findBlock(e.Ref); s != nil && i >= 0 {
		d.renameBlock(s, i, e.Name)
		return
	}
	if w := d.findWire(e.Ref); w != nil && d.findPart(e.Ref) == nil && d.findStrip(e.Ref) == nil {
		if d.newWire(e.Name) {
			w.No = e.Name
			d.say(w.No, "draft.made-rename", e.Ref, e.Name)
		}
		return
	}
	was := panel.Designation(e.Ref)
	if !d.refs()[was] {
		refs := sorted(d.refs())
		d.refuse(refs, "draft.unknown-thing", e.Ref, panel.Nearest(e.Ref, refs))
		return
	}
	if !d.newRef(e.Name) {
		return
	}
	for _, field := range d.refFields() {
		if panel.Designation(*field) == was {
			*field = e.Name
		}
	}
	d.renamePoints(func(pt *panel.Point) bool {
		if pt.Device != was {
			return false
		}
		pt.Device = e.Name
		return true
	})
	d.renamePositions(was, e.Name)
	d.say(e.Name, "draft.made-rename", was, e.Name)
}

func (d *drafter) refFields() []*string {
	var list []*string
	for i := range d.p.Mains {
		list = append(list, &d.p.Mains[i].Ref)
	}
	for i := range d.p.Strips {
		list = append(list, &d.p.Strips[i].Ref)
	}
	for i := range d.p.Parts {
		list = append(list, &d.p.Parts[i].Ref)
	}
	return list
}

func (d *drafter) renameBlock(s *panel.Strip, i int, no string) {
	was := s.Blocks[i].No
	if !plainName(no) {
		d.fail("draft.marking-form", no)
		return
	}
	if blockAt(s, no) >= 0 {
		d.fail("draft.block-taken", s.Ref, no)
		return
	}
	ref := panel.Designation(s.Ref)
	d.renamePoints(func(pt *panel.Point) bool {
		at, k := d.findBlock(pt.Device + ":" + pt.Terminal)
		if at != s || k != i {
			return false
		}
		pt.Terminal = no + strings.TrimPrefix(pt.Terminal, was)
		return true
	})
	s.Blocks[i].No = no
	for j := range s.Jumpers {
		for k, b := range s.Jumpers[j].Blocks {
			if b == was {
				s.Jumpers[j].Blocks[k] = no
			}
		}
	}
	d.renamePositions(ref+":"+was, ref+":"+no)
	d.say(s.Ref+":"+no, "draft.made-rename", s.Ref+":"+was, s.Ref+":"+no)
}

// renamePoints rewrites the ends of wires that change is true for.
func (d *drafter) renamePoints(change func(*panel.Point) bool) {
	for i := range d.p.Wires {
		for _, end := range []*string{&d.p.Wires[i].From, &d.p.Wires[i].To} {
			if pt, ok := panel.ParsePoint(*end); ok && change(&pt) {
				*end = pt.String()
			}
		}
	}
}

// renamePositions renames a thing in the conditions and their steps.
func (d *drafter) renamePositions(was, now string) {
	for i := range d.p.Conditions {
		c := &d.p.Conditions[i]
		for _, key := range sorted(c.Set) {
			if of(key, was) {
				value := c.Set[key]
				delete(c.Set, key)
				c.Set[now+strings.TrimPrefix(panel.Designation(key), was)] = value
			}
		}
		for k, step := range c.Steps {
			fields := strings.Fields(step)
			for n := range fields {
				if of(fields[n], was) {
					fields[n] = now + strings.TrimPrefix(panel.Designation(fields[n]), was)
				}
			}
			c.Steps[k] = strings.Join(fields, " ")
		}
	}
}

package draft

import (
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// usualSize stands in where neither the edit nor an earlier wire says a size:
// a common control wire. Choice.
const usualSize = "0.75 mm2"

// wire draws a conductor between two places.
func (d *drafter) wire(e *Edit) {
	from, to := d.end(e.From, e.To), d.end(e.To, e.From)
	if d.err != nil {
		return
	}
	if from == to {
		d.fail("draft.wire-to-itself", from)
		return
	}
	no := e.Ref
	if no == "" {
		no = d.nextWire()
	}
	if !d.newWire(no) {
		return
	}
	w := panel.Wire{No: no, From: from, To: to, Size: e.Size, Length: e.Length, Colour: e.Colour, Cable: e.Cable, Core: e.Core}
	if w.Size == "" {
		w.Size = usualSize
		if n := len(d.p.Wires); n > 0 && d.p.Wires[n-1].Size != "" {
			w.Size = d.p.Wires[n-1].Size
		}
	}
	d.p.Wires = append(d.p.Wires, w)
	d.say(no, "draft.made-wire", no, from, to, w.Size)
}

// newWire checks the number of a new wire.
func (d *drafter) newWire(no string) bool {
	switch {
	case !plainName(no):
		d.fail("draft.wire-form", no)
	case d.findWire(no) != nil:
		d.fail("draft.wire-taken", no, d.nextWire())
	}
	return d.err == nil
}

// end completes the end of a wire; it fails where a text names no terminal.
func (d *drafter) end(text, other string) string {
	if text == "" {
		d.fail("draft.end-missing")
		return ""
	}
	pt, ok := panel.ParsePoint(text)
	if !ok {
		d.refuse(d.terminals(text), "draft.bad-point", text)
		return ""
	}
	if pt.Wire != "" {
		d.fail("draft.point-is-strand", text)
		return ""
	}
	if known := d.terminals(pt.Device); len(known) == 0 {
		refs := sorted(d.refs())
		d.refuse(refs, "draft.unknown-device", text, pt.Device, panel.Nearest(pt.Device, refs))
	} else if s, i := d.findBlock(text); s != nil && i < 0 {
		d.refuse(known, "draft.unknown-block", s.Ref, pt.Terminal, panel.Nearest(pt.Terminal, markings(s)))
	}
	return d.side(text, other)
}

// terminals are the points of one device, for a person to choose from.
func (d *drafter) terminals(ref string) []string {
	var names []string
	if s := d.findStrip(ref); s != nil {
		for _, no := range markings(s) {
			names = append(names, s.Ref+":"+no)
		}
		return names
	}
	var k *parts.Kind
	part := d.findPart(ref)
	if part != nil {
		k, _ = parts.Lookup(part.Kind)
	} else {
		for i := range d.p.Mains {
			if panel.Designation(d.p.Mains[i].Ref) == panel.Designation(ref) {
				k, part = mainsKind(), &panel.Part{Ref: d.p.Mains[i].Ref}
			}
		}
	}
	if k == nil || k.Terminals == nil {
		return nil
	}
	for _, t := range k.Terminals(part) {
		names = append(names, part.Ref+":"+t.Name)
	}
	return names
}

// moveWire lands an end of a wire elsewhere.
func (d *drafter) moveWire(e *Edit) {
	w := d.needWire(e.Ref)
	if w == nil {
		return
	}
	end, other := &w.To, w.From
	switch e.End {
	case "from":
		end, other = &w.From, w.To
	case "to":
	default:
		d.refuse([]string{"from", "to"}, "draft.unknown-end", e.End)
		return
	}
	was, now := *end, d.end(e.To, other)
	if d.err != nil {
		return
	}
	if now == other {
		d.fail("draft.wire-to-itself", now)
		return
	}
	*end = now
	d.say(w.No, "draft.made-move", w.No, was, now)
}

// between puts a part into a wire: the wire ends at its first terminal, and a new
// one goes on from its second.
func (d *drafter) between(e *Edit) {
	w := d.needWire(e.Ref)
	if w == nil {
		return
	}
	no, far := w.No, w.To
	add := *e
	add.Ref = e.Name
	part := d.addPart(&add)
	if d.err != nil {
		return
	}
	ends := d.terminals(part.Ref)
	if len(ends) < 2 {
		d.fail("draft.between-ends", part.Ref)
		return
	}
	w = d.findWire(no)
	w.To = ends[0]
	next := *w
	next.No, next.From, next.To = d.nextWire(), ends[1], far
	next.Length, next.Cable, next.Core = "", "", "" // not known of a piece nobody has drawn
	d.p.Wires = append(d.p.Wires, next)
	d.say(no, "draft.made-move", no, far, ends[0])
	d.say(next.No, "draft.made-wire", next.No, next.From, next.To, next.Size)
}

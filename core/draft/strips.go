package draft

import (
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// strip makes a strip, or sets more blocks at the end of one that is there.
func (d *drafter) strip(e *Edit) {
	k, _ := d.blockKind(e)
	if k == nil {
		return
	}
	s, made := d.findStrip(e.Ref), false
	if s == nil || e.Ref == "" {
		ref := e.Ref
		if ref == "" {
			ref = d.nextRef("X")
		}
		if !d.newRef(ref) {
			return
		}
		d.p.Strips = append(d.p.Strips, panel.Strip{Ref: ref, Label: e.Label, Blocks: []panel.Block{}})
		s, made = &d.p.Strips[len(d.p.Strips)-1], true
	}
	first, step := e.First, e.Step
	if step == 0 {
		step = 1
	}
	if first == "" {
		first = "1"
		if n := len(s.Blocks); n > 0 {
			next, ok := countOn(s.Blocks[n-1].No, step)
			if !ok {
				d.fail("draft.first-missing", s.Ref, s.Blocks[n-1].No)
				return
			}
			first = next
		}
	}
	have := make(map[string]bool, len(s.Blocks))
	for i := range s.Blocks {
		have[s.Blocks[i].No] = true
	}
	var last string
	for i := range e.Count {
		no, ok := countOn(first, i*step)
		switch {
		case e.Count == 1:
			no = first
		case !ok:
			d.fail("draft.first-counts-not", first)
			return
		}
		if !plainName(no) {
			d.fail("draft.marking-form", no)
			return
		}
		if have[no] {
			d.fail("draft.block-taken", s.Ref, no)
			return
		}
		have[no], last = true, no
		s.Blocks = append(s.Blocks, panel.Block{No: no, Type: k.Name, Fuse: e.Fuse, Indicator: e.Indicator})
	}
	switch {
	case e.Count == 0 && !made:
		d.fail("draft.count-missing", s.Ref)
	case e.Count == 0:
		d.say(s.Ref, "draft.made-strip-empty", s.Ref)
	default:
		d.say(s.Ref, "draft.made-strip", s.Ref, strconv.Itoa(e.Count), first, last, k.Name)
	}
}

// blockKind is the kind of the blocks of an edit: a plain one where it says none.
func (d *drafter) blockKind(e *Edit) (*parts.Kind, *Candidate) {
	if e.Kind == "" && e.Word == "" {
		return plainBlock(), nil
	}
	return d.kind(e, true)
}

// plainBlock is what a strip is made of where nobody says otherwise: the first
// block of the catalogue.
func plainBlock() *parts.Kind {
	for _, k := range parts.Kinds() {
		if k.Block {
			return k
		}
	}
	panic("draft: the catalogue has no terminal block")
}

// blocks changes the blocks an edit names.
func (d *drafter) blocks(e *Edit) {
	s, list := d.named(e)
	if d.err != nil {
		return
	}
	var k *parts.Kind
	var guess *Candidate
	if e.Kind != "" || e.Word != "" {
		if k, guess = d.kind(e, true); k == nil {
			return
		}
	}
	fuse := e.Fuse
	if fuse == "" && guess != nil {
		fuse = guess.Fuse
	}
	for _, i := range list {
		b := &s.Blocks[i]
		if k != nil {
			b.Type = k.Name
			if !k.Fused {
				b.Fuse, b.Indicator = "", ""
			}
		}
		set(&b.Fuse, fuse)
		set(&b.Indicator, e.Indicator)
		set(&b.Label, e.Label)
		d.clear(e.Clear, map[string]*string{"fuse": &b.Fuse, "indicator": &b.Indicator, "label": &b.Label})
	}
	if k != nil {
		d.sides(s)
	}
	d.say(s.Ref, "draft.made-blocks", s.Ref, strings.Join(ranges(s, list), ", "), s.Blocks[list[0]].Type, fuse)
}

// ranges names blocks of a strip, neighbours as "5 to 8".
func ranges(s *panel.Strip, list []int) []string {
	var names []string
	for a := 0; a < len(list); {
		z := a
		for z+1 < len(list) && list[z+1] == list[z]+1 {
			z++
		}
		name := s.Blocks[list[a]].No
		if z > a {
			name += "…" + s.Blocks[list[z]].No
		}
		names = append(names, name)
		a = z + 1
	}
	return names
}

// set puts a text where one is given.
func set(field *string, text string) {
	if text != "" {
		*field = text
	}
}

// clear empties the named fields and fails on a name that is none.
func (d *drafter) clear(names []string, fields map[string]*string) {
	for _, name := range names {
		f := fields[name]
		if f == nil {
			d.refuse(sorted(fields), "draft.unknown-field", name, strings.Join(sorted(fields), ", "))
			return
		}
		*f = ""
	}
}

// jumper puts a bridge bar into some blocks, and takes in the bars it touches: a
// bar from 5 to 8 beside one from 8 to 10 is one piece of metal only where a
// person says so, so the two stay apart.
func (d *drafter) jumper(e *Edit) {
	s, list := d.named(e)
	if d.err != nil {
		return
	}
	if len(list) < 2 {
		d.fail("draft.jumper-short", s.Ref)
		return
	}
	side := e.Side
	if side != "" && side != "in" && side != "out" {
		d.refuse([]string{"in", "out"}, "draft.unknown-side", side)
		return
	}
	j := panel.Jumper{Level: e.Level, Side: side}
	for _, i := range list {
		b := &s.Blocks[i]
		j.Blocks = append(j.Blocks, b.No)
		if side == "" && sided(b.Type, e.Level) {
			j.Side = "in" // where the supply comes from: common practice
		}
	}
	for _, have := range s.Jumpers {
		if slices.Equal(have.Blocks, j.Blocks) && have.Level == j.Level && have.Side == j.Side {
			d.fail("draft.jumper-exists", s.Ref, strings.Join(ranges(s, list), ", "))
			return
		}
	}
	s.Jumpers = append(s.Jumpers, j)
	d.say(s.Ref, "draft.made-jumper", s.Ref, strings.Join(ranges(s, list), ", "))
}

// unjumper takes the bars out of some blocks: blocks at the end of a bar leave
// it, a bar that would lose its middle is taken out whole.
func (d *drafter) unjumper(e *Edit) {
	s, list := d.named(e)
	if d.err != nil {
		return
	}
	names := map[string]bool{}
	for _, i := range list {
		names[s.Blocks[i].No] = true
	}
	n := len(s.Jumpers)
	s.Jumpers = slices.DeleteFunc(s.Jumpers, func(j panel.Jumper) bool {
		return (e.Level == 0 || j.Level == e.Level) && !slices.ContainsFunc(j.Blocks, func(no string) bool { return !names[no] })
	})
	if len(s.Jumpers) == n {
		d.fail("draft.no-jumper", s.Ref, strings.Join(ranges(s, list), ", "))
		return
	}
	d.say(s.Ref, "draft.gone-jumper", s.Ref, strings.Join(ranges(s, list), ", "))
}

// sided says whether the two sides of a block's level are two pieces of metal.
func sided(kind string, level int) bool {
	k, ok := parts.Lookup(kind)
	return ok && slices.ContainsFunc(k.Metals, func(m parts.Metal) bool { return m.Side != "" && (level == 0 || m.Level == level) })
}

// leveled says whether a block has several levels.
func leveled(kind string) bool {
	k, ok := parts.Lookup(kind)
	return ok && slices.ContainsFunc(k.Metals, func(m parts.Metal) bool { return m.Level > 0 })
}

// sides gives the wires that land on a strip the side their block now asks for.
func (d *drafter) sides(s *panel.Strip) {
	for i := range d.p.Wires {
		w := &d.p.Wires[i]
		if onPart(w.From, s.Ref) {
			w.From = d.side(w.From, w.To)
		}
		if onPart(w.To, s.Ref) {
			w.To = d.side(w.To, w.From)
		}
	}
}

// side completes the end of a wire on a block whose two sides are two pieces of
// metal: out where its other end is in the field, in otherwise, as strips are
// wired (common practice). A side that is given stays.
func (d *drafter) side(text, other string) string {
	pt, ok := panel.ParsePoint(text)
	if !ok {
		return strings.TrimSpace(text)
	}
	if pt.Side != "" {
		return pt.String()
	}
	s, i := d.findBlock(text)
	if s == nil || i < 0 {
		return pt.String()
	}
	level := 0
	if s.Blocks[i].No != pt.Terminal {
		level, _ = strconv.Atoi(pt.Terminal[len(s.Blocks[i].No)+1:])
	}
	if level == 0 && leveled(s.Blocks[i].Type) || !sided(s.Blocks[i].Type, level) {
		return pt.String()
	}
	pt.Side = "in"
	if far, ok := panel.ParsePoint(other); ok {
		if part := d.findPart(far.Device); part != nil && part.At == "field" {
			pt.Side = "out"
		}
	}
	return pt.String()
}

package draft

import (
	"maps"
	"slices"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

func sorted[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// refs are the designations that are taken.
func (d *drafter) refs() map[string]bool {
	refs := make(map[string]bool, len(d.p.Mains)+len(d.p.Strips)+len(d.p.Parts))
	for i := range d.p.Mains {
		refs[panel.Designation(d.p.Mains[i].Ref)] = true
	}
	for i := range d.p.Strips {
		refs[panel.Designation(d.p.Strips[i].Ref)] = true
	}
	for i := range d.p.Parts {
		refs[panel.Designation(d.p.Parts[i].Ref)] = true
	}
	return refs
}

func (d *drafter) findStrip(ref string) *panel.Strip {
	for i := range d.p.Strips {
		if panel.Designation(d.p.Strips[i].Ref) == panel.Designation(ref) {
			return &d.p.Strips[i]
		}
	}
	return nil
}

func (d *drafter) findPart(ref string) *panel.Part {
	for i := range d.p.Parts {
		if panel.Designation(d.p.Parts[i].Ref) == panel.Designation(ref) {
			return &d.p.Parts[i]
		}
	}
	return nil
}

func (d *drafter) findWire(no string) *panel.Wire {
	i := slices.IndexFunc(d.p.Wires, func(w panel.Wire) bool { return w.No == no })
	if i < 0 {
		return nil
	}
	return &d.p.Wires[i]
}

func (d *drafter) findCondition(name string) *panel.Condition {
	i := slices.IndexFunc(d.p.Conditions, func(c panel.Condition) bool { return c.Name == name })
	if i < 0 {
		return nil
	}
	return &d.p.Conditions[i]
}

// findBlock is the block a text such as "X1:4" names, with its strip.
func (d *drafter) findBlock(text string) (*panel.Strip, int) {
	pt, ok := panel.ParsePoint(text)
	if !ok || pt.Wire != "" {
		return nil, -1
	}
	s := d.findStrip(pt.Device)
	if s == nil {
		return nil, -1
	}
	if i := blockAt(s, pt.Terminal); i >= 0 {
		return s, i
	}
	if dot := strings.LastIndexByte(pt.Terminal, '.'); dot > 0 {
		return s, blockAt(s, pt.Terminal[:dot])
	}
	return s, -1
}

func blockAt(s *panel.Strip, no string) int {
	return slices.IndexFunc(s.Blocks, func(b panel.Block) bool { return b.No == no })
}

func markings(s *panel.Strip) []string {
	var list []string
	for i := range s.Blocks {
		list = append(list, s.Blocks[i].No)
	}
	return list
}

// onBlock says whether a text names a point of that block.
func (d *drafter) onBlock(text string, s *panel.Strip, i int) bool {
	at, k := d.findBlock(text)
	return at == s && k == i && at != nil
}

// onPart says whether a text names a terminal of ref.
func onPart(text, ref string) bool {
	pt, ok := panel.ParsePoint(text)
	return ok && pt.Device == panel.Designation(ref)
}

// need is what was found; it fails where that is nothing, with what there is.
func need[T any](d *drafter, found *T, list []T, name func(*T) string, code, text string) *T {
	if found == nil {
		var names []string
		for i := range list {
			names = append(names, name(&list[i]))
		}
		d.refuse(names, code, text, panel.Nearest(text, names))
	}
	return found
}

func (d *drafter) needStrip(ref string) *panel.Strip {
	return need(d, d.findStrip(ref), d.p.Strips, func(s *panel.Strip) string { return s.Ref }, "draft.unknown-strip", ref)
}

func (d *drafter) needPart(ref string) *panel.Part {
	return need(d, d.findPart(ref), d.p.Parts, func(p *panel.Part) string { return p.Ref }, "draft.unknown-part", ref)
}

func (d *drafter) needWire(no string) *panel.Wire {
	return need(d, d.findWire(no), d.p.Wires, func(w *panel.Wire) string { return w.No }, "draft.unknown-wire", no)
}

func (d *drafter) needCondition(name string) *panel.Condition {
	return need(d, d.findCondition(name), d.p.Conditions, func(c *panel.Condition) string { return c.Name }, "draft.unknown-condition", name)
}

// named are the strip of an edit and the blocks it names on it; d.err says why not.
func (d *drafter) named(e *Edit) (s *panel.Strip, list []int) {
	if s = d.needStrip(e.Ref); s != nil {
		list = d.some(e, s)
	}
	return s, list
}

// some are the blocks an edit names on s: a range as they stand on the rail, a
// list, or neither, which is every one of them.
func (d *drafter) some(e *Edit, s *panel.Strip) []int {
	at := func(no string) int {
		i := blockAt(s, no)
		if i < 0 {
			d.refuse(markings(s), "draft.unknown-block", s.Ref, no, panel.Nearest(no, markings(s)))
		}
		return i
	}
	var list []int
	switch {
	case len(e.List) > 0:
		for _, no := range e.List {
			if i := at(no); i >= 0 && !slices.Contains(list, i) {
				list = append(list, i)
			}
		}
		slices.Sort(list)
	case e.From != "" || e.To != "":
		from, to := e.From, e.To
		if from == "" {
			from = to
		} else if to == "" {
			to = from
		}
		a, z := at(from), at(to)
		for i := min(a, z); i <= max(a, z) && d.err == nil; i++ {
			list = append(list, i)
		}
	default:
		d.fail("draft.blocks-missing", s.Ref)
	}
	if d.err != nil {
		return nil
	}
	return list
}

// newRef checks the designation of something new.
func (d *drafter) newRef(ref string) bool {
	switch {
	case !plainName(ref) || ref != panel.Designation(ref):
		d.fail("draft.ref-form", ref)
	case d.refs()[ref]:
		d.fail("draft.ref-taken", ref)
	}
	return d.err == nil
}

// plainName says that a name has none of the characters that points and faults
// are written with, and is there.
func plainName(name string) bool { return name != "" && !strings.ContainsAny(name, ":/@~=;, \t\n") }

// kind is the kind an edit names, or the best guess of its word.
func (d *drafter) kind(e *Edit, block bool) (*parts.Kind, *Candidate) {
	if e.Kind != "" {
		k, ok := parts.Lookup(e.Kind)
		if !ok || k.Block != block || k == mainsKind() {
			d.refuse(kindNames(block), "draft.unknown-kind", e.Kind, panel.Nearest(e.Kind, kindNames(block)))
			return nil, nil
		}
		return k, nil
	}
	for _, c := range Guess(e.Word, d.trade) {
		if k, _ := parts.Lookup(c.Kind); k.Block == block {
			return k, &c
		}
	}
	if e.Word == "" {
		d.refuse(kindNames(block), "draft.kind-missing")
	} else {
		d.refuse(kindNames(block), "draft.nothing-like", e.Word)
	}
	return nil, nil
}

// kindNames lists the kinds that stand on strips, or those that are parts.
func kindNames(block bool) []string {
	var names []string
	for _, k := range parts.Kinds() {
		if k.Block == block && k != mainsKind() {
			names = append(names, k.Name)
		}
	}
	return names
}

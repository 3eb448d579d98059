package draft

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// copy makes a part again, Count times, with what belongs to it: designations,
// tags, markings, channels and wire numbers counted on. It fails where the count
// meets something that is there already, and then nothing is made.
func (d *drafter) copy(e *Edit) {
	part := d.needPart(e.Ref)
	if part == nil {
		return
	}
	if e.Count < 1 {
		d.fail("draft.copies-missing", part.Ref)
		return
	}
	c := &copier{drafter: d, pattern: d.pattern(part.Ref), source: part.Ref, tag: part.Tag, cores: map[string]int{}}
	c.order = slices.Sorted(maps.Keys(c.wires))
	for _, i := range c.order {
		c.cores[c.p.Wires[i].Cable]++
	}
	c.numbering(e.Count)
	for k := 1; k <= e.Count && d.err == nil; k++ {
		c.one(k)
	}
}

// A copier makes the copies of one pattern.
type copier struct {
	*drafter
	*pattern
	source, tag string
	order       []int          // wires of the pattern, in the document's order
	step        int            // what a wire number is counted on by; 0: the next free one
	cores       map[string]int // cable → how many of its cores the pattern has
}

// numbering decides how wire numbers count on: by as many as the pattern has,
// where that leaves all of them free, otherwise each takes the next free one.
func (c *copier) numbering(count int) {
	taken := map[string]bool{}
	for i := range c.p.Wires {
		taken[c.p.Wires[i].No] = true
	}
	numbers := map[int]bool{}
	for _, i := range c.order {
		_, n, _ := number(c.p.Wires[i].No)
		if n < 0 {
			return
		}
		numbers[n] = true
	}
	if len(numbers) < len(c.order) {
		return
	}
	step := stride(numbers)
	for _, i := range c.order {
		for k := 1; k <= count; k++ {
			no, ok := countOn(c.p.Wires[i].No, k*step)
			if !ok || taken[no] {
				return
			}
			taken[no] = true
		}
	}
	c.step = step
}

// one makes the k-th copy.
func (c *copier) one(k int) {
	part := copyPart(c.findPart(c.source))
	part.Ref = c.counted(c.source, k)
	if c.err != nil || !c.newRef(part.Ref) {
		return
	}
	if c.tag != "" {
		part.Tag = c.counted(c.tag, k)
		if c.err != nil || !c.newTag(part.Tag) {
			return
		}
	}
	part.Label = c.relabel(part.Label, k)
	c.p.Parts = append(c.p.Parts, part)
	c.say(part.Ref, "draft.made-part", part.Ref, part.Kind, part.Tag)
	for i := range c.p.Conditions {
		set := c.p.Conditions[i].Set
		for _, key := range sorted(set) {
			if of(key, panel.Designation(c.source)) {
				set[part.Ref+strings.TrimPrefix(panel.Designation(key), panel.Designation(c.source))] = set[key]
			}
		}
	}
	for _, name := range sorted(c.marks) {
		if c.block(name, k); c.err != nil {
			return
		}
	}
	for _, i := range c.order {
		if c.wireCopy(i, k, part.Ref); c.err != nil {
			return
		}
	}
}

func copyPart(p *panel.Part) panel.Part {
	q := *p
	q.Ratings, q.Contacts = maps.Clone(p.Ratings), slices.Clone(p.Contacts)
	return q
}

// counted is a name counted on; it fails where the name has no number.
func (c *copier) counted(name string, by int) string {
	next, ok := countOn(name, by)
	if !ok {
		c.fail("draft.copy-counts-not", name)
	}
	return next
}

// relabel gives a label of the pattern to its copy: the tag or designation in it
// is the copy's; a number that is its last word counts on.
func (c *copier) relabel(label string, k int) string {
	for _, name := range []string{c.tag, c.source} {
		if next, ok := countOn(name, k); ok && name != "" && strings.Contains(label, name) {
			return strings.ReplaceAll(label, name, next)
		}
	}
	head, n, tail := number(label)
	if n >= 0 && tail == "" && strings.HasSuffix(head, " ") {
		next, _ := countOn(label, k)
		return next
	}
	return label
}

// mark is where a block of the pattern has its counterpart in copy k.
func (c *copier) mark(name string, k int) string {
	ref, _, _ := strings.Cut(name, ":")
	return c.counted(c.marks[name], k*stride(c.numbers[ref]))
}

// block makes the counterpart of one block, or takes a free one that is there.
func (c *copier) block(name string, k int) {
	ref, _, _ := strings.Cut(name, ":")
	s := c.findStrip(ref)
	no := c.mark(name, k)
	if c.err != nil {
		return
	}
	like := s.Blocks[blockAt(s, c.marks[name])]
	like.No, like.Label = no, c.relabel(like.Label, k)
	if i := blockAt(s, no); i >= 0 {
		for _, w := range c.p.Wires {
			if c.onBlock(w.From, s, i) || c.onBlock(w.To, s, i) {
				c.fail("draft.copy-block-taken", s.Ref+":"+no, w.No)
				return
			}
		}
		s.Blocks[i] = like
	} else {
		s.Blocks = slices.Insert(s.Blocks, after(s, no), like)
	}
	c.say(s.Ref+":"+no, "draft.made-block", s.Ref+":"+no, like.Type, like.Fuse)
	for j := range s.Jumpers {
		bar := &s.Jumpers[j]
		if slices.Contains(bar.Blocks, c.marks[name]) && !slices.Contains(bar.Blocks, no) {
			bar.Blocks = append(bar.Blocks, no)
			slices.SortStableFunc(bar.Blocks, func(a, b string) int { return blockAt(s, a) - blockAt(s, b) })
			c.say(s.Ref, "draft.made-jumper-longer", s.Ref, no)
		}
	}
}

// after is where a new block stands: behind the one with the next smaller number
// of the same form, at the end where there is none.
func after(s *panel.Strip, no string) int {
	head, n, tail := number(no)
	best, place := -1, len(s.Blocks)
	for i := range s.Blocks {
		if h, m, t := number(s.Blocks[i].No); h == head && t == tail && m < n && m > best {
			best, place = m, i+1
		}
	}
	return place
}

// wireCopy makes the counterpart of wire i in copy k.
func (c *copier) wireCopy(i, k int, ref string) {
	w := c.p.Wires[i]
	was := w.No
	if c.step > 0 {
		w.No = c.counted(w.No, k*c.step)
	} else {
		w.No = c.nextWire()
	}
	w.From, w.To = c.endCopy(w.From, k, ref), c.endCopy(w.To, k, ref)
	if c.err != nil || !c.newWire(w.No) {
		return
	}
	c.core(&w, was, k)
	c.p.Wires = append(c.p.Wires, w)
	c.say(w.No, "draft.made-wire", w.No, w.From, w.To, w.Size)
}

// endCopy is where the counterpart of a wire's end lands.
func (c *copier) endCopy(text string, k int, ref string) string {
	pt, ok := panel.ParsePoint(text)
	if !ok {
		return text
	}
	if pt.Device == panel.Designation(c.source) {
		pt.Device = ref
		return pt.String()
	}
	if s, i := c.findBlock(text); s != nil && i >= 0 {
		name := s.Ref + ":" + s.Blocks[i].No
		if c.marks[name] != "" {
			pt.Terminal = c.mark(name, k) + strings.TrimPrefix(pt.Terminal, c.marks[name])
		}
		return pt.String()
	}
	card, n, ok := c.channel(text)
	if !ok || c.channels[card] == nil {
		return text
	}
	n += k * stride(c.channels[card])
	pt.Terminal = strconv.Itoa(n)
	part := c.findPart(card)
	kind, _ := parts.Lookup(part.Kind)
	if !slices.ContainsFunc(kind.Terminals(part), func(t parts.Terminal) bool { return t.Name == pt.Terminal }) {
		c.fail("draft.copy-no-channel", card, pt.Terminal)
		return ""
	}
	for _, w := range c.p.Wires {
		for _, end := range []string{w.From, w.To} {
			if have, ok := panel.ParsePoint(end); ok && have.Device == pt.Device && have.Terminal == pt.Terminal {
				c.fail("draft.copy-channel-taken", pt.String(), w.No)
				return ""
			}
		}
	}
	return pt.String()
}

// core gives a copied wire its place in a cable: the next cable where the whole
// cable belongs to the pattern, the next cores of the same one otherwise. Where
// neither can be counted, the copy is left without, and said so.
func (c *copier) core(w *panel.Wire, was string, k int) {
	if w.Cable == "" {
		return
	}
	inside := 0
	for i := range c.p.Wires {
		if c.p.Wires[i].Cable == w.Cable {
			inside++
		}
	}
	cable, core, ok := w.Cable, w.Core, false
	if inside == c.cores[w.Cable] {
		cable, ok = countOn(w.Cable, k)
	} else {
		core, ok = countOn(w.Core, k*c.cores[w.Cable])
	}
	taken := slices.ContainsFunc(c.p.Wires, func(x panel.Wire) bool { return x.Cable == cable && x.Core == core && core != "" })
	if !ok || taken {
		c.say(w.No, "draft.made-no-core", w.No, was, w.Cable)
		w.Cable, w.Core = "", ""
		return
	}
	w.Cable, w.Core = cable, core
}

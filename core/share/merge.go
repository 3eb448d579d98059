package share

import (
	"slices"
)

// Which side of a conflict stands.
const (
	Ours   = "ours"
	Theirs = "theirs"
	Both   = "both" // of two texts: one after the other
)

// A Conflict is a place that the two sides have differently, where nothing says
// who is right: both changed it, or there is no common ancestor.
type Conflict struct {
	Difference        // Was is ours, Is is theirs
	Base       string // what it was before; empty where that is not known
	Taken      string // Ours, Theirs or Both: what stands in the document
	Both       bool   // Both may be chosen: these are sentences
	Chosen     bool   // a person chose it
}

// A Merged document, with what is still to be decided.
type Merged struct {
	Document  []byte
	Taken     []Difference // what came from their side without a conflict, from ours to the result
	Conflicts []Conflict
}

// Open counts the conflicts nobody has decided.
func (m *Merged) Open() int {
	n := 0
	for i := range m.Conflicts {
		if !m.Conflicts[i].Chosen {
			n++
		}
	}
	return n
}

// Merge brings two copies of a document together. base is the one both came from;
// nil where it is not known, and then every difference is a conflict, but for
// things only one side has: they stay, since whether the other has removed them
// cannot be known, and are told as conflicts too.
//
// choices say, by the Path of a conflict, which side stands. Without a choice
// ours stands in the document and theirs in the conflict.
//
// Drills are not merged: what one hides fits its own call, plan and traps, and its
// seal fits only its own text. The error is an *Error.
func Merge(base, ours, theirs []byte, choices map[string]string) (*Merged, error) {
	a, b, kind, err := pair(ours, theirs)
	if err != nil {
		return nil, err
	}
	if kind == Drill {
		return nil, &Error{Code: "share.drills-not-merged"}
	}
	m := &merger{choices: choices, known: base != nil}
	var o *tree
	if base != nil {
		if o, _, err = load(base, kind); err != nil {
			return nil, err
		}
	}
	result := m.merge(o, a, b, place{})
	out := &Merged{Document: descend(tidy(kind, result), ours, theirs), Conflicts: m.conflicts}
	d := &differ{}
	d.compare(a, content(kind, out.Document), place{})
	for _, x := range d.list {
		if !slices.ContainsFunc(m.conflicts, func(c Conflict) bool { return c.Path == x.Path }) {
			out.Taken = append(out.Taken, x)
		}
	}
	return out, nil
}

// merger brings trees together. known says that there is an ancestor, so that a
// nil in its place means that the thing was not there.
type merger struct {
	choices   map[string]string
	known     bool
	conflicts []Conflict
}

// merge gives what stands at a place; nil is a thing that is not there.
func (m *merger) merge(o, a, b *tree, p place) *tree {
	switch {
	case equal(a, b):
		return a
	case m.known && equal(o, a):
		return b
	case m.known && equal(o, b):
		return a
	case a != nil && b != nil && !a.plain() && !b.plain() && a.list == b.list:
		return m.inside(o, a, b, p)
	}
	return m.conflict(o, a, b, p)
}

// inside merges two objects, or two lists of things.
func (m *merger) inside(o, a, b *tree, p place) *tree {
	if o == nil || o.plain() || o.list != a.list {
		o = &tree{list: a.list}
	}
	r := &tree{list: a.list, kids: map[string]*tree{}}
	for _, k := range m.order(o, a, b, p) {
		if kid := m.merge(o.kids[k], a.kids[k], b.kids[k], p.of(a, k)); kid != nil {
			r.add(k, kid)
		}
	}
	return r
}

// conflict chooses what stands where both sides differ.
func (m *merger) conflict(o, a, b *tree, p place) *tree {
	c := Conflict{Difference: Difference{Path: p.path, What: Changed, List: p.list, Thing: p.thing, Field: p.field}, Taken: Ours}
	switch {
	case a == nil:
		c.What = Added
	case b == nil:
		c.What = Removed
	}
	if a != nil {
		c.Was = a.told()
	}
	if b != nil {
		c.Is = b.told()
	}
	if o != nil {
		c.Base = o.told()
	}
	stands := a
	if a == nil { // theirs alone: nothing is lost by keeping it
		c.Taken, stands = Theirs, b
	}
	c.Both = a != nil && b != nil && isText(a) && isText(b) && joins[p.field]
	choice, chosen := m.choices[p.path]
	switch {
	case !chosen:
	case choice == Ours:
		c.Taken, c.Chosen, stands = Ours, true, a
	case choice == Theirs:
		c.Taken, c.Chosen, stands = Theirs, true, b
	case choice == Both && c.Both:
		c.Taken, c.Chosen, stands = Both, true, &tree{value: scalar(a.text() + " / " + b.text())}
	}
	m.conflicts = append(m.conflicts, c)
	return stands
}

// joins are the fields that are sentences, where both may stand.
var joins = map[string]bool{"about": true, "label": true, "process": true, "note": true, "complaint": true, "repair": true, "text": true}

func isText(t *tree) bool { return t.plain() && t.value[0] == '"' }

// order gives the keys of both sides. Where one side has left the order of what
// they share alone, the other's holds; where both changed it, ours, and that is a
// conflict. What only the other side has follows its neighbour there.
func (m *merger) order(o, a, b *tree, p place) []string {
	lead, follow := a, b
	ab, ba := common(a, b), common(b, a)
	if !slices.Equal(ab, ba) && a.list {
		shared := func(t *tree) []string { // the order of what all three have
			var keys []string
			for _, k := range t.keys {
				if o.kids[k] != nil && a.kids[k] != nil && b.kids[k] != nil {
					keys = append(keys, k)
				}
			}
			return keys
		}
		q := p
		q.path += "/#order"
		choice, chosen := m.choices[q.path]
		switch {
		case m.known && slices.Equal(shared(o), shared(a)):
			lead, follow = b, a
		case m.known && slices.Equal(shared(o), shared(b)):
		default:
			c := Conflict{Difference: Difference{Path: q.path, What: Order, List: p.list, Thing: p.thing, Field: p.field}, Taken: Ours}
			c.Was = (&tree{list: true, keys: ab}).names()
			c.Is = (&tree{list: true, keys: ba}).names()
			if chosen && choice == Theirs {
				c.Taken, lead, follow = Theirs, b, a
			}
			c.Chosen = chosen && (choice == Ours || choice == Theirs)
			m.conflicts = append(m.conflicts, c)
		}
	} else if m.known && slices.Equal(o.keys, a.keys) {
		lead, follow = b, a // ours added nothing: theirs as it is
	}
	return weave(lead, follow)
}

// weave puts what only follow has into the order of lead: behind its neighbour
// and what lead itself has set there, before the next one where it is the first,
// at the end where the two share nothing.
func weave(lead, follow *tree) []string {
	keys := slices.Clone(lead.keys)
	for i, k := range follow.keys {
		if lead.kids[k] != nil {
			continue
		}
		at := len(keys)
		if i > 0 {
			at = slices.Index(keys, follow.keys[i-1]) + 1
			for at < len(keys) && follow.kids[keys[at]] == nil {
				at++
			}
		} else if next := slices.IndexFunc(keys, func(k string) bool { return follow.kids[k] != nil }); next >= 0 {
			at = next
		}
		keys = slices.Insert(keys, at, k)
	}
	return keys
}

func (t *tree) names() string {
	s := ""
	for i, k := range t.keys {
		if i > 0 {
			s += ", "
		}
		s += k
	}
	return s
}

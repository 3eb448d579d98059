package share

import (
	"slices"
	"strings"
)

// What a Difference is.
const (
	Added   = "added"
	Removed = "removed"
	Changed = "changed"
	Order   = "order" // the same things, in another order
)

// A Difference is one thing in which a second document is not like a first.
type Difference struct {
	// Path names the place for machines: a JSON pointer (RFC 6901) in which the
	// things of a list stand by name, "/strips/X1/blocks/4/fuse".
	Path  string
	What  string
	List  string   // which list the thing is in: "wires"; empty for the document itself
	Thing []string // its names from the outside in: "X1", "4"
	Field string   // what of it, where it is not the whole
	Was   string   // in the first; empty where it was not there
	Is    string   // in the second
}

// maxDifferences are told; two documents with more are two documents.
const maxDifferences = 1000

// Diff tells in what b is not like a: things that were added, removed, changed or
// put in another order. Both must be documents of one kind. Of what two drills hide
// it tells only whether it differs, as the Field HiddenField without Was and Is. The
// error is an *Error.
func Diff(a, b []byte) ([]Difference, error) {
	x, y, kind, err := pair(a, b)
	if err != nil {
		return nil, err
	}
	d := &differ{}
	d.compare(x, y, place{})
	if kind == Drill && !hideAlike(a, b) {
		d.list = append(d.list, Difference{Path: "/" + HiddenField, What: Changed, Field: HiddenField})
	}
	return d.list, nil
}

// pair reads two documents of one kind.
func pair(a, b []byte) (x, y *tree, kind Kind, err error) {
	x, kind, err = load(a, "")
	if err == nil {
		y, _, err = load(b, kind)
	}
	return x, y, kind, err
}

// load reads a document, of one kind where that is given.
func load(data []byte, want Kind) (*tree, Kind, error) {
	kind, err := Read(data)
	if err != nil {
		return nil, "", err
	}
	if want != "" && kind != want {
		return nil, "", &Error{Code: "share.two-kinds", Args: []string{string(want), string(kind)}}
	}
	t := parse(tidy(kind, content(kind, data)))
	if kind == Drill {
		conceal(t)
	}
	return t, kind, nil
}

// A place is where in a document a value stands.
type place struct {
	path  string
	list  string
	thing []string
	field string
}

var pointer = strings.NewReplacer("~", "~0", "/", "~1")

// of is the place of a field or, in a list, of a thing.
func (p place) of(t *tree, key string) place {
	q := p
	q.path += "/" + pointer.Replace(key)
	switch {
	case t.list:
		q.list, q.thing, q.field = p.field, append(slices.Clone(p.thing), key), ""
	case p.field != "": // a rating of a part, a position of a condition
		q.field = p.field + " " + key
	default:
		q.field = key
	}
	return q
}

type differ struct{ list []Difference }

func (d *differ) tell(p place, what string, was, is *tree) {
	if len(d.list) >= maxDifferences {
		return
	}
	x := Difference{Path: p.path, What: what, List: p.list, Thing: p.thing, Field: p.field}
	if was != nil {
		x.Was = was.told()
	}
	if is != nil {
		x.Is = is.told()
	}
	d.list = append(d.list, x)
}

// told is a value for people: a text as it is, a thing as its fields.
func (t *tree) told() string {
	if t.plain() {
		return t.text()
	}
	var list []string
	for _, k := range t.keys {
		kid := t.kids[k]
		switch {
		case t.list:
			list = append(list, k)
		case kid.plain():
			list = append(list, k+" "+kid.text())
		default:
			list = append(list, k+" ("+kid.told()+")")
		}
	}
	return strings.Join(list, ", ")
}

func (d *differ) compare(a, b *tree, p place) {
	switch {
	case equal(a, b):
	case a == nil && b.within(p): // a whole list is told thing by thing
		d.compare(&tree{list: b.list}, b, p)
	case b == nil && a.within(p):
		d.compare(a, &tree{list: a.list}, p)
	case a == nil:
		d.tell(p, Added, nil, b)
	case b == nil:
		d.tell(p, Removed, a, nil)
	case a.plain() || b.plain() || a.list != b.list:
		d.tell(p, Changed, a, b)
	default:
		for _, k := range a.keys {
			d.compare(a.kids[k], b.kids[k], p.of(a, k))
		}
		for _, k := range b.keys {
			if a.kids[k] == nil {
				d.compare(nil, b.kids[k], p.of(b, k))
			}
		}
		if a.list && !slices.Equal(common(a, b), common(b, a)) {
			d.tell(p, Order, &tree{list: true, keys: common(a, b), kids: a.kids}, &tree{list: true, keys: common(b, a), kids: b.kids})
		}
	}
}

// within says that a value stands for others: it is a list, or a field of a thing
// that has fields of its own, its ratings or positions.
func (t *tree) within(p place) bool { return t.list || !t.plain() && p.field != "" }

// common are the keys of a that b has too, in a's order.
func common(a, b *tree) (keys []string) {
	for _, k := range a.keys {
		if b.kids[k] != nil {
			keys = append(keys, k)
		}
	}
	return keys
}

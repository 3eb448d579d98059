package share

import (
	"bytes"
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/record"
)

// A tree is a document as differences see it: things with fields, lists of things
// that have a name, and values. The three formats are alike enough for one way.
type tree struct {
	value string // JSON text of a value; empty in the two other cases
	list  bool   // a list of things; otherwise an object
	keys  []string
	kids  map[string]*tree
}

// names are the fields by which the things of a list are told apart, by the name
// of the list. Things of other lists have no name: they are the same when all of
// them is, and the second of two alike is another one. A list of texts is one
// value, since only the whole of it means something (a jumper, a contact).
var names = map[string][]string{
	"mains": {"ref"}, "strips": {"ref"}, "parts": {"ref"}, "blocks": {"no"}, "wires": {"no"}, "conditions": {"name"},
	"photos": {"name"}, "checks": {"text"}, "temporary": {"what", "where", "placed"},
}

// parse makes the tree of a document that Read accepts.
func parse(data []byte) *tree {
	dec := json.NewDecoder(bytes.NewReader(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))))
	dec.UseNumber()
	first, err := dec.Token()
	if err != nil {
		return &tree{}
	}
	return build(dec, first, "")
}

// content is the tree without what says only where a copy comes from. A drill is
// sealed with all of its text and keeps it.
func content(kind Kind, data []byte) *tree {
	t := parse(data)
	if kind == Drill {
		return t
	}
	t.drop("editions")
	if p := t.kids["panel"]; p != nil {
		p.drop("editions")
	}
	return t
}

func (t *tree) drop(key string) {
	if t.kids[key] != nil {
		delete(t.kids, key)
		t.keys = slices.DeleteFunc(t.keys, func(k string) bool { return k == key })
	}
}

// build reads one value whose first token is t; name is the field it stands in.
func build(dec *json.Decoder, t json.Token, name string) *tree {
	switch t {
	case json.Delim('{'):
		o := &tree{kids: map[string]*tree{}}
		for dec.More() {
			key, _ := dec.Token()
			value, _ := dec.Token()
			k, _ := key.(string)
			if kid := build(dec, value, k); kid != nil && !kid.empty() {
				o.add(k, kid)
			}
		}
		_, _ = dec.Token()
		return o
	case json.Delim('['):
		l := &tree{list: true, kids: map[string]*tree{}}
		var texts []string
		for dec.More() {
			value, _ := dec.Token()
			if kid := build(dec, value, ""); kid.plain() { // a list of texts
				texts = append(texts, kid.value)
			} else {
				l.add(l.free(nameOf(kid, name)), kid)
			}
		}
		_, _ = dec.Token()
		if len(texts) > 0 {
			return &tree{value: "[" + strings.Join(texts, ", ") + "]"}
		}
		return l
	}
	return &tree{value: scalar(t)}
}

func scalar(t json.Token) string {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	_ = enc.Encode(t) // texts, numbers, booleans and null: cannot fail
	return strings.TrimSpace(out.String())
}

func (t *tree) plain() bool { return t.value != "" }

// empty says that a field says nothing, which documents leave out.
func (t *tree) empty() bool {
	switch t.value {
	case "":
		return len(t.keys) == 0
	case `""`, "null", "0":
		return true
	}
	return false
}

func (t *tree) add(key string, kid *tree) {
	t.keys = append(t.keys, key)
	t.kids[key] = kid
}

// free is a key that is not taken: the second of two alike gets a number.
func (t *tree) free(key string) string {
	if t.kids[key] == nil {
		return key
	}
	for n := 2; ; n++ {
		if k := key + " #" + strconv.Itoa(n); t.kids[k] == nil {
			return k
		}
	}
}

// nameOf is what a thing of a list is called: its naming fields, or all of it.
func nameOf(t *tree, list string) string {
	fields := names[list]
	if fields == nil {
		return t.json()
	}
	var parts []string
	for _, f := range fields {
		if kid := t.kids[f]; kid != nil {
			parts = append(parts, kid.text())
		}
	}
	return strings.Join(parts, ", ")
}

// text is a value as a person writes it.
func (t *tree) text() string {
	var s string
	if t.plain() && json.Unmarshal([]byte(t.value), &s) == nil {
		return s
	}
	return t.json()
}

// json is the canonical text of a tree on one line.
func (t *tree) json() string {
	if t.plain() {
		return t.value
	}
	var out strings.Builder
	open, end := "{", "}"
	if t.list {
		open, end = "[", "]"
	}
	out.WriteString(open)
	for i, k := range t.keys {
		if i > 0 {
			out.WriteString(", ")
		}
		if !t.list {
			out.WriteString(scalar(k) + ": ")
		}
		out.WriteString(t.kids[k].json())
	}
	out.WriteString(end)
	return out.String()
}

func equal(a, b *tree) bool {
	if a == nil || b == nil {
		return a == b
	}
	if a.value != b.value || a.list != b.list || len(a.keys) != len(b.keys) {
		return false
	}
	if a.list && !slices.Equal(a.keys, b.keys) {
		return false
	}
	for _, k := range a.keys {
		if !equal(a.kids[k], b.kids[k]) {
			return false
		}
	}
	return true
}

// tidy writes a tree as its format writes documents. A drill keeps what is sealed
// in it sealed.
func tidy(kind Kind, t *tree) []byte {
	text := []byte(t.json())
	switch kind {
	case Panel:
		if d, err := panel.Read(text); err == nil {
			return panel.Write(d.Panel)
		}
	case Job:
		if j, err := record.Read(text); err == nil {
			return record.Write(j)
		}
	case Drill:
		var out bytes.Buffer
		if json.Indent(&out, text, "", "  ") == nil {
			out.WriteByte('\n')
			return out.Bytes()
		}
	}
	return append(text, '\n')
}

package panel

import (
	"reflect"
	"strconv"
	"strings"
)

// maxProblems bounds what one file is told about itself; the rest would say the
// same a million times.
const maxProblems = 1000

// A decoder fills Go values from nodes and notes what does not fit. It follows
// the json tags of the types, so that the types stay the one description of the
// format.
type decoder struct {
	src      *Source
	problems []Problem
}

func (d *decoder) unfit(off int32, path, code string, args ...string) {
	switch n := len(d.problems); {
	case n < maxProblems:
		for i := range args {
			args[i] = argument(args[i])
		}
		d.problems = append(d.problems, d.src.problem(int(off), path, code, args...))
	case n == maxProblems:
		d.problems = append(d.problems, d.src.problem(int(off), path, "more-problems", strconv.Itoa(maxProblems)))
	}
}

// full says that the file has been told enough about itself.
func (d *decoder) full() bool { return len(d.problems) > maxProblems }

// panel decodes the whole document, nil where it is not one of ours.
func (d *decoder) panel() *Panel {
	p := new(Panel)
	if !d.document(Format, Version, reflect.ValueOf(p).Elem()) {
		return nil
	}
	return p
}

// document decodes the whole text into v; false where it is not of this format.
func (d *decoder) document(format string, version int, v reflect.Value) bool {
	root := &d.src.root
	if root.kind != object {
		d.unfit(root.off, "", "not-object", "", d.source(root))
		return false
	}
	if !d.head(root, format, version) {
		return false
	}
	d.fill(root, v, "")
	return true
}

// head judges format and version first: the fields of another format would only
// be called unknown one by one.
func (d *decoder) head(root *node, wantFormat string, wantVersion int) bool {
	format := root.member("format")
	switch {
	case format == nil:
		d.unfit(root.off, "", "format-missing", wantFormat, strconv.Itoa(wantVersion))
		return false
	case format.kind != text || unquote(d.raw(format)) != wantFormat:
		d.unfit(format.off, "format", "wrong-format", d.source(format), wantFormat)
		return false
	}
	version := root.member("version")
	if version == nil {
		d.unfit(root.off, "", "version-missing", strconv.Itoa(wantVersion))
		return true
	}
	if v, err := strconv.Atoi(string(d.raw(version))); version.kind == number && err == nil && v != wantVersion {
		code := "wrong-version"
		if v > wantVersion {
			code = "newer-version"
		}
		d.unfit(version.off, "version", code, strconv.Itoa(v), strconv.Itoa(wantVersion))
		return false
	}
	return true
}

func (d *decoder) raw(n *node) []byte { return d.src.data[n.off:n.end] }

// source is what stands in the file, cut for a message.
func (d *decoder) source(n *node) string {
	switch n.kind {
	case object:
		return "{…}"
	case array:
		return "[…]"
	}
	return Shorten(string(d.raw(n)))
}

// fill decodes n into v, which can be set. What does not fit is left zero.
func (d *decoder) fill(n *node, v reflect.Value, path string) {
	switch v.Kind() {
	case reflect.Pointer:
		if n.kind == null {
			return
		}
		v.Set(reflect.New(v.Type().Elem()))
		d.fill(n, v.Elem(), path)
	case reflect.Struct:
		if d.want(n, object, "not-object", path) {
			d.fields(n, v, path)
		}
	case reflect.Map: // of text to text
		if n.kind != null && d.want(n, object, "not-object", path) {
			d.entries(n, v, path)
		}
	case reflect.Slice:
		if n.kind != null && d.want(n, array, "not-list", path) && len(n.kids) > 0 {
			v.Set(reflect.MakeSlice(v.Type(), len(n.kids), len(n.kids)))
			for i := range n.kids {
				d.fill(&n.kids[i], v.Index(i), path+"["+strconv.Itoa(i)+"]")
			}
		}
	case reflect.String:
		if d.want(n, text, "not-text", path) {
			v.SetString(unquote(d.raw(n)))
		}
	case reflect.Int:
		if !d.want(n, number, "not-number", path) {
			return
		}
		i, err := strconv.ParseInt(string(d.raw(n)), 10, 32)
		if err != nil {
			d.unfit(n.off, path, "not-number", last(path), d.source(n))
			return
		}
		v.SetInt(i)
	default:
		panic("panel: a document has no " + v.Type().String())
	}
}

func (d *decoder) want(n *node, k kind, code, path string) bool {
	if n.kind != k {
		d.unfit(n.off, path, code, last(path), d.source(n))
		return false
	}
	return true
}

// last is the name a person would call the value at path.
func last(path string) string {
	if strings.HasSuffix(path, `"]`) {
		return path[strings.LastIndex(path, `["`)+1 : len(path)-1]
	}
	return path[strings.LastIndexByte(path, '.')+1:]
}

func (d *decoder) fields(n *node, v reflect.Value, path string) {
	t := v.Type()
	seen := make([]bool, t.NumField())
	for i := range n.kids {
		if d.full() {
			return
		}
		kid := &n.kids[i]
		at := Key(path, kid.key)
		f := fieldNamed(t, kid.key)
		switch {
		case f < 0:
			names := fieldNames(t)
			d.unfit(kid.keyOff, at, "unknown-field", kid.key, strings.Join(names, ", "), Nearest(kid.key, names))
		case seen[f]:
			d.unfit(kid.keyOff, at, "duplicate-field", kid.key)
		default:
			seen[f] = true
			d.fill(kid, v.Field(f), at)
		}
	}
}

func (d *decoder) entries(n *node, v reflect.Value, path string) {
	if len(n.kids) == 0 {
		return
	}
	m := make(map[string]string, len(n.kids))
	for i := range n.kids {
		kid := &n.kids[i]
		at := Key(path, kid.key)
		if _, have := m[kid.key]; have {
			d.unfit(kid.keyOff, at, "duplicate-field", kid.key)
			continue
		}
		m[kid.key] = ""
		if d.want(kid, text, "not-text", at) {
			m[kid.key] = unquote(d.raw(kid))
		}
	}
	v.Set(reflect.ValueOf(m))
}

// jsonName is the name of a field in the file, and whether it may be left out.
func jsonName(f reflect.StructField) (name string, optional bool) {
	name, rest, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name, rest == "omitempty"
}

func fieldNamed(t reflect.Type, key string) int {
	for i := range t.NumField() {
		if name, _ := jsonName(t.Field(i)); name == key {
			return i
		}
	}
	return -1
}

func fieldNames(t reflect.Type) []string {
	names := make([]string, t.NumField())
	for i := range names {
		names[i], _ = jsonName(t.Field(i))
	}
	return names
}

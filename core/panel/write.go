package panel

import (
	"bytes"
	"reflect"
	"slices"
	"strconv"
	"unicode/utf8"
)

// Write gives the document as JSON for people: fields in the order of the types,
// one block, part or wire a line, map entries by name, empty fields left out.
// The same panel always gives the same bytes, and Read gives the same panel
// back. Text that is not UTF-8 is written with U+FFFD in its place.
func Write(p *Panel) []byte { return Encode(p) }

// Encode writes what v points to as Write does, for other formats of ours that
// Decode reads. Types like those in broken take a line a field.
func Encode(v any, broken ...any) []byte {
	w := writer{broken: map[reflect.Type]bool{
		reflect.TypeFor[Panel]():     true,
		reflect.TypeFor[Strip]():     true,
		reflect.TypeFor[Condition](): true,
	}}
	for _, b := range broken {
		w.broken[reflect.TypeOf(b)] = true
	}
	w.value(reflect.ValueOf(v).Elem(), 0)
	w.WriteByte('\n')
	return w.Bytes()
}

type writer struct {
	bytes.Buffer
	broken map[reflect.Type]bool // types that take a line a field; all others stand on one line
}

// inline says that values of type t stand on the line they begin on.
func (w *writer) inline(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Slice:
		return t.Elem().Kind() == reflect.String
	case reflect.Struct:
		return !w.broken[t]
	}
	return true
}

func (w *writer) value(v reflect.Value, indent int) {
	switch v.Kind() {
	case reflect.Pointer:
		w.value(v.Elem(), indent)
	case reflect.Struct:
		w.fields(v, indent)
	case reflect.Slice:
		w.WriteByte('[')
		for i := range v.Len() {
			w.between(i, w.inline(v.Type()), indent+1)
			w.value(v.Index(i), indent+1)
		}
		w.close(']', v.Len() == 0 || w.inline(v.Type()), indent)
	case reflect.Map:
		m := v.Interface().(map[string]string)
		keys := make([]string, 0, len(m))
		for k := range m {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		w.WriteByte('{')
		for i, k := range keys {
			w.between(i, true, indent)
			w.WriteString(quote(k) + ": " + quote(m[k]))
		}
		w.WriteByte('}')
	case reflect.String:
		w.WriteString(quote(v.String()))
	case reflect.Int:
		w.WriteString(strconv.FormatInt(v.Int(), 10))
	default:
		panic("panel: a document has no " + v.Type().String())
	}
}

func (w *writer) fields(v reflect.Value, indent int) {
	t, n := v.Type(), 0
	w.WriteByte('{')
	for i := range t.NumField() {
		name, optional := jsonName(t.Field(i))
		f := v.Field(i)
		if optional && (f.IsZero() || (f.Kind() == reflect.Slice || f.Kind() == reflect.Map) && f.Len() == 0) {
			continue
		}
		w.between(n, w.inline(t), indent+1)
		w.WriteString(quote(name) + ": ")
		w.value(f, indent+1)
		n++
	}
	w.close('}', w.inline(t), indent)
}

// between puts what separates entry i from the one before it.
func (w *writer) between(i int, sameLine bool, indent int) {
	if i > 0 {
		w.WriteByte(',')
		if sameLine {
			w.WriteByte(' ')
		}
	}
	if !sameLine {
		w.newline(indent)
	}
}

func (w *writer) close(c byte, sameLine bool, indent int) {
	if !sameLine {
		w.newline(indent)
	}
	w.WriteByte(c)
}

func (w *writer) newline(indent int) {
	w.WriteByte('\n')
	for range indent {
		w.WriteString("  ")
	}
}

// quote writes a JSON string (RFC 8259), escaping no more than it must so that
// Ω and ² stay readable.
func quote(s string) string {
	const hex = "0123456789abcdef"
	out := make([]byte, 0, len(s)+2)
	out = append(out, '"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			out = append(out, '\\', byte(r))
		case r == '\n':
			out = append(out, '\\', 'n')
		case r == '\t':
			out = append(out, '\\', 't')
		case r < ' ' || r == 0x7f:
			out = append(out, '\\', 'u', '0', '0', hex[r>>4], hex[r&15])
		default:
			out = utf8.AppendRune(out, r)
		}
	}
	return string(append(out, '"'))
}

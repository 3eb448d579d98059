package panel

import (
	"bytes"
	"reflect"
	"sort"
	"strconv"
	"strings"
)

// A Source is the text of a document with the place of every value in it.
type Source struct {
	data  []byte
	root  node
	lines []int32 // where each line begins
	runes []int32 // characters before each runeStep bytes
}

// Decode reads a document of another format of ours into what v points to: a
// struct of texts, whole numbers, lists, maps of text to text and further structs,
// by their json tags. It is as strict as Read and bounded alike.
//
// The error is an *Error with every problem in file order. Where the text was
// JSON of this format, the Source is returned beside it, and v holds what could
// be read; otherwise it is nil.
func Decode(data []byte, format string, version int, v any) (*Source, error) {
	s := &Source{}
	if err := s.scan(data); err != nil {
		return nil, err
	}
	dec := decoder{src: s}
	known := dec.document(format, version, reflect.ValueOf(v).Elem())
	if len(dec.problems) == 0 {
		return s, nil
	}
	SortProblems(dec.problems)
	if !known {
		s = nil
	}
	return s, &Error{dec.problems}
}

// scan reads the text as JSON, within the bounds.
func (s *Source) scan(data []byte) error {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")) // some editors begin with a byte-order mark
	s.data, s.lines, s.runes = data, lineStarts(data), runeCounts(data)
	fl := bounds(data)
	if fl == nil {
		s.root, fl = scan(data)
	}
	if fl != nil {
		return &Error{[]Problem{s.problem(fl.off, "", fl.code, fl.args...)}}
	}
	return nil
}

// Pos is the line and column, both from 1, of the value at a path; of one that is
// not there, the place of the nearest value around it.
func (s *Source) Pos(path string) (line, col int) { return s.place(int(s.find(path).off)) }

// Problem makes a problem at a path of this text.
func (s *Source) Problem(path, code string, args ...string) Problem {
	line, col := s.Pos(path)
	for i := range args {
		args[i] = argument(args[i])
	}
	return Problem{Line: line, Col: col, Path: path, Code: code, Args: args}
}

// Raw is the text of a field of the document; ok is false where there is none.
func (s *Source) Raw(field string) (text []byte, ok bool) {
	n := s.root.member(field)
	if n == nil {
		return nil, false
	}
	return s.data[n.off:n.end], true
}

func (s *Source) problem(off int, path, code string, args ...string) Problem {
	line, col := s.place(off)
	return Problem{Line: line, Col: col, Path: path, Code: code, Args: args}
}

func (s *Source) place(off int) (line, col int) {
	line = sort.Search(len(s.lines), func(i int) bool { return int(s.lines[i]) > off })
	return line, 1 + s.characters(off) - s.characters(int(s.lines[line-1]))
}

// runeStep is how many bytes are counted at most for one column: a whole
// document may stand on one line.
const runeStep = 1024

// characters counts those before a byte of the file, lead bytes of UTF-8 each.
func (s *Source) characters(off int) int {
	off = min(off, len(s.data))
	k := min(off/runeStep, len(s.runes)-1)
	return int(s.runes[k]) + leads(s.data[k*runeStep:off])
}

func runeCounts(data []byte) []int32 {
	data = data[:min(len(data), MaxBytes)] // the rest is refused anyway
	counts := []int32{0}
	for k := 0; k+runeStep <= len(data); k += runeStep {
		counts = append(counts, counts[len(counts)-1]+int32(leads(data[k:k+runeStep])))
	}
	return counts
}

// leads counts the bytes that begin a character.
func leads(b []byte) int {
	n := 0
	for _, c := range b {
		if c&0xC0 != 0x80 {
			n++
		}
	}
	return n
}

func lineStarts(data []byte) []int32 {
	starts := []int32{0}
	for i, c := range data {
		if c == '\n' {
			starts = append(starts, int32(i+1))
		}
		if i >= MaxBytes { // the file is refused anyway
			break
		}
	}
	return starts
}

// find walks a path as far as the file goes.
func (s *Source) find(path string) *node {
	at := &s.root
	for path != "" {
		var next *node
		switch {
		case strings.HasPrefix(path, `["`):
			end := closingQuote(path)
			if end < 0 {
				return at
			}
			next, path = at.member(unquote([]byte(path[1:end+1]))), strings.TrimPrefix(path[end+1:], "]")
		case path[0] == '[':
			end := strings.IndexByte(path, ']')
			if end < 0 {
				return at
			}
			i, err := strconv.Atoi(path[1:end])
			if err == nil && at.kind == array && i >= 0 && i < len(at.kids) {
				next = &at.kids[i]
			}
			path = path[end+1:]
		default:
			path = strings.TrimPrefix(path, ".")
			end := strings.IndexAny(path, ".[")
			if end < 0 {
				end = len(path)
			}
			next, path = at.member(path[:end]), path[end:]
		}
		if next == nil {
			return at
		}
		at = next
	}
	return at
}

// closingQuote is the index of the quote that ends the string begun at path[1].
func closingQuote(path string) int {
	for i := 2; i < len(path); i++ {
		switch path[i] {
		case '\\':
			i++
		case '"':
			return i
		}
	}
	return -1
}

// member is the value of a field, nil without one.
func (n *node) member(key string) *node {
	if n.kind != object {
		return nil
	}
	if n.index != nil {
		if i, ok := n.index[key]; ok {
			return &n.kids[i]
		}
		return nil
	}
	for i := range n.kids {
		if n.kids[i].key == key {
			return &n.kids[i]
		}
	}
	return nil
}

// FormatOf gives the format a document says it is in, empty where it says none or
// is none. It is bounded as Decode is.
func FormatOf(data []byte) string {
	s := &Source{}
	if s.scan(data) != nil {
		return ""
	}
	if n := s.root.member("format"); n != nil && n.kind == text {
		return unquote(s.data[n.off:n.end])
	}
	return ""
}

package panel

import (
	"bytes"
	"sort"
	"strconv"
	"strings"
)

// A Doc is a panel document with the place of every value in its file.
type Doc struct {
	Panel *Panel

	data   []byte
	root   node
	lines  []int32                  // where each line begins
	runes  []int32                  // characters before each runeStep bytes
	origin func(path string) string // nil for the drawing; of an as-found panel, where a value was written
}

// Read reads a document. It is bounded by the Max constants before anything is
// decoded, so that a stranger's file can neither hang nor exhaust the phone.
//
// The error is an *Error with every problem of the file in file order: syntax,
// size, unknown or repeated fields, values of the wrong type, another format or
// a newer version. Whether the drawing makes sense is for package check. Where
// the text was JSON of this format, the Doc is returned beside the error with
// what could be read, so that the drawing can be checked in the same pass;
// otherwise it is nil.
func Read(data []byte) (*Doc, error) {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")) // some editors begin with a byte-order mark
	d := &Doc{data: data, lines: lineStarts(data), runes: runeCounts(data)}
	fl := bounds(data)
	if fl == nil {
		d.root, fl = scan(data)
	}
	if fl == nil {
		fl = counts(&d.root)
	}
	if fl != nil {
		return nil, &Error{[]Problem{d.problem(fl.off, "", fl.code, fl.args...)}}
	}
	dec := decoder{doc: d}
	d.Panel = dec.panel()
	if len(dec.problems) > 0 {
		SortProblems(dec.problems)
		if d.Panel == nil {
			d = nil
		}
		return d, &Error{dec.problems}
	}
	return d, nil
}

// counts refuses lists longer than MaxCount before any of them is decoded.
func counts(root *node) *flaw {
	for _, list := range []struct {
		name string
		most int
	}{{"wires", MaxCount}, {"parts", MaxCount}, {"found", MaxEdits}} {
		if n := root.member(list.name); n != nil && len(n.kids) > list.most {
			return tooMany(n, list.name, len(n.kids), list.most)
		}
	}
	for _, part := range root.items("parts") {
		if n := part.member("contacts"); n != nil && len(n.kids) > MaxEach {
			return tooMany(n, "contacts", len(n.kids), MaxEach)
		}
	}
	blocks, bars := 0, 0
	for _, strip := range root.items("strips") {
		if n := strip.member("blocks"); n != nil {
			if blocks += len(n.kids); blocks > MaxCount {
				return tooMany(n, "blocks", blocks, MaxCount)
			}
		}
		for _, jumper := range strip.items("jumpers") {
			if n := jumper.member("blocks"); n != nil {
				if bars += len(n.kids); bars > MaxCount {
					return tooMany(n, "jumpers", bars, MaxCount)
				}
			}
		}
	}
	return nil
}

func tooMany(n *node, list string, have, most int) *flaw {
	return &flaw{int(n.off), "too-many", []string{list, strconv.Itoa(have), strconv.Itoa(most)}}
}

// items are the entries of a list, none where the field is missing or no list.
func (n *node) items(key string) []node {
	if list := n.member(key); list != nil && list.kind == array {
		return list.kids
	}
	return nil
}

// Pos is the line and column, both from 1, of the value at a path such as
// "wires[3].to", "strips[0].blocks[2]" or `conditions[0].set["A3:0"]`. A path
// that is not in the file gives the place of the nearest value around it.
func (d *Doc) Pos(path string) (line, col int) {
	if d.origin != nil {
		path = d.origin(path)
	}
	return d.place(int(d.find(path).off))
}

// Origin is the path at which a value was written in the file. It differs from
// path only in an as-found document, where edits have moved or added things.
func (d *Doc) Origin(path string) string {
	if d.origin != nil {
		return d.origin(path)
	}
	return path
}

// Problem makes a problem at a path of this document.
func (d *Doc) Problem(path, code string, args ...string) Problem {
	line, col := d.Pos(path)
	for i := range args {
		args[i] = argument(args[i])
	}
	return Problem{Line: line, Col: col, Path: d.Origin(path), Code: code, Args: args}
}

func (d *Doc) problem(off int, path, code string, args ...string) Problem {
	line, col := d.place(off)
	return Problem{Line: line, Col: col, Path: path, Code: code, Args: args}
}

func (d *Doc) place(off int) (line, col int) {
	line = sort.Search(len(d.lines), func(i int) bool { return int(d.lines[i]) > off })
	return line, 1 + d.characters(off) - d.characters(int(d.lines[line-1]))
}

// runeStep is how many bytes are counted at most for one column: a whole
// document may stand on one line.
const runeStep = 1024

// characters counts those before a byte of the file, lead bytes of UTF-8 each.
func (d *Doc) characters(off int) int {
	off = min(off, len(d.data))
	k := min(off/runeStep, len(d.runes)-1)
	return int(d.runes[k]) + leads(d.data[k*runeStep:off])
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

// Key is the path of a map entry: path.key where key is a plain word, otherwise
// path["key"].
func Key(path, key string) string {
	for _, r := range key {
		if !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '_' || r == '-') {
			return path + "[" + quote(key) + "]"
		}
	}
	if key == "" {
		return path + `[""]`
	}
	if path == "" {
		return key
	}
	return path + "." + key
}

// find walks a path as far as the file goes.
func (d *Doc) find(path string) *node {
	at := &d.root
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

package panel

import (
	"strconv"
)

// A Doc is a panel document with the place of every value in its file.
type Doc struct {
	Panel *Panel

	Source
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
	d := &Doc{}
	err := d.scan(data)
	if err == nil {
		if fl := counts(&d.root); fl != nil {
			err = &Error{[]Problem{d.problem(fl.off, "", fl.code, fl.args...)}}
		}
	}
	if err != nil {
		return nil, err
	}
	dec := decoder{src: &d.Source}
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
	}{{"wires", MaxCount}, {"parts", MaxCount}, {"found", MaxEdits}, {"editions", MaxEditions}} {
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

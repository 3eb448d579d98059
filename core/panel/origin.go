package panel

import (
	"strconv"
	"strings"
)

// panel puts the corrected lists back together.
func (e *editor) panel() *Panel {
	p := e.base
	p.Found, p.Strips, p.Parts, p.Wires = nil, nil, nil, nil
	for _, h := range e.strips {
		s := h.strip
		s.Blocks, s.Jumpers = nil, nil
		for _, b := range h.blocks {
			s.Blocks = append(s.Blocks, b.value)
		}
		for _, j := range h.jumpers {
			s.Jumpers = append(s.Jumpers, j.value)
		}
		p.Strips = append(p.Strips, s)
	}
	for _, part := range e.parts {
		p.Parts = append(p.Parts, part.value)
	}
	for _, w := range e.wires {
		p.Wires = append(p.Wires, w.wire)
	}
	if len(p.Conditions) == 0 {
		p.Conditions = nil
	}
	return &p
}

// origins answers, for a path into the corrected panel, where in the file its
// value was written.
func (e *editor) origins() func(string) string {
	return func(path string) string {
		list, i, rest := cutItem(path)
		switch {
		case i < 0:
		case list == "wires" && i < len(e.wires):
			w := &e.wires[i]
			switch rest {
			case ".from":
				return w.from
			case ".to":
				return w.to
			}
			return w.path + rest
		case list == "parts" && i < len(e.parts):
			return e.parts[i].path + rest
		case list == "strips" && i < len(e.strips):
			s := &e.strips[i]
			switch list, j, inner := cutItem(strings.TrimPrefix(rest, ".")); {
			case j < 0:
			case list == "blocks" && j < len(s.blocks):
				return s.blocks[j].path + inner
			case list == "jumpers" && j < len(s.jumpers):
				return s.jumpers[j].path + inner
			}
			return s.path + rest
		}
		return path
	}
}

// cutItem splits "wires[3].to" into "wires", 3 and ".to"; i is -1 where the path
// does not begin with an entry of a list.
func cutItem(path string) (list string, i int, rest string) {
	open := strings.IndexAny(path, ".[")
	if open < 0 || path[open] != '[' {
		return path, -1, ""
	}
	end := strings.IndexByte(path, ']')
	if end < open {
		return path, -1, ""
	}
	i, err := strconv.Atoi(path[open+1 : end])
	if err != nil {
		return path, -1, ""
	}
	return path[:open], i, path[end+1:]
}

package panel

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// AsFound gives the panel as it was found: the edits of p applied in their order
// to a deep copy of the drawing, whose own list of edits is then empty. p is not
// changed. An edit that does not apply is left out and reported, with the path
// "found[2]" and without line and column; Doc.AsFound fills those in.
func AsFound(p *Panel) (*Panel, []Problem) {
	e := apply(p)
	return e.panel(), e.problems
}

// AsFound is the document as found. Pos and Origin of the result take paths into
// its Panel and answer with the place in this document's file where the value
// stands, in the drawing or in the edit that made it so.
func (d *Doc) AsFound() (*Doc, []Problem) {
	e := apply(d.Panel)
	for i := range e.problems {
		e.problems[i].Line, e.problems[i].Col = d.Pos(e.problems[i].Path)
	}
	found := *d
	found.Panel, found.origin = e.panel(), e.origins()
	return &found, e.problems
}

// A had is a value together with the path it was written at.
type had[T any] struct {
	value T
	path  string
}

type hadStrip struct {
	strip   Strip // without its lists
	path    string
	blocks  []had[Block]
	jumpers []had[Jumper]
}

// hadWire keeps the path of each end: an edit moves one and leaves the other.
type hadWire struct {
	wire           Wire
	path, from, to string
}

// An editor holds the panel while it is being corrected.
type editor struct {
	base     Panel // without its lists
	strips   []hadStrip
	parts    []had[Part]
	wires    []hadWire
	problems []Problem
	searches int // for names that are alike
}

// nearest is Nearest for the first mistakes of a document; a search looks at every
// name of the panel, and a file of nothing but mistakes must not take for ever.
func (e *editor) nearest(name string, from func(add func(string))) string {
	const most = 50
	if e.searches++; e.searches > most {
		return ""
	}
	var names []string
	from(func(s string) { names = append(names, s) })
	return Nearest(name, names)
}

func apply(p *Panel) *editor {
	e := &editor{base: *p}
	e.base.Mains = slices.Clone(p.Mains)
	e.base.Conditions = make([]Condition, len(p.Conditions))
	for i, c := range p.Conditions {
		c.Set, c.Steps = maps.Clone(c.Set), slices.Clone(c.Steps)
		e.base.Conditions[i] = c
	}
	for i, s := range p.Strips {
		h := hadStrip{strip: s, path: item("strips", i)}
		for j, b := range s.Blocks {
			h.blocks = append(h.blocks, had[Block]{b, item(h.path+".blocks", j)})
		}
		for j, jump := range s.Jumpers {
			h.jumpers = append(h.jumpers, had[Jumper]{copyJumper(jump), item(h.path+".jumpers", j)})
		}
		e.strips = append(e.strips, h)
	}
	for i, part := range p.Parts {
		e.parts = append(e.parts, had[Part]{copyPart(part), item("parts", i)})
	}
	for i, w := range p.Wires {
		path := item("wires", i)
		e.wires = append(e.wires, hadWire{w, path, path + ".from", path + ".to"})
	}
	for i := range p.Found {
		e.edit(&p.Found[i], item("found", i))
	}
	return e
}

func item(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

func copyPart(p Part) Part {
	p.Ratings, p.Contacts = maps.Clone(p.Ratings), slices.Clone(p.Contacts)
	return p
}

func copyJumper(j Jumper) Jumper {
	j.Blocks = slices.Clone(j.Blocks)
	return j
}

func (e *editor) report(path, code string, args ...string) {
	for i := range args {
		args[i] = argument(args[i])
	}
	e.problems = append(e.problems, Problem{Path: path, Code: code, Args: args})
}

// Ops lists what an Edit can do.
func Ops() []string {
	return []string{OpMoveWire, OpAddWire, OpRemoveWire, OpAddPart, OpRemovePart, OpAddJumper, OpRemoveJumper, OpSetBlock, OpRemoveBlock}
}

func (e *editor) edit(ed *Edit, path string) {
	switch ed.Op {
	case OpMoveWire:
		e.moveWire(ed, path)
	case OpAddWire:
		if ed.Add == nil {
			e.report(path, "edit-field-missing", ed.Op, "add")
		} else if e.wire(ed.Add.No) >= 0 {
			e.report(path+".add.no", "edit-wire-exists", ed.Add.No)
		} else {
			at := path + ".add"
			e.wires = append(e.wires, hadWire{*ed.Add, at, at + ".from", at + ".to"})
		}
	case OpRemoveWire:
		if i := e.wireOf(ed, path); i >= 0 {
			e.wires = slices.Delete(e.wires, i, i+1)
		}
	case OpAddPart:
		if ed.Part == nil {
			e.report(path, "edit-field-missing", ed.Op, "part")
		} else if e.part(ed.Part.Ref) >= 0 {
			e.report(path+".part.ref", "edit-part-exists", ed.Part.Ref)
		} else {
			e.parts = append(e.parts, had[Part]{copyPart(*ed.Part), path + ".part"})
		}
	case OpRemovePart:
		if ed.Point == "" {
			e.report(path, "edit-field-missing", ed.Op, "point")
		} else if i := e.part(ed.Point); i < 0 {
			e.report(path+".point", "edit-unknown-part", ed.Point, e.nearest(ed.Point, func(add func(string)) {
				for k := range e.parts {
					add(e.parts[k].value.Ref)
				}
			}))
		} else {
			e.parts = slices.Delete(e.parts, i, i+1)
		}
	case OpAddJumper, OpRemoveJumper:
		e.jumper(ed, path)
	case OpSetBlock:
		e.setBlock(ed, path)
	case OpRemoveBlock:
		e.removeBlock(ed, path)
	default:
		if ed.Op == "" {
			e.report(path, "edit-op-missing", strings.Join(Ops(), ", "))
			return
		}
		e.report(path+".op", "edit-unknown-op", ed.Op, strings.Join(Ops(), ", "), Nearest(ed.Op, Ops()))
	}
}

func (e *editor) wire(no string) int {
	return slices.IndexFunc(e.wires, func(w hadWire) bool { return w.wire.No == no })
}

func (e *editor) part(ref string) int {
	ref = Designation(ref)
	return slices.IndexFunc(e.parts, func(p had[Part]) bool {
		return strings.HasSuffix(p.value.Ref, ref) && Designation(p.value.Ref) == ref
	})
}

// wireOf finds the wire an edit names and reports what it cannot find.
func (e *editor) wireOf(ed *Edit, path string) int {
	if ed.Wire == "" {
		e.report(path, "edit-field-missing", ed.Op, "wire")
		return -1
	}
	i := e.wire(ed.Wire)
	if i < 0 {
		e.report(path+".wire", "edit-unknown-wire", ed.Wire, e.nearest(ed.Wire, func(add func(string)) {
			for k := range e.wires {
				add(e.wires[k].wire.No)
			}
		}))
	}
	return i
}

func (e *editor) moveWire(ed *Edit, path string) {
	i := e.wireOf(ed, path)
	switch {
	case i < 0:
	case ed.Point == "":
		e.report(path, "edit-field-missing", ed.Op, "point")
	case ed.End == "from":
		e.wires[i].wire.From, e.wires[i].from = ed.Point, path+".point"
	case ed.End == "to":
		e.wires[i].wire.To, e.wires[i].to = ed.Point, path+".point"
	case ed.End == "":
		e.report(path, "edit-field-missing", ed.Op, "end")
	default:
		e.report(path+".end", "edit-unknown-end", ed.End)
	}
}

// strip finds the strip an edit is about and reports what it cannot find.
func (e *editor) strip(ref, field, path string, ed *Edit) *hadStrip {
	if ref == "" {
		e.report(path, "edit-field-missing", ed.Op, field)
		return nil
	}
	for i := range e.strips {
		if Designation(e.strips[i].strip.Ref) == Designation(ref) {
			return &e.strips[i]
		}
	}
	e.report(path+"."+field, "edit-unknown-strip", ref, e.nearest(ref, func(add func(string)) {
		for i := range e.strips {
			add(e.strips[i].strip.Ref)
		}
	}))
	return nil
}

func (e *editor) jumper(ed *Edit, path string) {
	s := e.strip(ed.Strip, "strip", path, ed)
	if s == nil {
		return
	}
	if ed.Jump == nil {
		e.report(path, "edit-field-missing", ed.Op, "jump")
		return
	}
	if ed.Op == OpAddJumper {
		s.jumpers = append(s.jumpers, had[Jumper]{copyJumper(*ed.Jump), path + ".jump"})
		return
	}
	i := slices.IndexFunc(s.jumpers, func(j had[Jumper]) bool {
		return slices.Equal(j.value.Blocks, ed.Jump.Blocks) && j.value.Level == ed.Jump.Level && j.value.Side == ed.Jump.Side
	})
	if i < 0 {
		var bars []string
		for _, j := range s.jumpers {
			bars = append(bars, strings.Join(j.value.Blocks, "-"))
		}
		e.report(path+".jump", "edit-unknown-jumper", s.strip.Ref, strings.Join(ed.Jump.Blocks, "-"), strings.Join(bars, ", "))
		return
	}
	s.jumpers = slices.Delete(s.jumpers, i, i+1)
}

func (e *editor) setBlock(ed *Edit, path string) {
	s := e.strip(ed.Strip, "strip", path, ed)
	if s == nil {
		return
	}
	if ed.Block == nil {
		e.report(path, "edit-field-missing", ed.Op, "block")
		return
	}
	b := had[Block]{*ed.Block, path + ".block"}
	i := slices.IndexFunc(s.blocks, func(h had[Block]) bool { return h.value.No == b.value.No })
	if i >= 0 {
		s.blocks[i] = b
		return
	}
	s.blocks = append(s.blocks, b)
}

func (e *editor) removeBlock(ed *Edit, path string) {
	if ed.Point == "" {
		e.report(path, "edit-field-missing", ed.Op, "point")
		return
	}
	pt, ok := ParsePoint(ed.Point)
	if !ok {
		e.report(path+".point", "edit-bad-point", ed.Point)
		return
	}
	s := e.strip(pt.Device, "point", path, ed)
	if s == nil {
		return
	}
	for i := range s.blocks {
		if s.blocks[i].value.No == pt.Terminal {
			s.blocks = slices.Delete(s.blocks, i, i+1)
			return
		}
	}
	e.report(path+".point", "edit-unknown-block", s.strip.Ref, pt.Terminal, e.nearest(pt.Terminal, func(add func(string)) {
		for i := range s.blocks {
			add(s.blocks[i].value.No)
		}
	}))
}

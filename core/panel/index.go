package panel

import "strings"

// An Index finds the things of one Panel by name. It points into the Panel it
// was made from and does not notice later changes to it. Where a document names
// two things alike, the first one is found; package check reports the second.
//
// Designations are looked up in their short form, so "-X1" and "=A+P-X1" find
// X1. Markings and wire numbers are compared as written.
type Index struct {
	mains  map[string]*Mains
	strips map[string]*Strip
	blocks map[blockKey]*Block
	parts  map[string]*Part
	wires  map[string]*Wire
}

type blockKey struct{ strip, no string }

// NewIndex indexes p.
func NewIndex(p *Panel) *Index {
	x := &Index{
		mains:  make(map[string]*Mains, len(p.Mains)),
		strips: make(map[string]*Strip, len(p.Strips)),
		blocks: map[blockKey]*Block{},
		parts:  make(map[string]*Part, len(p.Parts)),
		wires:  make(map[string]*Wire, len(p.Wires)),
	}
	for i := range p.Mains {
		first(x.mains, Designation(p.Mains[i].Ref), &p.Mains[i])
	}
	for i := range p.Strips {
		s := &p.Strips[i]
		ref := Designation(s.Ref)
		if x.strips[ref] != nil {
			continue
		}
		x.strips[ref] = s
		for j := range s.Blocks {
			first(x.blocks, blockKey{ref, s.Blocks[j].No}, &s.Blocks[j])
		}
	}
	for i := range p.Parts {
		first(x.parts, Designation(p.Parts[i].Ref), &p.Parts[i])
	}
	for i := range p.Wires {
		first(x.wires, p.Wires[i].No, &p.Wires[i])
	}
	return x
}

func first[K comparable, V any](m map[K]*V, key K, v *V) {
	if m[key] == nil {
		m[key] = v
	}
}

// MainsByRef is the incoming supply ref, nil without one.
func (x *Index) MainsByRef(ref string) *Mains { return x.mains[Designation(ref)] }

// Strip is the terminal strip ref, nil without one.
func (x *Index) Strip(ref string) *Strip { return x.strips[Designation(ref)] }

// Block is the block marked no on a strip, nil without one.
func (x *Index) Block(strip, no string) *Block { return x.blocks[blockKey{Designation(strip), no}] }

// Part is the part ref, nil without one.
func (x *Index) Part(ref string) *Part { return x.parts[Designation(ref)] }

// Wire is the wire numbered no, nil without one.
func (x *Index) Wire(no string) *Wire { return x.wires[no] }

// Split finds the block a point lies on and the level its terminal names: level
// 0 where it names none. Terminal "7.1" is level 1 of block "7", unless a block
// of the strip is marked "7.1", which wins. ok is false where Device is no strip
// or the strip has no such block; whether the block has that level, its kind in
// package parts says.
func (x *Index) Split(pt Point) (b *Block, level int, ok bool) {
	if b = x.Block(pt.Device, pt.Terminal); b != nil {
		return b, 0, true
	}
	dot := strings.LastIndexByte(pt.Terminal, '.')
	if dot < 0 || len(pt.Terminal) != dot+2 {
		return nil, 0, false
	}
	digit := pt.Terminal[dot+1]
	if digit < '1' || digit > '9' {
		return nil, 0, false
	}
	b = x.Block(pt.Device, pt.Terminal[:dot])
	return b, int(digit - '0'), b != nil
}

package panel

import (
	"maps"
	"slices"
)

// Clone gives a copy that shares nothing with p that can be changed.
func (p *Panel) Clone() *Panel {
	q := *p
	q.Editions, q.Mains = slices.Clone(p.Editions), slices.Clone(p.Mains)
	q.Wires = slices.Clone(p.Wires)
	q.Strips = slices.Clone(p.Strips)
	for i, s := range p.Strips {
		q.Strips[i].Blocks = slices.Clone(s.Blocks)
		q.Strips[i].Jumpers = slices.Clone(s.Jumpers)
		for j := range s.Jumpers {
			q.Strips[i].Jumpers[j] = copyJumper(s.Jumpers[j])
		}
	}
	q.Parts = slices.Clone(p.Parts)
	for i := range p.Parts {
		q.Parts[i] = copyPart(p.Parts[i])
	}
	q.Conditions = slices.Clone(p.Conditions)
	for i, c := range p.Conditions {
		q.Conditions[i].Set, q.Conditions[i].Steps = maps.Clone(c.Set), slices.Clone(c.Steps)
	}
	q.Found = slices.Clone(p.Found)
	for i := range p.Found {
		q.Found[i] = copyEdit(p.Found[i])
	}
	return &q
}

func copyEdit(e Edit) Edit {
	e.Add, e.Block = copyOf(e.Add), copyOf(e.Block)
	if e.Part != nil {
		part := copyPart(*e.Part)
		e.Part = &part
	}
	if e.Jump != nil {
		jump := copyJumper(*e.Jump)
		e.Jump = &jump
	}
	return e
}

func copyOf[T any](v *T) *T {
	if v == nil {
		return nil
	}
	c := *v
	return &c
}

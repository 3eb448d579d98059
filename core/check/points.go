package check

import (
	"slices"
	"strconv"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// lands checks that a wire can land on a point as written. what is the wire, for
// the sentence.
func (c *checker) lands(path, what, text string) {
	pt, ok := panel.ParsePoint(text)
	if !ok {
		c.report(path, "point-unreadable", what, text)
		return
	}
	if pt.Wire != "" {
		c.report(path, "point-is-strand", what, text)
		return
	}
	if s := c.x.Strip(pt.Device); s != nil {
		c.landsOnBlock(path, what, pt, s)
		return
	}
	if part := c.x.Part(pt.Device); part != nil {
		k, known := parts.Lookup(part.Kind)
		if !known || k.Block {
			return // told at the part
		}
		var names []string
		for _, t := range k.Terminals(part) {
			names = append(names, t.Name)
		}
		c.landsOnPart(path, what, pt, part.Kind, names)
		return
	}
	if c.x.MainsByRef(pt.Device) != nil {
		c.landsOnPart(path, what, pt, "mains", mainsTerminals)
		return
	}
	c.report(path, "unknown-device", what, text, pt.Device, c.nearest(pt.Device, c.refs))
}

func (c *checker) landsOnPart(path, what string, pt panel.Point, kind string, names []string) {
	if !slices.Contains(names, pt.Terminal) {
		near := panel.Nearest(pt.Terminal, names)
		if near != "" {
			near = pt.Device + ":" + near
		}
		c.report(path, "unknown-terminal", what, pt.String(), pt.Device, pt.Terminal, kind, list(names), near)
		return
	}
	if pt.Side != "" {
		c.report(path, "side-needless", what, pt.String(), pt.Device+":"+pt.Terminal)
	}
}

func (c *checker) landsOnBlock(path, what string, pt panel.Point, s *panel.Strip) {
	b, level, ok := c.x.Split(pt)
	if !ok {
		near := c.nearest(pt.Terminal, func() []string { return blockNumbers(s) })
		if near != "" {
			near = s.Ref + ":" + near
		}
		c.report(path, "unknown-block", what, pt.String(), s.Ref, pt.Terminal, near)
		return
	}
	k, known := parts.Lookup(b.Type)
	if !known || !k.Block {
		return // told at the block
	}
	name, have := s.Ref+":"+b.No, levels(k)
	switch {
	case level > 0 && !slices.Contains(have, strconv.Itoa(level)):
		c.report(path, "unknown-level", what, pt.String(), name, strconv.Itoa(level), b.Type, list(have))
	case level == 0 && len(have) > 0:
		c.report(path, "level-missing", what, pt.String(), name, b.Type, name+"."+have[0])
	case pt.Side == "" && sided(k, level):
		c.report(path, "side-missing", what, pt.String(), b.Type)
	}
}

package drill

import (
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/meter"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

func at(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

func modeNames() []string {
	var names []string
	for _, m := range meter.Modes {
		names = append(names, string(m))
	}
	return names
}

// metals lists the touchable metal of a thing as people name it, earth apart: a wire,
// one of its ends, a cable, a block, a clamp, a part, a contact, or two things with ~ between them.
// Empty where there is no such thing.
func (c *Case) metals(thing string) (list []circuit.Node) {
	net := c.Rig.Model.Net
	add := func(n circuit.Node) {
		if n != circuit.Earth && !slices.Contains(list, n) {
			list = append(list, n)
		}
	}
	for _, one := range strings.Split(thing, "~") {
		one = c.name(one)
		ref, terminal, hasTerminal := strings.Cut(one, ":")
		contact := strings.Split(terminal, "-")
		for _, e := range net.Ends {
			if e.No == one || e.No+"@"+e.At == one || e.Cable != "" && e.Cable == one {
				add(e.Metal)
			}
		}
		for _, p := range net.Points {
			switch {
			case p.Hidden:
			case p.Name == one || strings.HasPrefix(p.Name, one+"/") || strings.HasPrefix(p.Name, one+"."):
				add(p.Node)
			case !hasTerminal && p.Ref == one && c.Rig.index.Strip(one) == nil:
				add(p.Node)
			case len(contact) > 1 && p.Ref == ref && slices.Contains(contact, strings.TrimPrefix(p.Name, ref+":")):
				add(p.Node)
			}
		}
		if p, ok := net.FindPoint(one); ok && !p.Hidden {
			add(p.Node)
		}
	}
	return list
}

// name gives the designation a person means: without the levels of IEC 81346, a tag
// replaced by its part.
func (c *Case) name(thing string) string {
	thing = panel.Designation(thing)
	if pt, ok := panel.ParsePoint(thing); ok {
		return pt.String()
	}
	for i := range c.Rig.Panel.Parts {
		if p := &c.Rig.Panel.Parts[i]; p.Tag != "" && p.Tag == thing {
			return p.Ref
		}
	}
	return thing
}

// inField says whether a thing is out of the panel.
func (c *Case) inField(thing string) bool {
	one := c.name(thing)
	if _, at, ok := strings.Cut(one, "@"); ok {
		one = at
	}
	for _, p := range c.Rig.Model.Net.Points {
		if p.Field && (p.Name == one || p.Ref == one) {
			return true
		}
	}
	ref, _, _ := strings.Cut(one, ":")
	if part := c.Rig.index.Part(ref); part != nil {
		return part.At == "field"
	}
	return false
}

// end finds a wire end by "W12@X1:4/out", or by "W12@X1:4" where that is one.
func (c *Case) end(thing string) (e parts.WireEnd, ok bool) {
	thing = c.name(thing)
	for _, e := range c.Rig.Model.Net.Ends {
		if name := e.No + "@" + e.At; name == thing || strings.TrimSuffix(strings.TrimSuffix(name, "/in"), "/out") == thing {
			return e, true
		}
	}
	return e, false
}

// placeOf is where a thing is mended, as the faults of the panel have it: the wire
// of one of its ends, the part of a contact; otherwise the thing itself.
func (c *Case) placeOf(thing string) string {
	thing = c.name(thing)
	for i := range c.Rig.Set.Faults {
		if f := &c.Rig.Set.Faults[i]; f.Thing == thing {
			return f.Place
		}
	}
	return thing
}

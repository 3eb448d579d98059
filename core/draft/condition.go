package draft

import (
	"maps"
	"slices"
	"strings"

	"halfsplit/core/panel"
)

// The states every panel has: the one it is in when nothing else is said, and
// the one that is not the document's to define.
const (
	usualCondition = "normal"
	powerOff       = "power-off"
)

// condition adds a state of the plant, or changes one: positions are added to
// those it has, an empty one taken away; steps replace those it has. With Ref it
// is the condition of that name, which is called Name from now on.
func (d *drafter) condition(e *Edit) {
	name := strings.TrimSpace(e.Name)
	if name == "" {
		name = e.Ref
	}
	if name == "" {
		name = usualCondition
	}
	switch {
	case strings.ContainsAny(name, ";\n"):
		d.fail("draft.condition-form", name)
	case name == powerOff:
		d.fail("draft.condition-kept", name)
	case e.Ref != "" && e.Ref != name:
		d.renameCondition(e.Ref, name)
	}
	if d.err != nil {
		return
	}
	c := d.findCondition(name)
	if c == nil {
		c = d.newCondition(name)
	}
	set(&c.About, e.About)
	d.positions(c, e.Positions)
	if len(e.Steps) > 0 {
		c.Steps = slices.Clone(e.Steps)
	}
	steps := strings.Join(c.Steps, ";")
	d.clear(e.Clear, map[string]*string{"about": &c.About, "steps": &steps})
	if steps == "" {
		c.Steps = nil
	}
	args := []string{name} // then what stands how, in pairs
	for _, key := range sorted(e.Positions) {
		if e.Positions[key] != "" {
			args = append(args, key, e.Positions[key])
		}
	}
	d.say("", "draft.made-condition", args...)
}

// positions sets how things stand. A thing is the same in whatever spelling.
func (d *drafter) positions(c *panel.Condition, stand map[string]string) {
	for _, key := range sorted(stand) {
		ref := panel.Designation(key)
		maps.DeleteFunc(c.Set, func(was, _ string) bool { return panel.Designation(was) == ref })
		if stand[key] == "" {
			continue
		}
		if c.Set == nil {
			c.Set = map[string]string{}
		}
		c.Set[key] = stand[key]
	}
}

// newCondition adds one; normal comes first, a panel opens in the first.
func (d *drafter) newCondition(name string) *panel.Condition {
	i := len(d.p.Conditions)
	if name == usualCondition {
		i = 0
	}
	d.p.Conditions = slices.Insert(d.p.Conditions, i, panel.Condition{Name: name})
	return &d.p.Conditions[i]
}

func (d *drafter) renameCondition(was, name string) {
	c := d.needCondition(was)
	switch {
	case c == nil:
	case was == usualCondition:
		d.fail("draft.condition-kept", was)
	case d.findCondition(name) != nil || name == usualCondition:
		d.fail("draft.condition-taken", name)
	default:
		c.Name = name
		d.say("", "draft.made-rename", was, name)
	}
}

func (d *drafter) removeCondition(e *Edit) {
	c := d.needCondition(e.Ref)
	switch {
	case c == nil:
	case e.Ref == usualCondition:
		d.fail("draft.condition-kept", e.Ref)
	default:
		d.p.Conditions = slices.DeleteFunc(d.p.Conditions, func(c panel.Condition) bool { return c.Name == e.Ref })
		d.say("", "draft.gone-condition", e.Ref)
	}
}

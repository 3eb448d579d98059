package draft

import (
	"slices"
	"strings"

	"halfsplit/core/panel"
)

// usualCondition is the state every panel is in when nothing else is said.
const usualCondition = "normal"

// condition adds a state of the plant, or changes one: positions are added to
// those it has, an empty one taken away; steps replace those it has.
func (d *drafter) condition(e *Edit) {
	name := strings.TrimSpace(e.Name)
	if name == "" {
		name = usualCondition
	}
	if strings.ContainsAny(name, ";\n") {
		d.fail("draft.condition-form", name)
		return
	}
	i := slices.IndexFunc(d.p.Conditions, func(c panel.Condition) bool { return c.Name == name })
	if i < 0 {
		c := panel.Condition{Name: name}
		if name == usualCondition { // the first is the one a panel opens in
			d.p.Conditions = slices.Insert(d.p.Conditions, 0, c)
			i = 0
		} else {
			d.p.Conditions = append(d.p.Conditions, c)
			i = len(d.p.Conditions) - 1
		}
	}
	c := &d.p.Conditions[i]
	set(&c.About, e.About)
	for _, key := range sorted(e.Positions) {
		if e.Positions[key] == "" {
			delete(c.Set, key)
			continue
		}
		if c.Set == nil {
			c.Set = map[string]string{}
		}
		c.Set[key] = e.Positions[key]
	}
	if len(e.Steps) > 0 {
		c.Steps = slices.Clone(e.Steps)
	}
	if slices.Contains(e.Clear, "steps") {
		c.Steps = nil
	}
	d.say("", "draft.made-condition", name)
}

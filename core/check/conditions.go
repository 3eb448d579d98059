package check

import (
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// The conditions every panel is asked about: normal is where questions start,
// power-off always exists and is not the document's to define.
const (
	normal   = "normal"
	powerOff = "power-off"
)

func (c *checker) conditions() {
	names := map[string]bool{}
	for i := range c.p.Conditions {
		d, path := &c.p.Conditions[i], item("conditions", i)
		switch {
		case d.Name == "":
			c.report(path, "condition-name-missing")
		case d.Name == powerOff:
			c.report(path+".name", "condition-reserved", powerOff)
		case strings.Contains(d.Name, ";"):
			c.report(path+".name", "condition-name-form", d.Name)
		case names[d.Name]:
			c.report(path+".name", "duplicate-condition", d.Name)
		}
		names[d.Name] = true
		for _, ref := range sortedKeys(d.Set) {
			at := panel.Key(path+".set", ref)
			if k := c.movable(at, d.Name, ref); k != nil {
				c.position(at, k, ref, d.Set[ref])
			}
		}
		for j, step := range d.Steps {
			c.step(item(path+".steps", j), d.Name, step)
		}
	}
	if !names[normal] {
		c.report("conditions", "normal-missing", normal)
	}
}

// movable gives the kind of what a condition names, nil where that is nothing a
// person or the process moves.
func (c *checker) movable(path, condition, ref string) *parts.Kind {
	i, ok := c.net.Input(panel.Designation(ref))
	if !ok {
		c.report(path, "target-unknown", condition, ref, c.nearest(ref, func() (names []string) {
			for _, e := range c.net.Elements {
				if can(e.Kind) && !strings.Contains(e.Ref, " ") {
					names = append(names, e.Ref)
				}
			}
			return names
		}))
		return nil
	}
	k := c.net.Elements[i].Kind
	if !can(k) {
		name := ""
		if k != nil {
			name = k.Name
		}
		c.report(path, "target-fixed", condition, ref, name)
		return nil
	}
	return k
}

func can(k *parts.Kind) bool { return k != nil && (len(k.Positions) > 0 || k.Analogue) }

func (c *checker) position(path string, k *parts.Kind, ref, position string) {
	if k.Analogue {
		if v, err := unit.Parse(position, unit.Ratio); err == nil && v >= 0 && v <= 1 {
			return
		}
		if a, err := unit.Parse(position, unit.Current); err == nil && a >= 0 && a <= 0.025 {
			return
		}
		c.report(path, "process-value-unreadable", ref, position)
		return
	}
	var names []string
	for _, p := range k.Positions {
		names = append(names, p.Name)
	}
	if !slices.Contains(names, position) {
		c.report(path, "position-unknown", ref, k.Name, position, list(names), panel.Nearest(position, names))
	}
}

// step checks "press S2" and "set B3 50 %".
func (c *checker) step(path, condition, step string) {
	words := strings.Fields(step)
	if len(words) < 2 || words[0] == "set" && len(words) < 3 {
		c.report(path, "step-unreadable", condition, step)
		return
	}
	k := c.movable(path, condition, words[1])
	if k == nil {
		return
	}
	if words[0] == "set" {
		c.position(path, k, words[1], strings.Join(words[2:], " "))
		return
	}
	verbs := []string{"set"}
	for _, p := range k.Positions {
		verbs = append(verbs, p.Verb)
	}
	if !slices.Contains(verbs, words[0]) {
		c.report(path, "verb-unknown", words[0], words[1], k.Name, list(verbs), panel.Nearest(words[0], verbs))
	}
}

// edits checks what applying them did not.
func (c *checker) edits(drawn *panel.Doc) {
	for i, e := range drawn.Panel.Found {
		if e.When == "" {
			continue
		}
		if !isTime(e.When) {
			path := item("found", i) + ".when"
			c.problems = append(c.problems, drawn.Problem(path, "edit-time-unreadable", e.When))
		}
	}
}

// isTime says whether a text is a time after RFC 3339, section 5.6. Package time
// would bring its tables of zones and layouts to the phone for it.
func isTime(s string) bool {
	const date, clock = "0000-00-00T00:00:00", "+00:00"
	if len(s) <= len(date) || !shaped(s[:len(date)], date) {
		return false
	}
	month, day := s[5:7], s[8:10]
	if month < "01" || month > "12" || day < "01" || day > daysOf(s[:4], month) || s[11:13] > "23" || s[14:16] > "59" || s[17:19] > "59" {
		return false
	}
	zone := s[len(date):]
	if zone[0] == '.' {
		rest := strings.TrimLeft(zone[1:], "0123456789")
		if len(rest) == len(zone)-1 {
			return false // a point and no digits
		}
		zone = rest
	}
	return zone == "Z" || len(zone) == len(clock) && (zone[0] == '+' || zone[0] == '-') && shaped(zone[1:], clock[1:]) &&
		zone[1:3] <= "23" && zone[4:] <= "59"
}

// shaped says whether s has a digit where like has one and the same signs elsewhere.
func shaped(s, like string) bool {
	for i := range len(like) {
		if digit := like[i] == '0'; digit && (s[i] < '0' || s[i] > '9') || !digit && s[i] != like[i] {
			return false
		}
	}
	return true
}

// daysOf a month, as two digits.
func daysOf(year, month string) string {
	switch month {
	case "04", "06", "09", "11":
		return "30"
	case "02":
		n, _ := strconv.Atoi(year) // four digits
		if n%4 == 0 && (n%100 != 0 || n%400 == 0) {
			return "29"
		}
		return "28"
	}
	return "31"
}

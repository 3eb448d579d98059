package fault

import (
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// A ParseError says why a text names no fault of this panel.
type ParseError struct {
	Text    string
	Code    string // "fault-form", "fault-unknown-thing", "fault-unknown-mode", "fault-bad-value"
	Thing   string
	Choices []string // modes the thing has, or the nearest things
}

func (e *ParseError) Error() string { return e.Code + ": " + e.Text }

// Parse reads a fault by name: a listed one, or one with a value of its own.
// The error is a *ParseError.
func (s *Set) Parse(text string) (*Fault, error) {
	text = strings.TrimSpace(text)
	thing, mode, ok := strings.Cut(text, "=")
	if !ok || thing == "" || mode == "" {
		return nil, &ParseError{Text: text, Code: "fault-form"}
	}
	if f, ok := s.Find(text); ok {
		return f, nil
	}
	name, value, _ := strings.Cut(mode, ":")
	if m, ok := s.build(thing, name, value); ok {
		return &Fault{Mode: m}, nil
	}
	var modes, things []string
	seen := map[string]bool{}
	for i := range s.Faults {
		f := &s.Faults[i]
		if f.Thing == thing && f.Name == name {
			return nil, &ParseError{Text: text, Code: "fault-bad-value", Thing: thing, Choices: s.values(thing, name)}
		}
		if f.Thing == thing {
			modes = append(modes, f.Mode.Key()[len(thing)+1:])
		}
		if !seen[f.Thing] {
			seen[f.Thing] = true
			things = append(things, f.Thing)
		}
	}
	if len(modes) > 0 {
		return nil, &ParseError{Text: text, Code: "fault-unknown-mode", Thing: thing, Choices: modes}
	}
	e := &ParseError{Text: text, Code: "fault-unknown-thing", Thing: thing}
	if near := panel.Nearest(thing, things); near != "" {
		e.Choices = []string{near}
	}
	return nil, e
}

func (s *Set) values(thing, name string) []string {
	var out []string
	for i := range s.Faults {
		if f := &s.Faults[i]; f.Thing == thing && f.Name == name && f.Value != "" {
			out = append(out, f.Value)
		}
	}
	return out
}

// build makes a fault that All does not list.
func (s *Set) build(thing, name, value string) (*parts.Mode, bool) {
	switch name {
	case "loose":
		ohms, ok := parseOhms(value)
		if e, found := s.end(thing); found && ok {
			m := &parts.Mode{Thing: thing, Name: name, Value: shortText(ohms), Class: "resistive",
				Changes: []parts.Change{parts.Resist(e.Clamp, ohms)}, Rate: parts.RateMoved, Place: e.No, Repair: "tighten-clamp"}
			return m, true
		}
	case "moved":
		if e, found := s.end(thing); found {
			for _, p := range s.Net.Places {
				if p.Name == value && p.Node != e.Metal {
					return moved(e, p), true
				}
			}
		}
	case "short":
		return s.buildShort(thing, value)
	case "swapped":
		a, b, _ := strings.Cut(thing, "~")
		x, ok1 := s.end(a)
		y, ok2 := s.end(b)
		if ok1 && ok2 && x.Metal != y.Metal {
			return &parts.Mode{Thing: thing, Name: name, Class: "wrong-place", Changes: exchange(x, y),
				Rate: parts.RateSwapped, Place: x.At + "~" + y.At, Repair: "swap-wires-back", Visible: true}, true
		}
	}
	return nil, false
}

func (s *Set) buildShort(thing, value string) (*parts.Mode, bool) {
	a, b, ok := strings.Cut(thing, "~")
	if !ok {
		return nil, false
	}
	x, ok1 := s.wire(a)
	if !ok1 {
		p, ok1 := s.place(a)
		q, ok2 := s.place(b)
		if ok1 && ok2 && p.Node != q.Node && value == "" {
			return bridged(p, q), true
		}
		return nil, false
	}
	if b == "PE" {
		if value == "" {
			value = shortText(earthOhms)
		}
		if _, ok := parseOhms(value); ok {
			return earthed(x, value), true
		}
		return nil, false
	}
	if y, ok := s.wire(b); ok && y.No != x.No && value == "" {
		return shorted(x, y), true
	}
	return nil, false
}

func (s *Set) end(thing string) (parts.WireEnd, bool) {
	no, at, _ := strings.Cut(thing, "@")
	for _, e := range s.Net.Ends {
		if e.No == no && e.At == at {
			return e, true
		}
	}
	return parts.WireEnd{}, false
}

// wire gives the far end of a wire by its number.
func (s *Set) wire(no string) (parts.WireEnd, bool) {
	for i := 1; i < len(s.Net.Ends); i += 2 {
		if s.Net.Ends[i].No == no {
			return s.Net.Ends[i], true
		}
	}
	return parts.WireEnd{}, false
}

func (s *Set) place(name string) (parts.Place, bool) {
	for _, p := range s.Net.Places {
		if p.Name == name {
			return p, true
		}
	}
	return parts.Place{}, false
}

// parseOhms reads "10ohm", "1 kohm" above zero.
func parseOhms(s string) (float64, bool) {
	v, err := unit.Parse(s, unit.Resistance)
	return v, err == nil && v > 0 && v <= 1e9
}

func shortText(ohms float64) string { return strconv.FormatFloat(ohms, 'g', -1, 64) + "ohm" }

package parts

import (
	"slices"
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
)

// contactOhms is a new relay or button contact. Source: relay data sheets state
// at most 100 mΩ at 6 V, 1 A; a good one a third of it.
const contactOhms = 0.03

// contacts is a set of branches moved by an input: position 1 closes those of
// made and opens those of closed. It has no state of its own.
type contacts struct {
	made   []int // closed in position 1
	closed []int // closed in position 0
	ohms   float64
}

func (c *contacts) Stamp(_ State, in float64, w Writer) {
	stampContacts(w, c.made, in != 0, c.ohms)
	stampContacts(w, c.closed, in == 0, c.ohms)
}

func (*contacts) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

func stampContacts(w Writer, branches []int, closed bool, ohms float64) {
	for _, k := range branches {
		if closed {
			w.DC(k, Resistor(ohms))
			w.AC(k, ResistorAC(ohms))
		} else {
			w.DC(k, circuit.Value{})
			w.AC(k, circuit.ACValue{})
		}
	}
}

// A Contact is one contact by its markings.
type Contact struct {
	Common string
	Made   string // closed when operated; empty without
	Rest   string // closed at rest; empty without
}

// ParseContact reads "13-14", "21-22", "11-12-14". The function digit says what
// it is: 1-2 opens, 3-4 closes, 1-2-4 changes over (EN 50005). ok is false for
// anything else.
func ParseContact(s string) (c Contact, ok bool) {
	marks := strings.Split(s, "-")
	for _, m := range marks {
		if len(m) < 2 || len(m) > 3 || strings.Trim(m, "0123456789") != "" || m[:len(m)-1] != marks[0][:len(marks[0])-1] {
			return Contact{}, false
		}
	}
	digits := ""
	for _, m := range marks {
		digits += m[len(m)-1:]
	}
	switch digits {
	case "34":
		return Contact{Common: marks[0], Made: marks[1]}, true
	case "12":
		return Contact{Common: marks[0], Rest: marks[1]}, true
	case "124":
		return Contact{Common: marks[0], Rest: marks[1], Made: marks[2]}, true
	}
	return Contact{}, false
}

// contactTerminals lists the terminals of a part's contacts, or of fallback
// where it names none.
func contactTerminals(p *panel.Part, fallback ...string) []Terminal {
	var ts []Terminal
	for _, s := range contactList(p, fallback) {
		for _, m := range strings.Split(s, "-") {
			ts = append(ts, Terminal{Name: m})
		}
	}
	return ts
}

func contactList(p *panel.Part, fallback []string) []string {
	if p != nil && len(p.Contacts) > 0 {
		return p.Contacts
	}
	return fallback
}

// addContacts makes the branches of a part's contacts and their modes. rate is
// that of one contact.
func addContacts(b *Builder, rate float64, fallback ...string) (made, closed []int) {
	add := func(from, to string, list *[]int) {
		thing := b.Ref + ":" + from + "-" + to
		k := b.Resistor(RoleContact, thing, b.Terminal(from), b.Terminal(to), contactOhms)
		*list = append(*list, k)
		b.Mode(Mode{Thing: thing, Name: "stuck-open", Class: "open", Changes: []Change{Open(k)}, Rate: rate * shareSwitchOpen, Repair: "replace-part"})
		b.Mode(Mode{Thing: thing, Name: "welded", Class: "short", Changes: []Change{Resist(k, contactOhms)}, Rate: rate * shareSwitchShort, Repair: "replace-part"})
	}
	for _, s := range contactList(b.Part, fallback) {
		c, ok := ParseContact(s)
		if !ok {
			continue // package check has told
		}
		if c.Rest != "" {
			add(c.Common, c.Rest, &closed)
		}
		if c.Made != "" {
			add(c.Common, c.Made, &made)
		}
	}
	return made, closed
}

// guide makes those of some contacts that have welded keep the others open.
func guide(b *Builder, contacts, others []int) {
	for i := range b.net.Modes {
		m := &b.net.Modes[i]
		if m.Name != "welded" || !slices.Contains(contacts, m.Changes[0].Branch) {
			continue
		}
		for _, k := range others {
			m.Changes = append(m.Changes, Open(k))
		}
	}
}

// operated makes a kind whose contacts a person or the process moves.
func operated(name, symbol string, letters []string, rate float64, fallback string, positions ...Position) *Kind {
	return &Kind{
		Name: name, Letters: letters, Symbol: symbol, Positions: positions,
		Terminals: func(p *panel.Part) []Terminal { return contactTerminals(p, fallback) },
		Build: func(b *Builder) {
			made, closed := addContacts(b, rate, fallback)
			b.Element(b.Ref, &contacts{made: made, closed: closed, ohms: contactOhms}, 0)
		},
	}
}

// tagged says which instrument tags the kind usually carries.
func (k *Kind) tagged(tags ...string) *Kind {
	k.Tags = tags
	return k
}

var (
	button = operated("button", "push-button", []string{"S", "PB"}, rateButton, "13-14",
		Position{"released", "release", 0}, Position{"pressed", "press", 1}).tagged("HS")
	selector = operated("selector", "selector", []string{"S", "SS"}, rateRotary, "13-14",
		Position{"off", "turn-off", 0}, Position{"on", "turn-on", 1}).tagged("HS")
	limitSwitch = operated("limit-switch", "position-switch", []string{"B", "S", "LS"}, rateSensitive, "13-14",
		Position{"free", "free", 0}, Position{"reached", "reach", 1}).tagged("ZS", "ZSO", "ZSC", "ZSH", "ZSL", "GS")
	floatSwitch = operated("float-switch", "level-switch", []string{"B", "S", "FS"}, rateSensitive, "13-14",
		Position{"dry", "drain", 0}, Position{"wet", "flood", 1}).tagged("LS", "LSH", "LSL", "LSHH", "LSLL")
	flowSwitch = operated("flow-switch", "flow-switch", []string{"B", "S"}, rateSensitive, "13-14",
		Position{"still", "stop-flow", 0}, Position{"flowing", "start-flow", 1}).tagged("FS", "FSH", "FSL", "FSHH", "FSLL")
	plainSwitch = operated("switch", "switch", []string{"S", "Q"}, rateRotary, "13-14",
		Position{"open", "open", 0}, Position{"closed", "close", 1}).tagged("*S", "*SH", "*SL", "*SHH", "*SLL")
)

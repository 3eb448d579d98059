package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// A link is a fuse or breaker: mode 0 holds, mode 1 has opened, all its poles
// together.
type link struct {
	branches []int // one a pole
	rated    float64
	curve    []gate
	ohms     float64 // a pole
}

func (l *link) Stamp(s State, in float64, w Writer) {
	stampContacts(w, l.branches, s.Mode == 0 && in == 0, l.ohms)
}

func (l *link) Next(s State, _ float64, v View) (State, Wait) {
	if s.Mode == 1 {
		return s, Wait{}
	}
	amps := 0.0
	for _, k := range l.branches {
		if i := v.Amps(k); i > amps {
			amps = i
		}
	}
	wait, open := opens(l.curve, amps/l.rated)
	if !open {
		return s, Wait{}
	}
	return State{Mode: 1}, wait
}

// addFuse makes a fuse link between two nodes with its mode.
func addFuse(b *Builder, thing, mode string, from, to circuit.Node, rating unit.Fuse) {
	ohms := linkOhms(rating.Rated)
	k := b.Resistor(RoleFuse, thing, from, to, ohms)
	e := b.Element(thing+" link", &link{branches: []int{k}, rated: rating.Rated, curve: curveOf(rating), ohms: ohms}, 0, from, to)
	b.Mode(Mode{Thing: thing, Name: mode, Class: "open", Changes: []Change{{What: FixState, Element: e, State: State{Mode: 1}}}, Rate: rateFuse, Repair: "find-overcurrent-then-replace-fuse"})
}

var fuse = &Kind{
	Name: "fuse", Letters: []string{"F", "FU"}, Symbol: "fuse",
	Ratings:   []Rating{{Name: "current", Dim: unit.Current, Must: true, Link: true, Source: "the document: \"2 A T\""}},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{Name: "1"}, {Name: "2"}} },
	Build: func(b *Builder) {
		addFuse(b, b.Ref, "blown", b.Terminal("1"), b.Terminal("2"), b.Protection())
	},
}

var breaker = &Kind{
	Name: "breaker", Letters: []string{"F", "Q", "CB"}, Symbol: "circuit-breaker", Isolates: true,
	Ratings: []Rating{
		{Name: "current", Dim: unit.Current, Must: true, Link: true, Source: "the document: \"C6\""},
		{Name: "poles", Dim: unit.Ratio, Default: "1", Source: "choice"},
	},
	Positions: []Position{{"on", "switch-on", 0}, {"off", "switch-off", 1}},
	Terminals: func(p *panel.Part) []Terminal {
		ts := []Terminal{{Name: "1"}, {Name: "2"}}
		if p.Ratings["poles"] == "2" {
			ts = append(ts, Terminal{Name: "3"}, Terminal{Name: "4"})
		}
		return ts
	},
	Build: func(b *Builder) {
		rating := b.Protection()
		ohms := breakerWatts / (rating.Rated * rating.Rated)
		l := &link{rated: rating.Rated, curve: curveOf(rating), ohms: ohms}
		poles := [][2]string{{"1", "2"}, {"3", "4"}}[:max(1, min(2, int(b.R["poles"])))]
		var sense []circuit.Node
		for _, p := range poles {
			from, to := b.Terminal(p[0]), b.Terminal(p[1])
			l.branches = append(l.branches, b.Resistor(RoleFuse, b.Ref, from, to, ohms))
			sense = append(sense, from, to)
		}
		e := b.Element(b.Ref, l, 0, sense...)
		b.Mode(Mode{Thing: b.Ref, Name: "tripped", Class: "open", Changes: []Change{{What: FixState, Element: e, State: State{Mode: 1}}}, Rate: rateBreaker, Repair: "find-overcurrent-then-reset", Visible: true})
	},
}

// breakerWatts is the loss of a pole at rated current: half of the 3 W that
// IEC 60898-1 allows up to 10 A (from memory).
const breakerWatts = 1.5

// ModeName implements Namer.
func (l *link) ModeName(s State) string { return [...]string{"whole", "opened"}[s.Mode] }

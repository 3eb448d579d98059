package fault

import (
	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// jointOhms is the clamp of a wire that landed where it should not: as good a
// joint as any.
const jointOhms = 0.25e-3

// misplaced is every wire end landed one terminal off, in the row it belongs to.
func misplaced(net *parts.Net) []*parts.Mode {
	at := map[string]int{}
	for i, p := range net.Places {
		at[p.Name] = i
	}
	var list []*parts.Mode
	for _, e := range net.Ends {
		i := at[e.At]
		for _, j := range []int{before(net.Places, i), next(net.Places, i)} {
			if j >= 0 && net.Places[j].Node != e.Metal {
				list = append(list, moved(e, net.Places[j]))
			}
		}
	}
	return list
}

// moved is one wire end landed at to.
func moved(e parts.WireEnd, to parts.Place) *parts.Mode {
	return &parts.Mode{
		Thing: e.No + "@" + e.At, Name: "moved", Value: to.Name, Class: "wrong-place",
		Changes: []parts.Change{parts.Open(e.Clamp), parts.Join(e.Strand, to.Node, jointOhms)},
		Rate:    parts.RateMoved, Place: e.No, Repair: "land-wire-as-drawn", Visible: true,
	}
}

// swapped is every two wires of neighbouring terminals each landed on the
// other's. The two of a polarised part are that part reversed.
func swapped(net *parts.Net) []*parts.Mode {
	ends := map[string][]parts.WireEnd{} // by place
	for _, e := range net.Ends {
		ends[e.At] = append(ends[e.At], e)
	}
	var list []*parts.Mode
	for i, p := range net.Places {
		j := next(net.Places, i)
		if j < 0 {
			continue
		}
		q := net.Places[j]
		if p.Node == q.Node || len(ends[p.Name]) != 1 || len(ends[q.Name]) != 1 {
			continue
		}
		a, b := ends[p.Name][0], ends[q.Name][0]
		m := &parts.Mode{
			Thing: a.No + "@" + a.At + "~" + b.No + "@" + b.At, Name: "swapped", Class: "wrong-place",
			Changes: exchange(a, b), Rate: parts.RateSwapped,
			Place: a.At + "~" + b.At, Repair: "swap-wires-back", Visible: true,
		}
		if p.Pole == parts.Positive && q.Pole == parts.Negative {
			m.Thing, m.Name, m.Place = p.Row, "reversed", p.Row
		}
		list = append(list, m)
	}
	return list
}

func exchange(a, b parts.WireEnd) []parts.Change {
	return []parts.Change{
		parts.Open(a.Clamp), parts.Open(b.Clamp),
		parts.Join(a.Strand, b.Metal, jointOhms), parts.Join(b.Strand, a.Metal, jointOhms),
	}
}

// next is the place after i in its row, -1 at the end of it.
func next(places []parts.Place, i int) int {
	for j := i + 1; j < len(places) && j <= i+rowStride; j++ {
		if places[j].Row == places[i].Row {
			return j
		}
	}
	return -1
}

// before is the place ahead of i in its row, -1 at the head of it.
func before(places []parts.Place, i int) int {
	for j := i - 1; j >= 0 && j >= i-rowStride; j-- {
		if places[j].Row == places[i].Row {
			return j
		}
	}
	return -1
}

// rowStride bounds how far apart neighbours of a row stand in the list: a block
// has at most three levels of two sides.
const rowStride = 8

// cableShorts is every two neighbouring cores of one cable touching. Shorts
// between conductors inside one enclosure are left out, as ISO 13849-2 allows.
func cableShorts(net *parts.Net) []*parts.Mode {
	last := map[string]parts.WireEnd{}
	var list []*parts.Mode
	for i := 1; i < len(net.Ends); i += 2 {
		e := net.Ends[i]
		if e.Cable == "" {
			continue
		}
		if before, ok := last[e.Cable]; ok {
			list = append(list, shorted(before, e))
		}
		last[e.Cable] = e
	}
	return list
}

const (
	shortOhms = 0.1 // two strands touching: choice
	earthOhms = 0.5 // a core on its gland or frame: choice
)

func shorted(a, b parts.WireEnd) *parts.Mode {
	return &parts.Mode{
		Thing: a.No + "~" + b.No, Name: "short", Class: "short",
		Changes: []parts.Change{parts.Join(a.Strand, b.Strand, shortOhms)},
		Rate:    parts.RateShort, Place: cableOf(a, a.No+"~"+b.No), Repair: "find-short-replace-cable",
	}
}

// cableOf is where a damaged core is mended: its cable, all cores together;
// otherwise the thing itself.
func cableOf(e parts.WireEnd, otherwise string) string {
	if e.Cable != "" {
		return e.Cable
	}
	return otherwise
}

// earthFaults is every conductor that leaves the panel touching earth, but for
// those that belong there.
func earthFaults(net *parts.Net) []*parts.Mode {
	var list []*parts.Mode
	for i := 1; i < len(net.Ends); i += 2 {
		from, to := net.Ends[i-1], net.Ends[i]
		if net.Nodes[from.Metal].Earthing || net.Nodes[to.Metal].Earthing || from.Place.Pole == parts.Earth || to.Place.Pole == parts.Earth {
			continue
		}
		if from.Place.Field || to.Place.Field {
			list = append(list, earthed(to, shortText(earthOhms)))
		}
	}
	return list
}

func earthed(e parts.WireEnd, value string) *parts.Mode {
	ohms, _ := parseOhms(value)
	if ohms == earthOhms {
		value = ""
	}
	return &parts.Mode{
		Thing: e.No + "~PE", Name: "short", Value: value, Class: "short",
		Changes: []parts.Change{parts.Join(e.Strand, circuit.Earth, ohms)},
		Rate:    parts.RateShort, Place: cableOf(e, e.No), Repair: "find-earth-fault-replace-cable",
	}
}

// blockShorts is every two neighbouring terminals bridged on the field side, by a
// strand or a forgotten jumper.
func blockShorts(net *parts.Net) []*parts.Mode {
	var list []*parts.Mode
	for i, p := range net.Places {
		if p.Side != "out" {
			continue
		}
		j := next(net.Places, i)
		if j < 0 || net.Places[j].Node == p.Node {
			continue
		}
		list = append(list, bridged(p, net.Places[j]))
	}
	return list
}

func bridged(p, q parts.Place) *parts.Mode {
	return &parts.Mode{
		Thing: p.Name + "~" + q.Name, Name: "short", Class: "short",
		Changes: []parts.Change{parts.Join(p.Node, q.Node, shortOhms)},
		Rate:    parts.RateShort, Place: p.Name + "~" + q.Name, Repair: "remove-bridge", Visible: true,
	}
}

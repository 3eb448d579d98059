package api

import (
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/words"
)

// view is the panel for drawing: strips with what lands on them, parts, wires,
// devices, points.
func (s *session) view(lang string) *Opened {
	v := &Opened{Name: s.found.Name, About: s.found.About, Conditions: []ConditionDef{}, Strips: []StripView{}, Parts: []PartView{},
		Devices: []DeviceDef{}, Wires: []WireView{}, Points: []PointDef{}, Cautions: s.panelCautions(lang)}
	at := s.wireEnds()
	faults := s.faultsByThing()
	s.ends = at
	for _, name := range s.model.Conditions() {
		d := ConditionDef{Name: name, Steps: []string{}}
		for _, c := range s.found.Conditions {
			if c.Name == name {
				d.About = c.About
				d.Steps = append(d.Steps, c.Steps...)
			}
		}
		v.Conditions = append(v.Conditions, d)
	}
	for i := range s.found.Strips {
		v.Strips = append(v.Strips, s.stripView(&s.found.Strips[i], at, faults))
	}
	for i := range s.found.Mains {
		m := &s.found.Mains[i]
		p := &panel.Part{Ref: m.Ref, Kind: "mains", Label: m.Voltage + " " + m.Frequency + " " + m.Earthing}
		v.Parts = append(v.Parts, s.partView(lang, p, at, faults))
	}
	for i := range s.found.Parts {
		v.Parts = append(v.Parts, s.partView(lang, &s.found.Parts[i], at, faults))
	}
	for _, d := range s.model.Net.Devices {
		def := DeviceDef{Ref: d.Ref, Tag: d.Tag, Part: d.Part, Kind: words.Say(lang, "kind."+d.Kind.Name), Process: d.Process}
		if p := s.index.Part(d.Part); p != nil {
			def.Label = p.Label
		}
		if feeder := s.feeder(d.Ref); d.Ref != d.Part && feeder != "" {
			def.Label = feeder
		}
		v.Devices = append(v.Devices, def)
	}
	for _, w := range s.found.Wires {
		v.Wires = append(v.Wires, WireView{No: w.No, From: w.From, To: w.To, Size: w.Size, Length: w.Length, Colour: w.Colour, Cable: w.Cable, Core: w.Core, Faults: orEmpty(faults[w.No])})
	}
	for _, p := range s.model.Net.Points {
		if !p.Hidden {
			v.Points = append(v.Points, PointDef{Point: p.Name, Ref: p.Ref, Field: p.Field})
		}
	}
	return v
}

// wireEnds lists the wires at every place, by the place's name.
func (s *session) wireEnds() map[string][]WireEnd {
	net := s.model.Net
	at := map[string][]WireEnd{}
	for i := 1; i < len(net.Ends); i += 2 {
		from, to := net.Ends[i-1], net.Ends[i]
		w := &s.found.Wires[from.Wire]
		at[from.At] = append(at[from.At], WireEnd{No: w.No, Colour: w.Colour, Other: to.At, OtherTag: s.tagAt(to.At)})
		at[to.At] = append(at[to.At], WireEnd{No: w.No, Colour: w.Colour, Other: from.At, OtherTag: s.tagAt(from.At)})
	}
	return at
}

func (s *session) tagAt(place string) string {
	ref, _, _ := strings.Cut(place, ":")
	if p := s.index.Part(ref); p != nil {
		return p.Tag
	}
	return ""
}

// faultsByThing lists canonical faults under the thing they happen to, and those
// of wire ends under their wire and under the block they land on; those of
// contacts ("K1:13-14") under their part with a colon ("K1:").
func (s *session) faultsByThing() map[string][]string {
	by := map[string][]string{}
	for i := range s.set.Faults {
		f := &s.set.Faults[i]
		wire, at, ended := strings.Cut(f.Thing, "@")
		switch {
		case ended && !strings.Contains(f.Thing, "~"):
			by[wire] = append(by[wire], f.Key())
			block, _, _ := strings.Cut(at, "/")
			by[block] = append(by[block], f.Key())
		default:
			by[f.Thing] = append(by[f.Thing], f.Key())
			if ref, contact, ok := strings.Cut(f.Thing, ":"); ok && strings.Contains(f.Thing, "-") && contact != "" && !strings.ContainsAny(f.Thing, "@~") {
				by[ref+":"] = append(by[ref+":"], f.Key())
			}
			for _, side := range strings.Split(f.Thing, "~") {
				if side != f.Thing {
					side, _, _ = strings.Cut(side, "/")
					by[side] = append(by[side], f.Key())
				}
			}
		}
	}
	return by
}

func orEmpty(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

func (s *session) stripView(strip *panel.Strip, at map[string][]WireEnd, faults map[string][]string) StripView {
	v := StripView{Ref: strip.Ref, Label: strip.Label, Blocks: []BlockView{}}
	for i := range strip.Blocks {
		b := &strip.Blocks[i]
		k, ok := parts.Lookup(b.Type)
		if !ok {
			continue
		}
		ref := strip.Ref + ":" + b.No
		bv := BlockView{Ref: ref, No: b.No, Type: b.Type, Symbol: k.Symbol, Label: b.Label, Fuse: b.Fuse, Levels: []LevelView{}, Isolate: k.Isolates}
		list := append([]string{}, faults[ref]...)
		levels := map[int]*LevelView{}
		for _, m := range k.Metals {
			name := ref
			if m.Level > 0 {
				name += "." + strconv.Itoa(m.Level)
			}
			l := levels[m.Level]
			if l == nil {
				l = &LevelView{Level: m.Level, InWires: []WireEnd{}, OutWire: []WireEnd{}}
				levels[m.Level] = l
				l.InWires = append(l.InWires, at[name+"/in"]...)
				l.OutWire = append(l.OutWire, at[name+"/out"]...)
				l.Jumper, l.JumperSide = jumperOf(strip, b.No, m.Level)
				if m.Level > 0 {
					list = append(list, faults[name]...)
				}
			}
			switch m.Side {
			case "":
				l.In, l.Out = name, name
			case "in":
				l.In = name + "/in"
				l.Cut = cutOf(k)
			case "out":
				l.Out = name + "/out"
			}
		}
		for level := 3; level >= 0; level-- { // upper first, as seen from the front
			if l := levels[level]; l != nil {
				bv.Levels = append(bv.Levels, *l)
			}
		}
		bv.Faults = orEmpty(list)
		v.Blocks = append(v.Blocks, bv)
	}
	return v
}

// cutOf says what lies between the two sides of a block: what nobody can open is
// a diode.
func cutOf(k *parts.Kind) string {
	switch {
	case k.Fused:
		return "fuse"
	case len(k.Positions) == 0:
		return "diode"
	}
	return "blade"
}

// jumperOf numbers the jumpers of a strip from 1, 0 for a block without, and says
// on which side they lie.
func jumperOf(strip *panel.Strip, no string, level int) (number int, side string) {
	for i, j := range strip.Jumpers {
		if level > 0 && j.Level > 0 && j.Level != level {
			continue
		}
		for _, b := range j.Blocks {
			if b == no {
				return i + 1, j.Side
			}
		}
	}
	return 0, ""
}

func (s *session) partView(lang string, p *panel.Part, at map[string][]WireEnd, faults map[string][]string) PartView {
	v := PartView{Ref: p.Ref, Tag: p.Tag, Kind: p.Kind, KindName: words.Say(lang, "kind."+p.Kind), Label: p.Label, Field: p.At == "field", Process: p.Process, Terminals: []TerminalView{}}
	list := append([]string{}, faults[p.Ref]...)
	k, ok := parts.Lookup(p.Kind)
	if ok {
		v.Symbol = k.Symbol
		for _, t := range k.Terminals(p) {
			name := p.Ref + ":" + t.Name
			wires := at[name]
			if wires == nil {
				wires = []WireEnd{}
			}
			v.Terminals = append(v.Terminals, TerminalView{Point: name, Wires: wires})
			list = append(list, faults[name]...)
		}
	}
	list = append(list, faults[p.Ref+":"]...) // its contacts
	v.Faults = orEmpty(list)
	return v
}

// feeder names the field part or the wire behind a channel, so that a person
// knows it by more than its number.
func (s *session) feeder(channel string) string {
	for _, e := range s.ends[channel] {
		if e.OtherTag != "" {
			return e.OtherTag
		}
		ref, _, _ := strings.Cut(e.Other, ":")
		if p := s.index.Part(ref); p != nil && p.Label != "" {
			return p.Label
		}
		if pt, ok := panel.ParsePoint(e.Other); ok {
			if b, _, ok := s.index.Split(pt); ok && b.Label != "" {
				return b.Label
			}
		}
	}
	return ""
}

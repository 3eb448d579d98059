//go:build !field

package api

import (
	"cmp"
	"slices"
	"strings"

	"halfsplit/core/check"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/words"
)

// conditions says what of a panel can stand how, and how it stands. The document
// may be a draft with errors.
func conditions(req Request) Response {
	data, err := source(req)
	if err != nil {
		return Response{Error: err}
	}
	done := check.Document(data)
	if done.Found == nil {
		e := problem(req.Lang, "api.document-has-errors", req.Name)
		e.Problems = problems(req.Lang, done.Problems)
		return Response{Error: e}
	}
	s := newSession(done)
	s.ends = s.wireEnds()
	out := &Conditions{Conditions: []ConditionView{}, Things: s.movables(req.Lang)}
	for _, name := range s.model.Conditions() {
		if name == sim.PowerOff {
			continue
		}
		v := ConditionView{Name: name, Kept: name == "normal", Steps: []StepView{}}
		stands := map[int]Stand{}
		for _, c := range s.found.Conditions {
			if c.Name != name {
				continue
			}
			v.About = c.About
			for _, step := range c.Steps {
				v.Steps = append(v.Steps, s.stepView(req.Lang, step))
			}
			for key, position := range c.Set {
				if i, ok := s.model.Net.Input(panel.Designation(key)); ok {
					if was, twice := stands[i]; !twice || was.Key < key { // the later one is what sim takes
						stands[i] = Stand{key, position}
					}
				}
			}
		}
		out.Conditions = append(out.Conditions, v)
		for k := range out.Things {
			m := &out.Things[k]
			i, _ := s.model.Net.Input(m.Ref)
			stand, set := stands[i]
			if !set {
				stand = Stand{m.Ref, m.Rest}
			}
			m.Stands = append(m.Stands, stand)
		}
	}
	return Response{answersAtTheBench: answersAtTheBench{Conditions: out}}
}

// groups are what moves a thing, in the order a person goes through them.
var groups = []string{"plant", "output", "power", "strip"}

// movables lists what conditions may name.
func (s *session) movables(lang string) []Movable {
	list := []Movable{}
	for i, e := range s.model.Net.Elements {
		k := e.Kind
		if k == nil || len(k.Positions) == 0 && !k.Analogue {
			continue
		}
		if named, ok := s.model.Net.Input(e.Ref); !ok || named != i || strings.Contains(e.Ref, " ") {
			continue // a second element of a thing, or one inside it
		}
		m := Movable{Ref: e.Ref, KindName: words.Say(lang, "kind."+k.Name), Group: group(k, e.Ref), Analogue: k.Analogue, Stands: []Stand{}}
		m.Tag, m.Label = s.written(e.Ref)
		m.Positions, m.Rest = s.positions(lang, e)
		list = append(list, m)
	}
	slices.SortStableFunc(list, func(a, b Movable) int { return slices.Index(groups, a.Group) - slices.Index(groups, b.Group) })
	return list
}

func group(k *parts.Kind, ref string) string {
	switch {
	case k.Block:
		return "strip"
	case k.Source || k.Isolates:
		return "power"
	case strings.Contains(ref, ":"): // one of several channels
		return "output"
	}
	return "plant"
}

// written is what stands on a thing: its tag, and its label or, of a channel,
// what is behind it.
func (s *session) written(ref string) (tag, label string) {
	if p := s.index.Part(ref); p != nil {
		return p.Tag, p.Label
	}
	if pt, ok := panel.ParsePoint(ref); ok {
		if b, _, ok := s.index.Split(pt); ok {
			return "", b.Label
		}
	}
	return "", s.feeder(ref)
}

// positions are those of an element's kind, or some process values.
func (s *session) positions(lang string, e parts.Instance) (list []PositionView, rest string) {
	if e.Kind.Analogue {
		rest = percent(e.Rest)
		for _, value := range []float64{0, 0.5, 1} {
			p := percent(value)
			list = append(list, PositionView{p, p, s.stepView(lang, "set "+e.Ref+" "+p)})
		}
		return list, rest
	}
	for _, p := range e.Kind.Positions {
		if p.Value == e.Rest {
			rest = p.Name
		}
		list = append(list, PositionView{p.Name, words.Say(lang, "position."+p.Name), s.stepView(lang, p.Verb+" "+e.Ref)})
	}
	return list, rest
}

// percent writes a share of a range as conditions have it: "50 %".
func percent(share float64) string { return number(round(100*share, 1)) + " %" }

// stepView tells "press S2" or "set B3 50 %": what is moved, then how.
func (s *session) stepView(lang, step string) StepView {
	fields := strings.Fields(step)
	if len(fields) < 2 {
		return StepView{step, step}
	}
	how := strings.Join(fields[2:], " ")
	if fields[0] != "set" && words.Known(lang, "verb."+fields[0]) {
		how = words.Say(lang, "verb."+fields[0])
	} else if words.Known(lang, "position."+how) {
		how = words.Say(lang, "position."+how)
	}
	name := fields[1]
	if tag, label := s.written(panel.Designation(name)); tag+label != "" {
		name += " " + cmp.Or(tag, label)
	}
	return StepView{step, words.Say(lang, "condition.step", name, how)}
}

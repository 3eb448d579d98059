package api

import (
	"strconv"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/parts"
)

func (t teller) suspect(s *diagnose.Suspect) Suspect {
	set := t.e.Set
	out := Suspect{Repair: t.repairText(s), Place: strings.Join(s.Places, ", "), Probability: round(s.Probability, 4), Consistent: s.Consistent,
		Silent: s.Silent, Faults: []string{}, Names: []string{}, Points: []string{}, Evidence: []Text{}}
	if s.Silent {
		out.Place, out.Repair = t.say("find.silent-place"), t.say("find.silent")
		out.Names = append(out.Names, t.say("find.silent"))
	}
	points := map[string]bool{}
	for _, f := range s.Faults {
		if s.Silent {
			break
		}
		m := &set.Faults[f]
		out.Faults = append(out.Faults, m.Key())
		out.Names = append(out.Names, faultName(t.lang, m.Mode))
		for _, p := range t.s.pointsOf(m.Mode) {
			points[p] = true
		}
	}
	out.Points = sortedKeys(points)
	out.Evidence = append(out.Evidence, t.before(s)...)
	out.Evidence = append(out.Evidence, t.reasons(s)...)
	for _, ev := range s.Evidence {
		out.Evidence = append(out.Evidence, t.evidence(ev))
	}
	return out
}

// before tells that a suspect was found at fault in an earlier job.
func (t teller) before(s *diagnose.Suspect) (list []Text) {
	for _, f := range s.Faults {
		if t.s.history == nil || s.Silent {
			break
		}
		m := &t.e.Set.Faults[f]
		if times, last := t.s.history.Before(m.Key()); times > 0 {
			list = append(list, say(t.lang, "evidence.before", faultName(t.lang, m.Mode), strconv.Itoa(times), last))
		}
	}
	return list
}

// repairText names the repair of each place once.
func (t teller) repairText(s *diagnose.Suspect) string {
	var list []string
	seen := map[string]bool{}
	for _, f := range s.Faults {
		m := &t.e.Set.Faults[f]
		text := t.say("repair."+m.Repair, both(m.Place))
		if !seen[text] && len(list) < 3 {
			seen[text] = true
			if len(list) > 0 {
				text = t.say("find.or", text)
			}
			list = append(list, text)
		}
	}
	return strings.Join(list, "; ")
}

// pointsOf names the metal at the branches a fault alters, to ring on the strip.
func (s *session) pointsOf(m *parts.Mode) []string {
	net := s.model.Net
	nodes := map[int32]bool{}
	for _, c := range m.Changes {
		switch c.What {
		case parts.SetBranch:
			nodes[int32(net.Branches[c.Branch].Ends.A)] = true
			nodes[int32(net.Branches[c.Branch].Ends.B)] = true
		case parts.AddLink:
			nodes[int32(c.Ends.A)] = true
			nodes[int32(c.Ends.B)] = true
		default:
			for _, n := range net.Elements[c.Element].Sense {
				nodes[int32(n)] = true
			}
		}
	}
	for _, e := range net.Ends {
		if nodes[int32(e.Strand)] {
			nodes[int32(e.Metal)] = true
		}
	}
	var list []string
	for _, p := range net.Points {
		if !p.Hidden && p.Node != 0 && nodes[int32(p.Node)] {
			list = append(list, p.Name)
		}
	}
	for _, l := range net.Branches {
		if l.Thing == m.Thing {
			for _, p := range net.Points {
				if !p.Hidden && (p.Node == l.Ends.A || p.Node == l.Ends.B) {
					list = append(list, p.Name)
				}
			}
		}
	}
	return list
}

func (t teller) evidence(ev diagnose.Evidence) Text {
	o := &t.obs[ev.Observation]
	in := o.In
	if in == nil {
		in = t.e
	}
	code := "evidence.disagrees"
	if ev.Agrees {
		code = "evidence.agrees"
	}
	c := &in.Candidates[o.Candidate]
	if c.Look != diagnose.NoLook {
		predicted := t.say("state." + in.StateName(ev.Predicted))
		switch o.Kind {
		case diagnose.Dead:
			return say(t.lang, code, o.what, t.say("evidence.dead"), predicted)
		case diagnose.Works:
			return say(t.lang, code, o.what, t.say("evidence.works"), predicted)
		}
		return say(t.lang, code, o.what, o.entered, predicted)
	}
	v := ev.Predicted
	if o.flipped {
		v = -v
	}
	predicted := t.figure(c.Mode, v, ev.Ghost)
	return say(t.lang, code, o.what, o.entered, predicted)
}

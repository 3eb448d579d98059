package api

import (
	"strconv"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/words"
)

func itoa(n int) string { return strconv.Itoa(n) }

// tip says where a point or thing is, for people: "X3:7, upper level, field
// side: LT-1 +".
func (s *session) tip(lang, name string) string {
	if name == parts.EarthPoint {
		return words.Say(lang, "tip.earth")
	}
	p, ok := panel.ParsePoint(name)
	if !ok {
		return s.partTip(lang, name, "")
	}
	if s.index.Strip(p.Device) == nil {
		return s.partTip(lang, p.Device, p.Terminal)
	}
	block, level, ok := s.index.Split(p)
	if !ok {
		return name
	}
	tip := p.Device + ":" + block.No
	if level > 0 {
		tip += ", " + words.Say(lang, "tip.level-"+itoa(level))
	}
	if p.Side != "" {
		tip += ", " + words.Say(lang, "tip."+p.Side)
	}
	if block.Label != "" {
		tip += " – " + block.Label
	}
	return tip
}

func (s *session) partTip(lang, ref, terminal string) string {
	part := s.index.Part(ref)
	if part == nil {
		if device, channel, ok := strings.Cut(ref, ":"); ok && s.index.Part(device) != nil {
			return s.partTip(lang, device, channel)
		}
		if terminal != "" {
			return ref + ", " + words.Say(lang, "tip.terminal", terminal)
		}
		return ref
	}
	tip := ref
	if part.Tag != "" {
		tip += " (" + part.Tag + ")"
	}
	if terminal != "" {
		tip += ", " + words.Say(lang, "tip.terminal", terminal)
	}
	if part.Label != "" {
		tip += " – " + part.Label
	}
	return tip
}

// cautions of a step: the usual ones of the trade; local rules come first.
func (t teller) cautions(st *diagnose.Step, red, black diagnose.Probe) []Text {
	if t.e.Situations[st.Situation].Off {
		return []Text{say(t.lang, "caution.power-off")}
	}
	if red.Mains || black.Mains {
		return []Text{say(t.lang, "caution.mains-reading")}
	}
	list := []Text{say(t.lang, "caution.low-voltage")}
	if !t.s.declaredExtraLow() {
		list[0] = say(t.lang, "caution.class-unsaid")
	}
	return list
}

// declaredExtraLow says whether every DC source of the panel is declared SELV or
// PELV.
func (s *session) declaredExtraLow() bool {
	for i := range s.found.Parts {
		p := &s.found.Parts[i]
		if k, ok := parts.Lookup(p.Kind); ok && k.Feeds {
			if class := p.Ratings["class"]; class != "PELV" && class != "SELV" {
				return false
			}
		}
	}
	return true
}

// panelCautions stand above everything done on this panel.
func (s *session) panelCautions(lang string) []Text {
	list := []Text{say(lang, "caution.panel")}
	for _, m := range s.found.Mains {
		list = append(list, say(lang, "caution.mains", m.Ref, m.Voltage, m.From))
	}
	return list
}

func (t teller) repair(s *diagnose.Suspect) *Next {
	return &Next{Kind: "repair", Text: t.repairText(s), Outcomes: []Outcome{}, Cautions: []Text{say(t.lang, "caution.before-repair")}}
}

// checklist is what to do once the culprit is known: make safe, repair, check.
func (t teller) checklist(a *diagnose.Answer) []Text {
	s := &a.Suspects[0]
	first := &t.e.Set.Faults[s.Faults[0]]
	list := []Text{say(t.lang, "checklist.evidence"), say(t.lang, "checklist.dead")}
	if len(a.Hidden) > 0 {
		list = append(list, say(t.lang, "checklist.joint", strings.Join(a.Hidden, ", ")))
	}
	if s.OnePlace {
		list = append(list, say(t.lang, "repair."+first.Repair, both(first.Place)))
	} else {
		list = append(list, say(t.lang, "checklist.part", both(strings.Join(s.Places, ", "))))
	}
	var obs []string
	for i := range t.obs {
		if t.obs[i].Kind == diagnose.Dead {
			obs = append(obs, t.obs[i].what)
		}
	}
	if len(obs) > 0 {
		list = append(list, say(t.lang, "checklist.function", strings.Join(obs, ", ")))
	}
	return append(list, say(t.lang, "checklist.links"), say(t.lang, "checklist.record"))
}

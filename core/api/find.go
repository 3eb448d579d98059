package api

import (
	"math"
	"sort"
	"strconv"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/words"
)

// listedSuspects bounds what is told to a person; the rest together hold little.
const listedSuspects = 12

// find answers at once, or where there is a budget in portions of it.
func (s *session) find(req Request) (Response, *Error) {
	if req.Budget <= 0 {
		return s.search(req)
	}
	return s.inPortions(req, s.search)
}

func (s *session) search(req Request) (Response, *Error) {
	s.remember(req.History)
	e, err := s.engine(req.Lang, req.At)
	if err != nil {
		return Response{}, err
	}
	obs, err := s.observations(req, e)
	if err != nil {
		return Response{}, err
	}
	plain := make([]diagnose.Observation, len(obs))
	for i := range obs {
		plain[i] = obs[i].Observation
	}
	a := e.Find(plain)
	t := teller{s: s, e: e, lang: req.Lang, obs: obs}
	out := &Find{Status: string(a.Status), Suspects: []Suspect{}, Checklist: []Text{}}
	for i := range a.Suspects {
		if i == listedSuspects {
			break
		}
		out.Suspects = append(out.Suspects, t.suspect(&a.Suspects[i]))
		s.pace.Breathe()
	}
	if a.Status == diagnose.NothingWrong {
		out.Suspects = []Suspect{}
	}
	out.Text = t.standing(&a)
	if a.Misfit >= 0 {
		m := say(req.Lang, "find.misfit", obs[a.Misfit].what, obs[a.Misfit].entered)
		out.Misfit = &m
	}
	switch {
	case a.Next != nil:
		out.Next = t.next(a.Next)
	case a.Status == diagnose.Found:
		out.Next = t.repair(&a.Suspects[0])
		out.Checklist = t.checklist(&a.Suspects[0])
	case a.Status == diagnose.CannotSeparate:
		out.Checklist = t.checklist(&a.Suspects[0])
	}
	meaning(req.Lang, out)
	if req.All {
		out.All = t.all(a.All)
	}
	return Response{Find: out}, nil
}

// A teller puts the engine's answers into words.
type teller struct {
	s    *session
	e    *diagnose.Engine
	lang string
	obs  []noted
}

func (t teller) say(code string, args ...string) string { return words.Say(t.lang, code, args...) }

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

// figure writes a predicted reading, "about" where insulation decides it.
func (t teller) figure(mode meter.Mode, v float64, ghost bool) string {
	if mode == meter.Ohms && v >= 0.9e6 || mode == meter.Diode && v > meter.Typical.DiodeMost {
		return "OL"
	}
	if ghost {
		return t.say("find.about", shown(mode, v))
	}
	return shown(mode, v)
}

// standing says in one sentence where the search stands.
func (t teller) standing(a *diagnose.Answer) string {
	code := "find." + string(a.Status)
	if len(a.Suspects) == 0 {
		return t.say(code)
	}
	top := &a.Suspects[0]
	likely := 0
	for i := range a.Suspects {
		if a.Suspects[i].Probability >= 0.02 {
			likely++
		}
	}
	if a.Status == diagnose.Continue {
		switch {
		case len(t.obs) == 0:
			return t.say("find.start")
		case likely <= 1:
			return t.say("find.nearly", both(strings.Join(top.Places, ", ")))
		}
		return t.say("find.continue", itoa(likely))
	}
	return t.say(code, both(strings.Join(top.Places, ", ")))
}

func (t teller) next(st *diagnose.Step) *Next {
	n := &Next{Kind: "reading", With: t.e.Situations[st.Situation].With, Minutes: round(st.Minutes, 1), Bits: round(st.Bits, 3), Outcomes: []Outcome{}, Cautions: []Text{}}
	n.WithText = t.with(n.With)
	if st.Look != diagnose.NoLook {
		t.lookAt(n, st)
	} else {
		red, black := t.e.Probes[st.Red], t.e.Probes[st.Black]
		n.Mode, n.Red, n.Black = string(st.Mode), red.Name, black.Name
		n.RedTip, n.BlackTip = t.s.tip(t.lang, red.Name), t.s.tip(t.lang, black.Name)
		n.Expect = t.figure(st.Mode, st.Expect, false)
		n.Text = t.say("next.reading", t.say("mode."+n.Mode), n.Red, n.Black)
		n.Cautions = t.cautions(st, red, black)
	}
	for _, o := range st.Outcomes {
		if shown := t.outcome(st, o); shown.Healthy || shown.Probability >= worthOffering {
			n.Outcomes = append(n.Outcomes, shown)
		}
	}
	return n
}

// worthOffering is the probability below which an outcome gets no button of its
// own: a figure nobody expects can still be typed.
const worthOffering = 0.003

func (t teller) lookAt(n *Next, st *diagnose.Step) {
	net := t.s.model.Net
	n.Kind = "look"
	n.Expect = t.say("state." + t.e.StateName(st.Expect))
	code := "next.look"
	switch st.Look {
	case diagnose.AtLight:
		n.Ref = net.Lights[st.Thing].Ref
		n.RefTip = t.say("next.light", t.s.tip(t.lang, n.Ref))
		if net.Lights[st.Thing].Link {
			n.RefTip = t.say("next.indicator", t.s.tip(t.lang, n.Ref))
		}
	case diagnose.AtPlace:
		n.Ref, code = t.e.Places[st.Thing], "next.inspect"
		n.RefTip = t.s.tip(t.lang, n.Ref)
		n.Cautions = []Text{say(t.lang, "caution.look-only")}
	default:
		n.Ref = net.Devices[st.Thing].Ref
		n.RefTip = t.s.tip(t.lang, n.Ref)
	}
	n.Text = t.say(code, n.RefTip)
}

// with says what to have on.
func (t teller) with(step string) string {
	switch step {
	case "":
		return t.say("with.condition", t.e.Base.Cond.Name)
	case sim.PowerOff:
		return t.say("with.power-off")
	}
	verb, ref, _ := strings.Cut(step, " ")
	return t.say("with.hold", t.say("verb."+verb), t.s.tip(t.lang, ref))
}

func (t teller) outcome(st *diagnose.Step, o diagnose.Outcome) Outcome {
	out := Outcome{Probability: round(o.Probability, 3), Suspects: []int{}}
	for _, k := range o.Suspects {
		if k < listedSuspects {
			out.Suspects = append(out.Suspects, k)
		}
	}
	if st.Look != diagnose.NoLook {
		out.State = t.e.StateName(o.Value)
		out.Shown = t.say("state." + out.State)
		out.Healthy = o.Value == st.Expect
	} else {
		v := round(o.Value, 2)
		if st.Mode == meter.Ohms {
			v = round(o.Value, 1)
		}
		out.Value, out.Low, out.High, out.Unit = &v, round(o.Low, 3), round(o.High, 3), "V"
		if st.Mode == meter.Ohms {
			out.Unit = "ohm"
		}
		out.Shown = t.figure(st.Mode, o.Value, o.Ghost)
		out.Healthy = st.Expect >= o.Low-1e-3 && st.Expect <= o.High+1e-3
	}
	return out
}

// worthNaming is the probability below which a suspect is not named as what an
// outcome would mean.
const worthNaming = 0.01

// meaning fills what each outcome would mean, once the suspects are known.
func meaning(lang string, f *Find) {
	if f.Next == nil {
		return
	}
	for i := range f.Next.Outcomes {
		o := &f.Next.Outcomes[i]
		var places []string
		for _, k := range o.Suspects {
			if k < len(f.Suspects) && len(places) < 4 && (f.Suspects[k].Probability >= worthNaming || len(o.Suspects) == 1) {
				places = append(places, both(f.Suspects[k].Place))
			}
		}
		code := "outcome.points-to"
		if len(places) == 0 {
			code = "outcome.elsewhere"
		}
		more, others := "", 0
		for _, k := range o.Suspects {
			if f.Suspects[k].Probability >= worthNaming {
				others++
			}
		}
		if n := others - len(places); n > 0 {
			more = itoa(n)
		}
		o.Text = words.Say(lang, code, strings.Join(places, ", "), more)
	}
}

func (t teller) all(list []diagnose.Weighed) []Hypo {
	out := []Hypo{}
	for _, w := range list {
		name := "none"
		if w.Fault >= 0 {
			name = t.e.Set.Faults[w.Fault].Key()
		}
		out = append(out, Hypo{Fault: name, Probability: round(w.Probability, 6), Consistent: w.Consistent(), Worst: round(math.Min(w.Worst, 999), 2)})
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Probability > out[j].Probability })
	return out
}

package api

import (
	"math"
	"sort"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/meter"
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
		out.Checklist = t.checklist(&a)
	case a.Status == diagnose.CannotSeparate:
		out.Checklist = t.checklist(&a)
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

package api

import (
	"sort"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/parts"
	"halfsplit/core/words"
)

// noted is an observation with what to say of it.
type noted struct {
	diagnose.Observation
	entered string // as the person gave it, for evidence
	what    string // "X1:3/out to X1:9", "B3"
	flipped bool   // entered with red and black the other way round
}

// lastStep of "normal; press S2" is "press S2"; a text without steps is itself.
func lastStep(at string) string {
	steps := strings.Split(at, ";")
	return strings.TrimSpace(steps[len(steps)-1])
}

// place finds the engine and situation of an At.
func (s *session) place(req Request, primary *diagnose.Engine, at string) (e *diagnose.Engine, situation int, err *Error) {
	if at == "" {
		return primary, 0, nil
	}
	if k := primary.Situation(lastStep(at)); k >= 0 {
		return primary, k, nil
	}
	e, err = s.engine(req.Lang, at)
	return e, 0, err
}

// observations reads what a person saw and measured.
func (s *session) observations(req Request, primary *diagnose.Engine) ([]noted, *Error) {
	o := req.Observations
	if o == nil {
		return nil, nil
	}
	var list []noted
	for _, ref := range o.Dead {
		n, err := s.dead(req, primary, ref)
		if err != nil {
			return nil, err
		}
		list = append(list, n)
	}
	for _, ref := range o.Works {
		i, err := s.device(req.Lang, ref)
		if err != nil {
			return nil, err
		}
		list = append(list, noted{Observation: diagnose.Observation{Kind: diagnose.Works, Candidate: primary.LookCandidate(0, diagnose.AtDevice, i)}, what: s.name(i)})
	}
	for _, l := range o.Sees {
		n, err := s.look(req, primary, l)
		if err != nil {
			return nil, err
		}
		list = append(list, n)
	}
	looks := make([]diagnose.Observation, len(list))
	for i := range list {
		looks[i] = list[i].Observation
	}
	if len(o.Readings) > 0 {
		primary.Focus(looks)
	}
	for _, r := range o.Readings {
		n, err := s.reading(req, primary, r)
		if err != nil {
			return nil, err
		}
		list = append(list, n)
	}
	return list, nil
}

func (s *session) name(device int) string {
	d := s.model.Net.Devices[device]
	if d.Tag != "" {
		return d.Ref + " (" + d.Tag + ")"
	}
	return d.Ref
}

// dead refuses a device that is off anyway in this condition, and says in which
// it works.
func (s *session) dead(req Request, primary *diagnose.Engine, ref string) (noted, *Error) {
	i, err := s.device(req.Lang, ref)
	if err != nil {
		return noted{}, err
	}
	if primary.Healthy(0, i).Grade != parts.On {
		var works []string
		for _, c := range s.model.Conditions() {
			if b, _, err := s.base(req.Lang, c); err == nil && b.Healthy[i].Grade == parts.On {
				works = append(works, c)
			}
		}
		e := problem(req.Lang, "api.dead-anyway", ref, words.Say(req.Lang, "state."+primary.Healthy(0, i).State), strings.Join(works, ", "))
		e.Choices = works
		return noted{}, e
	}
	return noted{Observation: diagnose.Observation{Kind: diagnose.Dead, Candidate: primary.LookCandidate(0, diagnose.AtDevice, i)}, what: s.name(i)}, nil
}

func (s *session) look(req Request, primary *diagnose.Engine, l Look) (noted, *Error) {
	e, k, err := s.place(req, primary, l.At)
	if err != nil {
		return noted{}, err
	}
	c, what := -1, l.Ref
	for i, light := range s.model.Net.Lights {
		if light.Ref == l.Ref {
			c = e.LookCandidate(k, diagnose.AtLight, i)
		}
	}
	for i, place := range e.Places {
		if place == l.Ref && k == 0 && (l.State == diagnose.AsDrawn || l.State == diagnose.NotAsDrawn) {
			c = e.LookCandidate(k, diagnose.AtPlace, i)
		}
	}
	if c < 0 {
		i, err := s.device(req.Lang, l.Ref)
		if err != nil {
			return noted{}, err
		}
		c, what = e.LookCandidate(k, diagnose.AtDevice, i), s.name(i)
	}
	if c < 0 {
		return noted{}, problem(req.Lang, "api.no-look", l.Ref, l.At)
	}
	if !words.Known(req.Lang, "state."+l.State) {
		return noted{}, problem(req.Lang, "api.unknown-state", l.State, l.Ref)
	}
	return noted{Observation: diagnose.Observation{Kind: diagnose.Saw, Candidate: c, Value: e.StateValue(l.State), In: e},
		what: what, entered: words.Say(req.Lang, "state."+l.State)}, nil
}

func sortedKeys(m map[string]bool) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

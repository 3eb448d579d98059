package api

import (
	"strings"

	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/words"
)

// predict says what one measurement would show under each of several faults, one
// at a time on top of those of the request.
func (s *session) predict(req Request) (Response, *Error) {
	e, err := s.experiment(req)
	if err != nil {
		return Response{}, err
	}
	m, err := s.measurement(req)
	if err != nil {
		return Response{}, err
	}
	each, err := s.each(req)
	if err != nil {
		return Response{}, err
	}
	healthy, err := s.prediction(req.Lang, e, m, nil)
	if err != nil {
		return Response{}, err
	}
	a := m.answer(req)
	out := &Predict{Mode: a.Mode, Red: a.Red, Black: a.Black, Healthy: healthy, Rows: []Prediction{}}
	for _, f := range each {
		p, err := s.prediction(req.Lang, e, m, f)
		if err != nil {
			return Response{}, err
		}
		p.Differs = p.Shown != healthy.Shown || p.Refused != healthy.Refused
		out.Rows = append(out.Rows, p)
	}
	return Response{Predict: out}, nil
}

// prediction measures with one more fault; nil for none.
func (s *session) prediction(lang string, e experiment, m *measurement, f *fault.Fault) (Prediction, *Error) {
	p := Prediction{}
	e.changes = append([]parts.Change(nil), e.changes...)
	if f != nil {
		p.Fault, p.Name = f.Key(), faultName(lang, f.Mode)
		e.changes = append(e.changes, f.Changes...)
	}
	x, err := m.enter(lang, e)
	if err != nil {
		return p, err
	}
	defer e.base.Leave()
	r, refused := m.read(x)
	if refused != nil {
		p.Refused = words.Say(lang, refused.Code, refused.Args...)
		return p, nil
	}
	p.Shown, p.Value, p.Unit, p.Overload = r.Shown, valueOf(r), r.Unit, r.Overload
	return p, nil
}

// each reads the faults to be tried: faults by name, or things for all of theirs.
func (s *session) each(req Request) ([]*fault.Fault, *Error) {
	var list []*fault.Fault
	by := s.faultsByThing()
	for _, name := range req.Each {
		if strings.Contains(name, "=") {
			one, err := s.parse(req.Lang, []string{name})
			if err != nil {
				return nil, err
			}
			list = append(list, one...)
			continue
		}
		keys := append([]string(nil), by[name]...)
		for i := range s.set.Faults { // its levels, terminals and contacts
			if f := &s.set.Faults[i]; strings.HasPrefix(f.Thing, name+".") || strings.HasPrefix(f.Thing, name+":") {
				keys = append(keys, f.Key())
			}
		}
		if len(keys) == 0 {
			return nil, problem(req.Lang, "api.fault-unknown-thing", name, name)
		}
		seen := map[string]bool{}
		for _, key := range keys {
			if f, ok := s.set.Find(key); ok && !seen[key] {
				seen[key] = true
				list = append(list, f)
			}
		}
	}
	return list, nil
}

package api

import (
	"errors"
	"math"
	"strings"

	"halfsplit/core/check"
	"halfsplit/core/diagnose"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/pace"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/record"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
	"halfsplit/core/words"
)

// A session is one open panel with what has been solved of it.
type session struct {
	drawing *panel.Panel // as drawn, with its edits
	found   *panel.Panel // as found: what is solved
	index   *panel.Index // of found
	model   *sim.Model
	set     *fault.Set
	bases   map[string]*trace.Base      // by condition
	engines map[string]*diagnose.Engine // by condition
	sweeps  map[string]*sweepRun
	pace    pace.Pace
	waiting *portioned // what is done in portions and waits for its next one; nil without
	// earlier causes of this panel, and the set with the priors they raise; nil
	// without
	earlier  []record.Earlier
	history  *record.History
	weighted *fault.Set
	ends     map[string][]WireEnd // wires at each place
}

// source gives the text a request means and what to call it.
func source(req Request) (data []byte, err *Error) {
	if req.Demo == "" {
		return []byte(req.Text), nil
	}
	data, ok := Demo(req.Demo)
	if !ok {
		e := problem(req.Lang, "api.unknown-demo", req.Demo, panel.Nearest(req.Demo, Demos()))
		e.Choices = Demos()
		return nil, e
	}
	return data, nil
}

func checkDocument(req Request) Response {
	data, err := source(req)
	if err != nil {
		return Response{Error: err}
	}
	return Response{Problems: tally(req.Lang, check.Document(data).Problems)}
}

func problems(lang string, list []panel.Problem) []Problem {
	out := []Problem{}
	for _, p := range list {
		out = append(out, Problem{Line: p.Line, Col: p.Col, Path: p.Path, Severity: string(check.SeverityOf(p.Code)),
			Text: say(lang, p.Code, p.Args...), Hint: words.Hint(lang, p.Code, p.Args...)})
	}
	return out
}

// open checks a document and, when it has no errors, makes a session of it.
func (h *Host) open(req Request) Response {
	data, err := source(req)
	if err != nil {
		return Response{Error: err}
	}
	done := check.Document(data)
	told := tally(req.Lang, done.Problems)
	if told.Errors > 0 {
		e := problem(req.Lang, "api.document-has-errors", req.Name)
		e.Problems = told.Problems
		return Response{Error: e}
	}
	return Response{Opened: h.show(req.Lang, done, told)}
}

// condition reads At and gives its canonical form.
func (s *session) condition(lang, at string) (sim.Condition, string, *Error) {
	c, err := s.model.Condition(at)
	if err != nil {
		var ce *sim.ConditionError
		if errors.As(err, &ce) {
			e := problem(lang, "api."+ce.Code, ce.Text, ce.Thing, strings.Join(ce.Choices, ", "))
			e.Choices = ce.Choices
			return c, "", e
		}
		return c, "", problem(lang, "api.internal", err.Error())
	}
	words := strings.Split(at, ";")
	words[0] = c.Name
	for i := range words {
		words[i] = strings.Join(strings.Fields(words[i]), " ")
	}
	return c, strings.Join(words, "; "), nil
}

// base is the healthy panel in a condition, solved once.
func (s *session) base(lang, at string) (*trace.Base, string, *Error) {
	c, key, err := s.condition(lang, at)
	if err != nil {
		return nil, "", err
	}
	b := s.bases[key]
	if b == nil {
		b = trace.New(s.model, c)
		if e := b.Machine.Err(); e != nil {
			return nil, "", problem(lang, "api.unsolvable", e.Error())
		}
		s.bases[key] = b
	}
	return b, key, nil
}

// settled counts a panel brought to rest from cold, and breathes.
func (s *session) settled() {
	s.pace.Spend(len(s.model.Net.Nodes) / 25) // so many take what one fault does; measured
	s.pace.Breathe()
}

// engine is what searches in a condition. Whoever else uses one ends a search under
// way: it may change what that has worked out so far.
func (s *session) engine(lang, at string) (*diagnose.Engine, *Error) {
	s.interrupt()
	b, key, err := s.base(lang, at)
	if err != nil {
		return nil, err
	}
	e := s.engines[key]
	if e == nil {
		set := s.set
		if s.weighted != nil {
			set = s.weighted
		}
		s.settled() // the base is kept, and the engine takes as long again
		e = diagnose.New(b, set, meter.Typical)
		e.Pace = &s.pace
		s.engines[key] = e
		s.settled()
	}
	return e, nil
}

// parse reads the faults of a request.
func (s *session) parse(lang string, names []string) ([]*fault.Fault, *Error) {
	var list []*fault.Fault
	for _, name := range names {
		f, err := s.set.Parse(name)
		if err != nil {
			var pe *fault.ParseError
			if !errors.As(err, &pe) {
				return nil, problem(lang, "api.internal", err.Error())
			}
			e := problem(lang, "api."+pe.Code, pe.Text, pe.Thing, strings.Join(pe.Choices, ", "))
			e.Choices = pe.Choices
			return nil, e
		}
		list = append(list, f)
	}
	return list, nil
}

// An experiment is what a request asks to be tried.
type experiment struct {
	base    *trace.Base
	faults  []*fault.Fault
	changes []parts.Change
	onset   sim.Onset
}

// experiment reads the condition, faults and onset of a request.
func (s *session) experiment(req Request) (x experiment, err *Error) {
	if x.base, _, err = s.base(req.Lang, req.At); err != nil {
		return x, err
	}
	if x.faults, err = s.parse(req.Lang, req.Faults); err != nil {
		return x, err
	}
	for _, f := range x.faults {
		x.changes = append(x.changes, f.Changes...)
	}
	x.onset, err = onset(req.Lang, req.Onset)
	return x, err
}

// enter makes the experiment; the caller calls base.Leave when done.
func (x *experiment) enter(lang string) (*sim.Machine, *Error) {
	m := x.base.Enter(x.changes, x.onset)
	if e := m.Err(); e != nil {
		x.base.Leave()
		return nil, problem(lang, "api.unsolvable", e.Error())
	}
	return m, nil
}

func onset(lang, text string) (sim.Onset, *Error) {
	switch text {
	case "", "running":
		return sim.Running, nil
	case "start":
		return sim.Start, nil
	}
	e := problem(lang, "api.unknown-onset", text)
	e.Choices = []string{"running", "start"}
	return 0, e
}

// point finds the metal a person names.
func (s *session) point(lang, text string) (parts.Point, *Error) {
	name := text
	if p, ok := panel.ParsePoint(text); ok {
		name = p.String()
	}
	if p, ok := s.model.Net.FindPoint(name); ok {
		return p, nil
	}
	var choices, all []string
	for _, p := range s.model.Net.Points {
		if p.Hidden {
			continue
		}
		all = append(all, p.Name)
		if strings.HasPrefix(p.Name, name+"/") || strings.HasPrefix(p.Name, name+".") {
			choices = append(choices, p.Name)
		}
	}
	if len(choices) > 0 {
		e := problem(lang, "api.point-ambiguous", text, strings.Join(choices, ", "))
		e.Choices = choices
		return parts.Point{}, e
	}
	near := panel.Nearest(name, all)
	e := problem(lang, "api.unknown-point", text, near)
	if near != "" {
		e.Choices = []string{near}
	}
	return parts.Point{}, e
}

// device finds a device by designation or by a tag that only it has.
func (s *session) device(lang, ref string) (int, *Error) {
	ref = panel.Designation(ref)
	var names []string
	tagged := -1
	for i, d := range s.model.Net.Devices {
		if d.Ref == ref {
			return i, nil
		}
		if d.Tag == ref && d.Tag != "" {
			tagged = i
		}
		names = append(names, d.Ref)
	}
	if tagged >= 0 {
		return tagged, nil
	}
	e := problem(lang, "api.unknown-device", ref, panel.Nearest(ref, names))
	e.Choices = names
	return -1, e
}

// round keeps a host's last bits out of an answer.
func round(v float64, decimals int) float64 {
	scale := 1.0
	for range decimals {
		scale *= 10
	}
	r := math.Round(float64(v*scale)) / scale
	if r == 0 || math.IsNaN(r) || math.IsInf(r, 0) {
		return 0
	}
	return r
}

// tally counts problems by severity.
func tally(lang string, list []panel.Problem) *Problems {
	p := &Problems{Problems: problems(lang, list)}
	for _, x := range p.Problems {
		switch check.Severity(x.Severity) {
		case check.Error:
			p.Errors++
		case check.Warning:
			p.Warnings++
		default:
			p.Notes++
		}
	}
	return p
}

// show makes a checked document a session, or without one when it has errors, and
// gives what to draw.
func (h *Host) show(lang string, done check.Checked, told *Problems) *Opened {
	s := newSession(done)
	view := s.view(lang)
	if told.Errors == 0 {
		h.last++
		h.sessions[h.last] = s
		view.Session = h.last
	}
	view.Problems, view.Document = told.Problems, string(panel.Write(done.Doc.Panel))
	return view
}

func newSession(done check.Checked) *session {
	model := sim.Of(done.Found, done.Net)
	return &session{drawing: done.Doc.Panel, found: done.Found, index: panel.NewIndex(done.Found), model: model, set: fault.All(model.Net),
		bases: map[string]*trace.Base{}, engines: map[string]*diagnose.Engine{}, sweeps: map[string]*sweepRun{}}
}

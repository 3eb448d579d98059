package api

import (
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/meter"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
	"halfsplit/core/unit"
	"halfsplit/core/words"
)

// A measurement is what a request asks a meter to do.
type measurement struct {
	meter      meter.Meter
	mode       meter.Mode
	red, black parts.Point
	wire       int          // of clamp: its branch
	brk        *meter.Break // of ma: where the circuit is opened; nil where it cannot be
	inserted   bool         // of ma: the meter was put in with the power off
}

func (s *session) meter(req Request) (Response, *Error) {
	e, err := s.experiment(req)
	if err != nil {
		return Response{}, err
	}
	m, err := s.measurement(req)
	if err != nil {
		return Response{}, err
	}
	x, err := m.enter(req.Lang, e)
	if err != nil {
		return Response{}, err
	}
	defer e.base.Leave()
	out := m.answer(req)
	out.Cautions = s.measuringCautions(req.Lang, e.base, x, m)
	r, refused := m.read(x)
	if refused != nil {
		out.RefusedCode = refused.Code
		out.Refused = words.Say(req.Lang, refused.Code, refused.Args...)
		out.Hint = words.Hint(req.Lang, refused.Code, refused.Args...)
		if refused.Blows > 0 {
			t := say(req.Lang, "meter.blows", unit.Format(refused.Blows, unit.Current), unit.Format(m.meter.Fuse, unit.Current))
			out.Consequence = &t
		}
		return Response{Meter: out}, nil
	}
	out.Unit, out.Shown, out.Overload, out.Value = r.Unit, r.Shown, r.Overload, valueOf(r)
	for _, d := range r.Disturbs {
		ref := s.model.Net.Devices[d.Device].Ref
		out.Disturbs = append(out.Disturbs, say(req.Lang, "meter.disturbs", ref, words.Say(req.Lang, "state."+d.Was.State), words.Say(req.Lang, "state."+d.Now.State)))
	}
	out.Notes = s.notes(req.Lang, m, r)
	return Response{Meter: out}, nil
}

// valueOf is the figure of a reading, null on overload.
func valueOf(r meter.Reading) *float64 {
	if r.Overload {
		return nil
	}
	v := round(r.Value, 6)
	return &v
}

// measurement reads the mode, the probes and the meter of a request.
func (s *session) measurement(req Request) (m *measurement, err *Error) {
	m = &measurement{mode: meter.Mode(req.Mode), wire: -1}
	if m.meter, err = myMeter(req); err != nil {
		return nil, err
	}
	switch {
	case !known(m.mode):
		return nil, unknownMode(req.Lang, req.Mode)
	case m.mode == meter.Clamp:
		if m.wire = s.wireBranch(req.Red); m.wire < 0 {
			return nil, problem(req.Lang, "api.clamp-needs-wire", req.Red)
		}
		return m, nil
	case m.mode == meter.MA && req.Black == "":
		return m, s.breakAt(req, m)
	}
	if m.red, err = s.point(req.Lang, req.Red); err != nil {
		return nil, err
	}
	if m.black, err = s.point(req.Lang, req.Black); err != nil {
		return nil, err
	}
	if b, ok := meter.Between(s.model.Net, m.red.Node, m.black.Node); ok && m.mode == meter.MA {
		m.put(b, req.Onset)
	}
	return m, nil
}

// breakAt finds the break a person names by the thing that is opened.
func (s *session) breakAt(req Request, m *measurement) *Error {
	name := req.Red
	if p, ok := panel.ParsePoint(name); ok {
		name = p.String()
	}
	b, ok := meter.At(s.model.Net, name)
	if !ok {
		var things []string
		for _, b := range meter.Breaks(s.model.Net) {
			things = append(things, b.Thing)
		}
		return problem(req.Lang, "api.no-break", req.Red, panel.Nearest(name, things))
	}
	m.red, m.black = s.pointOf(b.Red), s.pointOf(b.Black)
	m.put(b, req.Onset)
	return nil
}

// put says where the meter goes.
func (m *measurement) put(b meter.Break, onset string) {
	m.brk, m.inserted = &b, b.Wire && !b.Earth && onset != "running"
}

// pointOf is the first point on a node.
func (s *session) pointOf(n circuit.Node) parts.Point {
	for _, p := range s.model.Net.Points {
		if p.Node == n {
			return p
		}
	}
	return parts.Point{}
}

// enter makes the experiment with the meter ready to read; the caller calls
// base.Leave when done. A wire is lifted and the meter put in with the power off,
// unless the request says that it happens while the plant runs.
func (m *measurement) enter(lang string, e experiment) (*sim.Machine, *Error) {
	if !m.inserted {
		return e.enter(lang)
	}
	faults := e.changes
	e.changes = m.meter.Inserted(*m.brk)
	if e.onset == sim.Start {
		e.changes = append(e.changes, faults...)
	}
	late := e.onset != sim.Start
	e.onset = sim.Start
	x, err := e.enter(lang)
	if err != nil || !late {
		return x, err
	}
	x.Apply(faults)
	x.Settle()
	if bad := x.Err(); bad != nil {
		e.base.Leave()
		return nil, problem(lang, "api.unsolvable", bad.Error())
	}
	return x, nil
}

// read measures in the machine's present state.
func (m *measurement) read(x *sim.Machine) (meter.Reading, *meter.Refusal) {
	switch {
	case m.mode == meter.Clamp:
		return m.meter.Current(x, m.wire), nil
	case m.mode == meter.MA && m.brk == nil:
		return meter.Reading{}, m.meter.Across(x, m.red.Node, m.black.Node)
	case m.mode == meter.MA:
		return m.meter.Series(x, *m.brk, m.inserted)
	}
	return m.meter.Read(x, m.mode, m.red.Node, m.black.Node)
}

func (m *measurement) answer(req Request) *Meter {
	out := &Meter{Mode: req.Mode, Red: req.Red, Black: req.Black, Disturbs: []Text{}, Notes: []Text{}, Cautions: []Text{}}
	if m.mode != meter.Clamp {
		out.Red, out.Black = m.red.Name, m.black.Name
	}
	return out
}

// notes say how the meter is held and what makes a figure doubtful.
func (s *session) notes(lang string, m *measurement, r meter.Reading) []Text {
	list := []Text{}
	switch {
	case m.mode == meter.Clamp:
		b := s.model.Net.Branches[m.wire]
		list = append(list, say(lang, "note.clamp", b.Thing, s.landing(b.Ends.A), s.landing(b.Ends.B)))
	case m.mode == meter.MA && m.brk.Wire:
		list = append(list, say(lang, "note.series-wire", m.brk.Thing))
	case m.mode == meter.MA:
		list = append(list, say(lang, "note.series-lever", m.brk.Thing))
	case m.mode == meter.Beep:
		list = append(list, say(lang, "note.beep"))
	}
	if r.Mixed {
		list = append(list, say(lang, "note.mixed"))
		if m.meter.TrueRMS == 0 && m.mode != meter.VDC {
			list = append(list, say(lang, "note.averaging"))
		}
	}
	return list
}

// landing is the place a strand lands on.
func (s *session) landing(strand circuit.Node) string {
	for _, e := range s.model.Net.Ends {
		if e.Strand == strand {
			return e.At
		}
	}
	return ""
}

// measuringCautions go by what the points hang on, live at the moment or not.
func (s *session) measuringCautions(lang string, b *trace.Base, x *sim.Machine, m *measurement) []Text {
	if m.mode.Passive() {
		return []Text{say(lang, "caution.power-off")}
	}
	nodes := []circuit.Node{m.red.Node, m.black.Node}
	if m.wire >= 0 {
		e := s.model.Net.Branches[m.wire].Ends
		nodes = []circuit.Node{e.A, e.B}
	}
	switch mains := b.OnMains(x, nodes...); {
	case mains && m.mode == meter.MA:
		return []Text{say(lang, "caution.mains-series")}
	case mains:
		return []Text{say(lang, "caution.mains-reading")}
	case !s.declaredExtraLow():
		return []Text{say(lang, "caution.class-unsaid")}
	}
	return []Text{say(lang, "caution.low-voltage")}
}

func unknownMode(lang, mode string) *Error {
	bad := problem(lang, "api.unknown-mode", mode, modeNames())
	bad.Choices = strings.Split(modeNames(), ", ")
	return bad
}

func known(mode meter.Mode) bool {
	for _, m := range meter.Modes {
		if m == mode {
			return true
		}
	}
	return false
}

func modeNames() string {
	var names []string
	for _, m := range meter.Modes {
		names = append(names, string(m))
	}
	return strings.Join(names, ", ")
}

// wireBranch finds the conductor of a wire by its number.
func (s *session) wireBranch(no string) int {
	for k := range s.model.Net.Branches {
		if b := &s.model.Net.Branches[k]; b.Role == parts.RoleWire && b.Thing == no {
			return k
		}
	}
	return -1
}

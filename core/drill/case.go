package drill

import (
	"errors"
	"slices"
	"strings"

	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// A Case is a drill set up on its rig, at one of its variations.
type Case struct {
	Drill     *Drill
	Rig       *Rig
	Seed      int
	Shown     *panel.Panel   // what the learner's drawing says
	Faults    []*fault.Fault // hidden
	Complaint string
	Dead      []string
	Works     []string
	Sees      map[string]string // states the caller saw
	Reads     []Measured
	Answers   []string // to Drill.Questions; empty where the operator does not know
	At        string   // what the plant really does

	doc    *Doc
	base   *trace.Base
	onset  sim.Onset
	effort Effort
}

// Set sets a drill up on the rig of its panel. Seed 0 is the drill as written, any
// other one the same kind of fault elsewhere. The error is a *panel.Error: what of
// the document its panel does not have.
func (doc *Doc) Set(rig *Rig, seed int) (*Case, error) {
	d := doc.Drill
	h := d.Hidden
	s := setter{doc: doc, c: &Case{doc: doc, Drill: d, Rig: rig, At: d.At, effort: d.effort(), Complaint: d.Complaint, Dead: d.Dead, Works: d.Works, Sees: d.Sees, Reads: d.Reads}}
	c := s.c
	if h.At != "" {
		c.At = h.At
	}
	s.conditions()
	s.faults()
	s.drawing()
	s.names()
	if len(s.problems) == 0 {
		if c.Seed = seed; seed != 0 {
			s.vary(seed)
		}
		for _, a := range h.Answers {
			if say := a.Say; seed == 0 {
				c.Answers = append(c.Answers, say)
			} else {
				c.Answers = append(c.Answers, a.Again)
			}
		}
		s.told()
	}
	if len(s.problems) > 0 {
		panel.SortProblems(s.problems)
		return nil, &panel.Error{Problems: s.problems}
	}
	return c, nil
}

// A setter notes what does not fit while a case is set up.
type setter struct {
	doc      *Doc
	c        *Case
	problems []panel.Problem
}

func (s *setter) tell(path, code string, args ...string) {
	s.problems = append(s.problems, s.doc.Source.Problem(path, code, args...))
}

func (s *setter) conditions() {
	c := s.c
	for _, at := range []struct{ path, text string }{{"at", c.Drill.At}, {"hidden.at", c.At}} {
		b, err := c.Rig.base(at.text)
		var ce *sim.ConditionError
		switch {
		case errors.As(err, &ce):
			s.tell(at.path, "drill-condition", at.text, strings.Join(c.Rig.Model.Conditions(), ", "))
			return
		case err != nil:
			s.tell(at.path, "drill-unsolvable", err.Error())
			return
		}
		c.base = b
	}
	if c.Drill.Hidden.Onset == "start" {
		c.onset = sim.Start
	} else if o := c.Drill.Hidden.Onset; o != "" && o != "running" {
		s.tell("hidden.onset", "drill-onset", o)
	}
}

func (s *setter) faults() {
	for i, key := range s.c.Drill.Hidden.Faults {
		f, err := s.c.Rig.Set.Parse(key)
		var pe *fault.ParseError
		if errors.As(err, &pe) {
			s.tell(at("hidden.faults", i), pe.Code, pe.Text, pe.Thing, strings.Join(pe.Choices, ", "))
			continue
		}
		s.c.Faults = append(s.c.Faults, f)
	}
}

// drawing applies what the learner's drawing shows differently.
func (s *setter) drawing() {
	p := *s.c.Rig.Panel
	p.Found = s.c.Drill.Hidden.Drawing
	shown, problems := panel.AsFound(&p)
	for _, pr := range problems {
		path := "hidden.drawing" + strings.TrimPrefix(pr.Path, "found")
		pr.Line, pr.Col = s.doc.Source.Pos(path)
		pr.Path = path
		s.problems = append(s.problems, pr)
	}
	s.c.Shown = shown
}

func (s *setter) names() {
	c := s.c
	for _, list := range []struct {
		path  string
		names []string
	}{{"dead", c.Dead}, {"works", c.Works}} {
		for i, ref := range list.names {
			if _, ok := c.device(ref); !ok {
				s.tell(at(list.path, i), "drill-unknown-device", ref)
			}
		}
	}
	for ref := range sortedMap(c.Sees) {
		if _, ok := c.device(ref); !ok {
			s.tell(panel.Key("sees", ref), "drill-unknown-device", ref)
		}
	}
	for i, m := range c.Reads {
		_, ok1 := c.Rig.Model.Net.FindPoint(c.name(m.Red))
		_, ok2 := c.Rig.Model.Net.FindPoint(c.name(m.Black))
		if !ok1 || !ok2 || !slices.Contains(modeNames(), m.Mode) {
			s.tell(at("reads", i), "drill-reading", m.Mode, m.Red, m.Black)
		}
	}
	for i, m := range c.Drill.Marked {
		if len(c.metals(m)) == 0 {
			s.tell(at("marked", i), "drill-unknown-point", m)
		}
	}
	for i, mode := range c.Drill.Tools {
		if !slices.Contains(modeNames(), mode) {
			s.tell(at("tools", i), "drill-unknown-tool", mode, strings.Join(modeNames(), ", "))
		}
	}
	if b := c.Drill.Hidden.Because; b != "" {
		if _, ok := c.device(b); !ok && len(c.metals(b)) == 0 {
			s.tell("hidden.because", "drill-unknown-device", b)
		}
	}
}

// statuses of all devices with some faults present.
func (c *Case) statuses(faults []*fault.Fault) []parts.Status {
	x := c.base.Enter(changes(faults), c.onset)
	list := make([]parts.Status, len(c.Rig.Model.Net.Devices))
	for i := range list {
		list[i] = x.Status(i)
	}
	c.base.Leave()
	return list
}

func changes(faults []*fault.Fault) (list []parts.Change) {
	for _, f := range faults {
		list = append(list, f.Changes...)
	}
	return list
}

// device finds a device by designation or tag.
func (c *Case) device(ref string) (int, bool) {
	ref = panel.Designation(ref)
	tagged := -1
	for i, d := range c.Rig.Model.Net.Devices {
		if d.Ref == ref {
			return i, true
		}
		if d.Tag == ref && d.Tag != "" && tagged < 0 {
			tagged = i
		}
	}
	return tagged, tagged >= 0
}

// call is what a device is called towards people: its label, or its tag, with the
// designation.
func (c *Case) call(device int) string {
	d := c.Rig.Model.Net.Devices[device]
	name := d.Ref
	if p := c.Rig.index.Part(d.Part); p != nil && p.Label != "" {
		name = p.Label + " " + d.Ref
	}
	if d.Tag != "" {
		name += " (" + d.Tag + ")"
	}
	return name
}

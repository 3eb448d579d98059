package drill

import (
	"halfsplit/core/diagnose"
	"halfsplit/core/fault"
	"halfsplit/core/panel"
)

// A Debrief is what an attempt teaches.
type Debrief struct {
	Engine      *diagnose.Engine // of the case's condition, for those who put steps into words
	Steps       []Step
	Best        Best
	Score       Score
	Lessons     []Fact
	Truth       []*fault.Fault
	Because     string // the thing that explains it, where nothing is wrong
	Drawing     []panel.Edit
	Explanation string
	Sources     []string
	Traps       []Trap
	Again       bool // there is the same kind elsewhere
}

// Prepare solves up to n more of the faults a debrief weighs and says how far it has
// come: all of them before Debrief.
func (c *Case) Prepare(n int) (done, total int, err error) {
	e, err := c.Rig.engine(c.At)
	if err != nil {
		return 0, 0, err
	}
	done, total = e.Prepare(c.toldTo(e), n)
	return done, total, nil
}

// Debrief looks back on an attempt, ended or not. What Prepare has not solved yet is
// solved now.
func (a *Attempt) Debrief() (*Debrief, error) {
	c, h := a.Case, a.Case.Drill.Hidden
	e, err := c.Rig.engine(c.At)
	if err != nil {
		return nil, err
	}
	t := a.trail(e)
	d := &Debrief{Engine: e, Steps: t.steps, Best: c.best(e), Truth: c.Faults, Because: h.Because, Drawing: h.Drawing,
		Sources: h.Sources, Again: len(c.Faults) == 1 || len(h.Elsewhere) > 0}
	if c.Seed == 0 {
		d.Explanation, d.Traps = h.Explanation, h.Traps
	}
	d.Score = a.score(e, &t, &d.Best)
	d.Lessons = a.lessons(e, &t, &d.Score)
	return d, nil
}

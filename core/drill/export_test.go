package drill

import "halfsplit/core/diagnose"

// Engine gives tests the hypotheses of a case, all solved.
func (c *Case) Engine() *diagnose.Engine {
	e, err := c.Rig.engine(c.At)
	if err != nil {
		panic(err)
	}
	return e
}

// Known is what package diagnose makes of all the learner has seen so far.
func (a *Attempt) Known() []diagnose.Observation {
	list := a.known(a.Case.Engine())
	return list[len(list)-1]
}

// Told is what the call alone says.
func (c *Case) Told() []diagnose.Observation { return c.toldTo(c.Engine()) }

// Place is where a thing is mended.
func (c *Case) Place(thing string) string { return c.placeOf(thing) }

// Grades of the calls, without a debrief.
func (a *Attempt) Grades() []Grade {
	e := a.Case.Engine()
	t := trail{known: make([][]diagnose.Observation, len(a.Log)+1)}
	return a.grades(e, &t)
}

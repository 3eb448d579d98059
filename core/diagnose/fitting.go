package diagnose

import (
	"slices"

	"halfsplit/core/parts"
)

// A joint that is loose and a conductor that touches earth have whatever resistance
// they have; the set lists one or two of each, enough to choose readings by. Where
// what was read fits none of them, each is given the resistance that the readings
// ask for, and those that then explain all that was observed take the place of a
// listed one, until something else is observed.
type fitting struct {
	obs         []Observation // what it is about
	unexplained bool          // no listed fault fits it
	tried       int           // families
	done        bool
	found       []substitute
	was         []substitute // what stood in their place
}

// A substitute is a fault of the set in another form.
type substitute struct {
	fault int
	mode  *parts.Mode
}

// turnTo takes up what was fitted to these observations: that of the search before is
// kept aside, for who goes back and forth between two. What no listed fault fits, none
// fits when more has been observed.
func (e *Engine) turnTo(obs []Observation) {
	last := e.fitting
	if slices.Equal(last.obs, obs) {
		return
	}
	if last.done {
		e.replace(last.obs, last.was)
	}
	e.fitting, e.lastFit = e.lastFit, last
	if slices.Equal(e.fitting.obs, obs) {
		if e.fitting.done {
			e.replace(obs, e.fitting.found)
		}
		return
	}
	e.fitting = fitting{obs: slices.Clone(obs)}
	e.fitting.unexplained = last.unexplained && !slices.ContainsFunc(last.obs, func(o Observation) bool { return !slices.Contains(obs, o) })
}

// replace puts faults in place wherever something was observed.
func (e *Engine) replace(obs []Observation, list []substitute) {
	for _, in := range e.engines(obs) {
		in.substitute(list)
	}
}

// engines are those that observations were made in, and this one.
func (e *Engine) engines(obs []Observation) []*Engine {
	list := []*Engine{e}
	for k := range obs {
		if in := obs[k].In; in != nil && !slices.Contains(list, in) {
			list = append(list, in)
		}
	}
	return list
}

// own makes the set of faults this engine's: others may share what was given.
func (e *Engine) own() {
	if !e.owned {
		e.Set, e.owned = e.Set.Clone(), true
	}
}

// substitute puts faults in the place of those with their number, and forgets what
// was solved for these.
func (e *Engine) substitute(list []substitute) {
	if len(list) == 0 {
		return
	}
	e.own()
	e.table, e.alikes = nil, nil
	for _, s := range list {
		e.Set.Faults[s.fault].Mode = s.mode
		i := e.running(int32(s.fault))
		prior := 0.0
		for k := range int32(e.onsets) {
			prior += e.hyps[i+k].prior
			e.hyps[i+k] = hypothesis{}
			for _, column := range e.columns {
				delete(column, i+k)
			}
		}
		e.hyps[i].prior = prior
	}
}

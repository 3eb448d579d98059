package drill

import (
	"halfsplit/core/diagnose"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// A Rig is a panel that drills are run on: what it really is, solved, with the
// hypotheses of package diagnose where a debrief asks for them. Drills on one panel
// share it. It is not safe for concurrent use.
type Rig struct {
	Panel   *panel.Panel // as found
	Model   *sim.Model
	Set     *fault.Set
	index   *panel.Index
	bases   map[string]*trace.Base
	engines map[string]*diagnose.Engine
}

// NewRig prepares a panel that package check has passed.
func NewRig(p *panel.Panel) *Rig {
	m := sim.New(p)
	return &Rig{Panel: p, Model: m, Set: fault.All(m.Net), index: panel.NewIndex(p),
		bases: map[string]*trace.Base{}, engines: map[string]*diagnose.Engine{}}
}

// base is the healthy panel in a condition. The error is a *sim.ConditionError.
func (r *Rig) base(at string) (*trace.Base, error) {
	if b := r.bases[at]; b != nil {
		return b, nil
	}
	c, err := r.Model.Condition(at)
	if err != nil {
		return nil, err
	}
	b := trace.New(r.Model, c)
	if err := b.Machine.Err(); err != nil {
		return nil, err
	}
	r.bases[at] = b
	return b, nil
}

// engine gives the hypotheses of a condition.
func (r *Rig) engine(at string) (*diagnose.Engine, error) {
	if e := r.engines[at]; e != nil {
		return e, nil
	}
	b, err := r.base(at)
	if err != nil {
		return nil, err
	}
	e := diagnose.New(b, r.Set, meter.Typical)
	r.engines[at] = e
	return e, nil
}

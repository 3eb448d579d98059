package api

import (
	"slices"
	"strings"

	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/pace"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
	"halfsplit/core/words"
)

func (s *session) whatIf(req Request) (Response, *Error) {
	e, err := s.experiment(req)
	if err != nil {
		return Response{}, err
	}
	if len(e.faults) == 0 {
		return Response{}, problem(req.Lang, "api.no-fault")
	}
	w := e.base.WhatIf(e.faults, e.onset)
	if w.Err != nil {
		return Response{}, problem(req.Lang, "api.unsolvable", w.Err.Error())
	}
	out := &WhatIf{Faults: []FaultDef{}, Affected: []Affected{}, Timeline: []Event{}, Points: []Moved{}, Flags: []Text{}, Cautions: []Text{}}
	for _, f := range e.faults {
		out.Faults = append(out.Faults, faultDef(req.Lang, f.Mode))
	}
	for _, a := range w.Affected {
		out.Affected = append(out.Affected, s.affected(req.Lang, a, e.faults))
	}
	for _, t := range w.Timeline {
		ref, _, _ := strings.Cut(t.Ref, " ")
		out.Timeline = append(out.Timeline, Event{MSMin: round(t.MinMS, 1), MSMax: round(t.MaxMS, 1), Event: words.Say(req.Lang, t.Code, ref), Code: t.Code})
	}
	for _, m := range w.Moved {
		p := s.model.Net.Points[m.Point]
		if p.Hidden {
			continue
		}
		mv := Moved{Point: p.Name, Was: meter.Volts(m.Was, meter.VDC), Now: meter.Volts(m.Now, meter.VDC)}
		if m.WasAC > 1 || m.NowAC > 1 {
			mv.Was, mv.Now = meter.Volts(m.WasAC, meter.VAC), meter.Volts(m.NowAC, meter.VAC)
		}
		out.Points = append(out.Points, mv)
	}
	if w.Cycle != nil {
		out.Flags = append(out.Flags, cycleText(req.Lang, s.model.Net, w.Cycle))
	}
	out.Cautions = s.faultCautions(req.Lang, w)
	out.Text = summary(req.Lang, w.Affected)
	return Response{WhatIf: out}, nil
}

func cycleText(lang string, net *parts.Net, c *sim.Cycle) Text {
	var members []string
	for _, m := range c.Members {
		members = append(members, net.Elements[m].Ref)
	}
	if c.PeriodMS == 0 {
		return say(lang, "flag.unsettled", strings.Join(members, ", "))
	}
	return say(lang, "flag.chattering", strings.Join(members, ", "))
}

func (s *session) affected(lang string, a trace.Affected, faults []*fault.Fault) Affected {
	out := Affected{Ref: a.Ref, Effect: string(a.Effect), Was: deviceState(lang, a.Ref, a.Was), Now: deviceState(lang, a.Ref, a.Now), Why: []Text{}}
	part := a.Ref
	if a.Device >= 0 {
		d := s.model.Net.Devices[a.Device]
		part, out.Process = d.Part, d.Process
	}
	if p := s.index.Part(part); p != nil {
		out.Tag, out.Label = p.Tag, p.Label
	}
	name := a.Ref
	if out.Tag != "" {
		name += " (" + out.Tag + ")"
	}
	code := "effect." + string(a.Effect)
	if a.Effect == trace.HeldOn && a.Now.Grade == parts.Weak {
		code = "effect.half-on"
	}
	if strings.HasPrefix(a.Now.State, "line-") {
		code = "effect.line-fault"
	}
	if strings.HasPrefix(a.Now.State, "alarm-") {
		code = "effect.alarm"
	}
	out.Text = words.Say(lang, code, name)
	for _, r := range a.Why {
		out.Why = append(out.Why, reason(lang, r, faults))
	}
	return out
}

// reason puts a reason into words: faults by their sentences, not their names.
func reason(lang string, r trace.Reason, faults []*fault.Fault) Text {
	spoken := make([]string, len(r.Args))
	for i, arg := range r.Args {
		spoken[i] = both(arg)
		for _, f := range faults {
			if f.Key() == arg {
				spoken[i] = faultName(lang, f.Mode)
			}
		}
	}
	t := say(lang, r.Code, r.Args...)
	t.Text = words.Say(lang, r.Code, spoken...)
	return t
}

// summary says in one sentence what a fault comes to.
func summary(lang string, list []trace.Affected) string {
	var hit []string
	unprotected := 0
	for _, a := range list {
		if a.Effect == trace.Unprotected {
			unprotected++
			continue
		}
		hit = append(hit, a.Ref)
	}
	var refs []string
	for _, a := range list {
		if a.Effect == trace.Unprotected {
			refs = append(refs, a.Ref)
		}
	}
	switch {
	case len(hit) == 0 && unprotected == 0:
		return words.Say(lang, "whatif.nobody")
	case len(hit) == 0:
		return words.Say(lang, "whatif.unprotected", strings.Join(refs, ", "))
	}
	return words.Say(lang, "whatif.affected", strings.Join(hit, ", "), strings.Join(refs, ", "))
}

// faultCautions are what a person must know before making this fault on purpose:
// opening a lever, lifting a wire.
func (s *session) faultCautions(lang string, w trace.WhatIf) []Text {
	list := []Text{}
	for _, a := range w.Affected {
		switch a.Effect {
		case trace.Unprotected:
			list = append(list, say(lang, "caution.earth-lifted"))
		case trace.Unsafe:
			list = append(list, say(lang, "caution.unsafe"))
		case trace.HeldOn:
			list = append(list, say(lang, "caution.starts", a.Ref))
		default:
			continue
		}
		if len(list) == 3 {
			break
		}
	}
	if returnLive(w.Affected) {
		list = append(list, say(lang, "caution.return-lifted"))
	}
	return unique(list)
}

// returnLive says that a return stands at the voltage of its feed.
func returnLive(list []trace.Affected) bool {
	return slices.ContainsFunc(list, func(a trace.Affected) bool {
		return slices.ContainsFunc(a.Why, func(r trace.Reason) bool { return r.Code == "why.both-live" })
	})
}

func unique(list []Text) []Text {
	seen := map[string]bool{}
	out := []Text{}
	for _, t := range list {
		if !seen[t.Text] {
			seen[t.Text] = true
			out = append(out, t)
		}
	}
	return out
}

// A sweepRun is a sweep under way.
type sweepRun struct {
	rows []SweepRow
}

func (s *session) sweep(req Request) (Response, *Error) {
	b, key, err := s.base(req.Lang, req.At)
	if err != nil {
		return Response{}, err
	}
	run := s.sweeps[key]
	if run == nil {
		run = &sweepRun{rows: []SweepRow{}}
		s.sweeps[key] = run
	}
	total := len(s.set.Faults)
	run.rows = slices.Grow(run.rows, total-len(run.rows))
	for n := 0; len(run.rows) < total && (req.Budget <= 0 || n < req.Budget); n++ {
		f := &s.set.Faults[len(run.rows)]
		list := b.Sweep(f)
		row := SweepRow{Fault: f.Key(), Affected: make([]SweepEffect, len(list))}
		for i := range list {
			row.Affected[i] = SweepEffect{Ref: list[i].Ref, Effect: string(list[i].Effect)}
		}
		run.rows = append(run.rows, row)
		pace.Yield()
	}
	if len(run.rows) < total {
		return Response{Progress: &Progress{Done: len(run.rows), Total: total}}, nil
	}
	return Response{Sweep: &Sweep{Rows: run.rows}}, nil
}

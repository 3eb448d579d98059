package api

import (
	"math"
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/trace"
	"halfsplit/core/words"
)

// proofs lists every pair of the target's conductors, and each against earth and,
// where mains is present, neutral, with what both voltage modes show before and
// after.
func (s *session) proofs(req Request, e experiment, j *job, is trace.Isolation) ([]Proof, *Error) {
	list := []Proof{}
	m, err := myMeter(req)
	if err != nil {
		return nil, err
	}
	before, err2 := e.base.Standing(e.changes, e.onset)
	if err2 != nil {
		return nil, problem(req.Lang, "api.unsolvable", err2.Error())
	}
	after, err2 := e.base.Standing(append(append([]parts.Change(nil), e.changes...), trace.Opening(is.Points)...), e.onset)
	if err2 != nil {
		return nil, problem(req.Lang, "api.unsolvable", err2.Error())
	}
	add := func(red, black parts.Point) {
		p := Proof{Red: red.Name, Black: black.Name, RedTip: s.tip(req.Lang, red.Name), BlackTip: s.tip(req.Lang, black.Name)}
		dc, ac := m.Both(before, red.Node, black.Node)
		before.Revert()
		dcAfter, acAfter := m.Both(after, red.Node, black.Node)
		after.Revert()
		p.Modes = []string{string(meter.VDC), string(meter.VAC)}
		p.Before = []string{m.Volts(dc, meter.VDC), m.Volts(ac, meter.VAC)}
		p.After = []string{m.Volts(dcAfter, meter.VDC), m.Volts(acAfter, meter.VAC)}
		p.Live = max(math.Abs(dc), ac) >= trace.DeadVolts
		code := "prove.live"
		if !p.Live {
			code = "prove.nothing"
		}
		p.Text = words.Say(req.Lang, code, red.Name, black.Name)
		list = append(list, p)
	}
	for i, p := range j.points {
		for _, q := range j.points[i+1:] {
			add(p, q)
		}
	}
	earth, neutral := s.earthPoint(j), parts.Point{}
	if is.Mains {
		neutral = s.neutralPoint()
	}
	for _, p := range j.points {
		if earth.Name != "" {
			add(p, earth)
		}
		if neutral.Name != "" && !slices.ContainsFunc(j.points, func(q parts.Point) bool { return q.Node == neutral.Node }) {
			add(p, neutral)
		}
	}
	slices.SortStableFunc(list, func(p, q Proof) int { return order(q.Live) - order(p.Live) })
	return list, nil
}

// order puts what is before what is not.
func order(is bool) int {
	if is {
		return 1
	}
	return 0
}

// earthPoint is where a tester meets the protective earth: at the target, else on
// its strip, else on any strip, else at bonded metal of the plant.
func (s *session) earthPoint(j *job) parts.Point {
	if len(j.earth) > 0 {
		return j.earth[0]
	}
	net := s.model.Net
	best, rank := parts.Point{}, 0
	for _, p := range net.Points {
		r := 0
		switch {
		case p.Hidden || p.Node != circuit.Earth && !net.Nodes[p.Node].Earthing:
			continue
		case p.Name == parts.EarthPoint:
			r = 1
		case s.index.Strip(p.Ref) != nil:
			r = 2
		}
		if r >= 2 && slices.ContainsFunc(j.points, func(q parts.Point) bool { return q.Ref == p.Ref }) {
			r = 4
		} else if r == 1 && slices.ContainsFunc(j.points, func(q parts.Point) bool { return q.Field }) {
			r = 3
		}
		if r > rank || best.Name == "" {
			best, rank = p, r
		}
	}
	return best
}

// neutralPoint is the neutral of the incoming supply.
func (s *session) neutralPoint() parts.Point {
	for _, p := range s.model.Net.Places {
		if p.Return && p.Pole == parts.Neutral {
			q, _ := s.model.Net.FindPoint(p.Name)
			return q
		}
	}
	return parts.Point{}
}

//go:build !field

package api

import (
	"halfsplit/core/drill"
)

// author reckons how hard a drill is and seals it.
func (h *Host) author(req Request) Response {
	c, list, e := h.setDrill(req)
	if e != nil {
		return Response{Error: e}
	}
	out := &DrillAuthored{Problems: problems(req.Lang, list), Traps: []Text{}}
	if c == nil {
		return Response{answersAtTheBench: answersAtTheBench{DrillAuthored: out}}
	}
	d := &drillSession{c: c}
	if p, err := d.prepare(req); p != nil || err != nil {
		return answer(Response{Progress: p}, err)
	}
	hard, err := c.Difficulty()
	if err != nil {
		return failure(req.Lang, "api.unsolvable", err.Error())
	}
	for _, t := range c.Drill.Hidden.Traps {
		if !c.Proved(t) {
			out.Problems = append(out.Problems, problems(req.Lang, c.Unproved(t))...)
		}
	}
	out.Steps, out.Readings, out.Minutes = hard.Best.Count(), hard.Best.Readings(), inMinutes(hard.Best.Seconds)
	out.Alike, out.Suspects, out.Grade, out.Again = hard.Alike, hard.Suspects, hard.Grade, hard.Again
	out.Found = hard.Best.Found == len(c.Faults)
	for _, t := range hard.Traps {
		out.Traps = append(out.Traps, trapText(req.Lang, t))
	}
	out.Sealed = string(drill.Write(drill.Seal(c.Drill)))
	return Response{answersAtTheBench: answersAtTheBench{DrillAuthored: out}}
}

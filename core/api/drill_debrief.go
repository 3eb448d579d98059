//go:build !field

package api

import (
	"math"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/drill"
	"halfsplit/core/panel"
	"halfsplit/core/words"
)

func (d *drillSession) debrief(req Request) (Response, *Error) {
	if p, err := d.prepare(req); p != nil || err != nil {
		return Response{Progress: p}, err
	}
	a, refused := d.attempt(req.Acts)
	if refused != nil {
		return Response{}, problem(req.Lang, refused.Code, refused.Args...)
	}
	b, err := a.Debrief()
	if err != nil {
		return Response{}, problem(req.Lang, "api.unsolvable", err.Error())
	}
	return Response{answersAtTheBench: answersAtTheBench{DrillDebrief: d.tell(req.Lang, a, b)}}, nil
}

// prepare solves what a debrief weighs, within the budget; nil when all is solved.
func (d *drillSession) prepare(req Request) (*Progress, *Error) {
	budget := req.Budget
	if budget <= 0 {
		budget = math.MaxInt
	}
	done, total, err := d.c.Prepare(budget)
	if err != nil {
		return nil, problem(req.Lang, "api.unsolvable", err.Error())
	}
	if done < total {
		return &Progress{Done: done, Total: total}, nil
	}
	return nil, nil
}

func (d *drillSession) tell(lang string, a *drill.Attempt, b *drill.Debrief) *DrillDebrief {
	t := teller{s: d.real, e: b.Engine, lang: lang}
	out := &DrillDebrief{Result: string(b.Score.Result), Text: words.Say(lang, "result."+string(b.Score.Result)), Truth: []FaultDef{}, Because: b.Because,
		Parts: []DrillPart{}, Gates: fired(lang, a), Steps: []DrillStep{}, Plan: []DrillPlan{}, PlanMinutes: inMinutes(b.Best.Seconds),
		Lessons: []Text{}, Traps: []Text{}, Drawing: []Text{}, Explanation: b.Explanation, Sources: orEmpty(b.Sources)}
	for _, f := range b.Truth {
		out.Truth = append(out.Truth, faultDef(lang, f.Mode))
	}
	for _, p := range b.Score.Parts {
		part := DrillPart{Code: p.Code, Text: words.Say(lang, p.Code), Points: p.Points, Of: p.Of, Facts: []Text{}}
		for _, f := range p.Facts {
			part.Facts = append(part.Facts, factText(lang, f))
		}
		out.Parts = append(out.Parts, part)
	}
	for i := range b.Steps {
		out.Steps = append(out.Steps, t.drillStep(&b.Steps[i]))
	}
	for i := range b.Best.Steps {
		p := &b.Best.Steps[i]
		n := t.next(p.Step)
		one := DrillPlan{Text: n.Text, With: n.WithText, Shown: p.Shown}
		if p.Look != diagnose.NoLook {
			one.Shown = words.Say(lang, "state."+b.Engine.StateName(p.Value))
		}
		out.Plan = append(out.Plan, one)
	}
	if b.Best.Because != "" {
		out.Plan = append(out.Plan, DrillPlan{Text: words.Say(lang, "next.look", d.real.tip(lang, b.Best.Because))})
	}
	for _, l := range b.Lessons {
		out.Lessons = append(out.Lessons, factText(lang, l))
	}
	for _, tr := range b.Traps {
		out.Traps = append(out.Traps, trapText(lang, tr))
	}
	for i := range b.Drawing {
		out.Drawing = append(out.Drawing, drawingText(lang, &b.Drawing[i]))
	}
	if b.Again {
		out.NextSeed = a.Case.Seed + 1
	}
	return out
}

func (t teller) drillStep(s *drill.Step) DrillStep {
	out := DrillStep{Entry: s.Entry, Verdict: string(s.Verdict), Text: t.say("verdict." + string(s.Verdict)), Bits: round(s.Bits, 2),
		Before: s.Before, After: s.After, Alive: orEmpty(s.Alive)}
	if s.Why.Code != "" {
		out.Why = factText(t.lang, s.Why).Text
	}
	if s.Best != nil {
		out.Best = t.next(s.Best)
	}
	return out
}

func trapText(lang string, tr drill.Trap) Text {
	return say(lang, "trap."+tr.Code, tr.Red, tr.Black, tr.Ref)
}

// drawingText says where the drawing was wrong.
func drawingText(lang string, ed *panel.Edit) Text {
	what, where := ed.Wire, ed.Point
	switch {
	case ed.Add != nil:
		what, where = ed.Add.No, ed.Add.From+" – "+ed.Add.To
	case ed.Jump != nil:
		what = ed.Strip + ":" + strings.Join(ed.Jump.Blocks, "-")
	case ed.Block != nil:
		what = ed.Strip + ":" + ed.Block.No
	case ed.Part != nil:
		what = ed.Part.Ref
	}
	return say(lang, "drawn."+ed.Op, what, where)
}

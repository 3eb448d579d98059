//go:build !field

package api

import (
	"strconv"
	"strings"

	"halfsplit/core/drill"
	"halfsplit/core/words"
)

// attempt replays the acts of a request; what was replayed last time is gone on with
// where the acts begin alike.
func (d *drillSession) attempt(acts []DrillAct) (a *drill.Attempt, refused *drill.Refusal) {
	from := len(d.acts)
	if from > len(acts) || len(d.last.Log) != from {
		from = -1
	}
	for i := 0; i < from; i++ {
		if acts[i] != d.acts[i] {
			from = -1
		}
	}
	if from < 0 {
		d.last, d.acts, from = d.c.Begin(), nil, 0
	}
	for _, act := range acts[from:] {
		if _, refused = d.last.Do(drill.Act(act)); refused != nil {
			break
		}
		d.acts = append(d.acts, act)
	}
	return d.last, refused
}

func (d *drillSession) act(req Request) (Response, *Error) {
	a, refused := d.attempt(req.Acts)
	return Response{answersAtTheBench: answersAtTheBench{DrillState: d.state(req.Lang, a, refused)}}, nil
}

func (d *drillSession) state(lang string, a *drill.Attempt, refused *drill.Refusal) *DrillState {
	st := &DrillState{Log: []DrillEntry{}, Ended: a.Ended, Minutes: inMinutes(a.Seconds()), Powered: a.Powered(), Lifted: orEmpty(a.Lifted()),
		Gates: fired(lang, a), Offers: []DrillOffer{}}
	for i := range a.Log {
		st.Log = append(st.Log, d.entry(lang, &a.Log[i]))
	}
	for _, o := range a.Offers() {
		st.Offers = append(st.Offers, DrillOffer{Kind: o.Kind, Text: words.Say(lang, "act."+o.Kind), Targets: orEmpty(o.Targets)})
	}
	if refused != nil {
		st.Refused = problem(lang, refused.Code, refused.Args...)
		st.Refused.Choices = refused.Choices
	}
	return st
}

func fired(lang string, a *drill.Attempt) []DrillGate {
	list := []DrillGate{}
	effects := map[drill.Gate]drill.Effect{}
	for _, g := range a.Case.Drill.GateEffects() {
		effects[g.Gate] = g.Effect
	}
	for _, f := range a.Fired {
		list = append(list, DrillGate{Gate: string(f.Gate), Effect: string(effects[f.Gate]), Text: words.Say(lang, "gate."+string(f.Gate)), Act: f.Act})
	}
	return list
}

func inMinutes(seconds int) float64 { return round(float64(seconds)/60, 1) }

func (d *drillSession) entry(lang string, e *drill.Entry) DrillEntry {
	out := DrillEntry{Act: DrillAct(e.Act), Seen: []Text{}, Minutes: inMinutes(e.Seconds), Gates: []string{}}
	act := &e.Act
	switch act.Kind {
	case drill.DoRead:
		out.Text = words.Say(lang, "drill.did-read", words.Say(lang, "mode."+act.Mode), act.Red, act.Black)
	case drill.DoAsk:
		n, _ := strconv.Atoi(act.Thing)
		out.Text = d.c.Drill.Questions[n-1]
	case drill.DoOperate:
		verb, ref, _ := strings.Cut(act.Step, " ")
		out.Text = words.Say(lang, "drill.did-operate", words.Say(lang, "verb."+verb), ref)
	case drill.DoProveDead, drill.DoBypass:
		out.Text = words.Say(lang, "drill.did-pair", words.Say(lang, "act."+act.Kind), act.Red, act.Black)
	default:
		out.Text = words.Say(lang, "drill.did", words.Say(lang, "act."+act.Kind), both(act.Thing))
	}
	for _, f := range e.Facts {
		out.Seen = append(out.Seen, factText(lang, f))
	}
	if e.Reading != nil {
		out.Reading = &DrillMeter{Value: valueOf(*e.Reading), Unit: e.Reading.Unit, Shown: e.Reading.Shown}
	}
	for _, g := range e.Gates {
		out.Gates = append(out.Gates, string(g))
	}
	return out
}

// factText puts a fact into words; an argument that begins with @ is a code itself.
func factText(lang string, f drill.Fact) Text {
	args := []string{}
	for _, a := range f.Args {
		if code, is := strings.CutPrefix(a, "@"); is {
			a = words.Say(lang, code)
		}
		args = append(args, a)
	}
	return say(lang, f.Code, args...)
}

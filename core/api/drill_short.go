//go:build !field

package api

import (
	"strconv"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/drill"
)

// drillShort makes a short exercise from the session's panel, and grades it where the
// request holds marks.
func (s *session) drillShort(req Request) (Response, *Error) {
	e, err := s.engine(req.Lang, req.At)
	if err != nil {
		return Response{}, err
	}
	form := drill.Form(req.Form)
	known := []string{}
	ok := false
	for _, f := range drill.Forms {
		known = append(known, string(f))
		ok = ok || f == form
	}
	if !ok {
		bad := problem(req.Lang, "api.unknown-form", req.Form, strings.Join(known, ", "))
		bad.Choices = known
		return Response{}, bad
	}
	x := drill.Shorts(e, form, req.Seed)
	if x == nil {
		return Response{}, problem(req.Lang, "api.no-exercise", req.Form)
	}
	t := teller{s: s, e: e, lang: req.Lang}
	out := t.short(x)
	if req.Marks != nil {
		t.grade(out, x, req.Marks)
	}
	return Response{answersAtTheBench: answersAtTheBench{DrillShort: out}}, nil
}

func (t teller) short(x *drill.Short) *DrillShort {
	net := t.s.model.Net
	out := &DrillShort{Form: string(x.Form), Seed: x.Seed, Given: []Text{}, Items: []DrillItem{}, Answers: []DrillChoice{}, Options: []DrillOption{}, Suspects: []string{}, Marks: []DrillMark{}}
	out.Given = append(out.Given, say(t.lang, "short.dead", t.s.tip(t.lang, net.Devices[x.Dead].Ref)))
	for _, o := range x.Known {
		out.Given = append(out.Given, t.given(o))
	}
	switch x.Form {
	case drill.Possible:
		out.Text = t.say("short.ask-possible")
		out.Answers = choices(t.lang, "short-answer.", []string{"possible", "impossible"})
		for _, f := range x.Faults {
			out.Items = append(out.Items, DrillItem{Text: faultName(t.lang, f.Mode), Fault: f.Key()})
		}
	case drill.Predict:
		out.Given = []Text{say(t.lang, "short.given-fault", faultName(t.lang, x.Fault.Mode))}
		out.Text = t.say("short.ask-predict")
		out.Answers = choices(t.lang, "short-answer.", []string{"source", "zero", "ghost"})
		for _, p := range x.Points {
			red, black := t.e.Probes[p.Red].Name, t.e.Probes[p.Black].Name
			out.Items = append(out.Items, DrillItem{Text: t.say("drill.did-read", t.say("mode.vdc"), red, black), Red: red, Black: black})
		}
	default:
		out.Text = t.say("short.ask-choose")
		for i := range x.Suspects {
			out.Suspects = append(out.Suspects, both(strings.Join(x.Suspects[i].Places, ", ")))
		}
		for _, st := range x.Options {
			n := t.next(st)
			o := DrillOption{Text: n.Text, Outcomes: []string{}}
			for _, one := range st.Outcomes {
				o.Outcomes = append(o.Outcomes, t.outcome(st, one).Shown)
			}
			out.Options = append(out.Options, o)
		}
	}
	return out
}

// given is one thing an exercise says is known.
func (t teller) given(o diagnose.Observation) Text {
	st := &diagnose.Step{Candidate: t.e.Candidates[o.Candidate], Index: o.Candidate}
	n := t.next(st)
	shown := t.say("state." + t.e.StateName(o.Value))
	if st.Look == diagnose.NoLook {
		shown = t.figure(st.Mode, o.Value, false)
	}
	return say(t.lang, "short.known", n.Text, shown)
}

// atoi reads an index that the core wrote.
func atoi(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil {
		panic("api: " + s + " is no index")
	}
	return n
}

func (t teller) grade(out *DrillShort, x *drill.Short, m *DrillMarks) {
	out.Truth = faultName(t.lang, x.Fault.Mode)
	for i, mark := range x.Grade(drill.Marks(*m)) {
		want := mark.Want
		switch {
		case x.Form != drill.Choose:
			want = t.say("short-answer." + mark.Want)
		case i == 0 && mark.Want != "none":
			want = out.Options[atoi(mark.Want)].Text
		case i > 0:
			var who []string
			for _, k := range strings.Fields(mark.Want) {
				who = append(who, out.Suspects[atoi(k)])
			}
			want = strings.Join(who, "; ")
		}
		if mark.Right {
			out.Right++
		}
		code := "short.wrong"
		if mark.Right {
			code = "short.right"
		}
		out.Marks = append(out.Marks, DrillMark{Right: mark.Right, Want: mark.Want, Text: t.say(code, want)})
	}
}

package api

import (
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/meter"
	"halfsplit/core/sim"
	"halfsplit/core/words"
)

func (t teller) next(st *diagnose.Step) *Next {
	n := &Next{Kind: "reading", With: t.e.Situations[st.Situation].With, Minutes: round(st.Minutes, 1), Bits: round(st.Bits, 3), Outcomes: []Outcome{}, Cautions: []Text{}}
	n.WithText = t.with(n.With)
	if st.Look != diagnose.NoLook {
		t.lookAt(n, st)
	} else {
		red, black := t.e.Probes[st.Red], t.e.Probes[st.Black]
		n.Mode, n.Red, n.Black = string(st.Mode), red.Name, black.Name
		n.RedTip, n.BlackTip = t.s.tip(t.lang, red.Name), t.s.tip(t.lang, black.Name)
		n.Expect = t.figure(st.Mode, st.Expect, false)
		n.Text = t.say("next.reading", t.say("mode."+n.Mode), n.Red, n.Black)
		n.Cautions = t.cautions(st, red, black)
	}
	for _, o := range st.Outcomes {
		if shown := t.outcome(st, o); shown.Healthy || shown.Probability >= worthOffering {
			n.Outcomes = append(n.Outcomes, shown)
		}
	}
	return n
}

// worthOffering is the probability below which an outcome gets no button of its
// own: a figure nobody expects can still be typed.
const worthOffering = 0.003

func (t teller) lookAt(n *Next, st *diagnose.Step) {
	net := t.s.model.Net
	n.Kind = "look"
	n.Expect = t.say("state." + t.e.StateName(st.Expect))
	code := "next.look"
	switch st.Look {
	case diagnose.AtLight:
		n.Ref = net.Lights[st.Thing].Ref
		n.RefTip = t.say("next.light", t.s.tip(t.lang, n.Ref))
		if net.Lights[st.Thing].Link {
			n.RefTip = t.say("next.indicator", t.s.tip(t.lang, n.Ref))
		}
	case diagnose.AtPlace:
		n.Ref, code = t.e.Places[st.Thing], "next.inspect"
		n.RefTip = t.s.tip(t.lang, n.Ref)
		n.Cautions = []Text{say(t.lang, "caution.look-only")}
	default:
		n.Ref = net.Devices[st.Thing].Ref
		n.RefTip = t.s.tip(t.lang, n.Ref)
	}
	n.Text = t.say(code, n.RefTip)
}

// with says what to have on.
func (t teller) with(step string) string {
	switch step {
	case "":
		return t.say("with.condition", t.e.Base.Cond.Name)
	case sim.PowerOff:
		return t.say("with.power-off")
	}
	verb, ref, _ := strings.Cut(step, " ")
	return t.say("with.hold", t.say("verb."+verb), t.s.tip(t.lang, ref))
}

func (t teller) outcome(st *diagnose.Step, o diagnose.Outcome) Outcome {
	out := Outcome{Probability: round(o.Probability, 3), Suspects: []int{}}
	for _, k := range o.Suspects {
		if k < listedSuspects {
			out.Suspects = append(out.Suspects, k)
		}
	}
	if st.Look != diagnose.NoLook {
		out.State = t.e.StateName(o.Value)
		out.Shown = t.say("state." + out.State)
		out.Healthy = o.Value == st.Expect
	} else {
		v := round(o.Value, 2)
		if st.Mode == meter.Ohms {
			v = round(o.Value, 1)
		}
		out.Value, out.Low, out.High, out.Unit = &v, round(o.Low, 3), round(o.High, 3), "V"
		if st.Mode == meter.Ohms {
			out.Unit = "ohm"
		}
		out.Shown = t.figure(st.Mode, o.Value, o.Ghost)
		out.Healthy = st.Expect >= o.Low-1e-3 && st.Expect <= o.High+1e-3
	}
	return out
}

// worthNaming is the probability below which a suspect is not named as what an
// outcome would mean.
const worthNaming = 0.01

// meaning fills what each outcome would mean, once the suspects are known.
func meaning(lang string, f *Find) {
	if f.Next == nil {
		return
	}
	for i := range f.Next.Outcomes {
		o := &f.Next.Outcomes[i]
		var places []string
		for _, k := range o.Suspects {
			if k < len(f.Suspects) && len(places) < 4 && (f.Suspects[k].Probability >= worthNaming || len(o.Suspects) == 1) {
				places = append(places, both(f.Suspects[k].Place))
			}
		}
		code := "outcome.points-to"
		if len(places) == 0 {
			code = "outcome.elsewhere"
		}
		more, others := "", 0
		for _, k := range o.Suspects {
			if f.Suspects[k].Probability >= worthNaming {
				others++
			}
		}
		if n := others - len(places); n > 0 {
			more = itoa(n)
		}
		o.Text = words.Say(lang, code, strings.Join(places, ", "), more)
	}
}

//go:build !field

package api_test

import (
	"slices"
	"strings"
	"testing"

	"halfsplit/core/api"
)

func conditionsOf(t *testing.T, req api.Request) *api.Conditions {
	t.Helper()
	req.Op = api.OpConditions
	r := api.NewHost().Do(req)
	if r.Error != nil {
		t.Fatal(r.Error.Text.Text)
	}
	return r.Conditions
}

// What can stand how on the training bench, read off its drawing by hand: two
// buttons, the incoming supply and the breaker, and the levers of three fuse
// terminals. Nothing is said of them but the steps of normal.
func TestConditionsOfTheBench(t *testing.T) {
	c := conditionsOf(t, api.Request{Demo: "training-bench"})
	var got []string
	for _, m := range c.Things {
		var can []string
		for _, p := range m.Positions {
			can = append(can, p.Text)
		}
		got = append(got, m.Group+" "+m.Ref+" "+m.Label+": "+strings.Join(can, ", "))
		if len(m.Stands) != len(c.Conditions) {
			t.Errorf("%s stands in %d conditions of %d", m.Ref, len(m.Stands), len(c.Conditions))
		}
		for _, s := range m.Stands {
			if s.Key != m.Ref || s.Position != m.Rest {
				t.Errorf("%s stands %+v: the drawing leaves it at rest, %s", m.Ref, s, m.Rest)
			}
		}
	}
	want := []string{
		"plant S1 stop: not pressed, pressed", "plant S2 start: not pressed, pressed",
		"power G0 : on, off", "power F0 supply: on, off",
		"strip X1:1 control: closed, open", "strip X1:2 lamp running: closed, open", "strip X1:3 lamp stopped: closed, open",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if len(c.Conditions) != 2 || !c.Conditions[0].Kept || c.Conditions[1].Kept || c.Conditions[1].Name != "stopped" {
		t.Errorf("conditions %+v", c.Conditions)
	}
	if s := c.Conditions[0].Steps; len(s) != 2 || s[0] != (api.StepView{Step: "press S2", Text: "S2 start: press"}) {
		t.Errorf("steps of normal %+v", s)
	}
}

// Whatever is offered is taken: every position of every thing, and every step,
// leaves a drawing that has no more to complain of and can be asked for its state.
func TestConditionsOfferWhatIsTaken(t *testing.T) {
	for _, demo := range []string{"training-bench", "dosing-skid", "wash-line"} {
		text, _ := api.Demo(demo)
		h := api.NewHost()
		before := edit(t, h, string(text))
		c := conditionsOf(t, api.Request{Demo: demo})
		for n := range 3 { // the first position of all, the second, the third
			e := api.DraftEdit{Op: "condition", Name: "tried", Positions: map[string]string{}}
			for _, m := range c.Things {
				p := m.Positions[min(n, len(m.Positions)-1)]
				e.Positions[m.Stands[0].Key] = p.Name
				e.Steps = append(e.Steps, p.Step.Step)
			}
			after := edit(t, h, before.Document, e)
			if after.Errors+after.Warnings+after.Notes > before.Errors+before.Warnings+before.Notes || after.Opened.Session == 0 {
				t.Errorf("%s, position %d: %+v", demo, n, after.Problems)
			}
			r := h.Do(api.Request{Op: api.OpState, Session: after.Opened.Session, At: "tried"})
			if r.Error != nil {
				t.Errorf("%s, position %d: %s", demo, n, r.Error.Text.Text)
			}
			for _, m := range conditionsOf(t, api.Request{Text: after.Document}).Things {
				if got, want := m.Stands[len(c.Conditions)].Position, m.Positions[min(n, len(m.Positions)-1)].Name; got != want {
					t.Errorf("%s: %s was set %s and stands %s", demo, m.Ref, want, got)
				}
			}
		}
	}
}

// A drawing's own spelling is how its positions are named, and a level with a fuse
// answers to its block's name too; a draft with errors is told of as well.
func TestConditionsKeepTheSpelling(t *testing.T) {
	text := `{"format":"halfsplit-panel","version":1,"strips":[{"ref":"X3","blocks":[{"no":"1","type":"double-level-fused","fuse":"1 A T"}]}],
"parts":[{"ref":"S1","kind":"button","contacts":["nothing"]}],
"conditions":[{"name":"tank full","set":{"-S1":"pressed","X3:1":"open"}}]}`
	c := conditionsOf(t, api.Request{Text: text})
	if len(c.Conditions) != 2 || c.Conditions[0].Name != "normal" || c.Conditions[1].Name != "tank full" {
		t.Fatalf("conditions %+v: every panel is asked about normal", c.Conditions)
	}
	want := map[string]api.Stand{"S1": {Key: "-S1", Position: "pressed"}, "X3:1.2": {Key: "X3:1", Position: "open"}}
	for _, m := range c.Things {
		if m.Stands[1] != want[m.Ref] || m.Stands[0] != (api.Stand{Key: m.Ref, Position: m.Rest}) {
			t.Errorf("%s stands %+v", m.Ref, m.Stands)
		}
		delete(want, m.Ref)
	}
	if len(want) > 0 {
		t.Errorf("not told: %v", want)
	}
}

// A state the bench was not in before. By hand: with S1 pressed its contact 21-22
// is open and K1 cannot hold, so that P2 is on over 31-32 and P1 is not.
func TestAConditionOfOnesOwn(t *testing.T) {
	text, _ := api.Demo("training-bench")
	h := api.NewHost()
	e := edit(t, h, string(text), api.DraftEdit{Op: "condition", Name: "held stopped", Positions: map[string]string{"S1": "pressed"}, Steps: []string{"press S2"}})
	for at, lit := range map[string]string{"normal": "P1", "held stopped": "P2"} {
		r := h.Do(api.Request{Op: api.OpState, Session: e.Opened.Session, At: at})
		if r.Error != nil {
			t.Fatal(r.Error.Text.Text)
		}
		for _, d := range r.State.Devices {
			if d.Ref[0] == 'P' && (d.State == "lit") != (d.Ref == lit) {
				t.Errorf("%s: %s is %s", at, d.Ref, d.State)
			}
		}
	}
}

// What became of the states of the plant is told in words.
func TestDifferencesOfConditions(t *testing.T) {
	text, _ := api.Demo("training-bench")
	h := api.NewHost()
	before := edit(t, h, string(text), api.DraftEdit{Op: "condition", Name: "held", Positions: map[string]string{"S1": "pressed"}})
	after := edit(t, h, before.Document,
		api.DraftEdit{Op: "condition", Name: "held", Positions: map[string]string{"S1": "released", "X1:2": "open"}},
		api.DraftEdit{Op: "condition", Name: "stopped", Positions: map[string]string{"S1": "pressed"}, About: "Held."},
		api.DraftEdit{Op: "condition", Name: "lamp test"})
	r := h.Do(api.Request{Op: api.OpDiff, Text: before.Document, Other: after.Document})
	if r.Error != nil {
		t.Fatal(r.Error.Text.Text)
	}
	var told []string
	for _, d := range r.Diff.Differences {
		told = append(told, d.Text.Text)
	}
	want := []string{
		"condition stopped, about: Held. instead of Power on, nothing pressed.",
		"condition stopped: S1 is now pressed",
		"condition held, S1: released instead of pressed",
		"condition held: X1:2 is now open",
		"new: condition lamp test (name lamp test)",
	}
	if !slices.Equal(told, want) {
		t.Errorf("told\n%s\nwant\n%s", strings.Join(told, "\n"), strings.Join(want, "\n"))
	}
}

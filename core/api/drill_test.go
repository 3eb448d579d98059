//go:build !field

package api_test

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"

	"halfsplit/core/api"
)

// ask sends a request through JSON, as the page does, and fails on an error.
func ask(t *testing.T, h *api.Host, req api.Request) api.Response {
	t.Helper()
	data, err := json.Marshal(req)
	if err != nil {
		t.Fatal(err)
	}
	var resp api.Response
	if err := json.Unmarshal(h.Handle(data), &resp); err != nil {
		t.Fatal(err)
	}
	if resp.Error != nil {
		t.Fatalf("%s: %s", req.Op, resp.Error.Text.Text)
	}
	return resp
}

// gaps finds codes without a sentence and facts left in brackets in an answer.
func gaps(t *testing.T, what string, v any) {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	if i := strings.Index(string(data), "⟨"); i >= 0 {
		t.Errorf("%s: a code without a sentence: %s", what, data[i:min(len(data), i+80)])
	}
	if at := nullList(reflect.ValueOf(v), what); at != "" {
		t.Errorf("%s is null and should be a list", at)
	}
}

// nullList is the path of a list that JSON would write as null.
func nullList(v reflect.Value, at string) string {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return nullList(v.Elem(), at)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if strings.Contains(f.Tag.Get("json"), "omitempty") {
				continue
			}
			if p := nullList(v.Field(i), at+"."+f.Name); p != "" {
				return p
			}
		}
	case reflect.Slice:
		if v.IsNil() {
			return at
		}
		for i := range v.Len() {
			if p := nullList(v.Index(i), at+"[]"); p != "" {
				return p
			}
		}
	}
	return ""
}

// A drill from opening to debrief, through JSON: every list is a list, every code has
// its sentence, the debrief comes in steps, and nothing of the answer is in what the
// learner is given.
func TestDrill(t *testing.T) {
	h := api.NewHost()
	list := ask(t, h, api.Request{Op: api.OpDrills}).Drills.Drills
	if len(list) < 16 {
		t.Fatalf("%d drills", len(list))
	}
	if testing.Short() {
		list = list[:4]
	}
	for _, def := range list {
		d := ask(t, h, api.Request{Op: api.OpDrillOpen, Demo: def.Demo}).Drill
		gaps(t, def.Demo, d)
		given, err := json.Marshal(d)
		if err != nil {
			t.Fatal(err)
		}
		for _, secret := range []string{`"hidden"`, `"sealed"`, "explanation", `"truth"`} {
			if strings.Contains(string(given), secret) {
				t.Errorf("%s: the learner is given %s", def.Demo, secret)
			}
		}
		acts := []api.DrillAct{{Kind: "look", Thing: d.Panel.Parts[len(d.Panel.Parts)-1].Ref}}
		for n := range d.Questions {
			acts = append(acts, api.DrillAct{Kind: "ask", Thing: string(rune('1' + n))})
		}
		for _, o := range d.State.Offers {
			if o.Kind == "operate" && len(o.Targets) > 0 {
				acts = append(acts, api.DrillAct{Kind: "operate", Step: o.Targets[0]})
			}
			if o.Kind == "pull" {
				acts = append(acts, api.DrillAct{Kind: "pull", Thing: o.Targets[0]})
			}
		}
		p := d.Panel.Points
		acts = append(acts, api.DrillAct{Kind: "read", Mode: "vdc", Red: p[0].Point, Black: p[len(p)/3].Point, Why: "guess"})
		st := ask(t, h, api.Request{Op: api.OpDrillAct, Session: d.Session, Acts: acts}).DrillState
		if st.Refused != nil {
			acts = acts[:len(st.Log)]
		}
		gaps(t, def.Demo, st)
		acts = append(acts, api.DrillAct{Kind: "call", Thing: d.Panel.Wires[0].No, Class: "open"}, api.DrillAct{Kind: "give-up"})
		req := api.Request{Op: api.OpDrillDebrief, Session: d.Session, Acts: acts, Budget: 50}
		steps := 0
		resp := ask(t, h, req)
		for ; resp.Progress != nil; steps++ {
			if resp.Progress.Done > resp.Progress.Total || steps > 2000 {
				t.Fatalf("%s: %+v after %d steps", def.Demo, resp.Progress, steps)
			}
			resp = ask(t, h, req)
		}
		b := resp.DrillDebrief
		gaps(t, def.Demo, b)
		if b.Result == "" || len(b.Parts) != 7 || len(b.Plan) == 0 || len(b.Lessons) == 0 || len(b.Lessons) > 2 || b.Explanation == "" {
			t.Errorf("%s: %+v", def.Demo, b)
		}
		ask(t, h, api.Request{Op: api.OpClose, Session: d.Session})
	}
}

// A refused act is told and not kept; acts sent again, more of them, and other ones
// from the middle on give what a fresh replay gives.
func TestDrillActs(t *testing.T) {
	h := api.NewHost()
	d := ask(t, h, api.Request{Op: api.OpDrillOpen, Demo: "run-lamp-dark"}).Drill
	state := func(acts ...api.DrillAct) *api.DrillState {
		return ask(t, h, api.Request{Op: api.OpDrillAct, Session: d.Session, Acts: acts}).DrillState
	}
	look, press := api.DrillAct{Kind: "look", Thing: "P1"}, api.DrillAct{Kind: "operate", Step: "press S1"}
	read := api.DrillAct{Kind: "read", Mode: "vdc", Red: "K1:24", Black: "X2:1", Why: "feed"}
	if st := state(look, read); len(st.Log) != 2 || st.Log[1].Reading.Shown != "24.00 V" {
		t.Fatalf("%+v", st.Log)
	}
	if st := state(look, press, read); len(st.Log) != 3 || st.Log[2].Reading.Shown == "24.00 V" {
		t.Errorf("with stop pressed K1:24 is dead: %+v", st.Log[2].Reading)
	}
	if st := state(look, read); st.Log[1].Reading.Shown != "24.00 V" {
		t.Errorf("undone, K1:24 is live again: %+v", st.Log[1].Reading)
	}
	unasked := read
	unasked.Why = ""
	if st := state(look, unasked); st.Refused == nil || st.Refused.Code != "drill.why-missing" || len(st.Log) != 1 || len(st.Refused.Choices) == 0 {
		t.Errorf("a reading without a reason: %+v", st.Refused)
	}
	live := read
	live.Mode = "ohms"
	st := state(live)
	if len(st.Gates) != 1 || st.Gates[0].Effect != "cap" || st.Log[0].Reading != nil {
		t.Errorf("ohms on live: %+v", st.Gates)
	}
	if r := h.Do(api.Request{Op: api.OpDrillAct, Session: 999}); r.Error == nil || r.Error.Code != "api.no-drill" {
		t.Errorf("no such drill: %+v", r.Error)
	}
	if r := h.Do(api.Request{Op: api.OpDrillOpen, Demo: "run-lamp-drak"}); r.Error == nil || !slices.Contains(r.Error.Choices, "run-lamp-dark") {
		t.Errorf("no such drill: %+v", r.Error)
	}
}

// The author is told how hard a drill is and gets it sealed: it opens like the open
// one, with the same panel and call, for the same seed.
func TestDrillAuthor(t *testing.T) {
	h := api.NewHost()
	a := ask(t, h, api.Request{Op: api.OpDrillAuthor, Demo: "both-dead"}).DrillAuthored
	gaps(t, "author", a)
	if a.Steps == 0 || a.Grade == 0 || len(a.Traps) == 0 || !a.Found || len(a.Problems) > 0 || strings.Contains(a.Sealed, "fuse-blown") {
		t.Fatalf("%+v", a)
	}
	for _, seed := range []int{0, 1, 2} {
		open := ask(t, h, api.Request{Op: api.OpDrillOpen, Demo: "both-dead", Seed: seed}).Drill
		sealed := ask(t, h, api.Request{Op: api.OpDrillOpen, Text: a.Sealed, Seed: seed}).Drill
		if open.Complaint != sealed.Complaint || !slices.Equal(open.Dead, sealed.Dead) || open.Panel.Document != sealed.Panel.Document {
			t.Errorf("seed %d: sealed it is another drill", seed)
		}
	}
	bad := ask(t, h, api.Request{Op: api.OpDrillAuthor, Text: strings.Replace(a.Sealed, "bench was running", "bench was standing", 1)}).DrillAuthored
	if len(bad.Problems) != 1 || bad.Problems[0].Code != "drill-seal-broken" || bad.Problems[0].Hint == "" || bad.Sealed != "" {
		t.Errorf("%+v", bad)
	}
	if p := ask(t, h, api.Request{Op: api.OpCheck, Text: a.Sealed}).Problems; p.Errors > 0 {
		t.Errorf("check of a sealed drill: %+v", p.Problems)
	}
}

// A short form through JSON: made by seed, graded, and the truth told only then.
func TestDrillShort(t *testing.T) {
	h := api.NewHost()
	s := ask(t, h, api.Request{Op: api.OpOpen, Demo: "training-bench"}).Opened.Session
	for _, form := range []string{"possible", "predict", "choose"} {
		req := api.Request{Op: api.OpDrillShort, Session: s, Form: form, Seed: 7}
		x := ask(t, h, req).DrillShort
		gaps(t, form, x)
		if x.Truth != "" || len(x.Marks) > 0 || len(x.Items)+len(x.Options) < 4 {
			t.Errorf("%s: %+v", form, x)
		}
		req.Marks = &api.DrillMarks{}
		graded := ask(t, h, req).DrillShort
		gaps(t, form, graded)
		if graded.Truth == "" || len(graded.Marks) < 2 {
			t.Errorf("%s: %+v", form, graded)
		}
		if form == "choose" {
			continue
		}
		for _, m := range graded.Marks {
			req.Marks.Each = append(req.Marks.Each, m.Want)
		}
		if again := ask(t, h, req).DrillShort; again.Right != len(again.Marks) {
			t.Errorf("%s: what it wanted is marked wrong: %+v", form, again.Marks)
		}
	}
	if r := h.Do(api.Request{Op: api.OpDrillShort, Session: s, Form: "sort"}); r.Error == nil || len(r.Error.Choices) != 3 {
		t.Errorf("%+v", r.Error)
	}
}

package api_test

import (
	"encoding/json"
	"strings"
	"testing"

	"halfsplit/core/api"
)

func opened(t testing.TB, demo string) (*api.Host, int) {
	t.Helper()
	h := api.NewHost()
	r := h.Do(api.Request{Op: api.OpOpen, Demo: demo})
	if r.Error != nil {
		t.Fatal(r.Error.Text.Text)
	}
	return h, r.Opened.Session
}

// What a request gets wrong comes back as a code with a remedy, never as a panic.
func TestErrorsHaveARemedy(t *testing.T) {
	h, s := opened(t, "training-bench")
	obs := func(o api.Observations) *api.Observations { return &o }
	v := 24.0
	for _, tc := range []struct {
		code string
		req  api.Request
	}{
		{"api.unknown-operation", api.Request{Op: "sing"}},
		{"api.no-session", api.Request{Op: api.OpState, Session: 99}},
		{"api.unknown-demo", api.Request{Op: api.OpOpen, Demo: "training-bnch"}},
		{"api.document-has-errors", api.Request{Op: api.OpOpen, Text: "{"}},
		{"api.unknown-condition", api.Request{Op: api.OpState, Session: s, At: "sunday"}},
		{"api.unknown-verb", api.Request{Op: api.OpState, Session: s, At: "normal; kick S2"}},
		{"api.unknown-thing", api.Request{Op: api.OpState, Session: s, At: "normal; press S9"}},
		{"api.nothing-to-set", api.Request{Op: api.OpState, Session: s, At: "normal; press P1"}},
		{"api.unknown-step", api.Request{Op: api.OpState, Session: s, At: "normal; press"}},
		{"api.unknown-position", api.Request{Op: api.OpState, Session: s, At: "normal; set S2 sideways"}},
		{"api.unknown-onset", api.Request{Op: api.OpState, Session: s, Onset: "never"}},
		{"api.no-fault", api.Request{Op: api.OpWhatIf, Session: s}},
		{"api.fault-form", api.Request{Op: api.OpWhatIf, Session: s, Faults: []string{"F3"}}},
		{"api.fault-unknown-thing", api.Request{Op: api.OpWhatIf, Session: s, Faults: []string{"F3=blown"}}},
		{"api.fault-unknown-mode", api.Request{Op: api.OpWhatIf, Session: s, Faults: []string{"K1=blown"}}},
		{"api.fault-bad-value", api.Request{Op: api.OpWhatIf, Session: s, Faults: []string{"W10@S1:21=loose:no"}}},
		{"api.unknown-mode", api.Request{Op: api.OpMeter, Session: s, Mode: "smell"}},
		{"api.unknown-point", api.Request{Op: api.OpMeter, Session: s, Mode: "vdc", Red: "K1:A9", Black: "X2:1"}},
		{"api.point-ambiguous", api.Request{Op: api.OpMeter, Session: s, Mode: "vdc", Red: "X1:1", Black: "X2:1"}},
		{"api.clamp-needs-wire", api.Request{Op: api.OpMeter, Session: s, Mode: "clamp", Red: "K1:A1"}},
		{"api.unknown-device", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Dead: []string{"K7"}})}},
		{"api.dead-anyway", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Dead: []string{"P2"}})}},
		{"api.unknown-state", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Sees: []api.Look{{Ref: "P1", State: "purple"}}})}},
		{"api.no-look", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Sees: []api.Look{{Ref: "P1", State: "lit", At: "power-off"}}})}},
		{"api.unknown-mode", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Readings: []api.Reading{{Mode: "smell", Red: "W10", Value: &v}}})}},
		{"api.clamp-needs-wire", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Readings: []api.Reading{{Mode: "clamp", Red: "K1:A1", Value: &v}}})}},
		{"api.no-break", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Readings: []api.Reading{{Mode: "ma", Red: "K1", Value: &v}}})}},
		{"api.no-break", api.Request{Op: api.OpMeter, Session: s, Mode: "ma", Red: "K1"}},
		{"api.meter-figure", api.Request{Op: api.OpMeter, Session: s, Mode: "vdc", Red: "K1:A1", Black: "K1:A2", MyMeter: map[string]float64{"counts": 3}}},
		{"api.meter-unknown", api.Request{Op: api.OpMeter, Session: s, Mode: "vdc", Red: "K1:A1", Black: "K1:A2", MyMeter: map[string]float64{"digits": 3}}},
		{"api.no-target", api.Request{Op: api.OpIsolate, Session: s}},
		{"api.unknown-target", api.Request{Op: api.OpIsolate, Session: s, Refs: []string{"K9"}}},
		{"api.ohms-power-off", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Readings: []api.Reading{{Mode: "ohms", Red: "K1:A1", Black: "X2:1", Value: &v}}})}},
		{"api.same-metal", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Readings: []api.Reading{{Mode: "vdc", Red: "X2:1/in", Black: "X2:1/out", Value: &v}}})}},
		{"api.value-missing", api.Request{Op: api.OpFind, Session: s, Observations: obs(api.Observations{Readings: []api.Reading{{Mode: "vdc", Red: "K1:A1", Black: "X2:1"}}})}},
	} {
		r := h.Do(tc.req)
		if r.Error == nil || r.Error.Code != tc.code {
			t.Errorf("%+v: %+v, want %s", tc.req, r.Error, tc.code)
			continue
		}
		if strings.Contains(r.Error.Text.Text, "⟨") || strings.Contains(r.Error.Hint, "{") {
			t.Errorf("%s has no sentence: %q, hint %q", tc.code, r.Error.Text.Text, r.Error.Hint)
		}
	}
}

// "Dead" of a device that is off anyway names the conditions where it works.
func TestDeadAnywayNamesWhereItWorks(t *testing.T) {
	h, s := opened(t, "training-bench")
	r := h.Do(api.Request{Op: api.OpFind, Session: s, Observations: &api.Observations{Dead: []string{"P2"}}})
	if r.Error == nil || len(r.Error.Choices) != 1 || r.Error.Choices[0] != "stopped" {
		t.Errorf("%+v, want the choice stopped", r.Error)
	}
}

// A search on the bench, from what is dead to the culprit, as a script would
// see it: each answer is the tool's own meter under the hidden fault.
func TestSearchEndsAtTheHiddenFault(t *testing.T) {
	for _, tc := range []struct{ hidden, dead, place, joints string }{
		{"X1:2=fuse-blown", "P1", "X1:2", ""},
		{"K1:13-14=stuck-open", "K1", "K1", "W13, W14"}, // no reading tells it from a bad joint there: they are named
	} {
		h, s := opened(t, "training-bench")
		f := follow(t, h, s, tc.hidden, tc.dead)
		joints := ""
		for _, c := range f.Checklist {
			if c.Code == "checklist.joint" {
				joints = c.Args[0]
			}
		}
		if f.Status != "found" || f.Suspects[0].Place != tc.place || len(f.Checklist) < 4 || joints != tc.joints {
			t.Errorf("%s ends as %s at %+v with %v", tc.hidden, f.Status, f.Suspects[0], f.Checklist)
		}
	}
}

// follow answers the prompts of a search as a panel with the hidden fault does, to its
// end.
func follow(t *testing.T, h *api.Host, session int, hidden, dead string) *api.Find {
	t.Helper()
	obs := &api.Observations{Dead: []string{dead}}
	for range 20 {
		r := h.Do(api.Request{Op: api.OpFind, Session: session, Observations: obs})
		if r.Error != nil {
			t.Fatal(r.Error.Text.Text)
		}
		n := r.Find.Next
		if n == nil || n.Kind == "repair" {
			return r.Find
		}
		at := "normal"
		if n.With != "" {
			at += "; " + n.With
		}
		if n.Kind == "look" {
			st := h.Do(api.Request{Op: api.OpState, Session: session, At: at, Faults: []string{hidden}}).State
			state := "as-drawn"
			for _, d := range append(st.Devices, st.Lights...) {
				if d.Ref == n.Ref {
					state = d.State
				}
			}
			obs.Sees = append(obs.Sees, api.Look{Ref: n.Ref, State: state, At: n.With})
			continue
		}
		m := h.Do(api.Request{Op: api.OpMeter, Session: session, At: at, Faults: []string{hidden}, Mode: n.Mode, Red: n.Red, Black: n.Black})
		if m.Error != nil || m.Meter.Value == nil {
			t.Fatalf("the prompt %s cannot be answered: %+v", n.Text, m)
		}
		obs.Readings = append(obs.Readings, api.Reading{Mode: n.Mode, Red: n.Red, Black: n.Black, Value: m.Meter.Value, At: n.With})
	}
	t.Fatal("no end after 20 steps")
	return nil
}

// Readings that contradict each other are told, with the one that fits least.
func TestNothingExplains(t *testing.T) {
	h, s := opened(t, "training-bench")
	v, w := 11.0, 17.0
	r := h.Do(api.Request{Op: api.OpFind, Session: s, Observations: &api.Observations{Dead: []string{"P1"}, Readings: []api.Reading{
		{Mode: "vdc", Red: "X1:1/in", Black: "X2:1", Value: &v}, {Mode: "vdc", Red: "X1:2/in", Black: "X2:1", Value: &w}}}})
	if r.Error != nil || r.Find.Status != "nothing-explains" || r.Find.Misfit == nil {
		t.Errorf("%+v", r.Find)
	}
}

// Everything works: nothing is wrong is an answer.
func TestNothingWrong(t *testing.T) {
	h, s := opened(t, "training-bench")
	o := &api.Observations{Works: []string{"G0", "T1", "K1", "P1", "P2"}}
	r := h.Do(api.Request{Op: api.OpFind, Session: s, Observations: o})
	if r.Error != nil || r.Find.Status != "nothing-wrong" {
		t.Errorf("%+v, %+v; want nothing-wrong", r.Error, r.Find)
	}
}

// A long operation in small steps gives what it gives at once, to the byte.
func TestStepsGiveTheSameBytes(t *testing.T) {
	for _, op := range []string{api.OpSweep, api.OpFind} {
		h1, s1 := opened(t, "training-bench")
		h2, s2 := opened(t, "training-bench")
		req := api.Request{Op: op, Observations: &api.Observations{Dead: []string{"P1"}}}
		req.Session = s1
		whole, _ := json.Marshal(h1.Do(req))
		req.Session, req.Budget = s2, 7
		steps := 0
		var last api.Response
		for last = h2.Do(req); last.Progress != nil; last = h2.Do(req) {
			steps++
		}
		parts, _ := json.Marshal(last)
		if steps < 3 || string(parts) != string(whole) {
			t.Errorf("%s in %d steps differs from %s at once", op, steps, op)
		}
	}
}

func FuzzHandle(f *testing.F) {
	f.Add([]byte(`{"op":"version"}`))
	f.Add([]byte(`{"op":"open","demo":"training-bench"}`))
	f.Add([]byte(`{"op":"open","text":"{\"format\":\"halfsplit-panel\"}"}`))
	f.Add([]byte(`{"op":"meter","session":1,"mode":"vdc","red":"K1:A1","black":"PE","at":"normal; press S2"}`))
	f.Add([]byte(`{"op":"find","session":1,"observations":{"dead":["P1"],"readings":[{"mode":"vdc","red":"K1:A1","black":"X2:1","value":1e300}]},"budget":5}`))
	f.Add([]byte(`{"op":"whatif","session":1,"faults":["W17@P1:X1=loose:3 kohm"],"onset":"start"}`))
	f.Add([]byte(`{"op":"isolate","session":1,"refs":["K1","X1:2"]}`))
	f.Add([]byte(`{"op":"mymeter","my_meter":{"input_ohms":1e-300}}`))
	f.Add([]byte(`{"op":"predict","session":1,"mode":"ma","red":"X1:2","each":["K1","W15=broken"]}`))
	f.Add([]byte(`{"op":"view","session":1}`))
	f.Add([]byte(`{"op":"sweep","session":1,"budget":1}`))
	fuzzRequests(f)
}

// fuzzRequests sends requests to a core with a panel and a drill open: each is
// answered, and none finds a fault in it.
func fuzzRequests(f *testing.F) {
	f.Fuzz(func(t *testing.T, request []byte) {
		h := api.NewHost()
		h.Do(api.Request{Op: api.OpOpen, Demo: "training-bench"})
		h.Do(api.Request{Op: api.OpDrillOpen, Demo: "run-lamp-dark"})
		var r api.Response
		if err := json.Unmarshal(h.Handle(request), &r); err != nil {
			t.Fatalf("the answer is no JSON: %v", err)
		}
		if r.Error != nil && r.Error.Code == "api.internal" {
			t.Fatalf("%s: %s", request, r.Error.Text.Text)
		}
	})
}

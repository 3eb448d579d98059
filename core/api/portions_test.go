package api_test

import (
	"encoding/json"
	"runtime"
	"testing"

	"halfsplit/core/api"
)

// deadEnd is a search that goes through every stage there is: nothing explains what
// was measured, in two conditions.
func deadEnd(session int) api.Request {
	v, w := 11.0, 17.0
	return api.Request{Op: api.OpFind, Session: session, Observations: &api.Observations{Dead: []string{"P1"}, Readings: []api.Reading{
		{Mode: "vdc", Red: "X1:1/in", Black: "X2:1", Value: &v}, {Mode: "vdc", Red: "X1:2/in", Black: "X2:1", Value: &w, At: "stopped"}}}}
}

// inPortions sends a request until it is answered, with something else in between.
func inPortions(t *testing.T, h *api.Host, req api.Request, between func(portion int)) (answer []byte, portions int) {
	t.Helper()
	for ; ; portions++ {
		r := h.Do(req)
		if r.Progress == nil {
			answer, _ = json.Marshal(r)
			return answer, portions
		}
		if r.Progress.Done > r.Progress.Total || portions > 1e5 {
			t.Fatalf("%+v after %d portions", r.Progress, portions)
		}
		between(portions)
	}
}

// Whatever is asked between the portions of a search, and however often it is given
// up and taken up again, it ends with the same bytes.
func TestSearchInPortions(t *testing.T) {
	h, s := opened(t, "training-bench")
	whole, _ := json.Marshal(h.Do(deadEnd(s)))
	for _, tc := range []struct {
		name    string
		between func(h *api.Host, s, portion int)
	}{
		{"nothing", func(*api.Host, int, int) {}},
		{"a what-if", func(h *api.Host, s, _ int) {
			h.Do(api.Request{Op: api.OpWhatIf, Session: s, Faults: []string{"W10=broken"}})
		}},
		{"another search now and then", func(h *api.Host, s, portion int) {
			if portion%40 == 39 {
				h.Do(api.Request{Op: api.OpFind, Session: s, Budget: 2, Observations: &api.Observations{Dead: []string{"K1"}}})
			}
		}},
		{"another panel", func(h *api.Host, s, portion int) {
			if portion == 10 {
				h.Do(api.Request{Op: api.OpFind, Budget: 2, Session: h.Do(api.Request{Op: api.OpOpen, Demo: "training-bench"}).Opened.Session})
			}
		}},
	} {
		h, s := opened(t, "training-bench")
		req := deadEnd(s)
		req.Budget = 3
		got, portions := inPortions(t, h, req, func(k int) { tc.between(h, s, k) })
		if portions < 50 || string(got) != string(whole) {
			t.Errorf("%s in between: in %d portions it is\n%s\nat once\n%s", tc.name, portions, got, whole)
		}
	}
}

// A search given up leaves nothing behind that runs or waits.
func TestSearchGivenUp(t *testing.T) {
	before := runtime.NumGoroutine()
	for _, end := range []func(h *api.Host, s int){
		func(h *api.Host, s int) { h.Do(api.Request{Op: api.OpClose, Session: s}) },
		func(h *api.Host, s int) { h.Do(api.Request{Op: api.OpEdit, Session: s, Demo: "training-bench"}) },
		func(h *api.Host, s int) { h.Do(deadEnd(s)) },
	} {
		h, s := opened(t, "training-bench")
		req := deadEnd(s)
		req.Budget = 1
		for range 20 {
			if r := h.Do(req); r.Progress == nil {
				t.Fatal("answered after 20 portions of one fault")
			}
		}
		end(h, s)
	}
	for k := 0; k < 1000 && runtime.NumGoroutine() > before; k++ {
		runtime.Gosched() // one that has said its last is still counted until it is gone
	}
	if after := runtime.NumGoroutine(); after > before {
		t.Errorf("%d goroutines, %d before", after, before)
	}
}

// A search waits even in the middle of one hypothesis, where thousands of readings
// want the meter in the network. Whatever is asked then, or after giving it up, is
// answered as by a host that never searched.
func TestSearchGivenUpAmidAHypothesis(t *testing.T) {
	const jumper = "X2:1~X2:2=no-jumper"
	dead := func(refs ...string) *api.Observations { return &api.Observations{Dead: refs} }
	zero := 0.0
	search := api.Request{Op: api.OpFind, All: true, Observations: dead("P1", "K9", "Q1")}
	search.Observations.Readings = []api.Reading{{Mode: "vdc", Red: "K9:A1", Black: "X2:1", Value: &zero}}
	h, s := opened(t, "wash-line")
	for _, ask := range []api.Request{
		{Op: api.OpWhatIf, Faults: []string{jumper}},
		{Op: api.OpMeter, Faults: []string{jumper}, Mode: "vdc", Red: "B1:1", Black: "B2:1"},
		{Op: api.OpFind, Observations: dead("K4")},
		search,
	} {
		ask.Session, search.Session = s, s
		req := search
		req.Budget = 30
		done, stays := -1, 0
		for stays < 5 { // portions in which no hypothesis was finished
			r := h.Do(req)
			if r.Progress == nil {
				t.Fatalf("%s: answered, and no hypothesis took six portions: %+v", ask.Op, r.Error)
			}
			if stays++; r.Progress.Done != done {
				done, stays = r.Progress.Done, 0
			}
		}
		fresh, s2 := opened(t, "wash-line")
		got := h.Do(ask)
		ask.Session = s2
		want := fresh.Do(ask)
		a, _ := json.Marshal(got)
		if b, _ := json.Marshal(want); string(a) != string(b) || want.Error != nil {
			t.Errorf("%s: %s\nof a fresh host: %s", ask.Op, a, b)
		}
	}
}

package api_test

import (
	"slices"
	"strings"
	"testing"

	"halfsplit/core/api"
	"halfsplit/core/words"
)

func openDemo(t *testing.T, name string) (*api.Host, int) {
	t.Helper()
	h := api.NewHost()
	open := h.Do(api.Request{Op: api.OpOpen, Demo: name})
	if open.Error != nil {
		t.Fatal(open.Error.Text.Text)
	}
	return h, open.Opened.Session
}

func isolate(t *testing.T, h *api.Host, s int, refs ...string) *api.Isolate {
	t.Helper()
	r := h.Do(api.Request{Op: api.OpIsolate, Session: s, Refs: refs})
	if r.Error != nil {
		t.Fatal(refs, r.Error.Text.Text)
	}
	return r.Isolate
}

func codesOf(list []api.Text) (codes []string) {
	for _, t := range list {
		codes = append(codes, t.Code)
	}
	return codes
}

// The proof covers every pair of the target's conductors, and each against earth
// and, with mains, neutral; both kinds of voltage; live pairs first; and says where
// it proves nothing. Source: NFPA 70E 120.5 and EN 50110-1 (from memory): each
// conductor to each other and to earth, with a tester proved before and after.
func TestProof(t *testing.T) {
	h, s := openDemo(t, "training-bench")
	is := isolate(t, h, s, "F0")
	pairs := map[string]api.Proof{}
	dead := false
	for _, p := range is.Prove {
		pairs[p.Red+" "+p.Black] = p
		if !slices.Equal(p.Modes, []string{"vdc", "vac"}) || len(p.Before) != 2 || len(p.After) != 2 {
			t.Errorf("%s – %s is tested in %v", p.Red, p.Black, p.Modes)
		}
		if !slices.Equal(p.After, []string{"0.00 V", "0.0 V"}) {
			t.Errorf("%s – %s still shows %v", p.Red, p.Black, p.After)
		}
		if p.Live && dead {
			t.Errorf("%s – %s stands below pairs that prove nothing", p.Red, p.Black)
		}
		dead = dead || !p.Live
		if p.Text == "" || p.RedTip == "" || p.BlackTip == "" {
			t.Errorf("%s – %s is not put into words", p.Red, p.Black)
		}
	}
	for _, red := range []string{"F0:1", "F0:2", "F0:3", "F0:4"} {
		for _, black := range []string{"F0:1", "F0:2", "F0:3", "F0:4", "X9:1", "G0:N"} {
			_, there := pairs[red+" "+black]
			_, back := pairs[black+" "+red]
			if want := red != black; (there || back) != want {
				t.Errorf("%s – %s in the list: %v, want %v", red, black, there || back, want)
			}
		}
	}
	if p := pairs["F0:1 F0:3"]; !p.Live || p.Before[1] != "230.0 V" {
		t.Errorf("line to neutral before: %v", p.Before)
	}
	if p := pairs["F0:1 F0:2"]; p.Live || !strings.Contains(p.Text, "proves nothing") {
		t.Errorf("two ends of a closed pole were not live before: %q", p.Text)
	}
}

// Mains and extra-low voltage get their own words, in the order of the work, and
// nothing is ever called safe.
func TestIsolateCautions(t *testing.T) {
	h, s := openDemo(t, "training-bench")
	order := []string{"caution.lock-out", "caution.stored", "caution.prove-tester", "caution.test-pairs", "caution.prove-again", "caution.live-work"}
	for _, tc := range []struct {
		ref, has, lacks string
	}{
		{"T1", "caution.isolate-higher", "caution.isolate-low"},
		{"P1", "caution.isolate-low", "caution.isolate-higher"},
		{"P1", "caution.no-lock", "caution.not-isolated"},
		{"W5", "caution.not-isolated", "caution.test-pairs"},
	} {
		is := isolate(t, h, s, tc.ref)
		codes := codesOf(is.Cautions)
		if !slices.Contains(codes, tc.has) || slices.Contains(codes, tc.lacks) {
			t.Errorf("%s: %v, want %s and no %s", tc.ref, codes, tc.has, tc.lacks)
		}
		if !is.Isolated {
			if len(is.Open)+len(is.Prove) > 0 {
				t.Errorf("%s is not isolated, and yet there is something to open or prove", tc.ref)
			}
			continue
		}
		var kept []string
		for _, c := range codes {
			if slices.Contains(order, c) {
				kept = append(kept, c)
			}
		}
		if !slices.Equal(kept, order) {
			t.Errorf("%s: %v, want the order %v", tc.ref, kept, order)
		}
	}
	for code, text := range words.Catalogue("en") {
		if family, _, _ := strings.Cut(code, "."); slices.Contains([]string{"isolate", "reach", "prove", "caution", "note", "meter"}, family) {
			for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r < 'a' || r > 'z' }) {
				if w == "safe" || w == "safely" {
					t.Errorf("%s calls something safe: %s", code, text)
				}
			}
		}
	}
}

// A target is named as people name it, and what is none gets a remedy.
func TestIsolateTargets(t *testing.T) {
	h, s := openDemo(t, "dosing-skid")
	for _, tc := range []struct {
		ref, canonical string
	}{{"LT-101", "B1"}, {"-B1", "B1"}, {"X3:1.2/out", "X3:1.2/out"}, {"X3:1", "X3:1"}, {"X3", "X3"}, {"A2:0", "A2:0"}, {"W1", "W1"}} {
		is := isolate(t, h, s, tc.ref)
		if !slices.Equal(is.Targets, []string{tc.canonical}) || !is.Isolated {
			t.Errorf("%s is understood as %v, isolated %v", tc.ref, is.Targets, is.Isolated)
		}
	}
	if is := isolate(t, h, s, "B1", "B2"); len(is.Open) != 2 {
		t.Errorf("two loops: open %v", is.Open)
	}
	for _, refs := range [][]string{nil, {"B99"}, {"X3:99"}} {
		r := h.Do(api.Request{Op: api.OpIsolate, Session: s, Refs: refs})
		if r.Error == nil || r.Error.Hint == "" {
			t.Errorf("%v is taken as a target, or refused without a remedy", refs)
		}
	}
}

// Predict shows for each fault what the meter shows with that fault in place, and
// which of them the display tells from the healthy panel.
func TestPredictAgreesWithMeter(t *testing.T) {
	h, s := openDemo(t, "training-bench")
	q := api.Request{Op: api.OpPredict, Session: s, Mode: "vdc", Red: "K1:A1", Black: "K1:A2", Each: []string{"X1:1", "K1", "W15=broken"}}
	r := h.Do(q)
	if r.Error != nil {
		t.Fatal(r.Error.Text.Text)
	}
	q.Op, q.Each = api.OpMeter, nil
	differs := 0
	for _, row := range append([]api.Prediction{r.Predict.Healthy}, r.Predict.Rows...) {
		q.Faults = nil
		if row.Fault != "" {
			q.Faults = []string{row.Fault}
		}
		m := h.Do(q).Meter
		if m.Shown != row.Shown || row.Differs != (row.Shown != r.Predict.Healthy.Shown) {
			t.Errorf("%s: predicted %q, the meter shows %q", row.Fault, row.Shown, m.Shown)
		}
		if row.Differs {
			differs++
		}
	}
	if len(r.Predict.Rows) < 10 || differs < 3 || differs == len(r.Predict.Rows) {
		t.Errorf("%d rows, %d differ: this shows nothing", len(r.Predict.Rows), differs)
	}
	q.Op, q.Each = api.OpPredict, []string{"Q77"}
	if r := h.Do(q); r.Error == nil || r.Error.Hint == "" {
		t.Error("a thing that is not there is predicted for")
	}
}

// The meter of a request is checked figure by figure.
func TestMyMeter(t *testing.T) {
	h := api.NewHost()
	r := h.Do(api.Request{Op: api.OpMyMeter, MyMeter: map[string]float64{"input_ohms": 1e6}})
	if r.Error != nil {
		t.Fatal(r.Error.Text.Text)
	}
	for _, row := range r.MyMeter.Rows {
		want := row.Typical
		if row.Key == "input_ohms" {
			want = 1e6
		}
		if row.Value != want || row.Name == "" || row.Source == "" || row.Value < row.Least || row.Value > row.Most {
			t.Errorf("%+v", row)
		}
	}
	if len(r.MyMeter.Modes) != 9 || len(r.MyMeter.Rows) < 20 {
		t.Errorf("%d modes, %d figures", len(r.MyMeter.Modes), len(r.MyMeter.Rows))
	}
	for _, bad := range []map[string]float64{{"input_ohms": 0}, {"inputohms": 1e6}, {"true_rms": 0.5}, {"counts": 1e9}} {
		if r := h.Do(api.Request{Op: api.OpMyMeter, MyMeter: bad}); r.Error == nil || r.Error.Hint == "" {
			t.Errorf("%v is taken for a meter, or refused without a remedy", bad)
		}
	}
}

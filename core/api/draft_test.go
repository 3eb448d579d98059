//go:build !field

package api_test

import (
	"slices"
	"strings"
	"testing"

	"halfsplit/core/api"
)

// minimal is the panel around one dead instrument, as a technician knows it after
// looking at the strip: what feeds it, its fuse, its two wires, its channel.
var minimal = []api.DraftEdit{
	{Op: "strip", Ref: "X1", Count: 10},
	{Op: "blocks", Ref: "X1", From: "1", Word: "fused 500 mA F"},
	{Op: "part", Word: "feed 24 V", Ref: "G1", Ratings: map[string]string{"bonded": "no", "class": "PELV"}},
	{Op: "part", Word: "PT-102"},
	{Op: "part", Word: "AI card", Ref: "A1"},
	{Op: "wire", From: "G1:1", To: "X1:1"},
	{Op: "wire", From: "X1:1", To: "B1:+"},
	{Op: "wire", From: "B1:-", To: "X1:3"},
	{Op: "wire", From: "X1:3", To: "A1:0"},
	{Op: "wire", From: "A1:M", To: "X1:10"},
	{Op: "wire", From: "X1:10", To: "G1:2"},
}

func edit(t *testing.T, h *api.Host, text string, edits ...api.DraftEdit) *api.Edited {
	t.Helper()
	r := h.Do(api.Request{Op: api.OpEdit, Text: text, Edits: edits})
	if r.Error != nil {
		t.Fatalf("edit %d: %s (%s)", r.Error.Edit, r.Error.Text.Text, r.Error.Hint)
	}
	return r.Edited
}

// Eleven edits make a panel that find works on; it leads to the fuse.
func TestFindOnADraft(t *testing.T) {
	const fault = "X1:1=fuse-blown"
	h := api.NewHost()
	e := edit(t, h, "", minimal...)
	if e.Opened == nil || e.Opened.Session == 0 {
		t.Fatalf("the draft cannot be solved: %+v", e.Problems)
	}
	session := e.Opened.Session
	obs := &api.Observations{Dead: []string{"B1"}}
	for step := 0; ; step++ {
		r := h.Do(api.Request{Op: api.OpFind, Session: session, Observations: obs})
		if r.Error != nil {
			t.Fatal(r.Error.Text.Text)
		}
		f := r.Find
		if f.Status == "found" {
			if !slices.Contains(f.Suspects[0].Faults, fault) {
				t.Errorf("found %v, want %s", f.Suspects[0].Faults, fault)
			}
			t.Logf("%d edits, then found in %d steps", len(minimal), step)
			return
		}
		if f.Next == nil || step == 12 {
			t.Fatalf("no end after %d steps: %s %s", step, f.Status, f.Text)
		}
		n := f.Next
		switch n.Kind {
		case "reading":
			m := h.Do(api.Request{Op: api.OpMeter, Session: session, Mode: n.Mode, Red: n.Red, Black: n.Black, At: withCondition(n.With), Faults: []string{fault}})
			if m.Error != nil || m.Meter.Refused != "" {
				t.Fatalf("%s %s %s: %+v", n.Mode, n.Red, n.Black, m)
			}
			reading := api.Reading{Mode: n.Mode, Red: n.Red, Black: n.Black, Value: m.Meter.Value, At: n.With}
			if m.Meter.Overload {
				reading.Shown = "OL"
			}
			obs.Readings = append(obs.Readings, reading)
		case "look":
			s := h.Do(api.Request{Op: api.OpState, Session: session, At: withCondition(n.With), Faults: []string{fault}})
			for _, d := range slices.Concat(s.State.Devices, s.State.Lights) {
				if d.Ref == n.Ref {
					obs.Sees = append(obs.Sees, api.Look{Ref: n.Ref, State: d.State, At: n.With})
				}
			}
		default:
			t.Fatalf("a step of the kind %s: %s", n.Kind, n.Text)
		}
	}
}

// withCondition is how a request says what a prompt calls With.
func withCondition(with string) string {
	if with == "" || with == "power-off" {
		return with
	}
	return "normal; " + with
}

// A draft with errors is kept, shown and edited on; only solving waits.
func TestDraftWithErrors(t *testing.T) {
	h := api.NewHost()
	e := edit(t, h, "", api.DraftEdit{Op: "strip", Ref: "X1", Count: 2}, api.DraftEdit{Op: "blocks", Ref: "X1", From: "1", Kind: "fuse-block"})
	if e.Errors == 0 || e.Opened == nil || e.Opened.Session != 0 || len(e.Opened.Strips[0].Blocks) != 2 {
		t.Fatalf("%d errors, opened %+v", e.Errors, e.Opened)
	}
	e = edit(t, h, e.Document, api.DraftEdit{Op: "blocks", Ref: "X1", From: "1", Fuse: "2 A T"}, api.DraftEdit{Op: "name", Name: "x"})
	if e.Errors != 0 || e.Opened.Session == 0 {
		t.Errorf("%d errors left: %+v", e.Errors, e.Problems)
	}
	was := e.Opened.Session
	r := h.Do(api.Request{Op: api.OpEdit, Text: e.Document, Session: was, Edits: []api.DraftEdit{{Op: "label", Ref: "X1:1", Label: "a"}}})
	if r.Error != nil || r.Edited.Opened.Session == was {
		t.Fatalf("%+v", r.Error)
	}
	if s := h.Do(api.Request{Op: api.OpState, Session: was}); s.Error == nil || s.Error.Code != "api.no-session" {
		t.Error("the session of the draft before is still held")
	}
}

// Hostile edits are refused with a reason, and nothing is lost; what is only
// strange text is kept as text.
func TestHostileEdits(t *testing.T) {
	h := api.NewHost()
	for _, tc := range []struct {
		edit api.DraftEdit
		code string
	}{
		{api.DraftEdit{Op: "strip", Count: 1_000_000_000}, "draft.count"},
		{api.DraftEdit{Op: "strip", Count: -1}, "draft.count"},
		{api.DraftEdit{Op: "strip", Count: 2, First: "99999999999999999999"}, "draft.first-counts-not"},
		{api.DraftEdit{Op: "strip", Count: 2, First: "999999999"}, "draft.first-counts-not"},
		{api.DraftEdit{Op: "strip", Count: 2, Step: 1 << 30}, "draft.count"},
		{api.DraftEdit{Op: "part", Kind: "relay", Channels: 1 << 30}, "draft.count"},
		{api.DraftEdit{Op: "part", Kind: "<script>"}, "draft.unknown-kind"},
		{api.DraftEdit{Op: "part", Kind: "relay", Ref: "K1:A1"}, "draft.ref-form"},
		{api.DraftEdit{Op: "wire", From: "<script>alert(1)</script>", To: "X1:1"}, "draft.bad-point"},
		{api.DraftEdit{Op: "label", Ref: "X1", Label: strings.Repeat("x", 501)}, "draft.text-too-long"},
		{api.DraftEdit{Op: "label", Ref: "X1", Label: "a\x00b"}, "draft.control-character"},
		{api.DraftEdit{Op: "blocks", Ref: "X1", List: make([]string, 100_000)}, "draft.list-too-long"},
		{api.DraftEdit{Op: "copy", Ref: "B1", Count: 1_000_000}, "draft.count"},
		{api.DraftEdit{Op: "mains", Ref: "__proto__ x"}, "draft.ref-form"},
		{api.DraftEdit{Op: "rm -rf"}, "draft.unknown-op"},
		{api.DraftEdit{}, "draft.op-missing"},
	} {
		r := h.Do(api.Request{Op: api.OpEdit, Edits: []api.DraftEdit{{Op: "strip", Ref: "X1", Count: 3}, tc.edit}})
		if r.Error == nil || r.Error.Code != tc.code || r.Error.Edit != 1 || r.Error.Hint == "" {
			t.Errorf("%+v: %+v, want %s of edit 1, with a remedy", tc.edit, r.Error, tc.code)
		}
	}
	if r := h.Do(api.Request{Op: api.OpEdit, Edits: make([]api.DraftEdit, 501)}); r.Error == nil || r.Error.Code != "draft.too-many-edits" {
		t.Errorf("%+v", r.Error)
	}
	const name = `<img src=x onerror=alert(1)> & "Pump"`
	e := edit(t, h, "", api.DraftEdit{Op: "name", Name: name, About: "<b>"})
	if again := edit(t, h, e.Document, api.DraftEdit{Op: "strip", Count: 1}); again.Opened.Name != name || again.Opened.About != "<b>" {
		t.Errorf("the name became %q", again.Opened.Name)
	}
	deep := strings.Repeat(`{"a":`, 100_000)
	if r := h.Do(api.Request{Op: api.OpEdit, Text: deep}); r.Error == nil || r.Error.Problems[0].Code != "too-deep" {
		t.Errorf("a deep document: %+v", r.Error)
	}
}

// What an edit did is said in words, without a gap.
func TestMadeIsSaid(t *testing.T) {
	h := api.NewHost()
	edits := append(minimal[:len(minimal):len(minimal)],
		api.DraftEdit{Op: "copy", Ref: "B1", Count: 2}, api.DraftEdit{Op: "mains"}, api.DraftEdit{Op: "name", Name: "x"},
		api.DraftEdit{Op: "condition"}, api.DraftEdit{Op: "between", Ref: "W5", Word: "resistor 1 kohm", Name: "R1"},
		api.DraftEdit{Op: "rename", Ref: "X1", Name: "X9"}, api.DraftEdit{Op: "jumper", Ref: "X9", From: "5", To: "6"},
		api.DraftEdit{Op: "remove-jumper", Ref: "X9", From: "5", To: "6"}, api.DraftEdit{Op: "remove", Ref: "X9:3"},
		api.DraftEdit{Op: "set", Ref: "B1", Label: "x"}, api.DraftEdit{Op: "remove", Ref: "W6", AsFound: true}, api.DraftEdit{Op: "adopt-found"})
	for _, m := range edit(t, h, "", edits...).Made {
		if m.Text.Text == "" || strings.ContainsAny(m.Text.Text, "⟨{") {
			t.Errorf("%s: %q", m.Code, m.Text.Text)
		}
	}
}

func TestMadeSaysHowThingsStand(t *testing.T) {
	made := edit(t, api.NewHost(), "", append(minimal[:len(minimal):len(minimal)],
		api.DraftEdit{Op: "condition", Name: "filling", Positions: map[string]string{"B1": "50 %", "B9": "reached"}})...).Made
	if got, want := made[len(made)-1].Text.Text, "condition filling: B1 50 %, B9 actuated"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestGuessIsExplained(t *testing.T) {
	h := api.NewHost()
	for word, want := range map[string]string{
		"PT-102":   "PT by ISA 5.1 is P pressure, T transmitter: two-wire transmitter",
		"K7":       "K stands for it by IEC 81346-2 or older habit: relay",
		"PSU 24 V": `"PSU" is a word for it: DC supply`,
	} {
		g := h.Do(api.Request{Op: api.OpGuess, Word: word}).Guesses.Guesses
		if len(g) == 0 || g[0].Why.Text != want {
			t.Errorf("%s: %+v, want %q", word, g, want)
		}
	}
	if g := h.Do(api.Request{Op: api.OpGuess, Word: "???"}).Guesses; g == nil || g.Guesses == nil || len(g.Guesses) != 0 {
		t.Errorf("nothing like it: %+v", g)
	}
}

// During a trace a person corrects the drawing at a terminal; the search goes on
// over the panel as found, and the drawing is kept beside it.
func TestCorrectionsDuringATrace(t *testing.T) {
	h := api.NewHost()
	drawn := edit(t, h, "", minimal...)
	for name, edits := range map[string][]api.DraftEdit{
		"the wire goes elsewhere":                  {{Op: "move-wire", Ref: "W3", End: "to", To: "X1:4"}, {Op: "wire", From: "X1:4", To: "X1:3"}},
		"there is something in between":            {{Op: "between", Ref: "W3", Word: "resistor 100 ohm", Name: "R1"}},
		"this terminal does not exist":             {{Op: "remove", Ref: "X1:5"}},
		"there is a wire that is not drawn":        {{Op: "wire", From: "X1:6", To: "X1:7"}},
		"the fuse is another":                      {{Op: "blocks", Ref: "X1", From: "1", Fuse: "1 A T"}},
		"there is a jumper, and the part is other": {{Op: "jumper", Ref: "X1", From: "5", To: "6"}, {Op: "set", Ref: "B1", Label: "tank 2"}},
	} {
		for i := range edits {
			edits[i].AsFound, edits[i].By, edits[i].Note = true, "K.", name
		}
		e := edit(t, h, drawn.Document, edits...)
		if e.Opened.Session == 0 {
			t.Errorf("%s: %+v", name, e.Problems)
			continue
		}
		r := h.Do(api.Request{Op: api.OpFind, Session: e.Opened.Session, Observations: &api.Observations{Dead: []string{"B1"}}})
		if r.Error != nil || len(r.Find.Suspects) == 0 {
			t.Errorf("%s: find says %+v", name, r.Error)
		}
		back := edit(t, h, e.Document, api.DraftEdit{Op: "forget-found", Count: strings.Count(e.Document, `"by": "K."`)})
		if back.Document != drawn.Document {
			t.Errorf("%s: the drawing is another once the corrections are taken back:\n%s", name, back.Document)
		}
	}
}

// Without a word there is the list of what a block can be, and nothing else.
func TestGuessOfNothing(t *testing.T) {
	r := api.NewHost().Do(api.Request{Op: api.OpGuess})
	if r.Error != nil || len(r.Guesses.Guesses) < 2 || r.Guesses.Guesses[0].Kind != "feed-through" {
		t.Fatalf("%+v", r)
	}
	for _, c := range r.Guesses.Guesses {
		e := edit(t, api.NewHost(), "", api.DraftEdit{Op: "strip", Count: 1}, api.DraftEdit{Op: "blocks", Ref: "X1", From: "1", Kind: c.Kind})
		if !c.Block || c.KindName == "" || e.Opened.Strips[0].Blocks[0].Type != c.Kind {
			t.Errorf("%s is no block: %+v", c.Kind, e.Opened.Strips[0].Blocks[0])
		}
	}
}

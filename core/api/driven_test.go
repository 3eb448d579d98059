package api_test

import (
	"encoding/json"
	"slices"
	"testing"

	"halfsplit/core/api"
)

// The circuit of a current transformer is live work: no meter in series, no point in
// it is offered, and the link that shorts it is named first. Source: common practice;
// that an open secondary drives its voltage up is textbook physics.
func TestCurrentTransformerIsLiveWork(t *testing.T) {
	var p phenomenon
	read(t, files(t, "testdata/vectors/phenomena/current-transformer.json")[0], &p)
	h := api.NewHost()
	text, err := json.Marshal(p.Panel)
	if err != nil {
		t.Fatal(err)
	}
	open := h.Do(api.Request{Op: api.OpOpen, Text: string(text)})
	if open.Error != nil {
		t.Fatal(open.Error.Text.Text)
	}
	s := open.Opened.Session

	for _, tc := range []struct{ red, code string }{
		{"W14@P3:1", "refused.driven"}, {"W11@T9:S1", "refused.driven"}, {"W12@T9:S2", "refused.driven"}, {"X1:2", "refused.driven"},
		{"W16@X1:1.1/out", ""},          // its earth, which no current needs
		{"W4@R1:1", "refused.too-much"}, // the primary's own circuit, 5 A
	} {
		r := h.Do(api.Request{Op: api.OpMeter, Session: s, Mode: "ma", Red: tc.red})
		if r.Error != nil {
			t.Errorf("%s: %s", tc.red, r.Error.Text.Text)
		} else if r.Meter.RefusedCode != tc.code {
			t.Errorf("ma at %s: refused with %q, want %q", tc.red, r.Meter.RefusedCode, tc.code)
		}
	}
	for _, target := range []string{"P3", "X1:2", "W14", "T9"} {
		r := h.Do(api.Request{Op: api.OpIsolate, Session: s, Refs: []string{target}})
		if r.Error != nil {
			t.Errorf("%s: %s", target, r.Error.Text.Text)
			continue
		}
		var points, sources []string
		for _, pt := range r.Isolate.Open {
			points = append(points, pt.Point)
		}
		for _, src := range r.Isolate.Sources {
			sources = append(sources, src.Code+" "+src.Ref)
		}
		if !slices.Equal(points, []string{"F1"}) || !slices.Contains(sources, "reach.current T9") || !slices.Contains(sources, "reach.short-first X1:1") {
			t.Errorf("%s: open %v; sources %v; want the primary's breaker alone, T9 and its link named", target, points, sources)
		}
	}
}

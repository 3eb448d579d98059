//go:build !field

package api_test

import (
	"strings"
	"testing"

	"halfsplit/core/api"
)

func do(t *testing.T, req api.Request) api.Response {
	t.Helper()
	r := api.NewHost().Do(req)
	if r.Error != nil {
		t.Fatalf("%s: %s (%s)", req.Op, r.Error.Text.Text, r.Error.Hint)
	}
	return r
}

// A panel goes to another phone by code, is edited on both, and comes together.
func TestShareAndMerge(t *testing.T) {
	h := api.NewHost()
	base := edit(t, h, "", minimal...).Document
	p := do(t, api.Request{Op: api.OpPack, Text: base, Size: 200}).Packed
	if len(p.Parts) < 2 {
		t.Fatalf("%d codes", len(p.Parts))
	}
	some := do(t, api.Request{Op: api.OpUnpack, Text: p.Parts[1]}).Unpacked
	if some.Document != "" || len(some.Missing) != len(p.Parts)-1 || !strings.Contains(some.Text.Text, "codes are missing") {
		t.Errorf("one code: %+v", some)
	}
	got := do(t, api.Request{Op: api.OpUnpack, Text: strings.Join(p.Parts, "\n")}).Unpacked
	if got.Document != base || got.Kind != "panel" || got.Digest == "" {
		t.Errorf("unpacked: %+v", got)
	}
	again := do(t, api.Request{Op: api.OpPack, Text: base, Editions: []string{got.Edition}}).Packed
	from := do(t, api.Request{Op: api.OpUnpack, Text: again.Link}).Unpacked
	if again.Edition != got.Edition || from.Document != again.Document || from.Digest != got.Digest || len(from.Editions) != 1 {
		t.Errorf("handed over again: %+v, %v", from, again.Edition)
	}
	ours := edit(t, h, base, api.DraftEdit{Op: "label", Ref: "X1:3", Label: "PT-102 -"}, api.DraftEdit{Op: "set", Ref: "W1", Colour: "RD"}).Document
	theirs := edit(t, h, base, api.DraftEdit{Op: "set", Ref: "W1", Colour: "BU"}, api.DraftEdit{Op: "part", Word: "lamp"}).Document
	d := do(t, api.Request{Op: api.OpDiff, Text: base, Other: theirs}).Diff
	var told []string
	for _, x := range d.Differences {
		told = append(told, x.Text.Text)
	}
	if want := "new: part P1 (ref P1, kind pilot-light)\nwire W1: colour is now BU"; strings.Join(told, "\n") != want {
		t.Errorf("told\n%s\nwant\n%s", strings.Join(told, "\n"), want)
	}
	m := do(t, api.Request{Op: api.OpMerge, Base: base, Text: ours, Other: do(t, api.Request{Op: api.OpPack, Text: theirs}).Packed.Link}).Merge
	if m.Open != 1 || len(m.Conflicts) != 1 || m.Conflicts[0].Text.Text != "wire W1, colour: here RD; there BU" ||
		!strings.Contains(m.Document, "PT-102 -") || !strings.Contains(m.Document, `"P1"`) {
		t.Errorf("merged: %+v", m)
	}
	if len(m.Taken) != 1 || m.Taken[0].Thing != "part P1" {
		t.Errorf("taken: %+v", m.Taken)
	}
	m = do(t, api.Request{Op: api.OpMerge, Base: base, Text: ours, Other: theirs, Choices: map[string]string{m.Conflicts[0].Path: "theirs"}}).Merge
	if m.Open != 0 || !strings.Contains(m.Document, `"BU"`) || strings.Contains(m.Document, `"RD"`) {
		t.Errorf("as chosen: %+v", m)
	}
}

func TestShareRefusesWithARemedy(t *testing.T) {
	for _, req := range []api.Request{
		{Op: api.OpUnpack, Text: ""}, {Op: api.OpUnpack, Text: "hello"}, {Op: api.OpUnpack, Text: "HS1:x"}, {Op: api.OpPack, Text: "{}"},
		{Op: api.OpPack, Demo: "training-bench", Size: 1}, {Op: api.OpDiff, Text: "{}", Other: "{}"}, {Op: api.OpMerge}, {Op: api.OpPack, Demo: "none"},
		{Op: api.OpUnpack, Text: strings.Repeat("[", 100_000)}, {Op: api.OpUnpack, Text: strings.Repeat(`{"a":`, 100_000)},
	} {
		r := api.NewHost().Do(req)
		if r.Error == nil || r.Error.Text.Text == "" || strings.Contains(r.Error.Text.Text, "⟨") || r.Error.Hint == "" {
			t.Errorf("%+.80v: %+v", req, r.Error)
		}
	}
}

//go:build !field

package api_test

import (
	"slices"
	"strings"
	"testing"

	"halfsplit/core/api"
	"halfsplit/core/record"
)

// A fault that was found before is likelier the next time, says so, and stays
// outweighed by a reading that speaks against it.
func TestHistoryRaisesPriors(t *testing.T) {
	h := api.NewHost()
	session := edit(t, h, "", minimal...).Opened.Session
	const fault = "W3=broken"
	find := func(history []record.Earlier, readings ...api.Reading) (p float64, evidence string) {
		r := h.Do(api.Request{Op: api.OpFind, Session: session, History: history, Observations: &api.Observations{Dead: []string{"B1"}, Readings: readings}})
		if r.Error != nil {
			t.Fatal(r.Error.Text.Text)
		}
		for _, s := range r.Find.Suspects {
			if slices.Contains(s.Faults, fault) {
				for _, e := range s.Evidence {
					evidence += e.Text + "\n"
				}
				return s.Probability, evidence
			}
		}
		return 0, ""
	}
	history := []record.Earlier{{When: "2026-01-05", Faults: []string{fault}}}
	before, _ := find(nil)
	after, why := find(history)
	if !(before > 0 && after > before) {
		t.Errorf("probability %g without a history, %g with it", before, after)
	}
	if !strings.Contains(why, "found in an earlier job at this panel") || !strings.Contains(why, "2026-01-05") {
		t.Errorf("the reason is not said:\n%s", why)
	}
	if again, _ := find(nil); again != before {
		t.Errorf("without the history again: %g, was %g", again, before)
	}
	zero := 0.0 // the fuse's output is dead: the break lies before W3
	if p, _ := find(history, api.Reading{Mode: "vdc", Red: "X1:1/out", Black: "X1:10", Value: &zero}); p > 0.05 {
		t.Errorf("%g after a reading that speaks against it", p)
	}
	if p, _ := find([]record.Earlier{{Faults: []string{"no such thing", ""}}}); p != before {
		t.Errorf("names the panel does not have changed %g to %g", before, p)
	}
}

func TestRecordForms(t *testing.T) {
	h := api.NewHost()
	job := &record.Job{Title: "B1 dead", Cause: &record.Cause{Faults: []string{"W3=broken"}}, Ended: "2026-01-05",
		Temporary: []record.Temporary{{What: "jumper", Where: "X1:1 to X1:2", Placed: "09:00"}}}
	for as, want := range map[string]string{"": "temporary jumper at X1:1 to X1:2: STILL IN PLACE", "csv": `"STILL IN PLACE"`, "html": "<td>STILL IN PLACE</td>"} {
		r := h.Do(api.Request{Op: api.OpRecord, Job: job, As: as})
		if r.Error != nil {
			t.Fatal(r.Error.Text.Text)
		}
		if !strings.Contains(r.Record.Content, want) || strings.Contains(r.Record.Content, "⟨") {
			t.Errorf("%s: no %q in\n%s", as, want, r.Record.Content)
		}
		if s := r.Record.Sections; len(s) != 3 || s[0].Title != "Temporary changes" || !s[0].Lines[0].Open || r.Record.Title != "Record of a job: B1 dead" {
			t.Errorf("%s: %q %+v", as, r.Record.Title, s)
		}
		if len(r.Record.Open) != 1 || r.Record.Open[0].Text == "" || r.Record.Earlier == nil || r.Record.Earlier.Faults[0] != "W3=broken" {
			t.Errorf("%s: open %v, earlier %v", as, r.Record.Open, r.Record.Earlier)
		}
		if again := h.Do(api.Request{Op: api.OpRecord, Text: r.Record.Document, As: as}); again.Record == nil || again.Record.Content != r.Record.Content {
			t.Errorf("%s: the document reads differently", as)
		}
	}
	if r := h.Do(api.Request{Op: api.OpRecord, Job: job, As: "pdf"}); r.Error == nil || r.Error.Code != "record.unknown-form" {
		t.Errorf("%+v", r.Error)
	}
	if r := h.Do(api.Request{Op: api.OpRecord, Text: "{}"}); r.Error == nil || r.Error.Code != "record.unread" || len(r.Error.Problems) == 0 {
		t.Errorf("%+v", r.Error)
	}
}

package api_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfsplit/core/api"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// An exchange is a request and its answer, as the bytes that pass the seam. The
// golden file is a list of them, to be put to a fresh host one after another: by
// this test on the machine and as WebAssembly, and by the page's tests in a
// browser's worker.
type exchange struct {
	Request  string `json:"request"`
	Response string `json:"response"` // as kept gives it
}

// mostKept is the longest answer that is kept whole, in bytes. Of longer ones, which
// are panels to draw, nobody reads a diff in one line.
const mostKept = 8192

// kept is an answer, or of a long one its length and digest: as strict, and a third
// of the file. The page's tests do the same.
func kept(response []byte) string {
	if len(response) <= mostKept {
		return string(response)
	}
	return fmt.Sprintf("%d bytes, sha256 %x", len(response), sha256.Sum256(response))
}

const goldenAnswers = root + "testdata/golden/answers.json"

// Every display and every list of suspects is the same, byte for byte, wherever
// the core runs.
func TestGoldenAnswers(t *testing.T) {
	requests := questions(t)
	h := api.NewHost()
	var got []exchange
	for _, q := range requests {
		text, err := json.Marshal(q)
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, exchange{string(text), kept(h.Handle(text))})
	}
	if *update {
		var out bytes.Buffer
		enc := json.NewEncoder(&out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", " ")
		if err := enc.Encode(got); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(goldenAnswers, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(goldenAnswers)
	if err != nil {
		t.Fatal(err)
	}
	var want []exchange
	if err := json.Unmarshal(data, &want); err != nil {
		t.Fatal(err)
	}
	if len(want) != len(got) {
		t.Fatalf("%d answers, %d are kept: run make golden and read the diff", len(got), len(want))
	}
	for i := range got {
		if got[i] != want[i] {
			t.Errorf("%s\nanswered %s\nwant     %s\nrun make golden if this is meant, and read the diff",
				got[i].Request, around(got[i].Response, want[i].Response), around(want[i].Response, got[i].Response))
		}
	}
}

// around is a's text about the place where it parts from b.
func around(a, b string) string {
	k := 0
	for k < len(a) && k < len(b) && a[k] == b[k] {
		k++
	}
	return "..." + a[max(0, k-60):min(len(a), k+60)] + "..."
}

// questions are all readings and searches of testdata/vectors, with the state and
// what becomes of each panel, on sessions 1, 2 ...
func questions(t *testing.T) (list []api.Request) {
	sessions := map[string]int{}
	open := func(scenario string) int {
		demo := strings.TrimSuffix(filepath.Base(scenario), ".json")
		if sessions[demo] == 0 {
			sessions[demo] = len(sessions) + 1
			list = append(list, api.Request{Op: api.OpOpen, Demo: demo}, api.Request{Op: api.OpState, Session: sessions[demo]})
		}
		return sessions[demo]
	}
	for _, file := range files(t, "testdata/vectors/*.json") {
		var v vector
		read(t, file, &v)
		s := open(v.Scenario)
		for _, m := range v.Measure {
			list = append(list, api.Request{Op: api.OpMeter, Session: s, At: v.At, Onset: v.Onset, Faults: v.Faults, Mode: m.Mode, Red: m.Red, Black: m.Black})
		}
		if len(v.Faults) > 0 {
			list = append(list, api.Request{Op: api.OpWhatIf, Session: s, At: v.At, Onset: v.Onset, Faults: v.Faults})
		}
	}
	for _, file := range files(t, "testdata/vectors/phenomena/*.json") {
		var p phenomenon
		read(t, file, &p)
		sessions[file] = len(sessions) + 1
		list = append(list, api.Request{Op: api.OpOpen, Text: string(p.Panel)})
		for _, c := range p.Cases {
			list = append(list, api.Request{Op: api.OpState, Session: sessions[file], At: c.At, Onset: c.Onset, Faults: c.Faults})
			if len(c.Faults) > 0 {
				list = append(list, api.Request{Op: api.OpWhatIf, Session: sessions[file], At: c.At, Onset: c.Onset, Faults: c.Faults})
			}
		}
	}
	for _, file := range files(t, "testdata/vectors/meter/*.json") {
		var m metered
		read(t, file, &m)
		sessions[file] = len(sessions) + 1
		list = append(append(list, api.Request{Op: api.OpOpen, Text: string(m.Panel)}), m.requests(sessions[file])...)
	}
	for _, refs := range [][]string{{"K1"}, {"T1"}, {"X1:1"}, {"W12"}, {"P1", "P2"}} {
		list = append(list, api.Request{Op: api.OpIsolate, Session: open("training-bench.json"), Refs: refs})
	}
	list = append(list, api.Request{Op: api.OpPredict, Session: open("training-bench.json"), Mode: "vdc", Red: "K1:A1", Black: "K1:A2", Each: []string{"X1:1", "K1"}})
	for _, file := range files(t, "testdata/vectors/find/*.json") {
		var v search
		read(t, file, &v)
		list = append(list, api.Request{Op: api.OpFind, Session: open(v.Scenario), At: v.At, Observations: v.Observations})
	}
	return append(list, drills(len(sessions), open("training-bench.json"))...)
}

// drills are one attempt with its debrief, seen from the next free session on, and
// the short forms.
func drills(sessions, bench int) []api.Request {
	acts := []api.DrillAct{{Kind: "look", Thing: "P1"}, {Kind: "ask", Thing: "1"}, {Kind: "read", Mode: "vdc", Red: "K1:24", Black: "X2:1", Why: "half-split"},
		{Kind: "read", Mode: "lowz", Red: "P1:X1", Black: "X2:1", Why: "feed"}, {Kind: "pull", Thing: "X1:2"}, {Kind: "call", Thing: "W17", Class: "open"}, {Kind: "repair"}, {Kind: "done"}}
	list := []api.Request{{Op: api.OpDrillOpen, Demo: "run-lamp-dark"}, {Op: api.OpDrillAct, Session: sessions + 1, Acts: acts}, {Op: api.OpDrillDebrief, Session: sessions + 1, Acts: acts},
		{Op: api.OpDrillAuthor, Demo: "twelve-to-earth"}}
	for _, form := range []string{"possible", "predict", "choose"} {
		list = append(list, api.Request{Op: api.OpDrillShort, Session: bench, Form: form, Seed: 5, Marks: &api.DrillMarks{}})
	}
	return list
}

// A search is one case of testdata/vectors/find: what was seen and measured, and
// what was wrong in truth.
type search struct {
	About        string            `json:"about"`
	Source       string            `json:"source"`
	Scenario     string            `json:"scenario"`
	At           string            `json:"at"`
	Observations *api.Observations `json:"observations"`
	True         string            `json:"true"`
}

// What is wrong in truth is among the first three suspects, and agrees with what
// was seen.
func TestVectorSearches(t *testing.T) {
	h := api.NewHost()
	sessions := map[string]int{}
	for _, file := range files(t, "testdata/vectors/find/*.json") {
		var v search
		read(t, file, &v)
		if v.Source == "" || v.True == "" {
			t.Fatalf("%s names no source or no truth", file)
		}
		if sessions[v.Scenario] == 0 {
			open := h.Do(api.Request{Op: api.OpOpen, Demo: strings.TrimSuffix(filepath.Base(v.Scenario), ".json")})
			if open.Error != nil {
				t.Fatal(open.Error.Text.Text)
			}
			sessions[v.Scenario] = open.Opened.Session
		}
		r := h.Do(api.Request{Op: api.OpFind, Session: sessions[v.Scenario], At: v.At, Observations: v.Observations})
		if r.Error != nil {
			t.Errorf("%s: %s", file, r.Error.Text.Text)
			continue
		}
		rank := -1
		for i, s := range r.Find.Suspects {
			for _, f := range s.Faults {
				if f == v.True {
					rank = i
					if !s.Consistent {
						t.Errorf("%s: %s is called inconsistent with what it showed (%s)", file, f, v.Source)
					}
				}
			}
		}
		if rank < 0 || rank > 2 {
			t.Errorf("%s: %s has rank %d of %d suspects (%s)", file, v.True, rank+1, len(r.Find.Suspects), v.Source)
		}
	}
}

func files(t *testing.T, pattern string) []string {
	list, err := filepath.Glob(root + pattern)
	if err != nil || len(list) == 0 {
		t.Fatalf("no files %s: %v", pattern, err)
	}
	return list
}

func read(t *testing.T, file string, v any) {
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, v); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
}

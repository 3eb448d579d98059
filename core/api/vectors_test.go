package api_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"halfsplit/core/api"
)

// A vector is one worked case of testdata/vectors.
type vector struct {
	About    string   `json:"about"`
	Source   string   `json:"source"`
	Scenario string   `json:"scenario"`
	At       string   `json:"at"`
	Onset    string   `json:"onset"`
	Faults   []string `json:"faults"`
	Measure  []struct {
		Mode, Red, Black, Want string
	} `json:"measure"`
}

const root = "../../"

// Every reading of every vector comes out as its hand calculation says, to the
// last digit of the display.
func TestVectors(t *testing.T) {
	files, err := filepath.Glob(root + "testdata/vectors/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no vectors found: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			var v vector
			if err := json.Unmarshal(data, &v); err != nil {
				t.Fatal(err)
			}
			if v.Source == "" || len(v.Measure) == 0 {
				t.Fatal("a vector names its source and measures something")
			}
			text, err := os.ReadFile(root + v.Scenario)
			if err != nil {
				t.Fatal(err)
			}
			h := api.NewHost()
			open := h.Do(api.Request{Op: api.OpOpen, Text: string(text)})
			if open.Error != nil {
				t.Fatal(open.Error.Text.Text)
			}
			for _, m := range v.Measure {
				r := h.Do(api.Request{Op: api.OpMeter, Session: open.Opened.Session, At: v.At, Onset: v.Onset, Faults: v.Faults, Mode: m.Mode, Red: m.Red, Black: m.Black})
				if r.Error != nil {
					t.Fatal(r.Error.Text.Text)
				}
				if r.Meter.Shown != m.Want {
					t.Errorf("%s %s – %s shows %q, want %q (%s)", m.Mode, m.Red, m.Black, r.Meter.Shown, m.Want, v.Source)
				}
			}
		})
	}
}

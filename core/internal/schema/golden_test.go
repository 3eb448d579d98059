package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"testing"

	"halfsplit/core/panel"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const golden = "../../../testdata/schema/panel.schema.json"

// The committed schema of the panel document is that of the Go types, for people
// and editors that check a file without this program.
func TestGoldenPanelSchema(t *testing.T) {
	got, err := json.MarshalIndent(schemaOf(panel.Panel{}), "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	got = append(got, '\n')
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("testdata/schema/panel.schema.json is older than the Go types: run make golden and read the diff")
	}
}

// A pointer that is always written keeps its null; one that may be left out does
// not get one.
func TestKeepNulls(t *testing.T) {
	type leaf struct {
		N int `json:"n"`
	}
	type tree struct {
		Always *leaf    `json:"always"`
		Maybe  *leaf    `json:"maybe,omitempty"`
		List   []*leaf  `json:"list"`
		Figure *float64 `json:"figure"`
	}
	s := schemaOf(tree{})
	data, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	var parsed struct {
		Properties map[string]struct {
			AnyOf []struct {
				Type string `json:"type"`
			} `json:"anyOf"`
		} `json:"properties"`
	}
	if err := json.Unmarshal(data, &parsed); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]bool{"always": true, "figure": true, "maybe": false, "list": false} {
		null := false
		for _, one := range parsed.Properties[name].AnyOf {
			null = null || one.Type == "null"
		}
		if null != want {
			t.Errorf("%s takes null: %v, want %v", name, null, want)
		}
	}
}

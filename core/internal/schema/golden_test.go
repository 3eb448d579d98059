package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// The committed schemas of the documents are those of the Go types, for people
// and editors that check a file without this program.
func TestGoldenSchemas(t *testing.T) {
	for name, of := range documents {
		got, err := json.MarshalIndent(schemaOf(of), "", "  ")
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, '\n')
		golden := "../../../testdata/schema/" + name + ".schema.json"
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
			t.Errorf("%s is older than the Go types: run make golden and read the diff", golden)
		}
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

package panel_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"halfsplit/core/panel"
)

type note struct {
	Format  string            `json:"format"`
	Version int               `json:"version"`
	Lines   []line            `json:"lines,omitempty"`
	Tags    map[string]string `json:"tags,omitempty"`
	Panel   *panel.Panel      `json:"panel,omitempty"`
}

type line struct {
	Text  string `json:"text"`
	Times int    `json:"times,omitempty"`
}

// Another format is read with the place of every value, and written back.
func TestDecodeAnotherFormat(t *testing.T) {
	text := []byte("{\n  \"format\": \"note\",\n  \"version\": 2,\n  \"lines\": [\n    {\"text\": \"a\", \"times\": 3}\n  ],\n  \"tags\": {\"b\": \"c\"}\n}\n")
	var n note
	src, err := panel.Decode(text, "note", 2, &n)
	if err != nil || len(n.Lines) != 1 || n.Lines[0] != (line{"a", 3}) || n.Tags["b"] != "c" {
		t.Fatalf("%+v, %v", n, err)
	}
	if line, col := src.Pos("lines[0].times"); line != 5 || col != 28 {
		t.Errorf("times stands at %d:%d, want 5:28", line, col)
	}
	if raw, ok := src.Raw("tags"); !ok || string(raw) != `{"b": "c"}` {
		t.Errorf("tags are %q, %v", raw, ok)
	}
	if got := panel.Encode(&n, note{}); !bytes.Equal(got, text) {
		t.Errorf("written back:\n%s", got)
	}
}

func TestDecodeRefuses(t *testing.T) {
	for _, tc := range []struct {
		text, code string
		read       bool // the Source comes back beside the error
	}{
		{`{"format": "note", "version": 3}`, "newer-version", false},
		{`{"format": "halfsplit-panel", "version": 2}`, "wrong-format", false},
		{`{"format": "note", "version": 2, "lines": [{"texts": "a"}]}`, "unknown-field", true},
		{`{"format": "note", "version": 2, "panel": {"name": 7}}`, "not-text", true},
		{`{"format": "note"`, "file-ends", false},
	} {
		src, err := panel.Decode([]byte(tc.text), "note", 2, new(note))
		var e *panel.Error
		if !errors.As(err, &e) || e.Problems[0].Code != tc.code || (src != nil) != tc.read {
			t.Errorf("%s: %v, source %v; want %s", tc.text, err, src != nil, tc.code)
		}
	}
}

func TestFormatOf(t *testing.T) {
	for text, want := range map[string]string{
		`{"format":"halfsplit-panel"}`:                             "halfsplit-panel",
		"\ufeff{\"version\":9,\"format\":\"halfsplit-\\u006aob\"}": "halfsplit-job",
		`{"format":7}`: "", `[]`: "", `{"format":"x"`: "", "": "", strings.Repeat("[", 99): "",
	} {
		if got := panel.FormatOf([]byte(text)); got != want {
			t.Errorf("%s is in the format %q, want %q", text, got, want)
		}
	}
}

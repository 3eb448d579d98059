package panel_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"halfsplit/core/panel"
)

// bench uses every field of the format once.
const bench = `{
  "format": "halfsplit-panel",
  "version": 1,
  "name": "Bench \"A\" – 24 V, Ω and ²",
  "about": "One lamp behind one fuse.",
  "mains": [
    {"ref": "W0", "voltage": "230 V", "frequency": "50 Hz", "earthing": "TN-S", "impedance": "0.4 ohm", "from": "Q0"}
  ],
  "strips": [
    {
      "ref": "X1",
      "label": "supply",
      "blocks": [
        {"no": "1", "type": "fuse-block", "fuse": "2 A T", "indicator": "24 V", "label": "P1"},
        {"no": "2", "type": "feed-through"}
      ],
      "jumpers": [
        {"blocks": ["1", "2"], "level": 1, "side": "in"}
      ]
    }
  ],
  "parts": [
    {"ref": "P1", "kind": "lamp", "tag": "XL-1", "label": "run", "at": "field", "ratings": {"power": "2 W", "voltage": "24 V"}, "contacts": ["13-14"], "channels": 4, "process": "none"}
  ],
  "wires": [
    {"no": "1", "from": "X1:1/out", "to": "P1:1", "size": "0.75 mm2", "length": "12 m", "colour": "BU", "cable": "C1", "core": "1"}
  ],
  "conditions": [
    {
      "name": "normal",
      "about": "running",
      "set": {"A3:0": "on", "S1": "pressed"},
      "steps": ["press S2", "release S2"]
    }
  ],
  "found": [
    {"op": "move-wire", "wire": "1", "end": "to", "point": "P1:2", "note": "swapped", "by": "technician", "when": "2026-11-25T10:00:00Z"},
    {"op": "add-jumper", "strip": "X1", "jump": {"blocks": ["1", "2"]}}
  ]
}
`

func read(t *testing.T, s string) *panel.Doc {
	t.Helper()
	d, err := panel.Read([]byte(s))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// The written form is the canonical one, and encoding/json reads the same panel
// from it: the own reader agrees with the standard one on every field.
func TestReadWriteIdentity(t *testing.T) {
	d := read(t, bench)
	if got := string(panel.Write(d.Panel)); got != bench {
		t.Errorf("Write changed the document:\n%s", got)
	}
	var std panel.Panel
	if err := json.Unmarshal([]byte(bench), &std); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(*d.Panel, std) {
		t.Errorf("Read gives %+v, encoding/json %+v", *d.Panel, std)
	}
}

func TestReadAcceptsByteOrderMark(t *testing.T) {
	d := read(t, "\xef\xbb\xbf"+bench)
	if line, col := d.Pos("format"); line != 2 || col != 13 {
		t.Errorf("format at %d:%d, want 2:13", line, col)
	}
}

func TestPos(t *testing.T) {
	d := read(t, bench)
	for _, tc := range []struct {
		path      string
		line, col int
	}{
		{"", 1, 1},
		{"name", 4, 11},
		{"mains[0].earthing", 7, 73},
		{"strips[0].blocks[1].type", 15, 29},
		{"strips[0].jumpers[0].blocks[1]", 18, 26},
		{"parts[0].ratings.voltage", 23, 120},
		{`conditions[0].set["A3:0"]`, 32, 23},
		{"conditions[0].steps[1]", 33, 29},
		{"wires[0].to", 26, 43},
		{"wires[0].missing", 26, 5},      // what is not there: the value around it
		{"wires[9].to", 25, 12},          // no such wire: the list
		{"wires[0].size.deeper", 26, 59}, // below a text: the text
	} {
		if line, col := d.Pos(tc.path); line != tc.line || col != tc.col {
			t.Errorf("Pos(%s) = %d:%d, want %d:%d", tc.path, line, col, tc.line, tc.col)
		}
	}
}

func codes(err error) []string {
	var e *panel.Error
	if !errors.As(err, &e) {
		return nil
	}
	var out []string
	for _, p := range e.Problems {
		out = append(out, fmt.Sprintf("%d:%d %s %s", p.Line, p.Col, p.Code, p.Path))
	}
	return out
}

// All problems of a file come at once, in file order, and what could be read
// comes with them.
func TestReadReportsAll(t *testing.T) {
	d, err := panel.Read([]byte(`{
"format": "halfsplit-panel", "version": 1, "name": 7,
"wires": [{"no": 12, "form": "X1:1", "to": "P1:1", "to": "P1:2"}, "W2"],
"parts": {"ref": "P1"},
"conditions": [{"name": "normal", "set": {"S1": true, "S1": "on"}}]
}`))
	want := []string{
		"2:52 not-text name",
		"3:18 not-text wires[0].no",
		"3:22 unknown-field wires[0].form",
		"3:52 duplicate-field wires[0].to",
		"3:67 not-object wires[1]",
		"4:10 not-list parts",
		"5:49 not-text conditions[0].set.S1",
		"5:55 duplicate-field conditions[0].set.S1",
	}
	if got := codes(err); !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if d == nil || d.Panel.Wires[0].To != "P1:1" {
		t.Error("what could be read is missing beside the problems")
	}
}

// Bounds hold before anything is decoded.
func TestReadIsBounded(t *testing.T) {
	head := `{"format":"halfsplit-panel","version":1,"name":"x",`
	many := func(item string, n int) string { return strings.TrimSuffix(strings.Repeat(item+",", n), ",") }
	for _, tc := range []struct{ name, in, want string }{
		{"bytes", head + `"about":"` + strings.Repeat("x", panel.MaxBytes) + `"}`, "too-large"},
		{"depth", head + `"wires":` + strings.Repeat("[", 10_000) + strings.Repeat("]", 10_000) + "}", "too-deep"},
		{"depth, unclosed", strings.Repeat(`{"a":`, panel.MaxDepth+1), "too-deep"},
		{"values", head + `"wires":[` + many("1", panel.MaxValues) + "]}", "too-many-values"},
		{"wires", head + `"wires":[` + many("{}", panel.MaxCount+1) + "]}", "too-many"},
		{"parts", head + `"parts":[` + many("{}", panel.MaxCount+1) + "]}", "too-many"},
		{"blocks of two strips", head + `"strips":[{"blocks":[` + many("{}", panel.MaxCount) + `]},{"blocks":[{}]}]}`, "too-many"},
		{"editions", head + `"editions":[` + many(`"0"`, panel.MaxEditions+1) + "]}", "too-many"},
		{"edits", head + `"found":[` + many("{}", panel.MaxEdits+1) + "]}", "too-many"},
		{"contacts of one part", head + `"parts":[{"contacts":[` + many(`"13-14"`, panel.MaxEach+1) + "]}]}", "too-many"},
		{"blocks under jumpers", head + `"strips":[{"jumpers":[{"blocks":[` + many(`"1"`, panel.MaxCount) + `]},{"blocks":["2"]}]}]}`, "too-many"},
	} {
		d, err := panel.Read([]byte(tc.in))
		var e *panel.Error
		if !errors.As(err, &e) || len(e.Problems) != 1 || e.Problems[0].Code != tc.want || d != nil {
			t.Errorf("%s: %v, want one %s", tc.name, err, tc.want)
		}
	}
	if _, err := panel.Read([]byte(head + `"wires":[` + many("{}", panel.MaxCount) + "]}")); err != nil {
		t.Errorf("%d wires: %v, want them read", panel.MaxCount, err)
	}
}

// A file of nothing but mistakes is told a thousand of them and that there are
// more.
func TestReadProblemsAreBounded(t *testing.T) {
	_, err := panel.Read([]byte(`{"format":"halfsplit-panel","version":1,` + strings.Repeat(`"wirse":1,`, 5000) + `"x":1}`))
	got := codes(err)
	if len(got) != 1001 || !strings.Contains(got[1000], "more-problems") {
		t.Errorf("%d problems, last %q", len(got), got[len(got)-1])
	}
}

// Source: RFC 8259 sections 2 to 7; encoding/json must agree on what is JSON.
// Half a surrogate pair is where the two differ: it is no character.
func TestReadAgreesWithTheStandardReader(t *testing.T) {
	values := []string{
		`""`, `"é😀"`, `"\u00e9\ud83d\ude00"`, `"\"\\\/\b\f\n\r\t"`, `"a`, `"a\x"`, `"\u12"`, `"\u12g4"`, "\"a\tb\"", "\"a\nb\"",
		`0`, `-0`, `01`, `1.`, `.5`, `1.5`, `1e5`, `1e`, `1e+5`, `1E-05`, `+1`, `-`, `--1`, `1.5.2`, `0x1`, `NaN`, `Infinity`,
		`true`, `false`, `null`, `True`, `nul`, `nulll`, `[]`, `[1,]`, `[,1]`, `[1 2]`, `{}`, `{"a":1,}`, `{"a" 1}`, `{a:1}`, `{"a":}`,
		`[`, `{`, `]`, ` `, ``, `{"a":1}}`, `'a'`, `[1] //`, "\u00a01",
	}
	for _, v := range values {
		text := `{"format":"halfsplit-panel","version":1,"x":` + v + `}`
		_, err := panel.Read([]byte(text))
		got := codes(err)
		syntactic := len(got) != 1 || !strings.Contains(got[0], "unknown-field")
		if std := !json.Valid([]byte(text)); syntactic != std {
			t.Errorf("%s: refused as text: %v (%v); encoding/json: %v", v, syntactic, got, std)
		}
	}
}

func ExampleRead() {
	_, err := panel.Read([]byte(`{
  "format": "halfsplit-panel",
  "version": 1,
  "wires": [
    {"no": 12, "form": "X1:4/out", "to": "B3:1"}
  ]
}`))
	var e *panel.Error
	if errors.As(err, &e) {
		for _, p := range e.Problems {
			fmt.Println(p.Line, p.Col, p.Code, p.Args)
		}
	}
	// Output:
	// 5 12 not-text [no 12]
	// 5 16 unknown-field [form no, from, to, size, length, colour, cable, core from]
}

// Places stay exact in a document on one line, with characters of several bytes,
// and in an object large enough for an index; of equal members the first counts.
func TestPosInLargeFiles(t *testing.T) {
	const n = 500
	text := `{"format":"halfsplit-panel","version":1,"name":"` + strings.Repeat("Ω²x", 1000) + `","conditions":[{"name":"normal","set":{`
	want := make([]int, n)
	for i := range n {
		text += fmt.Sprintf(`"Ω%d":`, i)
		want[i] = utf8.RuneCountInString(text) + 1
		text += `"on",`
	}
	text += `"last":"on"}}]}`
	d := read(t, text)
	for i := range n {
		path := panel.Key("conditions[0].set", fmt.Sprintf("Ω%d", i))
		if line, col := d.Pos(path); line != 1 || col != want[i] {
			t.Fatalf("%s at %d:%d, want 1:%d", path, line, col, want[i])
		}
	}
	_, err := panel.Read([]byte(strings.Replace(text, `"last"`, `"Ω7"`, 1)))
	if got := codes(err); len(got) != 1 || !strings.Contains(got[0], "duplicate-field") {
		t.Errorf("a repeated member: %v", got)
	}
}

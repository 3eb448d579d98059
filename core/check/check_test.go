package check_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfsplit/core/check"
	"halfsplit/core/generate"
	"halfsplit/core/panel"
	"halfsplit/core/words"
	"halfsplit/scenarios"
)

// sound is the drawing that the bad files are made from by one change each.
const sound = `{
  "format": "halfsplit-panel",
  "version": 1,
  "name": "Lamp behind a fuse",
  "mains": [
    {"ref": "G0", "voltage": "230 V", "frequency": "50 Hz", "earthing": "TN-S", "from": "isolator Q0 beside the door"}
  ],
  "strips": [
    {"ref": "X1", "blocks": [
      {"no": "1", "type": "fuse-block", "fuse": "2 A T", "indicator": "24 V"},
      {"no": "2", "type": "feed-through"},
      {"no": "3", "type": "feed-through"}
    ], "jumpers": [
      {"blocks": ["2", "3"]}
    ]},
    {"ref": "X9", "blocks": [
      {"no": "1", "type": "ground"},
      {"no": "2", "type": "ground"}
    ]}
  ],
  "parts": [
    {"ref": "T1", "kind": "dc-supply", "ratings": {"voltage": "24 V", "current": "5 A", "class": "PELV"}},
    {"ref": "P1", "kind": "pilot-light", "at": "field", "ratings": {"voltage": "24 V"}}
  ],
  "wires": [
    {"no": "1", "from": "G0:L", "to": "T1:L", "size": "1.5 mm2", "length": "1 m", "colour": "BN"},
    {"no": "2", "from": "G0:N", "to": "T1:N", "size": "1.5 mm2", "length": "1 m", "colour": "BU"},
    {"no": "3", "from": "G0:PE", "to": "X9:1", "size": "1.5 mm2", "length": "1 m", "colour": "GNYE"},
    {"no": "4", "from": "X9:1", "to": "T1:PE", "size": "1.5 mm2", "length": "1 m", "colour": "GNYE"},
    {"no": "5", "from": "X1:2", "to": "X9:2", "size": "1.5 mm2", "length": "1 m"},
    {"no": "6", "from": "T1:+", "to": "X1:1/in", "size": "1 mm2", "length": "1 m"},
    {"no": "7", "from": "T1:-", "to": "X1:2", "size": "1 mm2", "length": "1 m"},
    {"no": "8", "from": "X1:1/out", "to": "P1:X1", "size": "0.75 mm2", "length": "12 m"},
    {"no": "9", "from": "X1:3", "to": "P1:X2", "size": "0.75 mm2", "length": "12 m"}
  ],
  "conditions": [
    {"name": "normal", "about": "power on"}
  ]
}
`

func told(data []byte) []string {
	problems := check.Document(data).Problems
	var out []string
	for _, p := range problems {
		out = append(out, fmt.Sprintf("%d:%d %s", p.Line, p.Col, p.Code))
	}
	return out
}

// change replaces each old text by the new one after it and fails where it is not
// there.
func change(t *testing.T, doc string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(doc, pairs[i]) {
			t.Fatalf("%q is not in the document", pairs[i])
		}
		doc = strings.Replace(doc, pairs[i], pairs[i+1], 1)
	}
	return doc
}

const lastWire = `"P1:X2", "size": "0.75 mm2", "length": "12 m"}`

// A lamp on the earth terminal of another part returns through earth, whatever the
// terminal is for. Source: IEC 60204-1 8.2.1, from memory.
func TestReturnOverAnothersEarthTerminal(t *testing.T) {
	doc := change(t, sound, `"from": "X1:3", "to": "P1:X2"`, `"from": "T1:PE", "to": "P1:X2"`)
	if got := told([]byte(doc)); !slices.ContainsFunc(got, func(s string) bool { return strings.HasSuffix(s, " pe-as-return") }) {
		t.Errorf("told %v", got)
	}
}

// A correct drawing is met with silence, in each of the ways people draw one.
func TestSilent(t *testing.T) {
	for _, tc := range []struct {
		name  string
		pairs []string
	}{
		{"as it is", nil},
		{"0 V floats on purpose", []string{`"class": "PELV"`, `"class": "SELV", "bonded": "no"`,
			`    {"no": "5", "from": "X1:2", "to": "X9:2", "size": "1.5 mm2", "length": "1 m"},` + "\n", ""}},
		{"bond through a disconnect", []string{
			`{"no": "3", "type": "feed-through"}`, `{"no": "3", "type": "feed-through"}, {"no": "4", "type": "disconnect-block"}`,
			`"from": "X1:2", "to": "X9:2"`, `"from": "X1:4/out", "to": "X9:2"`,
			lastWire, lastWire + `, {"no": "10", "from": "X1:2", "to": "X1:4/in", "size": "1.5 mm2", "length": "1 m"}`}},
		{"gauges and a decimal comma", []string{`"size": "0.75 mm2"`, `"size": "18 AWG"`, `"size": "1 mm2"`, `"size": "1,0 mm²"`}},
		{"colours of IEC 60757, one or two", []string{`"length": "12 m"`, `"length": "12 m", "colour": "WH/BU"`, `"length": "1 m"}`, `"length": "1 m", "colour": "BK"}`}},
		{"a bond in green-and-yellow", []string{`"X9:2", "size": "1.5 mm2", "length": "1 m"`, `"X9:2", "size": "1.5 mm2", "length": "1 m", "colour": "GNYE"`}},
		{"four wires on a feed-through, its sides unsaid", []string{lastWire, lastWire + `,
			{"no": "10", "from": "X1:2", "to": "P2:X2", "size": "1 mm2", "length": "1 m"}, {"no": "11", "from": "X1:2", "to": "P3:X2", "size": "1 mm2", "length": "1 m"},
			{"no": "12", "from": "X1:1/out", "to": "P2:X1", "size": "1 mm2", "length": "1 m"}, {"no": "13", "from": "P2:X1", "to": "P3:X1", "size": "1 mm2", "length": "1 m"}`,
			`{"ref": "P1"`, `{"ref": "P2", "kind": "pilot-light"}, {"ref": "P3", "kind": "pilot-light"}, {"ref": "P1"`}},
		{"a diode across a coil", []string{lastWire, lastWire + `,
			{"no": "10", "from": "P1:X1", "to": "K1:A1", "size": "1 mm2", "length": "1 m"}, {"no": "11", "from": "P1:X2", "to": "K1:A2", "size": "1 mm2", "length": "1 m"},
			{"no": "12", "from": "K1:A1", "to": "R1:K", "size": "1 mm2", "length": "1 m"}, {"no": "13", "from": "K1:A2", "to": "R1:A", "size": "1 mm2", "length": "1 m"}`,
			`{"ref": "P1"`, `{"ref": "K1", "kind": "relay"}, {"ref": "R1", "kind": "diode"}, {"ref": "P1"`}},
		{"an insulation monitor", []string{`"class": "PELV"`, `"class": "SELV", "bonded": "no"`,
			`    {"no": "5", "from": "X1:2", "to": "X9:2", "size": "1.5 mm2", "length": "1 m"},` + "\n", "",
			lastWire, lastWire + `, {"no": "10", "from": "X1:1/out", "to": "B9:+", "size": "1 mm2", "length": "1 m"}, {"no": "11", "from": "X1:2", "to": "B9:-", "size": "1 mm2", "length": "1 m"}, {"no": "12", "from": "B9:PE", "to": "X9:2", "size": "1 mm2", "length": "1 m", "colour": "GNYE"}`,
			`{"ref": "P1"`, `{"ref": "B9", "kind": "insulation-monitor"}, {"ref": "P1"`}},
		{"a short wire from a battery to its fuse", []string{`{"ref": "P1"`, `{"ref": "G2", "kind": "battery", "ratings": {"class": "SELV", "bonded": "no"}}, {"ref": "F2", "kind": "fuse", "ratings": {"current": "4 A T"}}, {"ref": "P2", "kind": "pilot-light"}, {"ref": "P1"`,
			lastWire, lastWire + `, {"no": "10", "from": "G2:+", "to": "F2:1", "size": "1 mm2", "length": "0.5 m"}, {"no": "11", "from": "F2:2", "to": "P2:X1", "size": "1 mm2", "length": "1 m"}, {"no": "12", "from": "P2:X2", "to": "G2:-", "size": "1 mm2", "length": "1 m"}`}},
		{"two 12 V lamps in series", []string{lastWire, `"P2:X2", "size": "0.75 mm2", "length": "12 m"}, {"no": "10", "from": "P1:X2", "to": "P2:X1", "size": "1 mm2", "length": "1 m"}`,
			`"at": "field", "ratings": {"voltage": "24 V"}}`, `"at": "field", "ratings": {"voltage": "12 V"}}, {"ref": "P2", "kind": "pilot-light", "at": "field", "ratings": {"voltage": "12 V"}}`}},
		{"a second supply with the 0 V in common", []string{`{"ref": "P1"`, `{"ref": "T2", "kind": "dc-supply", "ratings": {"class": "PELV"}}, {"ref": "F2", "kind": "fuse", "ratings": {"current": "2 A T"}}, {"ref": "P2", "kind": "pilot-light"}, {"ref": "P1"`,
			lastWire, lastWire + `,
			{"no": "10", "from": "T1:L", "to": "T2:L", "size": "1 mm2", "length": "1 m"}, {"no": "11", "from": "T1:N", "to": "T2:N", "size": "1 mm2", "length": "1 m"},
			{"no": "12", "from": "X9:2", "to": "T2:PE", "size": "1 mm2", "length": "1 m"}, {"no": "13", "from": "X1:3", "to": "T2:-", "size": "1 mm2", "length": "1 m"},
			{"no": "14", "from": "T2:+", "to": "F2:1", "size": "1 mm2", "length": "1 m"}, {"no": "15", "from": "F2:2", "to": "P2:X1", "size": "1 mm2", "length": "1 m"}, {"no": "16", "from": "P2:X2", "to": "X1:3", "size": "1 mm2", "length": "1 m"}`}},
	} {
		if got := told([]byte(change(t, sound, tc.pairs...))); len(got) > 0 {
			t.Errorf("%s: %q", tc.name, got)
		}
	}
	for _, name := range scenarios.Names {
		data, err := scenarios.Panel(name)
		if err != nil {
			t.Fatal(err)
		}
		if got := told(data); len(got) > 0 {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// Problems of reading and of the drawing come together, in file order; what only
// follows from a misspelt field is not told again.
func TestAllAtOnce(t *testing.T) {
	doc := change(t, sound, `"earthing": "TN-S"`, `"earthing": "TNS"`,
		`"ref": "P1", "kind"`, `"ref": "P1", "knid"`,
		`"from": "X1:3"`, `"form": "X1:3"`,
		`"to": "X1:2", "size": "1 mm2"`, `"to": "X1:7", "size": 1`)
	got := told([]byte(doc))
	want := []string{"6:73 earthing-unknown", "23:19 unknown-field", "32:39 unknown-block", "32:55 not-text", "34:17 unknown-field"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Where a whole list cannot be read, the names that stood in it are not called
// unknown.
func TestUnreadableList(t *testing.T) {
	got := told([]byte(change(t, sound, `"parts": [`, `"prats": [`)))
	if want := []string{"21:3 unknown-field"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A panel is judged as found: a correction mends the drawing, or is itself where
// the problem stands.
func TestAsFound(t *testing.T) {
	found := func(edits string) []string {
		return []string{`"conditions": [`, `"found": [` + edits + "],\n" + `  "conditions": [`}
	}
	wrong := change(t, sound, `"to": "P1:X2"`, `"to": "P1:X3"`)
	if got := told([]byte(wrong)); !slices.Equal(got, []string{"34:39 unknown-terminal"}) {
		t.Errorf("drawn wrong: %q", got)
	}
	mended := change(t, wrong, found(`{"op": "move-wire", "wire": "9", "end": "to", "point": "P1:X2"}`)...)
	if got := told([]byte(mended)); len(got) > 0 {
		t.Errorf("corrected: %q", got)
	}
	short := change(t, sound, found(`{"op": "add-wire", "add": {"no": "99", "from": "X1:1/in", "to": "X1:3", "size": "1 mm2", "length": "1 m"}}`)...)
	if got := told([]byte(short)); !slices.Equal(got, []string{"36:39 plus-zero-joined"}) {
		t.Errorf("found shorted: %q", got)
	}
}

// Every severity belongs to a code that has a sentence and is one of the three.
func TestSeverities(t *testing.T) {
	all := words.Catalogue("en")
	for code, s := range check.Severities {
		if _, ok := all[code]; !ok || s != check.Warning && s != check.Note {
			t.Errorf("%s is %q", code, s)
		}
	}
	for code, want := range map[string]check.Severity{
		"plus-zero-joined": check.Error, "unknown-terminal": check.Error, "pe-as-return": check.Error, "not-text": check.Error,
		"class-unstated": check.Warning, "supply-unfused": check.Warning, "length-missing": check.Note,
	} {
		if got := check.SeverityOf(code); got != want {
			t.Errorf("%s is %q, want %q", code, got, want)
		}
	}
}

// Whatever the bytes: no panic, every problem in file order with its place and
// its sentence, and the same again the second time.
func FuzzDocument(f *testing.F) {
	f.Add([]byte(sound))
	paths, err := filepath.Glob(filepath.Join(badDir, "*.json"))
	if err != nil || len(paths) == 0 {
		f.Fatal("no bad files", err)
	}
	for _, path := range paths {
		if data, err := os.ReadFile(path); err == nil {
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		problems := check.Document(data).Problems
		for i, p := range problems {
			if p.Line < 1 || p.Col < 1 {
				t.Errorf("without a place: %+v", p)
			}
			if s := words.Render("en", "x", p); strings.Contains(s, "⟨") || !strings.Contains(s, "hint: ") {
				t.Errorf("without words: %s", s)
			}
			if i > 0 && (p.Line < problems[i-1].Line || p.Line == problems[i-1].Line && p.Col < problems[i-1].Col) {
				t.Errorf("out of order: %+v after %+v", p, problems[i-1])
			}
		}
		again := check.Document(data).Problems
		if fmt.Sprint(problems) != fmt.Sprint(again) {
			t.Errorf("two answers to one file:\n%v\n%v", problems, again)
		}
	})
}

func ExampleDocument() {
	doc := strings.Replace(sound, `"to": "P1:X2"`, `"to": "P1:X3"`, 1)
	problems := check.Document([]byte(doc)).Problems
	for _, p := range problems {
		fmt.Println(words.Render("en", "lamp.json", p))
	}
	// Output:
	// lamp.json:34:39: wire 9 ends at P1:X3, and P1 has no terminal X3
	//   hint: P1 is a pilot-light with X1, X2; did you mean P1:X2?
}

// BenchmarkCheck judges a generated panel of 2,000 terminals.
func BenchmarkCheck(b *testing.B) {
	doc, err := panel.Read(panel.Write(generate.Generate(2000, 1)))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if list := check.Check(doc); len(list) > 0 {
			b.Fatal(list)
		}
	}
}

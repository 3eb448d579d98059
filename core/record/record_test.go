package record_test

import (
	"encoding/csv"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/record"
)

// plain says a code with its arguments, so that these tests do not depend on the
// words of a language.
func plain(code string, args ...string) string {
	return strings.TrimSpace(code + " " + strings.Join(args, " "))
}

func example() *record.Job {
	return &record.Job{
		Format: record.Format, Version: record.Version,
		Title: "B1 dead", Complaint: "pressure shows zero\nsince this morning", Started: "2026-03-02T07:10:00Z", Ended: "2026-03-02T07:25:00Z",
		Minutes: 15, Who: "K.", At: "normal", Dead: []string{"B1"},
		Panel: &panel.Panel{Format: panel.Format, Version: panel.Version, Name: "Pump 1",
			Strips: []panel.Strip{{Ref: "X1", Blocks: []panel.Block{{No: "1", Type: "fuse-block", Fuse: "500 mA F"}, {No: "2", Type: "feed-through"}}}},
			Wires:  []panel.Wire{{No: "W1", From: "X1:1/out", To: "X1:2"}},
			Found:  []panel.Edit{{Op: panel.OpMoveWire, Wire: "W1", End: "from", Point: "X1:1/in", Note: "felt pen"}}},
		Left: []panel.Edit{{Op: panel.OpSetBlock, Strip: "X1", Block: &panel.Block{No: "1", Type: "fuse-block", Fuse: "1 A T"}}},
		Steps: []record.JobStep{
			{When: "2026-03-02T07:12:00Z", Kind: "reading", Mode: "vdc", Red: "X1:1/out", Black: "X1:2", Shown: "-0.02 V", Expected: "24.00 V", Why: "half-split"},
			{Kind: "look", Ref: "X1:1", Shown: "lit"},
			{Kind: "work", Text: "fuse replaced", Photo: "IMG_1"}},
		Cause:     &record.Cause{Faults: []string{"X1:1=fuse-blown"}, Place: "X1:1", Text: "water in the box"},
		Repair:    "fuse replaced, box dried",
		Temporary: []record.Temporary{{What: "jumper", Where: "X1:1 to X1:2", Placed: "07:13"}, {What: "lifted", Where: "W1@X1:2", Placed: "07:14", Back: "07:20"}},
		Checks:    []record.JobCheck{{Text: "everything on the same fuse", Done: "07:24"}, {Text: "levers closed"}},
		Photos:    []record.Photo{{Name: "IMG_1", Of: "found"}},
		Notes:     []record.JobNote{{Text: "=HYPERLINK(\"x\")"}},
	}
}

func TestReadWrite(t *testing.T) {
	j := example()
	text := record.Write(j)
	back, err := record.Read(text)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(j, back) {
		t.Errorf("a job came back as another:\n%s", record.Write(back))
	}
}

func TestReadRefuses(t *testing.T) {
	for _, tc := range []struct{ text, code string }{
		{`{"format":"halfsplit-panel","version":1,"title":"x"}`, "wrong-format"},
		{`{"format":"halfsplit-job","version":2,"title":"x"}`, "newer-version"},
		{`{"format":"halfsplit-job","version":1,"titel":"x"}`, "unknown-field"},
		{`{"format":"halfsplit-job","version":1,"title":7}`, "not-text"},
		{`{"format":"halfsplit-job","version":1,"title":"x","panel":{"format":"other","version":1,"name":"x"}}`, "job.panel-unread"},
		{`{"format":"halfsplit-job","version":1,"title":"x","steps":[` + strings.Repeat(`{"kind":"look"},`, record.MaxList) + `{"kind":"look"}]}`, "too-many"},
		{strings.Repeat("[", 1000), "too-deep"},
		{``, "empty-file"},
	} {
		_, err := record.Read([]byte(tc.text))
		e, ok := err.(*panel.Error)
		if !ok || e.Problems[0].Code != tc.code {
			t.Errorf("%.60s: %v, want %s", tc.text, err, tc.code)
		}
	}
}

func TestAsFoundAndAsLeft(t *testing.T) {
	j := example()
	found, p1 := j.AsFound()
	left, p2 := j.AsLeft()
	if len(p1)+len(p2) > 0 || found.Wires[0].From != "X1:1/in" || found.Strips[0].Blocks[0].Fuse != "500 mA F" {
		t.Errorf("as found %+v, %v %v", found, p1, p2)
	}
	if left.Wires[0].From != "X1:1/in" || left.Strips[0].Blocks[0].Fuse != "1 A T" {
		t.Errorf("as left %+v", left)
	}
	if j.Panel.Wires[0].From != "X1:1/out" || len(j.Panel.Found) != 1 {
		t.Error("the drawing changed")
	}
}

// A temporary change is open until it is put back, and stands at the head of
// every export.
func TestOpenComesFirst(t *testing.T) {
	j := example()
	if open := j.Open(); !reflect.DeepEqual(open, []int{0}) {
		t.Errorf("open: %v", open)
	}
	for name, text := range map[string]string{"text": record.Text(j, plain), "csv": record.CSV(j, plain), "html": record.HTML(j, "en", record.A4, plain)} {
		still, title := strings.Index(text, "record.not-back"), strings.Index(text, "record.title")
		if still < 0 || title < still {
			t.Errorf("%s: the open change stands at %d, the job at %d", name, still, title)
		}
	}
}

func TestText(t *testing.T) {
	want := `record.temporary
! 07:13  temporary.jumper X1:1 to X1:2: record.not-back
  07:14  temporary.lifted W1@X1:2: record.back 07:20

record.head
  record.title: B1 dead
  record.panel: Pump 1
  record.complaint: pressure shows zero since this morning
  record.condition: normal
  record.dead: B1
  record.started: 2026-03-02 07:10
  record.ended: 2026-03-02 07:25
  record.minutes: 15
  record.who: K.

record.found
  correction.move-wire W1 X1:1/in – felt pen

record.steps
  2026-03-02 07:12  record.reading mode.vdc X1:1/out X1:2: -0.02 V (record.expected 24.00 V) – half-split
  record.look X1:1: lit
  fuse replaced – IMG_1

record.cause
  record.cause-is: water in the box; X1:1
  record.fault: X1:1=fuse-blown
  record.repair: fuse replaced, box dried

record.left
  correction.set-block X1:1 fuse-block 1 A T

record.checks
  07:24  everything on the same fuse: record.done
! levers closed: record.not-done

record.photos
  IMG_1: photo.found

record.notes
  =HYPERLINK("x")
`
	if got := record.Text(example(), plain); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A time stands as a clock there showed it; what is none stays as it was written.
func TestWallTime(t *testing.T) {
	for when, want := range map[string]string{
		"2026-03-02T07:12:00Z": "2026-03-02 07:12", "2026-03-02T07:12:59.5+01:00": "2026-03-02 07:12", "07:12": "07:12", "": "",
		"2026-03-02 07:12:00": "2026-03-02 07:12:00", "2026-03-0xT07:12:00Z": "2026-03-0xT07:12:00Z", "2026-03-02T07:12": "2026-03-02T07:12",
		"before noon, perhaps": "before noon, perhaps",
	} {
		j := &record.Job{Notes: []record.JobNote{{When: when, Text: "x"}}}
		s := record.Sections(j, plain)
		if len(s) != 1 || s[0].Code != "record.notes" || len(s[0].Lines) != 1 || s[0].Lines[0].When != want {
			t.Errorf("%q stands as %+v, want %q", when, s, want)
		}
	}
}

// RFC 4180 as another reader sees it; no cell begins as a formula does (the
// characters that spreadsheet programs take for one: common practice).
func TestCSV(t *testing.T) {
	j := example()
	for _, evil := range []string{"=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", " =1", "＝1", "a,b\"c\nd", "-1e5x", "plain"} {
		j.Notes = append(j.Notes, record.JobNote{Text: evil})
	}
	j.Steps = append(j.Steps, record.JobStep{Kind: "work", Text: "x", Shown: "-24.1"})
	text, ok := strings.CutPrefix(record.CSV(j, plain), "\ufeff")
	if !ok {
		t.Error("no byte-order mark")
	}
	table, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, row := range table {
		for _, cell := range row {
			seen[cell] = true
			if lead := strings.TrimSpace(cell); lead != "" && strings.ContainsAny(lead[:1], "=+-@") && cell != "-24.1" {
				t.Errorf("a cell that a spreadsheet takes for a formula: %q", cell)
			}
		}
	}
	for _, want := range []string{"'=1+1", "'+1+1", "'-1+1", "'@SUM(A1)", "'\t=1", "a,b\"c\nd", "'-1e5x", "plain", "-24.1", "'-0.02 V"} {
		if !seen[want] {
			t.Errorf("no cell %q", want)
		}
	}
	for _, line := range strings.Split(strings.TrimSuffix(text, "\r\n"), "\"\r\n\"") {
		if line == "" {
			t.Error("an empty line")
		}
	}
}

// Whatever a person wrote is text on the page: no element, attribute or script
// comes out of it.
func TestHTMLEscapes(t *testing.T) {
	j := example()
	const evil = `<script>alert(1)</script>"'><img src=x onerror=alert(1)>&lt;`
	j.Title, j.Complaint, j.Who, j.Repair = evil, evil, evil, evil
	j.Panel.Name, j.Notes[0].Text, j.Steps[0].Shown, j.Temporary[0].Where, j.Temporary[0].What = evil, evil, evil, evil, evil
	j.Panel.Found[0].Note, j.Checks[0].Text, j.Photos[0].Name, j.Photos[0].Of = evil, evil, evil, evil
	page := record.HTML(j, `en"><script>`, record.Letter, plain)
	if strings.Contains(page, "<script") || strings.Contains(page, "<img") {
		t.Error("a person's text became an element")
	}
	if n := strings.Count(page, "&lt;script&gt;alert(1)&lt;/script&gt;&#34;&#39;&gt;&lt;img src=x onerror=alert(1)&gt;&amp;lt;"); n < 12 {
		t.Errorf("the text stands %d times", n)
	}
	if !strings.Contains(page, "size: letter") || !strings.Contains(record.HTML(j, "en", "A3; } body{", plain), "size: A4;") {
		t.Error("the paper is not the one asked for, or not one of the two")
	}
}

// By hand: 1 + 3 for the same fault, + 1 for another of the same thing, at most 10.
func TestWeight(t *testing.T) {
	h := record.NewHistory([]record.Earlier{
		{When: "2026-01-01", Faults: []string{"X1:1=fuse-blown"}},
		{When: "2026-02-01", Faults: []string{"X1:1=fuse-blown", "W5=broken"}},
		{Faults: []string{"K1=stuck"}}, {Faults: []string{"K1=stuck"}}, {Faults: []string{"K1=stuck"}}, {Faults: []string{"K1=stuck"}},
		{Faults: []string{"no such thing"}},
	})
	for _, tc := range []struct {
		thing, name string
		want        float64
	}{
		{"X1:1", "fuse-blown", 7}, {"X1:1", "lever-open", 3}, {"W5", "broken", 4}, {"K1", "stuck", 10}, {"K1", "coil-open", 5}, {"K2", "stuck", 1},
	} {
		f := &fault.Fault{Mode: &parts.Mode{Thing: tc.thing, Name: tc.name}}
		if got := h.Weight(f); got != tc.want {
			t.Errorf("%s: %g, want %g", f.Key(), got, tc.want)
		}
	}
	if times, last := h.Before("X1:1=fuse-blown"); times != 2 || last != "2026-02-01" {
		t.Errorf("found %d times, last %s", times, last)
	}
}

func FuzzRead(f *testing.F) {
	f.Add(record.Write(example()))
	f.Add([]byte(`{"format":"halfsplit-job","version":1,"title":"x","temporary":[{"what":"?","where":""}],"cause":{},"panel":null}`))
	f.Add([]byte(`{"format":"halfsplit-job","version":1,"left":[{"op":"add-jumper"}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := record.Read(data)
		if err != nil {
			if _, ok := err.(*panel.Error); !ok {
				t.Fatalf("an error of another type: %v", err)
			}
			return
		}
		back, err := record.Read(record.Write(j))
		if err != nil || string(record.Write(back)) != string(record.Write(j)) {
			t.Fatalf("writing and reading again changed it: %v", err)
		}
		j.AsLeft()
		record.Text(j, plain)
		record.HTML(j, "en", record.A4, plain)
		if _, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(record.CSV(j, plain), "\ufeff"))).ReadAll(); err != nil {
			t.Fatal(err)
		}
	})
}

func ExampleText() {
	j := &record.Job{Title: "P1 dark", Temporary: []record.Temporary{{What: "lifted", Where: "W4@X2:1", Placed: "09:40"}}, Repair: "clamp tightened"}
	fmt.Print(record.Text(j, func(code string, args ...string) string { return code }))
	// Output:
	// record.temporary
	// ! 09:40  temporary.lifted: record.not-back
	//
	// record.head
	//   record.title: P1 dark
	//
	// record.cause
	//   record.repair: clamp tightened
}

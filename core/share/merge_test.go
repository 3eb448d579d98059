package share_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"halfsplit/core/draft"
	"halfsplit/core/panel"
	"halfsplit/core/record"
	"halfsplit/core/share"
)

func edited(t testing.TB, p *panel.Panel, edits ...draft.Edit) *panel.Panel {
	t.Helper()
	q, _, err := draft.Apply(p, edits, nil)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func lines(list []share.Difference) string {
	var out []string
	for _, d := range list {
		out = append(out, strings.TrimSpace(fmt.Sprint(d.What, " ", d.List, " ", strings.Join(d.Thing, " "), " ", d.Field, " [", d.Was, "] [", d.Is, "]")))
	}
	return strings.Join(out, "\n")
}

func TestDiff(t *testing.T) {
	a := small()
	b := edited(t, a,
		draft.Edit{Op: draft.Set, Ref: "W1", Size: "1 mm2", Colour: "RD"},
		draft.Edit{Op: draft.Remove, Ref: "W2"},
		draft.Edit{Op: draft.Part, Kind: "relay", Ref: "K2"},
		draft.Edit{Op: draft.Blocks, Ref: "X1", From: "6", Kind: "ground"},
		draft.Edit{Op: draft.Name, About: "pumps"},
		draft.Edit{Op: draft.Set, Ref: "P1", Ratings: map[string]string{"voltage": "24 V"}},
		draft.Edit{Op: draft.Remove, Ref: "X1:4"})
	b.Strips[0].Blocks[0], b.Strips[0].Blocks[1] = b.Strips[0].Blocks[1], b.Strips[0].Blocks[0]
	got, err := share.Diff(panel.Write(a), panel.Write(b))
	if err != nil {
		t.Fatal(err)
	}
	want := `removed blocks X1 4  [no 4, type feed-through] []
changed blocks X1 6 type [feed-through] [ground]
order  X1 blocks [1, 2, 3, 5, 6] [2, 1, 3, 5, 6]
added parts P1 ratings voltage [] [24 V]
added parts K2  [] [ref K2, kind relay]
changed wires W1 size [0.75 mm2] [1 mm2]
added wires W1 colour [] [RD]
removed wires W2  [no W2, from X1:4, to P1:X2, size 0.75 mm2] []
added   about [] [pumps]`
	want = strings.ReplaceAll(want, "order  X1 blocks", "order strips X1 blocks")
	if lines(got) != want {
		t.Errorf("got\n%s\nwant\n%s", lines(got), want)
	}
	if got[0].Path != "/strips/X1/blocks/4" || got[1].Path != "/strips/X1/blocks/6/type" {
		t.Errorf("paths %s, %s", got[0].Path, got[1].Path)
	}
	for name, data := range documents(t) {
		if list, err := share.Diff(data, data); err != nil || len(list) > 0 {
			t.Errorf("%s differs from itself: %v %v", name, list, err)
		}
	}
	if _, err := share.Diff(documents(t)["job"], panel.Write(a)); code(err) != "share.two-kinds" {
		t.Error(err)
	}
}

// What is spaced or ordered otherwise inside a thing is the same document.
func TestDigest(t *testing.T) {
	a := []byte(`{"format":"halfsplit-panel","version":1,"name":"x","parts":[{"kind":"relay","ref":"K1"}]}`)
	b := []byte("{\"version\": 1,\n\"name\":\"\\u0078\", \"format\":\"halfsplit-panel\", \"about\": \"\", \"wires\": [], \"parts\":[{\"ref\":\"K1\",\"kind\":\"relay\"}]}")
	c := bytes.Replace(a, []byte("K1"), []byte("K2"), 1)
	x, _ := share.Digest(a)
	y, _ := share.Digest(b)
	z, err := share.Digest(c)
	if err != nil || x != y || x == z || len(x) != 32 {
		t.Errorf("digests %s %s %s, %v", x, y, z, err)
	}
}

func merge(t testing.TB, base, ours, theirs []byte, choices map[string]string) *share.Merged {
	t.Helper()
	m, err := share.Merge(base, ours, theirs, choices)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// The laws: who changed nothing has no say, and both saying the same is no
// conflict.
func TestMergeLaws(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 60 {
		o := vary(t, rng, small(), 4)
		a, b := vary(t, rng, o, 4), vary(t, rng, o, 4)
		O, A, B := panel.Write(o), panel.Write(a), panel.Write(b)
		for _, tc := range []struct {
			name               string
			base, ours, theirs []byte
			want               []byte
		}{{"merge(o, o, b) = b", O, O, B, B}, {"merge(o, a, o) = a", O, A, O, A}, {"merge(o, b, b) = b", O, B, B, B}, {"merge(nil, a, a) = a", nil, A, A, A}} {
			if m := merge(t, tc.base, tc.ours, tc.theirs, nil); !bytes.Equal(m.Document, tc.want) || len(m.Conflicts) > 0 {
				t.Fatalf("%s: %d conflicts, got\n%s\nwant\n%s", tc.name, len(m.Conflicts), m.Document, tc.want)
			}
		}
	}
}

// vary makes a few edits at random.
func vary(t testing.TB, rng *rand.Rand, p *panel.Panel, n int) *panel.Panel {
	t.Helper()
	for range n {
		no := fmt.Sprint(1 + rng.IntN(6))
		edits := []draft.Edit{
			{Op: draft.Label, Ref: "X1:" + no, Label: fmt.Sprint("label ", rng.IntN(100))},
			{Op: draft.Blocks, Ref: "X1", From: no, Kind: []string{"ground", "feed-through", "disconnect-block"}[rng.IntN(3)]},
			{Op: draft.Part, Kind: "relay"},
			{Op: draft.Set, Ref: "P1", Ratings: map[string]string{[]string{"voltage", "current"}[rng.IntN(2)]: fmt.Sprint(rng.IntN(50), " V")}},
			{Op: draft.Remove, Ref: "W" + no},
			{Op: draft.Set, Ref: "W" + no, Colour: []string{"RD", "BU", "BK"}[rng.IntN(3)]},
			{Op: draft.Wire, From: "X1:" + no, To: "K1:A2"},
			{Op: draft.Strip, Ref: "X1", Count: 1},
			{Op: draft.Remove, Ref: "X1:" + no},
			{Op: draft.Jumper, Ref: "X1", From: "1", To: no},
			{Op: draft.MoveWire, Ref: "W1", End: "to", To: "K1:11", AsFound: true},
			{Op: draft.Condition, Name: "c" + no, Positions: map[string]string{"K1": "on"}},
			{Op: draft.Name, About: fmt.Sprint("about ", rng.IntN(9))},
		}
		if q, _, err := draft.Apply(p, []draft.Edit{edits[rng.IntN(len(edits))]}, nil); err == nil {
			p = q
		}
	}
	return p
}

// No edit is lost: whatever either side changed is in the result, or told as a
// conflict at its place or around it.
func TestNoEditIsLost(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	conflicts := 0
	for range 100 {
		o := small()
		a, b := vary(t, rng, o, 5), vary(t, rng, o, 5)
		O, A, B := panel.Write(o), panel.Write(a), panel.Write(b)
		m := merge(t, O, A, B, nil)
		conflicts += len(m.Conflicts)
		for side, doc := range map[string][]byte{"ours": A, "theirs": B} {
			edits, err := share.Diff(O, doc)
			if err != nil {
				t.Fatal(err)
			}
			left, err := share.Diff(m.Document, doc) // what the result has otherwise than this side
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range edits {
				lost := slices.ContainsFunc(left, func(d share.Difference) bool { return within(d.Path, e.Path) && d.What != share.Order })
				told := slices.ContainsFunc(m.Conflicts, func(c share.Conflict) bool { return within(c.Path, e.Path) || within(e.Path, c.Path) })
				if lost && !told && !otherSide(t, O, other(side, A, B), left, e) {
					t.Fatalf("%s changed %s %s (%q to %q), and the result has it otherwise without a conflict:\n%s\n%s", side, e.What, e.Path, e.Was, e.Is, m.Document, doc)
				}
			}
		}
		// Every conflict can be decided, and then it comes to the same from both
		// sides.
		theirs, ours := map[string]string{}, map[string]string{}
		for _, c := range m.Conflicts {
			theirs[c.Path], ours[c.Path] = share.Theirs, share.Ours
		}
		all, back := merge(t, O, A, B, theirs), merge(t, O, B, A, ours)
		if all.Open() != 0 || back.Open() != 0 {
			t.Fatalf("%d and %d conflicts are open after a choice for each", all.Open(), back.Open())
		}
		if x, y := lineSet(all.Document), lineSet(back.Document); !slices.Equal(x, y) {
			t.Fatalf("theirs chosen:\n%s\nfrom the other side, ours:\n%s", all.Document, back.Document)
		}
	}
	if conflicts == 0 {
		t.Error("no edit ever conflicted: the test tests nothing")
	}
}

func other(side string, a, b []byte) []byte {
	if side == "ours" {
		return b
	}
	return a
}

func within(path, outer string) bool { return path == outer || strings.HasPrefix(path, outer+"/") }

// otherSide says that what the result has otherwise inside e is what the other
// side changed there: e added or moved a thing, the other changed a field in it.
func otherSide(t *testing.T, base, doc []byte, left []share.Difference, e share.Difference) bool {
	t.Helper()
	edits, err := share.Diff(base, doc)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range left {
		if within(d.Path, e.Path) && d.What != share.Order &&
			!slices.ContainsFunc(edits, func(x share.Difference) bool { return within(d.Path, x.Path) || within(x.Path, d.Path) }) {
			return false
		}
	}
	return true
}

// lineSet are the lines of a document in an order of their own, without the
// commas between them: where both sides add things, each sets its own first.
func lineSet(doc []byte) []string {
	var list []string
	for _, l := range strings.Split(string(doc), "\n") {
		list = append(list, strings.TrimRight(strings.TrimSpace(l), ","))
	}
	slices.Sort(list)
	return list
}

func TestMergeConflicts(t *testing.T) {
	o := small()
	a := edited(t, o, draft.Edit{Op: draft.Set, Ref: "W1", Colour: "RD"}, draft.Edit{Op: draft.Label, Ref: "X1:1", Label: "feed"}, draft.Edit{Op: draft.Remove, Ref: "W2"})
	b := edited(t, o, draft.Edit{Op: draft.Set, Ref: "W1", Colour: "BU"}, draft.Edit{Op: draft.Label, Ref: "X1:1", Label: "24 V"}, draft.Edit{Op: draft.Set, Ref: "W2", Colour: "BK"})
	O, A, B := panel.Write(o), panel.Write(a), panel.Write(b)
	m := merge(t, O, A, B, nil)
	var got []string
	for _, c := range m.Conflicts {
		got = append(got, fmt.Sprint(c.What, " ", c.Path, " [", c.Was, "] [", c.Is, "] ", c.Taken, " ", c.Chosen))
	}
	want := []string{
		"changed /strips/X1/blocks/1/label [feed] [24 V] ours false",
		"changed /wires/W1/colour [RD] [BU] ours false",
		"added /wires/W2 [] [no W2, from X1:4, to P1:X2, size 0.75 mm2, colour BK] theirs false",
	}
	if !slices.Equal(got, want) || m.Open() != 3 {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	m = merge(t, O, A, B, map[string]string{"/strips/X1/blocks/1/label": share.Both, "/wires/W1/colour": share.Theirs, "/wires/W2": share.Ours})
	d, err := panel.Read(m.Document)
	if err != nil {
		t.Fatal(err)
	}
	if d.Panel.Strips[0].Blocks[0].Label != "feed / 24 V" || d.Panel.Wires[0].Colour != "BU" || len(d.Panel.Wires) != 2 || m.Open() != 0 {
		t.Errorf("as chosen:\n%s", m.Document)
	}
	if m := merge(t, O, A, B, map[string]string{"/wires/W1/colour": share.Both, "/wires/W2": "mine", "/no/where": share.Theirs}); m.Open() != 3 {
		t.Errorf("%d open: both of a colour, a word that is none and a place that is none decide nothing", m.Open())
	}
}

// Without an ancestor nothing is taken for granted: what only one has stays and
// is asked about, and every field that differs is a conflict.
func TestMergeWithoutAncestor(t *testing.T) {
	o := small()
	a := edited(t, o, draft.Edit{Op: draft.Set, Ref: "W1", Colour: "RD"}, draft.Edit{Op: draft.Part, Kind: "relay", Ref: "K7"})
	b := edited(t, o, draft.Edit{Op: draft.Remove, Ref: "W3"}, draft.Edit{Op: draft.Part, Kind: "relay", Ref: "K8"})
	m := merge(t, nil, panel.Write(a), panel.Write(b), nil)
	d, err := panel.Read(m.Document)
	if err != nil {
		t.Fatal(err)
	}
	x := panel.NewIndex(d.Panel)
	if x.Part("K7") == nil || x.Part("K8") == nil || x.Wire("W3") == nil || x.Wire("W1").Colour != "RD" {
		t.Errorf("something was lost:\n%s", m.Document)
	}
	if m.Open() != 4 {
		t.Errorf("%d conflicts, want four: %+v", m.Open(), m.Conflicts)
	}
}

// Corrections of two people both stand.
func TestMergeKeepsCorrections(t *testing.T) {
	o := small()
	a := edited(t, o, draft.Edit{Op: draft.Remove, Ref: "W3", AsFound: true, By: "day"})
	b := edited(t, o, draft.Edit{Op: draft.MoveWire, Ref: "W1", End: "to", To: "K1:11", AsFound: true, By: "night"})
	m := merge(t, panel.Write(o), panel.Write(a), panel.Write(b), nil)
	d, err := panel.Read(m.Document)
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Panel.Found) != 2 || d.Panel.Found[0].By != "day" || d.Panel.Found[1].By != "night" || len(m.Conflicts) != 0 {
		t.Errorf("corrections %+v, conflicts %+v", d.Panel.Found, m.Conflicts)
	}
}

func TestMergeJobs(t *testing.T) {
	o := &record.Job{Title: "B1 dead", Steps: []record.JobStep{{Kind: "look", Ref: "P1", Shown: "dark"}}, Temporary: []record.Temporary{{What: "jumper", Where: "X1:1", Placed: "9:00"}}}
	a, b := *o, *o
	a.Temporary = []record.Temporary{{What: "jumper", Where: "X1:1", Placed: "9:00", Back: "9:30"}}
	b.Steps = append(slices.Clone(o.Steps), record.JobStep{Kind: "reading", Mode: "vdc", Red: "X1:1", Black: "X1:2", Shown: "24 V"})
	m := merge(t, record.Write(o), record.Write(&a), record.Write(&b), nil)
	j, err := record.Read(m.Document)
	if err != nil {
		t.Fatal(err)
	}
	if len(j.Open()) != 0 || len(j.Steps) != 2 || len(m.Conflicts) != 0 {
		t.Errorf("%s", m.Document)
	}
}

func FuzzMerge(f *testing.F) {
	p := small()
	q, _, err := draft.Apply(p, []draft.Edit{{Op: draft.Remove, Ref: "W1"}, {Op: draft.Label, Ref: "X1:1", Label: "x"}}, nil)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(panel.Write(p), panel.Write(p), panel.Write(q))
	f.Add([]byte(`{"format":"halfsplit-job","version":1,"title":"x"}`), []byte(`{"format":"halfsplit-job","version":1,"title":"y"}`), []byte(`{"format":"halfsplit-job","version":1,"steps":[{"kind":""},{"kind":""}]}`))
	f.Add([]byte(`{"format":"halfsplit-panel","version":1,"name":"x","parts":[{"ref":"","kind":""},{"ref":"","kind":"a"}]}`), []byte(`{"format":"halfsplit-panel","version":1,"name":"x"}`), []byte(`{"format":"halfsplit-panel","version":1,"name":"x","found":[{"op":"add-jumper","jump":{"blocks":null}}]}`))
	f.Fuzz(func(t *testing.T, base, ours, theirs []byte) {
		m, err := share.Merge(base, ours, theirs, nil)
		if err != nil {
			return
		}
		if _, err := share.Read(m.Document); err != nil {
			t.Fatalf("the result cannot be read: %v\n%s", err, m.Document)
		}
		if same := merge(t, ours, ours, theirs, nil); len(same.Conflicts) > 0 {
			t.Fatalf("a side that changed nothing has a say: %+v", same.Conflicts)
		}
	})
}

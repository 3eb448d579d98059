package drill_test

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
	"testing"

	"halfsplit/core/drill"
	"halfsplit/scenarios"
)

// Every embedded drill stands as Write writes it, is explained with its sources, is
// set up without a problem, and what it declares is so: a solved state proves each
// trap, the best plan comes upon all that is hidden in the stated steps.
func TestEmbeddedDrills(t *testing.T) {
	names, docs := embedded(t)
	grades := map[int]int{}
	for i, doc := range docs {
		d := doc.Drill
		grades[d.Grade]++
		data, err := scenarios.Drills.ReadFile(names[i] + ".drill.json")
		if err != nil || !bytes.Equal(drill.Write(d), data) {
			t.Errorf("%s does not stand as it is written: %v", names[i], err)
		}
		if len(d.Hidden.Sources) == 0 || len(d.Questions) < 2 {
			t.Errorf("%s: %d sources, %d questions", names[i], len(d.Hidden.Sources), len(d.Questions))
		}
		c := set(t, doc, 0)
		for _, trap := range d.Hidden.Traps {
			if !c.Proved(trap) {
				t.Errorf("%s: no solved state proves %+v", names[i], trap)
			}
		}
		hard, err := c.Difficulty()
		if err != nil {
			t.Fatal(err)
		}
		if hard.Best.Found != len(c.Faults) || hard.Best.Count() == 0 || hard.Grade < 1 || hard.Grade > 4 {
			t.Errorf("%s: found %d of %d in %d steps, grade %d", names[i], hard.Best.Found, len(c.Faults), hard.Best.Count(), hard.Grade)
		}
		for seed := 1; seed <= min(hard.Again, 3); seed++ {
			again := set(t, doc, seed)
			if len(again.Faults) == 0 || again.Complaint == "" || strings.Contains(again.Complaint, "{") || again.Seed != seed {
				t.Errorf("%s, variation %d: %v %q", names[i], seed, again.Faults, again.Complaint)
			}
		}
	}
	if len(docs) < 16 || len(grades) != 4 {
		t.Errorf("%d drills in grades %v; want 16 and all four", len(docs), grades)
	}
}

// No two drills share panel, kind of fault and best plan.
func TestDrillsDiffer(t *testing.T) {
	names, docs := embedded(t)
	seen := map[string]string{}
	for i, doc := range docs {
		c := set(t, doc, 0)
		hard, err := c.Difficulty()
		if err != nil {
			t.Fatal(err)
		}
		key := doc.Drill.Demo
		for _, f := range c.Faults {
			key += " " + f.Name
		}
		for _, s := range hard.Best.Steps {
			key += " " + strconv.Itoa(s.Situation) + "/" + strconv.Itoa(int(s.Look)) + "/" + strconv.Itoa(s.Thing) + "/" + strconv.Itoa(s.Red) + "/" + strconv.Itoa(s.Black)
		}
		if other, taken := seen[key+hard.Best.Because]; taken {
			t.Errorf("%s and %s are one drill: %s", names[i], other, key)
		}
		seen[key+hard.Best.Because] = names[i]
	}
}

// A sound panel proves no trap but that of a caller who is wrong.
func TestSoundPanelHasNoTraps(t *testing.T) {
	doc := bench(t, "P2=open") // dark in the running panel anyway
	c := set(t, doc, 0)
	for _, code := range drill.TrapCodes {
		for _, trap := range []drill.Trap{{Code: code, Red: "X1:2/out", Black: "X2:1", Ref: "P1"}, {Code: code, Red: "K1:A1", Black: "X9:1", Ref: "X1:2"}, {Code: code, Ref: "K1"}} {
			if code != drill.TrapTwoMeaning && c.Proved(trap) {
				t.Errorf("%+v is proved of a panel where nothing shows", trap)
			}
		}
	}
}

// What is known of a drill's document by itself, and what only its panel tells.
func TestProblems(t *testing.T) {
	head := `{"format": "halfsplit-drill", "version": 1, `
	whole := `"name": "n", "grade": 1, "complaint": "c", "demo": "training-bench", `
	hidden := `"hidden": {"faults": ["W17=broken"], "plan": {"steps": 1}, "explanation": "e"}`
	for _, tc := range []struct{ text, path, code string }{
		{head + whole + `"dead": ["P9"], ` + hidden + `}`, "dead[0]", "drill-unknown-device"},
		{head + whole + `"dead": ["P2"], ` + hidden + `}`, "dead[0]", "drill-not-dead"},
		{head + whole + `"works": ["P1"], ` + hidden + `}`, "works[0]", "drill-not-working"},
		{head + whole + `"sees": {"P1": "lit"}, ` + hidden + `}`, "sees.P1", "drill-not-seen"},
		{head + whole + `"reads": [{"mode": "vdc", "red": "P1:X1", "black": "X2:1", "shown": "9.00 V"}], ` + hidden + `}`, "reads[0]", "drill-reads-otherwise"},
		{head + whole + `"reads": [{"mode": "vdc", "red": "P7:X1", "black": "X2:1", "shown": "9.00 V"}], ` + hidden + `}`, "reads[0]", "drill-reading"},
		{head + whole + `"at": "sunday", ` + hidden + `}`, "at", "drill-condition"},
		{head + whole + `"marked": ["X7:1"], ` + hidden + `}`, "marked[0]", "drill-unknown-point"},
		{head + whole + `"tools": ["nose"], ` + hidden + `}`, "tools[0]", "drill-unknown-tool"},
		{head + whole + `"gates": {"no-proof": "shout"}, ` + hidden + `}`, "gates.no-proof", "drill-gate-effect"},
		{head + whole + `"gates": {"no-shoes": "end"}, ` + hidden + `}`, "gates.no-shoes", "drill-gate-unknown"},
		{head + whole + `"questions": ["q"], ` + hidden + `}`, "hidden.answers", "drill-answers-differ"},
		{head + whole + strings.Replace(hidden, "W17=broken", "W99=broken", 1) + `}`, "hidden.faults[0]", "fault-unknown-thing"},
		{head + whole + strings.Replace(hidden, `"plan"`, `"onset": "late", "plan"`, 1) + `}`, "hidden.onset", "drill-onset"},
		{head + whole + strings.Replace(hidden, `"plan"`, `"drawing": [{"op": "remove-wire", "wire": "W99"}], "plan"`, 1) + `}`, "hidden.drawing[0].wire", "edit-unknown-wire"},
		{head + whole + strings.Replace(hidden, `"plan"`, `"elsewhere": ["W99=broken"], "plan"`, 1) + `}`, "hidden.elsewhere[0]", "drill-elsewhere"},
		{head + whole + `"hidden": {"plan": {"steps": 1}, "explanation": "e"}}`, "hidden", "drill-because-missing"},
		{head + whole + `"hidden": {"because": "Q9", "plan": {"steps": 1}, "explanation": "e"}}`, "hidden.because", "drill-unknown-device"},
		{head + `"name": "n", "grade": 7, "complaint": "c", "demo": "training-bench", ` + hidden + `}`, "grade", "drill-grade"},
		{head + `"name": "n", "grade": 1, "demo": "training-bench", ` + hidden + `}`, "complaint", "drill-complaint-missing"},
		{head + `"grade": 1, "complaint": "c", "demo": "training-bench", ` + hidden + `}`, "name", "drill-name-missing"},
		{head + `"name": "n", "grade": 1, "complaint": "c", ` + hidden + `}`, "", "drill-panel-missing"},
		{head + whole + `"sealed": "AAAA"}`, "sealed", "drill-seal-broken"},
		{head + whole + `"sealed": "AAAA", ` + hidden + `}`, "hidden", "drill-hidden-twice"},
		{head + whole[:len(whole)-2] + `}`, "", "drill-hidden-missing"},
		{head + whole + `"plot": 1, ` + hidden + `}`, "plot", "unknown-field"},
	} {
		doc, err := drill.Read([]byte(tc.text))
		if err == nil {
			_, err = doc.Set(rig(t, "training-bench"), 1)
			if tc.path == "hidden.elsewhere[0]" {
				if err == nil {
					t.Errorf("%s: no problem", tc.code)
				}
			} else if _, err = doc.Set(rig(t, "training-bench"), 0); err == nil {
				t.Errorf("%s: no problem", tc.code)
				continue
			}
		}
		if want := tc.path + " " + tc.code; !slices.ContainsFunc(strings.Split(told(err), "; "), func(s string) bool { return strings.HasPrefix(s, want) }) {
			t.Errorf("%s, want %s", told(err), want)
		}
	}
}

// The trail on the bench, step by step: a look that splits, the same again, a reading
// where nothing could show, the one that proves.
func TestVerdicts(t *testing.T) {
	doc := bench(t, "W17=broken")
	doc.Drill.Dead = []string{"P1"}
	a := set(t, doc, 0).Begin()
	do(t, a,
		drill.Act{Kind: drill.DoLook, Thing: "K1"},
		drill.Act{Kind: drill.DoLook, Thing: "K1"},
		read("vdc", "X9:1", "X9:2"),
		read("vdc", "K1:24", "X2:1"),
		read("vdc", "P1:X1", "X2:1"),
		read("vdc", "K1:24", "P1:X1"),
		read("lowz", "K1:24", "P1:X1"),
		drill.Act{Kind: drill.DoLook, Thing: "K1:24"}, drill.Act{Kind: drill.DoLook, Thing: "P1:X1"},
		drill.Act{Kind: drill.DoCall, Thing: "W17", Class: "open"},
		drill.Act{Kind: drill.DoDone})
	d, err := a.Debrief()
	if err != nil {
		t.Fatal(err)
	}
	want := map[int]drill.Verdict{0: drill.Useful, 1: drill.Repeated, 2: drill.CannotHelp, 3: drill.Useful, 6: drill.Unjudged, 8: drill.Redundant}
	for _, s := range d.Steps {
		if v, ok := want[s.Entry]; ok && s.Verdict != v {
			t.Errorf("act %d: %s, want %s", s.Entry, s.Verdict, v)
		}
		if s.After > s.Before {
			t.Errorf("act %d leaves %d suspects of %d", s.Entry, s.After, s.Before)
		}
		if s.Best == nil && s.Before > 1 && s.Verdict == drill.Useful {
			t.Errorf("act %d: nothing better and nothing as good among %d suspects", s.Entry, s.Before)
		}
	}
	if g := d.Score.Grades[0]; !g.Component || !g.Terminal || !g.Kind || !g.Proof || d.Score.Result != drill.Found {
		t.Errorf("%s %+v", d.Score.Result, g)
	}
}

// Lessons come from what was done, two at most.
func TestLessons(t *testing.T) {
	for _, tc := range []struct {
		name string
		acts []drill.Act
		want string
	}{
		{"ohms on live", []drill.Act{read("ohms", "K1:24", "X2:1")}, "lesson.gate"},
		{"called at once", []drill.Act{{Kind: drill.DoCall, Thing: "P1", Class: "part"}}, "lesson.called-early"},
		{"right and unproved", []drill.Act{{Kind: drill.DoCall, Thing: "W18", Class: "open"}}, "lesson.proof"},
		{"lamp swapped", append(isolate("P1:X1", "PE", "P1:X2", "PE"), drill.Act{Kind: drill.DoReplace, Thing: "P1"}), "lesson.parts"},
		{"twice the same", []drill.Act{read("vdc", "P1:X1", "X2:1"), read("vdc", "P1:X1", "X2:1")}, "lesson.repeat"},
		{"to earth only", []drill.Act{read("vdc", "P1:X1", "X9:1")}, "lesson.reference"},
		{"nothing at all", nil, "lesson.call"},
	} {
		doc := bench(t, "W18=broken")
		doc.Drill.Dead = []string{"P1"}
		a := set(t, doc, 0).Begin()
		do(t, a, append(tc.acts, drill.Act{Kind: drill.DoDone})...)
		d, err := a.Debrief()
		if err != nil {
			t.Fatal(err)
		}
		has := slices.ContainsFunc(d.Lessons, func(f drill.Fact) bool { return f.Code == tc.want })
		if !has || len(d.Lessons) > 2 {
			t.Errorf("%s teaches %+v, want %s", tc.name, d.Lessons, tc.want)
		}
	}
}

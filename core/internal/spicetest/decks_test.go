package spicetest

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A worked is one file of testdata/spice: a circuit somebody published, written by
// hand as a deck, and beside it, in its comments, the same circuit as a panel and
// what the book says:
//
//   - source: where it is published, and whether that is from memory
//   - part: REF KIND, RATING=VALUE, contacts=13-14 23-24, channels=1
//   - wire: FROM TO
//   - fault: a fault of the panel
//   - set: REF POSITION
//   - step: VERB REF
//   - want: DECK EXPRESSION = BOOK'S FIGURE UNIT : RED BLACK, or the THING that carries it
//
// A figure the book does not give is "-".
type worked struct {
	name, text, source string
	panel              panel.Panel
	faults             []string
	wants              []want
}

type want struct {
	expr, figure, unit string
	at                 []string // two points, or one thing
}

func readWorked(t *testing.T, file string) worked {
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	w := worked{name: filepath.Base(file), text: string(data), panel: panel.Panel{Format: panel.Format, Version: panel.Version, Name: file}}
	c := panel.Condition{Name: "normal", Set: map[string]string{}}
	for line := range strings.Lines(w.text) {
		key, rest, ok := strings.Cut(strings.TrimPrefix(strings.TrimSpace(line), "* "), ": ")
		if !ok || line[0] != '*' {
			continue
		}
		switch key {
		case "source":
			w.source = rest
		case "part":
			w.panel.Parts = append(w.panel.Parts, part(rest))
		case "wire":
			f := strings.Fields(rest)
			w.panel.Wires = append(w.panel.Wires, panel.Wire{No: fmt.Sprint("W", len(w.panel.Wires)+1), From: f[0], To: f[1], Size: "16 mm2", Length: "0.1 m"})
		case "fault":
			w.faults = append(w.faults, rest)
		case "set":
			ref, position, _ := strings.Cut(rest, " ")
			c.Set[ref] = position
		case "step":
			c.Steps = append(c.Steps, rest)
		case "want":
			expr, tail, ok1 := strings.Cut(rest, " = ")
			figure, at, ok2 := strings.Cut(tail, " : ")
			f := strings.Fields(figure)
			if !ok1 || !ok2 || len(f) != 2 {
				t.Fatalf("%s: %q", w.name, line)
			}
			w.wants = append(w.wants, want{expr, f[0], f[1], strings.Fields(at)})
		default:
			t.Fatalf("%s: %q", w.name, line)
		}
	}
	if w.source == "" || len(w.wants) == 0 {
		t.Fatalf("%s names no source or wants nothing", w.name)
	}
	w.panel.Conditions = []panel.Condition{c}
	return w
}

func part(text string) panel.Part {
	fields := strings.Split(text, ", ")
	ref, kind, _ := strings.Cut(fields[0], " ")
	p := panel.Part{Ref: ref, Kind: kind, Ratings: map[string]string{}}
	for _, f := range fields[1:] {
		key, value, _ := strings.Cut(f, "=")
		switch key {
		case "contacts":
			p.Contacts = strings.Fields(value)
		case "channels":
			p.Channels, _ = strconv.Atoi(value)
		default:
			p.Ratings[key] = value
		}
	}
	return p
}

// ours is what the panel shows, in the unit of the want.
func (w *worked) ours(t *testing.T) []float64 {
	m := sim.New(&w.panel)
	c, err := m.Condition("normal")
	if err != nil {
		t.Fatal(err)
	}
	var changes []parts.Change
	for _, text := range w.faults {
		f, err := fault.All(m.Net).Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		changes = append(changes, f.Changes...)
	}
	x := m.Replay(c, sim.Start, changes)
	if x.Err() != nil || x.Cycle() != nil {
		t.Fatalf("not at rest: %v %v", x.Err(), x.Cycle())
	}
	at := func(name string) circuit.Node {
		p, ok := m.Net.FindPoint(name)
		if !ok {
			t.Fatalf("no point %s", name)
		}
		return p.Node
	}
	var out []float64
	for _, want := range w.wants {
		if len(want.at) == 2 {
			out = append(out, x.V(at(want.at[0]))-x.V(at(want.at[1])))
			continue
		}
		found := false
		for k := range m.Net.Branches {
			if m.Net.Branches[k].Thing == want.at[0] && !found {
				out, found = append(out, math.Abs(x.DC().I(k))), true
			}
		}
		if !found {
			t.Fatalf("nothing is called %s", want.at[0])
		}
	}
	return out
}

// spice is what ngspice makes of the decks, an entry for each want.
func spice(t *testing.T, all []worked) [][]float64 {
	dir := t.TempDir()
	var script strings.Builder
	script.WriteString("all decks\n.control\nset numdgt=15\n")
	for i, w := range all {
		name := fmt.Sprintf("d%d.cir", i)
		if err := os.WriteFile(filepath.Join(dir, name), []byte(w.text), 0o600); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&script, "source %s\nop\n", name)
		for k, want := range w.wants {
			fmt.Fprintf(&script, "let answer%dof%d = %s\nprint answer%dof%d\n", k, i, want.expr, k, i)
		}
		script.WriteString("destroy all\nremcirc\n")
	}
	script.WriteString("quit 0\n.endc\n.end\n")
	if err := os.WriteFile(filepath.Join(dir, "all.cir"), []byte(script.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("ngspice", "-n", "-b", "all.cir")
	cmd.Dir = dir
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("ngspice: %v (apt-get install ngspice)\n%s", err, out)
	}
	answers := make([][]float64, len(all))
	for i := range all {
		answers[i] = make([]float64, len(all[i].wants))
		for k := range answers[i] {
			_, rest, ok := strings.Cut(string(out), fmt.Sprintf("answer%dof%d = ", k, i))
			value, _, _ := strings.Cut(rest, "\n")
			if answers[i][k], err = strconv.ParseFloat(strings.TrimSpace(value), 64); !ok || err != nil {
				t.Fatalf("%s: ngspice has no answer for %s: %v\n%s", all[i].name, all[i].wants[k].expr, err, out)
			}
		}
	}
	return answers
}

// chapter is where a source says in which book and where in it; what has none is a
// rule of the trade or of a standard.
var chapter = regexp.MustCompile(`^(Lessons in|Navy) .*chapter [0-9]`)

// Published circuits come out alike three ways: as the book has it, as ngspice
// finds it from a deck written by hand, and as the panel shows it.
func TestPublishedCircuits(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/spice/*.cir")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d decks: %v", len(files), err)
	}
	var all []worked
	chapters := 0
	for _, f := range files {
		w := readWorked(t, f)
		all = append(all, w)
		if chapter.MatchString(w.source) {
			chapters++
		}
	}
	if chapters < 20 {
		t.Errorf("only %d decks have a title and a chapter beside them", chapters)
	}
	answers := spice(t, all)
	// The panel has joints and wires that deck and book have not, 0.6 mΩ for each
	// wire, and insulation: at these resistances a few parts in 100,000.
	const joints = 1e-4
	figures := 0
	for i, w := range all {
		t.Run(strings.TrimSuffix(w.name, ".cir"), func(t *testing.T) {
			ours := w.ours(t)
			scale := map[string]float64{"V": 1, "A": 1, "mA": 1e-3}
			most := map[bool]float64{true: 1, false: 1e-3} // of the volts, and of the amperes
			for k, want := range w.wants {
				most[want.unit == "V"] = max(most[want.unit == "V"], math.Abs(answers[i][k]))
			}
			for k, want := range w.wants {
				a, b, allowed := answers[i][k], ours[k], joints*most[want.unit == "V"]
				if !(math.Abs(a-b) <= allowed) {
					t.Errorf("%s: ngspice has %.8g, the panel %.8g", want.expr, a, b)
				}
				if want.figure == "-" {
					continue
				}
				figures++
				unit, ok := scale[want.unit]
				if !ok {
					t.Fatalf("unit %q", want.unit)
				}
				book, half := figure(t, want.figure)
				if !(math.Abs(a/unit-book) <= half) {
					t.Errorf("%s: ngspice has %.8g %s, published is %s (%s)", want.expr, a/unit, want.unit, want.figure, w.source)
				}
				if !(math.Abs(b/unit-book) <= half+allowed/unit) {
					t.Errorf("%s: the panel has %.8g %s, published is %s (%s)", want.expr, b/unit, want.unit, want.figure, w.source)
				}
			}
		})
	}
	t.Logf("%d decks, %d published figures", len(all), figures)
}

// figure is a printed figure and half a unit of its last digit, a little more for
// a 5 that was rounded.
func figure(t *testing.T, s string) (value, half float64) {
	value, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	half = 0.51
	if _, decimals, ok := strings.Cut(s, "."); ok {
		for range decimals {
			half /= 10
		}
	}
	return value, half
}

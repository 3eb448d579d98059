package drill_test

import (
	"errors"
	"strings"
	"testing"

	"halfsplit/core/drill"
	"halfsplit/core/words"
)

// Whatever is done in whatever order, an attempt notes it or refuses it with a code,
// its effort only grows, a replay of its acts is the same attempt, and the debrief
// stands.
func TestAnyActs(t *testing.T) {
	rounds := 120
	if testing.Short() {
		rounds = 30
	}
	things := []string{"", "K1", "P1", "X1:2", "X1:1/out", "W17", "W17@K1:24", "W10@S1:21", "G0", "F0", "T1", "X1:2~X1:3", "X9:3", "PE", "1", "2", "Q7", "@", "W17@", "X2:1", "=A+P-K1"}
	steps := []string{"press S2", "release S2", "press S1", "release S1", "open X1:2", "close X1:2", "switch-off G0", "switch-on G0", "switch-off F0", "switch-on F0", "", "set", "press", "set S1 pressed", "set T1 on"}
	modes := []string{"vdc", "vac", "lowz", "tester", "ma", "clamp", "ohms", "beep", "diode", "", "sniff"}
	n := uint64(7)
	pick := func(list []string) string {
		n = n*6364136223846793005 + 1442695040888963407 // Knuth's MMIX
		return list[int(n>>33)%len(list)]
	}
	for round := range rounds {
		fault := pick([]string{"W17=broken", "X1:2=lever-open", "F0=tripped", "X1:1=fuse-blown", "W17@K1:24=lifted", "W13@K1:13=moved:K1:14", "W10~PE=short"})
		c := set(t, bench(t, fault), round%3)
		a := c.Begin()
		var acts []drill.Act
		for range 25 {
			act := drill.Act{Kind: pick(drill.Kinds[:len(drill.Kinds)-2]), Thing: pick(things), Step: pick(steps), Mode: pick(modes), Red: pick(things), Black: pick(things),
				Why: pick(drill.Whys), Class: pick(append([]string{"odd"}, drill.Classes...))}
			before := a.Seconds()
			_, refused := a.Do(act)
			if refused != nil {
				if refused.Code == "" || !errors.As(error(refused), &refused) {
					t.Fatalf("%+v is refused without a code", act)
				}
				continue
			}
			acts = append(acts, act)
			if a.Seconds() < before {
				t.Fatalf("%+v takes less than no time", act)
			}
		}
		for i := range a.Log {
			sentences(t, a.Log[i].Facts)
		}
		b, refused := c.Replay(acts)
		if refused != nil || len(b.Log) != len(a.Log) || b.Seconds() != a.Seconds() || b.Ended != a.Ended || len(b.Fired) != len(a.Fired) || b.Whole() != a.Whole() {
			t.Fatalf("%s: replayed it is another attempt: %v, %d acts of %d", fault, refused, len(b.Log), len(a.Log))
		}
		d, err := a.Debrief()
		if err != nil || len(d.Lessons) == 0 || len(d.Score.Parts) != 7 {
			t.Fatalf("%s: %v %+v", fault, err, d)
		}
		sentences(t, d.Lessons)
		for _, p := range d.Score.Parts {
			sentences(t, append(p.Facts, drill.Fact{Code: p.Code}))
			if p.Points < 0 || p.Points > p.Of {
				t.Errorf("%s: %d of %d", p.Code, p.Points, p.Of)
			}
		}
	}
}

// sentences checks that facts can be told, arguments that are codes themselves too.
func sentences(t *testing.T, facts []drill.Fact) {
	t.Helper()
	for _, f := range facts {
		if !words.Known("en", f.Code) {
			t.Errorf("%s has no sentence", f.Code)
		}
		for _, arg := range f.Args {
			if code, is := strings.CutPrefix(arg, "@"); is && !words.Known("en", code) {
				t.Errorf("%s in %s has no sentence", code, f.Code)
			}
		}
	}
}

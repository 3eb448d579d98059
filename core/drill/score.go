package drill

import (
	"strconv"
	"strings"

	"halfsplit/core/diagnose"
)

// A Result is what an attempt comes to, before any points.
type Result string

// The results.
const (
	Found     Result = "found"      // component, terminal and kind, with a reading that proves it
	Guessed   Result = "guessed"    // the same without proof
	Partly    Result = "partly"     // some of it
	NotFound  Result = "not-found"  // called wrong, or not at all
	Capped    Result = "capped"     // found, after an act no score makes up for
	GateEnded Result = "gate-ended" // an unsafe act ended it
)

// A Part of the score. Points are out of Of.
type Part struct {
	Code   string
	Points int
	Of     int
	Facts  []Fact
}

// A Score has parts and no sum.
type Score struct {
	Result Result
	Parts  []Part
	Grades []Grade // one a hidden fault, one where nothing is wrong
}

// Points of the parts: choices, in the order of the published scheme that doc.go
// names. Safety has none: a gate ends or caps.
const (
	ofComponent = 15
	ofTerminal  = 10
	ofKind      = 15
	ofProof     = 10
	ofMinutes   = 10
	ofReadings  = 10
	ofParts     = 10
	ofTime      = 5
	ofAfter     = 15
)

// score of an attempt whose search was t, against the best plan.
func (a *Attempt) score(e *diagnose.Engine, t *trail, best *Best) Score {
	s := Score{Grades: a.grades(e, t)}
	s.Result = a.result(s.Grades)
	s.Parts = []Part{
		a.foundPart(s.Grades), proofPart(s.Grades), a.minutesPart(best), a.readingsPart(t, best), a.partsPart(), a.timePart(best), a.afterPart(),
	}
	if s.Result == NotFound { // as in the scheme: not found, nothing for how
		for i := range s.Parts {
			s.Parts[i].Points = 0
		}
	}
	return s
}

func (a *Attempt) result(grades []Grade) Result {
	some, all, proof := false, true, true
	for i := range grades {
		g := &grades[i]
		some = some || g.Component
		all = all && g.whole()
		proof = proof && g.Proof
	}
	capped := false
	for _, f := range a.Fired {
		switch a.Case.Drill.effect(f.Gate) {
		case Ends:
			return GateEnded
		case Caps:
			capped = true
		}
	}
	switch {
	case all && capped:
		return Capped
	case all && proof:
		return Found
	case all:
		return Guessed
	case some:
		return Partly
	}
	return NotFound
}

func (a *Attempt) foundPart(grades []Grade) Part {
	p := Part{Code: "drill.part-found", Of: ofComponent + ofTerminal + ofKind}
	points := 0
	for i := range grades {
		g := &grades[i]
		for _, one := range []struct {
			got  bool
			of   int
			code string
		}{{g.Component, ofComponent, "drill.got-component"}, {g.Terminal, ofTerminal, "drill.got-terminal"}, {g.Kind, ofKind, "drill.got-kind"}} {
			if one.got {
				points += one.of
				p.Facts = append(p.Facts, Fact{Code: one.code})
			}
		}
	}
	p.Points = points / len(grades)
	return p
}

func proofPart(grades []Grade) Part {
	p := Part{Code: "drill.part-proof", Of: ofProof}
	n := 0
	for i := range grades {
		if grades[i].Proof {
			n++
		}
	}
	p.Points = ofProof * n / len(grades)
	return p
}

// searching is the effort up to the last call, proofs of dead apart: those are never
// wasted.
func (a *Attempt) searching() (seconds, readings int) {
	end := len(a.Log)
	if len(a.Calls) > 0 {
		end = a.Calls[len(a.Calls)-1].Act
	}
	for i := range a.Log[:end] {
		switch a.Log[i].Act.Kind {
		case DoProveDead, DoProveTester, DoLock, DoUnlock, DoRepair, DoReplace, DoTighten, DoLand, DoProveFunction:
			continue
		case DoRead:
			readings++
		}
		seconds += a.Log[i].Seconds
	}
	return seconds, readings
}

func (a *Attempt) minutesPart(best *Best) Part {
	used, _ := a.searching()
	p := Part{Code: "drill.part-minutes", Of: ofMinutes, Points: ofMinutes}
	if used > best.Seconds {
		p.Points = ofMinutes * best.Seconds / used
	}
	p.Facts = []Fact{{"drill.minutes-used", []string{minutes(used), minutes(best.Seconds)}}}
	return p
}

// minutes writes seconds as minutes with one decimal.
func minutes(seconds int) string {
	tenths := (seconds + 3) / 6
	return strconv.Itoa(tenths/10) + "." + strconv.Itoa(tenths%10)
}

func (a *Attempt) readingsPart(t *trail, best *Best) Part {
	count := map[Verdict]int{}
	for i := range t.steps {
		count[t.steps[i].Verdict]++
	}
	_, readings := a.searching()
	idle := count[Redundant] + count[Repeated]
	p := Part{Code: "drill.part-readings", Of: ofReadings, Points: max(0, ofReadings-2*idle-2*count[CannotHelp])}
	p.Facts = []Fact{
		{"drill.readings-used", []string{strconv.Itoa(readings), strconv.Itoa(best.Readings())}},
		{"drill.readings-redundant", []string{strconv.Itoa(idle)}},
		{"drill.readings-useless", []string{strconv.Itoa(count[CannotHelp])}},
	}
	return p
}

func (a *Attempt) partsPart() Part {
	p := Part{Code: "drill.part-parts", Of: ofParts, Points: max(0, ofParts-5*len(a.Good))}
	if len(a.Good) > 0 {
		p.Facts = []Fact{{"drill.good-parts", []string{bare(strings.Join(a.Good, ", "))}}}
	}
	return p
}

// mending is what making safe, mending and starting one fault is given, in seconds:
// half an hour, which is what industry expects of a whole fault where a college allows
// a full one (published experience of trainers).
const mending = 1800

// timePart goes by the host's clock where it has one, and is light: a score that
// puts speed first breeds guessing (common practice of trainers).
func (a *Attempt) timePart(best *Best) Part {
	took := a.Seconds()
	if n := len(a.Log); n > 0 && a.Log[n-1].Act.Seconds > 0 {
		took = a.Log[n-1].Act.Seconds
	}
	allowed := 2*best.Seconds + mending*max(1, len(a.Case.Faults))
	p := Part{Code: "drill.part-time", Of: ofTime, Points: ofTime}
	if took > allowed {
		p.Points = ofTime * allowed / took
	}
	p.Facts = []Fact{{"drill.time-took", []string{minutes(took)}}}
	return p
}

// afterPart is what is left behind: function proved, own wires landed, levers and
// locks as they were.
func (a *Attempt) afterPart() Part {
	p := Part{Code: "drill.part-after", Of: ofAfter}
	give := func(ok bool, points int, yes, no string) {
		code := no
		if ok {
			p.Points += points
			code = yes
		}
		p.Facts = append(p.Facts, Fact{Code: code})
	}
	give(a.checked && a.Whole(), 7, "drill.after-function", "drill.after-no-function")
	give(len(a.lifted) == 0 && a.Ended == "done", 4, "drill.after-landed", "drill.after-lifted")
	give(len(a.moves) == 0 && len(a.locked) == 0 && a.Ended == "done", 4, "drill.after-as-it-was", "drill.after-left")
	return p
}

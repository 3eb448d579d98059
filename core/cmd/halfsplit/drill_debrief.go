package main

import (
	"fmt"

	"halfsplit/core/api"
)

// tell prints the debrief: what was known after each step, the score in parts, one
// or two lessons.
func (t *trainee) tell() int {
	r := t.h.Do(api.Request{Op: api.OpDrillDebrief, Session: t.drill.Session, Acts: t.acts})
	if r.Error != nil {
		return t.fail(r.Error)
	}
	d := r.DrillDebrief
	if t.o.asJSON {
		t.json(d)
		return exitDone
	}
	w := t.stdout
	fmt.Fprintf(w, "\n%s\n", d.Text)
	for _, f := range d.Truth {
		fmt.Fprintf(w, "  it was: %s (%s)\n", f.Name, f.Fault)
	}
	if d.Because != "" {
		fmt.Fprintf(w, "  nothing was wrong electrically; %s explains it\n", d.Because)
	}
	for _, x := range d.Drawing {
		fmt.Fprintf(w, "  %s\n", x.Text)
	}
	fmt.Fprintln(w, "\nStep by step:")
	for _, s := range d.Steps {
		e := &t.state.Log[s.Entry]
		shown := ""
		if e.Reading != nil {
			shown = e.Reading.Shown
		}
		fmt.Fprintf(w, "  %s  %s\n    %s: %d suspects before, %d after\n", e.Text, shown, s.Text, s.Before, s.After)
		if s.Why != "" {
			fmt.Fprintf(w, "    %s\n", s.Why)
		}
		if s.Best != nil && s.Verdict != "useful" {
			fmt.Fprintf(w, "    best there: %s\n", s.Best.Text)
		}
	}
	fmt.Fprintf(w, "\nThe best plan, %.1f minutes:\n", d.PlanMinutes)
	for _, p := range d.Plan {
		fmt.Fprintf(w, "  %s: %s\n", p.Text, p.Shown)
	}
	fmt.Fprintln(w, "\nThe parts of the score:")
	for _, p := range d.Parts {
		fmt.Fprintf(w, "  %-32s %2d of %d\n", p.Text, p.Points, p.Of)
		for _, f := range p.Facts {
			fmt.Fprintf(w, "      %s\n", f.Text)
		}
	}
	for _, g := range d.Gates {
		fmt.Fprintf(w, "  ! %s\n", g.Text)
	}
	fmt.Fprintln(w)
	for _, l := range d.Lessons {
		fmt.Fprintf(w, "%s\n", l.Text)
	}
	for _, x := range d.Traps {
		fmt.Fprintf(w, "  trap: %s\n", x.Text)
	}
	if d.Explanation != "" {
		fmt.Fprintf(w, "\n%s\n", d.Explanation)
	}
	for _, s := range d.Sources {
		fmt.Fprintf(w, "  source: %s\n", s)
	}
	if d.NextSeed != 0 {
		fmt.Fprintf(w, "\nThe same kind again, elsewhere: halfsplit drill %s --seed %d\n", t.o.file, d.NextSeed)
	}
	return exitDone
}

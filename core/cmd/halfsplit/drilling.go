package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"halfsplit/core/api"
)

// runDrill runs a drill in the terminal, or answers one question about it.
func runDrill(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	var seed int
	var difficulty, debrief bool
	var acts, short string
	c, code, ok := start("drill", args, 0, stdin, stdout, stderr, func(o *options) {
		o.flags.IntVar(&seed, "seed", 0, "0 as written; another one: the same kind of fault elsewhere")
		o.flags.BoolVar(&difficulty, "difficulty", false, "how hard it is, what fools there, and the sealed file")
		o.flags.StringVar(&acts, "acts", "", "acts in JSON, as the page keeps them, instead of a conversation")
		o.flags.StringVar(&short, "short", "", "possible, predict or choose: a short exercise on the panel FILE, made by --seed")
		o.flags.BoolVar(&debrief, "debrief", false, "with --acts: the debrief instead of the state")
	})
	if !ok {
		return code
	}
	if short != "" {
		return c.exercise(short, seed)
	}
	req, err := c.o.request(stdin)
	if err != nil {
		fmt.Fprintf(stderr, "halfsplit: %v\n", err)
		return exitBad
	}
	req.Seed = seed
	h := api.NewHost()
	if difficulty {
		req.Op = api.OpDrillAuthor
		return c.authored(h.Do(req))
	}
	req.Op = api.OpDrillOpen
	r := h.Do(req)
	if r.Error != nil {
		return c.fail(r.Error)
	}
	t := &trainee{call: c, h: h, drill: r.Drill, state: r.Drill.State}
	switch {
	case acts != "":
		return t.answer(acts, debrief)
	case c.o.asJSON:
		c.json(r.Drill)
		return exitDone
	case c.o.file == "-":
		fmt.Fprintln(stderr, "halfsplit drill: the conversation needs standard input; name a file, or demo:NAME")
		return exitBad
	}
	return t.talk()
}

// authored prints how hard a drill is.
func (c *call) authored(r api.Response) int {
	if r.Error != nil {
		return c.fail(r.Error)
	}
	d := r.DrillAuthored
	if c.o.asJSON {
		c.json(d)
	}
	for _, p := range d.Problems {
		printProblem(c.stderr, c.o.file, p)
	}
	if d.Steps == 0 && len(d.Problems) > 0 {
		return exitNo
	}
	if c.o.asJSON {
		return exitDone
	}
	fmt.Fprintf(c.stdout, "grade %d: %d steps of the best plan, %d of them readings, %.1f minutes; %d suspects after the call, %d faults nobody tells apart; %d variations\n",
		d.Grade, d.Steps, d.Readings, d.Minutes, d.Suspects, d.Alike, d.Again)
	if !d.Found {
		fmt.Fprintln(c.stdout, "the best plan does not come upon all that is hidden")
	}
	for _, t := range d.Traps {
		fmt.Fprintf(c.stdout, "  trap: %s\n", t.Text)
	}
	return exitDone
}

// A trainee is one conversation in the terminal.
type trainee struct {
	*call
	h     *api.Host
	drill *api.Drill
	state *api.DrillState
	acts  []api.DrillAct
}

// answer replays acts given at once.
func (t *trainee) answer(acts string, debrief bool) int {
	if err := json.Unmarshal([]byte(acts), &t.acts); err != nil {
		fmt.Fprintf(t.stderr, "halfsplit drill: --acts: %v\n", err)
		return exitBad
	}
	if debrief {
		return t.tell()
	}
	t.act()
	if t.o.asJSON {
		t.json(t.state)
		return exitDone
	}
	for i := range t.state.Log {
		t.show(i)
	}
	return exitDone
}

// act sends all acts and keeps the state; false where the last was refused.
func (t *trainee) act() bool {
	r := t.h.Do(api.Request{Op: api.OpDrillAct, Session: t.drill.Session, Acts: t.acts})
	if r.Error != nil {
		fmt.Fprintln(t.stderr, r.Error.Text.Text)
		return false
	}
	t.state = r.DrillState
	if e := t.state.Refused; e != nil {
		t.acts = t.acts[:len(t.state.Log)]
		fmt.Fprintf(t.stdout, "  %s\n", e.Text.Text)
		if e.Hint != "" {
			fmt.Fprintf(t.stdout, "  %s\n", e.Hint)
		}
		if len(e.Choices) > 0 {
			fmt.Fprintf(t.stdout, "  %s\n", strings.Join(e.Choices, ", "))
		}
		return false
	}
	return true
}

// talk is the conversation: a line an act, until it ends.
func (t *trainee) talk() int {
	d := t.drill
	fmt.Fprintf(t.stdout, "%s, grade %d, on: %s\n\n“%s”\n\n", d.Name, d.Grade, d.Panel.Name, d.Complaint)
	for i, q := range d.Questions {
		fmt.Fprintf(t.stdout, "  ask %d: %s\n", i+1, q)
	}
	for _, c := range d.Panel.Cautions {
		fmt.Fprintf(t.stdout, "  ! %s\n", c.Text)
	}
	fmt.Fprintln(t.stdout, "\nType an act, a number from the list, or ? for the list.")
	in := bufio.NewScanner(t.stdin)
	for t.state.Ended == "" {
		fmt.Fprintf(t.stdout, "%.1f min> ", t.state.Minutes)
		if !in.Scan() {
			t.acts = append(t.acts, api.DrillAct{Kind: "give-up"})
			t.act()
			break
		}
		act, ok := t.understand(in, strings.Fields(in.Text()))
		if !ok {
			continue
		}
		t.acts = append(t.acts, act)
		if t.act() {
			t.show(len(t.state.Log) - 1)
		}
	}
	return t.tell()
}

// show prints one act and what came of it.
func (t *trainee) show(i int) {
	e := &t.state.Log[i]
	fmt.Fprintf(t.stdout, "  %s\n", e.Text)
	if e.Reading != nil {
		fmt.Fprintf(t.stdout, "    %s\n", e.Reading.Shown)
	}
	for _, s := range e.Seen {
		fmt.Fprintf(t.stdout, "    %s\n", s.Text)
	}
	for _, g := range t.state.Gates {
		if g.Act == i {
			fmt.Fprintf(t.stdout, "    ! %s\n", g.Text)
		}
	}
}

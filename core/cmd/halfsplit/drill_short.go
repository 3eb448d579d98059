package main

import (
	"bufio"
	"fmt"
	"strconv"
	"strings"

	"halfsplit/core/api"
)

// exercise shows a short exercise of a panel, reads the answers and marks them.
func (c *call) exercise(form string, seed int) int {
	h := api.NewHost()
	req, err := c.o.request(c.stdin)
	if err != nil {
		fmt.Fprintf(c.stderr, "halfsplit drill: %v\n", err)
		return exitBad
	}
	req.Op = api.OpOpen
	r := h.Do(req)
	if r.Error != nil {
		return c.fail(r.Error)
	}
	ask := api.Request{Op: api.OpDrillShort, Session: r.Opened.Session, At: c.o.at, Form: form, Seed: seed}
	r = h.Do(ask)
	if r.Error != nil {
		return c.fail(r.Error)
	}
	x := r.DrillShort
	if c.o.asJSON {
		c.json(x)
		return exitDone
	}
	c.pose(x)
	marks, err := c.answers(x)
	if err != nil {
		fmt.Fprintf(c.stderr, "halfsplit drill: %v\n", err)
		return exitBad
	}
	ask.Marks = marks
	r = h.Do(ask)
	if r.Error != nil {
		return c.fail(r.Error)
	}
	for i, m := range r.DrillShort.Marks {
		fmt.Fprintf(c.stdout, "  %d. %s\n", i+1, m.Text)
	}
	fmt.Fprintf(c.stdout, "%d of %d. It was: %s\n", r.DrillShort.Right, len(r.DrillShort.Marks), r.DrillShort.Truth)
	return exitDone
}

func (c *call) pose(x *api.DrillShort) {
	for _, g := range x.Given {
		fmt.Fprintf(c.stdout, "  %s\n", g.Text)
	}
	fmt.Fprintf(c.stdout, "%s\n", x.Text)
	for i, item := range x.Items {
		fmt.Fprintf(c.stdout, "  %d. %s\n", i+1, item.Text)
	}
	for i, s := range x.Suspects {
		fmt.Fprintf(c.stdout, "  suspect %d: %s\n", i+1, s)
	}
	for i, o := range x.Options {
		fmt.Fprintf(c.stdout, "  %d. %s\n", i+1, o.Text)
		for k, shown := range o.Outcomes {
			fmt.Fprintf(c.stdout, "       outcome %d: %s\n", k+1, shown)
		}
	}
}

// answers reads one line an item: a letter or word for it; for a choice its number,
// then a line of suspects for each outcome.
func (c *call) answers(x *api.DrillShort) (*api.DrillMarks, error) {
	in := bufio.NewScanner(c.stdin)
	line := func(prompt string) string {
		fmt.Fprintf(c.stdout, "%s: ", prompt)
		in.Scan()
		return strings.TrimSpace(in.Text())
	}
	m := &api.DrillMarks{}
	for i := range x.Items {
		var words []string
		for _, a := range x.Answers {
			words = append(words, a.Code)
		}
		text := line(strconv.Itoa(i+1) + " (" + strings.Join(words, ", ") + ")")
		for _, w := range words {
			if text != "" && strings.HasPrefix(w, text) {
				text = w
				break
			}
		}
		m.Each = append(m.Each, text)
	}
	if len(x.Options) == 0 {
		return m, nil
	}
	n, err := strconv.Atoi(line("number of the step"))
	if err != nil || n < 1 || n > len(x.Options) {
		return nil, fmt.Errorf("give the number of one of the %d steps", len(x.Options))
	}
	m.Choice = n - 1
	for k := range x.Options[m.Choice].Outcomes {
		var who []int
		for _, w := range strings.Fields(line("suspects for outcome " + strconv.Itoa(k+1))) {
			if i, err := strconv.Atoi(w); err == nil {
				who = append(who, i-1)
			}
		}
		m.Means = append(m.Means, who)
	}
	return m, nil
}

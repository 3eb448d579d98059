package main

import (
	"fmt"
	"slices"
	"strings"

	"halfsplit/core/api"
)

// searches measures a search on generated panels in Chromium's worker, as the page
// asks for it.
func (b *bench) searches() error {
	c, err := startChromium()
	if err != nil {
		return err
	}
	defer c.stop()
	t := table{title: "A search in the browser",
		about: "Chromium's worker, asked as the page asks it: first with one dead device, until there are suspects and a next step; then with that step's likeliest outcome, and so on. Silent: the longest without progress or an answer. Memory: bytes of WebAssembly, which never shrink. Time on the wall.",
		head:  []string{"terminals", "dead device", "first answer", "silent", "memory", "another reading", "wanted", ""}}
	for _, size := range []int{100, 1000} {
		if err := b.search(c, &t, size); err != nil {
			return err
		}
	}
	b.pages = append(b.pages, t)
	return nil
}

// patience is how long a search may prepare before we say how far it came, and
// budget what the page asks for at a time.
const (
	patience = 600 // s
	budget   = 30
)

// search opens a generated panel, says of a device in the middle that it is dead,
// and enters what is likeliest after that.
func (b *bench) search(c *chromium, t *table, size int) error {
	if err := c.worker(); err != nil {
		return err
	}
	open := b.drawn(size)
	opened, err := c.ask(open, 600)
	if err != nil {
		return err
	}
	find := api.Request{Op: api.OpFind, Session: opened.Session, At: "normal", Budget: budget,
		Observations: &api.Observations{Dead: []string{b.middle(open)}}}
	first, err := c.ask(find, patience)
	if err != nil {
		if strings.Contains(err.Error(), "web/bench ended") {
			return err
		}
		t.add(fmt.Sprint(size), find.Observations.Dead[0], err.Error(), "", "", "", "", verdict(false))
		return nil
	}
	if first.Progress != nil {
		t.add(fmt.Sprint(size), find.Observations.Dead[0], fmt.Sprintf("%d of %d after %d s", first.Progress.Done, first.Progress.Total, patience),
			milliseconds(first.Longest), fmt.Sprintf("%.0f MB", first.Memory/1e6), "", "", verdict(false))
		return nil
	}
	var list []float64
	memory, silent := first.Memory, first.Longest
	for n := first.Next; n != nil && len(list) < 2*rounds; {
		if !enter(&find, n) {
			break
		}
		a, err := c.ask(find, 600)
		if err != nil {
			return err
		}
		list, memory, n = append(list, a.MS), a.Memory, a.Next
		silent = max(silent, a.Longest)
	}
	if len(list) == 0 {
		return fmt.Errorf("nothing to enter on the panel of %d terminals", size)
	}
	t.add(fmt.Sprint(size), find.Observations.Dead[0], milliseconds(first.MS), milliseconds(silent), fmt.Sprintf("%.0f MB", memory/1e6),
		span(list), "silent and another reading < 1 s, < 500 MB", verdict(silent < 1000 && slices.Max(list) < 1000 && memory < 500e6))
	return nil
}

// middle is a device in the middle of the list that is on.
func (b *bench) middle(open api.Request) string {
	h := api.NewHost()
	session := h.Do(open).Opened.Session
	devices := h.Do(api.Request{Op: api.OpState, Session: session, At: "normal"}).State.Devices
	for i := len(devices) / 2; ; i++ {
		if devices[i].Grade == "on" {
			return devices[i].Ref
		}
	}
}

// enter adds a step's likeliest outcome to the observations.
func enter(find *api.Request, n *api.Next) bool {
	best := -1
	for i := range n.Outcomes {
		if best < 0 || n.Outcomes[i].Probability > n.Outcomes[best].Probability {
			best = i
		}
	}
	if best < 0 {
		return false // the repair
	}
	o, at := &n.Outcomes[best], n.With
	switch n.Kind {
	case "look":
		find.Observations.Sees = append(find.Observations.Sees, api.Look{Ref: n.Ref, State: o.State, At: at})
	case "reading":
		find.Observations.Readings = append(find.Observations.Readings, api.Reading{Mode: n.Mode, Red: n.Red, Black: n.Black, Value: o.Value, At: at})
	default:
		return false
	}
	return true
}

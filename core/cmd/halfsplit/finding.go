package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"halfsplit/core/api"
)

func runFind(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	var dead, works, sees, readings, earlier many
	var observed string
	var all bool
	c, code, ok := start("find", args, 0, stdin, stdout, stderr, func(o *options) {
		o.flags.Var(&dead, "dead", "a device that should be on and is off; may be repeated")
		o.flags.Var(&works, "works", "a device that is as it should be; may be repeated")
		o.flags.Var(&sees, "sees", "a state seen: REF=STATE[@STEP]; may be repeated")
		o.flags.Var(&readings, "reading", "\"MODE RED BLACK VALUE[@STEP]\"; may be repeated")
		o.flags.Var(&earlier, "earlier", "a fault that an earlier job at this panel found; may be repeated")
		o.flags.StringVar(&observed, "observed", "", "observations in JSON, as the page keeps them")
		o.flags.BoolVar(&all, "all", false, "list every hypothesis")
	})
	if !ok {
		return code
	}
	obs, err := observations(dead, works, sees, readings, observed)
	if err != nil {
		fmt.Fprintf(stderr, "halfsplit find: %v\n", err)
		return exitBad
	}
	r, code := c.ask(api.OpFind, func(q *api.Request) {
		q.Observations, q.All = obs, all
		for _, f := range earlier {
			q.History = append(q.History, api.Earlier{Faults: []string{f}})
		}
	})
	if r == nil {
		return code
	}
	if c.o.asJSON {
		c.json(r.Find)
	} else {
		printFind(stdout, r.Find)
	}
	if r.Find.Status == "nothing-explains" {
		return exitNo
	}
	return exitDone
}

func observations(dead, works, sees, readings []string, observed string) (*api.Observations, error) {
	obs := &api.Observations{}
	if observed != "" {
		dec := json.NewDecoder(strings.NewReader(observed))
		dec.DisallowUnknownFields()
		if err := dec.Decode(obs); err != nil {
			return nil, fmt.Errorf("--observed: %w", err)
		}
	}
	obs.Dead = append(obs.Dead, dead...)
	obs.Works = append(obs.Works, works...)
	for _, s := range sees {
		s, at, _ := strings.Cut(s, "@")
		ref, state, ok := strings.Cut(s, "=")
		if !ok {
			return nil, fmt.Errorf("--sees %q: give REF=STATE, such as P1=dark", s)
		}
		obs.Sees = append(obs.Sees, api.Look{Ref: ref, State: state, At: at})
	}
	for _, s := range readings {
		r, err := parseReading(s)
		if err != nil {
			return nil, err
		}
		obs.Readings = append(obs.Readings, r)
	}
	return obs, nil
}

// parseReading reads "vdc X1:3/out X1:9 24.1@press S2", "clamp W12 0.0121",
// "ma X1:2 19.97", "beep X1:1/in X1:1/out silent@power-off". The condition stands
// after the last @ behind the value; strands have an @ of their own.
func parseReading(s string) (api.Reading, error) {
	f := strings.Fields(s)
	points := 2
	if len(f) > 2 && (f[0] == "clamp" || f[0] == "ma") && isFigure(f[2]) {
		points = 1 // the wire, or what is opened
	}
	if len(f) < 2+points {
		return api.Reading{}, fmt.Errorf("--reading %q: give MODE RED BLACK VALUE, such as \"vdc X1:3/out X2:1 24.1\", or clamp WIRE VALUE", s)
	}
	r := api.Reading{Mode: f[0], Red: f[1]}
	if points == 2 {
		r.Black = f[2]
	}
	value, at, _ := strings.Cut(strings.Join(f[1+points:], " "), "@")
	r.At = strings.TrimSpace(at)
	value = strings.TrimSpace(value)
	switch value {
	case "OL", "beep", "silent":
		r.Shown = value
		return r, nil
	}
	v, err := strconv.ParseFloat(strings.Replace(value, ",", ".", 1), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return r, fmt.Errorf("--reading %q: %q is no number and not OL, beep or silent", s, value)
	}
	r.Value = &v
	return r, nil
}

// isFigure says whether a word is the figure of a reading, not a point.
func isFigure(word string) bool {
	value, _, _ := strings.Cut(word, "@")
	_, err := strconv.ParseFloat(strings.Replace(value, ",", ".", 1), 64)
	return err == nil
}

func printFind(w io.Writer, f *api.Find) {
	fmt.Fprintln(w, f.Text)
	if f.Misfit != nil {
		fmt.Fprintf(w, "  %s\n", f.Misfit.Text)
	}
	for i, s := range f.Suspects {
		mark := " "
		if !s.Consistent {
			mark = "?"
		}
		fmt.Fprintf(w, "%3d. %5.1f %% %s %s: %s\n", i+1, 100*s.Probability, mark, s.Place, s.Names[0])
		if len(s.Names) > 1 {
			fmt.Fprintf(w, "              and %d more at the same place or alike\n", len(s.Names)-1)
		}
	}
	if f.Next != nil {
		fmt.Fprintf(w, "\nNext: %s\n", f.Next.Text)
		if f.Next.Kind != "repair" {
			fmt.Fprintf(w, "  with %s; a sound panel shows %s; %.1f minutes\n", f.Next.WithText, f.Next.Expect, f.Next.Minutes)
		}
		for _, o := range f.Next.Outcomes {
			fmt.Fprintf(w, "  %-12s %3.0f %%  %s\n", o.Shown, 100*o.Probability, o.Text)
		}
		for _, t := range f.Next.Cautions {
			fmt.Fprintf(w, "  ! %s\n", t.Text)
		}
	}
	for _, t := range f.Checklist {
		fmt.Fprintf(w, "  [ ] %s\n", t.Text)
	}
	for _, h := range f.All {
		fmt.Fprintf(w, "%10.6f  %-44s worst %.1f sigma\n", h.Probability, h.Fault, h.Worst)
	}
}

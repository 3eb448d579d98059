package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"halfsplit/core/api"
)

func runState(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c, code, ok := start("state", args, 0, stdin, stdout, stderr, nil)
	if !ok {
		return code
	}
	r, code := c.ask(api.OpState, nil)
	if r == nil {
		return code
	}
	if c.o.asJSON {
		c.json(r.State)
		return exitDone
	}
	w := tabwriter.NewWriter(stdout, 0, 4, 2, ' ', 0)
	fmt.Fprintln(w, "point\tV DC\tV AC\t")
	for _, p := range r.State.Points {
		floating := ""
		if p.Floating {
			floating = "floating"
		}
		fmt.Fprintf(w, "%s\t%.2f\t%.1f\t%s\n", p.Point, p.VDC, p.VAC, floating)
	}
	fmt.Fprintln(w, "\t\t\t\ndevice\tstate\tV\tA")
	for _, d := range r.State.Devices {
		fmt.Fprintf(w, "%s\t%s\t%.2f\t%.4f\n", d.Ref, d.Text, d.Volts, d.Amps)
	}
	for _, l := range r.State.Lights {
		fmt.Fprintf(w, "%s\tlight %s\t%.2f\t%.4f\n", l.Ref, l.Text, l.Volts, l.Amps)
	}
	w.Flush()
	for _, f := range r.State.Flags {
		fmt.Fprintln(stdout, f.Text)
	}
	return exitDone
}

func runWhatIf(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c, code, ok := start("whatif", args, 0, stdin, stdout, stderr, nil)
	if !ok {
		return code
	}
	r, code := c.ask(api.OpWhatIf, nil)
	if r == nil {
		return code
	}
	if c.o.asJSON {
		c.json(r.WhatIf)
		return exitDone
	}
	for _, f := range r.WhatIf.Faults {
		fmt.Fprintf(stdout, "If %s:\n", f.Name)
	}
	fmt.Fprintln(stdout, r.WhatIf.Text)
	for _, a := range r.WhatIf.Affected {
		fmt.Fprintf(stdout, "\n%s  [was %s, now %s at %.2f V]\n", a.Text, a.Was.Text, a.Now.Text, a.Now.Volts)
		for _, y := range a.Why {
			fmt.Fprintf(stdout, "  because %s\n", y.Text)
		}
		if a.Process != "" {
			fmt.Fprintf(stdout, "  the plant: %s\n", a.Process)
		}
	}
	if len(r.WhatIf.Timeline) > 0 {
		fmt.Fprintln(stdout)
	}
	for _, e := range r.WhatIf.Timeline {
		fmt.Fprintf(stdout, "%8.0f to %.0f ms: %s\n", e.MSMin, e.MSMax, e.Event)
	}
	for _, t := range append(r.WhatIf.Flags, r.WhatIf.Cautions...) {
		fmt.Fprintf(stdout, "\n%s\n", t.Text)
	}
	return exitDone
}

func runSweep(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c, code, ok := start("sweep", args, 0, stdin, stdout, stderr, nil)
	if !ok {
		return code
	}
	r, code := c.ask(api.OpSweep, nil)
	if r == nil {
		return code
	}
	if c.o.asJSON {
		c.json(r.Sweep.Rows)
		return exitDone
	}
	for _, row := range r.Sweep.Rows {
		var list []string
		for _, a := range row.Affected {
			list = append(list, a.Ref+" "+a.Effect)
		}
		fmt.Fprintf(stdout, "%-44s %s\n", row.Fault, strings.Join(list, ", "))
	}
	return exitDone
}

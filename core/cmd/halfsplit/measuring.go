package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"

	"halfsplit/core/api"
)

// runMeter shows what a meter shows, or with --each what it would show under each
// of several faults.
func runMeter(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	var q api.Request
	var each many
	mine := figures{}
	c, code, ok := start("meter", args, 0, stdin, stdout, stderr, func(o *options) {
		o.flags.StringVar(&q.Mode, "mode", "vdc", "vdc vac lowz tester ma clamp ohms beep diode")
		o.flags.StringVar(&q.Red, "red", "", "point of the red probe; a wire for clamp; for ma the wire end, block or fuse that is opened")
		o.flags.StringVar(&q.Black, "black", "", "point of the black probe; none for clamp, and for ma where red names what is opened")
		o.flags.BoolVar(&q.Load, "load", false, "the load button of the tester is pressed")
		o.flags.Var(mine, "my-meter", "a figure of the meter, input_ohms=1e6; may be repeated")
		o.flags.Var(&each, "each", "a fault to predict for, or a thing for all of its faults; may be repeated")
	})
	if !ok {
		return code
	}
	op := api.OpMeter
	if len(each) > 0 {
		op = api.OpPredict
	}
	r, code := c.ask(op, func(to *api.Request) {
		to.Mode, to.Red, to.Black, to.Load, to.MyMeter, to.Each = q.Mode, q.Red, q.Black, q.Load, mine, each
	})
	if r == nil {
		return code
	}
	if op == api.OpPredict {
		return c.predict(r.Predict)
	}
	switch m := r.Meter; {
	case c.o.asJSON:
		c.json(m)
	case m.Refused != "":
		fmt.Fprintf(stdout, "refused: %s\n  hint: %s\n", m.Refused, m.Hint)
		if m.Consequence != nil {
			fmt.Fprintln(stdout, m.Consequence.Text)
		}
	default:
		fmt.Fprintln(stdout, m.Shown)
		for _, t := range append(m.Disturbs, m.Notes...) {
			fmt.Fprintln(stdout, t.Text)
		}
	}
	return exitDone
}

func (c *call) predict(p *api.Predict) int {
	if c.o.asJSON {
		c.json(p)
		return exitDone
	}
	w := tabwriter.NewWriter(c.stdout, 0, 4, 2, ' ', 0)
	for _, row := range append([]api.Prediction{p.Healthy}, p.Rows...) {
		shown, mark := row.Shown, ""
		if row.Refused != "" {
			shown = "refused: " + row.Refused
		}
		if row.Differs {
			mark = "*"
		}
		fault := row.Fault
		if fault == "" {
			fault = "healthy"
		}
		fmt.Fprintf(w, "%s\t%s\t%s\n", fault, shown, mark)
	}
	w.Flush()
	return exitDone
}

// figures are the flags KEY=VALUE of a meter.
type figures map[string]float64

func (f figures) String() string { return "" }

func (f figures) Set(s string) error {
	key, value, ok := strings.Cut(s, "=")
	v, err := strconv.ParseFloat(value, 64)
	if !ok || err != nil {
		return fmt.Errorf("write KEY=VALUE, such as input_ohms=1e6")
	}
	f[key] = v
	return nil
}

package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"time"

	"halfsplit/core/api"
	"halfsplit/core/generate"
	"halfsplit/core/panel"
)

// A chromium is web/bench, which drives the browser: one command a line, one
// answer a line.
type chromium struct {
	cmd *exec.Cmd
	in  io.WriteCloser
	out *bufio.Reader
}

// asked is what web/bench tells of one question to the core.
type asked struct {
	MS       float64   `json:"ms"`
	Longest  float64   `json:"longest"`
	Memory   float64   `json:"memory"`
	Bytes    int       `json:"bytes"`
	Session  int       `json:"session"`
	Next     *api.Next `json:"next"` // of a search
	Error    string    `json:"error"`
	Progress *struct {
		Done  int `json:"done"`
		Total int `json:"total"`
	} `json:"progress"`
}

func startChromium() (*chromium, error) {
	c := &chromium{cmd: exec.Command("npx", "tsx", "bench/bench.ts")}
	c.cmd.Dir = "web"
	c.cmd.Stderr = os.Stderr
	var err error
	if c.in, err = c.cmd.StdinPipe(); err != nil {
		return nil, err
	}
	out, err := c.cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	c.out = bufio.NewReader(out)
	return c, c.cmd.Start()
}

func (c *chromium) stop() {
	c.in.Close()
	_ = c.cmd.Wait() // it has told what there is to tell
}

func (c *chromium) do(command map[string]any, answer any) error {
	line, err := json.Marshal(command)
	if err != nil {
		return err
	}
	if _, err := c.in.Write(append(line, '\n')); err != nil {
		return err
	}
	text, err := c.out.ReadBytes('\n')
	if err != nil {
		return fmt.Errorf("web/bench ended: %w", err)
	}
	var failed struct {
		Error string `json:"error"`
	}
	if err := json.Unmarshal(text, &failed); err == nil && failed.Error != "" {
		return fmt.Errorf("web/bench: %s", failed.Error)
	}
	return json.Unmarshal(text, answer)
}

func (c *chromium) worker() error {
	return c.do(map[string]any{"kind": "worker"}, &struct{}{})
}

func (c *chromium) ask(r api.Request, seconds int) (a asked, err error) {
	return a, c.do(map[string]any{"kind": "ask", "request": r, "seconds": seconds}, &a)
}

// drawn is a request that opens a generated panel.
func (b *bench) drawn(size int) api.Request {
	return api.Request{Op: api.OpOpen, Text: string(panel.Write(generate.Generate(size, b.seed)))}
}

var skid = api.Request{Op: api.OpOpen, Demo: "dosing-skid"}

// browser measures the core in Chromium's worker, and the page.
func (b *bench) browser() error {
	c, err := startChromium()
	if err != nil {
		return err
	}
	defer c.stop()
	for _, part := range []func(*chromium) error{b.ratio, b.waiting, b.inBrowserMemory} {
		if err := part(c); err != nil {
			return err
		}
	}
	return nil
}

// ratio compares the sweep in the browser with the native one.
func (b *bench) ratio(c *chromium) error {
	t := table{title: "In the browser, against native",
		about: "The sweep of all faults through `core/api`, the answer in JSON included: natively on one thread, and in the page's worker in Chromium. The panel is open and has been solved once. Time on the wall.",
		head:  []string{"panel", "native", "Chromium", "ratio", "wanted", ""}}
	for _, p := range []struct {
		name string
		open api.Request
	}{{"dosing skid", skid}, {"300 terminals", b.drawn(300)}} {
		if err := c.worker(); err != nil {
			return err
		}
		var native, there, ratios []float64
		for range rounds {
			ours, bytes, err := sweepNatively(p.open)
			if err != nil {
				return err
			}
			opened, err := c.ask(p.open, 600)
			if err != nil {
				return err
			}
			if _, err := c.ask(api.Request{Op: api.OpState, Session: opened.Session, At: "normal"}, 600); err != nil {
				return err
			}
			theirs, err := c.ask(api.Request{Op: api.OpSweep, Session: opened.Session, At: "normal"}, 600)
			if err != nil {
				return err
			}
			if theirs.Bytes != bytes {
				return fmt.Errorf("the sweep of the %s has %d bytes natively and %d in the browser", p.name, bytes, theirs.Bytes)
			}
			if _, err := c.ask(api.Request{Op: api.OpClose, Session: opened.Session}, 600); err != nil {
				return err
			}
			native, there, ratios = append(native, ours), append(there, theirs.MS), append(ratios, theirs.MS/ours)
		}
		r := median(ratios)
		t.add(p.name, milliseconds(median(native)), milliseconds(median(there)), fmt.Sprintf("%.2f×", r), "≤ 3.5×", verdict(r <= 3.5))
		b.log("  %s", p.name)
	}
	b.pages = append(b.pages, t)
	return nil
}

func milliseconds(ms float64) string { return short(time.Duration(ms * float64(time.Millisecond))) }

// sweepNatively gives the milliseconds of a sweep and the bytes of its answer.
func sweepNatively(open api.Request) (ms float64, bytes int, err error) {
	h := api.NewHost()
	opened := h.Do(open)
	if opened.Opened == nil {
		return 0, 0, fmt.Errorf("%+v", opened.Error)
	}
	session := opened.Opened.Session
	h.Do(api.Request{Op: api.OpState, Session: session, At: "normal"})
	request, err := json.Marshal(api.Request{Op: api.OpSweep, Session: session, At: "normal"})
	if err != nil {
		return 0, 0, err
	}
	before := wall()
	out := h.Handle(request)
	return float64(wall()-before) / float64(time.Millisecond), len(out), nil
}

// waiting is what a person waits for.
func (b *bench) waiting(c *chromium) error {
	t := table{title: "Waiting at the phone's page",
		about: "Chromium, this machine, from the event to what is on the screen; for generated panels to the worker's answer, device by device. Medians; the longest in brackets. Time on the wall.",
		head:  []string{"what", "time", "wanted", ""}}
	var cold struct{ First, Again []float64 }
	if err := c.do(map[string]any{"kind": "cold", "times": rounds}, &cold); err != nil {
		return err
	}
	for _, start := range []struct {
		what  string
		times []float64
	}{{"first load, to the answer of a what-if on the skid", cold.First}, {"the same, a phone that has the page (service worker)", cold.Again}} {
		ms := median(start.times)
		t.add(start.what, span(start.times), "< 1 s", verdict(ms < 1000))
	}
	var entered struct{ MS []float64 }
	if err := c.do(map[string]any{"kind": "entries"}, &entered); err != nil {
		return err
	}
	if len(entered.MS) == 0 {
		return fmt.Errorf("no reading was entered on the page")
	}
	t.add("skid, a reading entered to suspects and next prompt", span(entered.MS), "< 100 ms", verdict(median(entered.MS) < 100))
	b.pages = append(b.pages, t)
	return nil
}

func span(list []float64) string {
	most := list[0]
	for _, v := range list {
		most = max(most, v)
	}
	return fmt.Sprintf("%s (%s)", milliseconds(median(list)), milliseconds(most))
}

// inBrowserMemory opens a large panel in a worker and asks a what-if.
func (b *bench) inBrowserMemory(c *chromium) error {
	t := table{title: "Memory, in the browser",
		about: "Bytes of the worker's WebAssembly memory, which never shrinks, after a panel was opened, solved, and one what-if answered.",
		head:  []string{"terminals", "opened", "solved", "what-if", "wanted", ""}}
	if err := c.worker(); err != nil {
		return err
	}
	opened, err := c.ask(b.drawn(5000), 600)
	if err != nil {
		return err
	}
	solved, err := c.ask(api.Request{Op: api.OpState, Session: opened.Session, At: "normal"}, 600)
	if err != nil {
		return err
	}
	tried, err := c.ask(api.Request{Op: api.OpWhatIf, Session: opened.Session, At: "normal", Faults: []string{"W1=broken"}}, 600)
	if err != nil {
		return err
	}
	mb := func(a asked) string { return fmt.Sprintf("%.0f MB", a.Memory/1e6) }
	t.add("5000", mb(opened), mb(solved), mb(tried), "< 500 MB", verdict(tried.Memory < 500e6))
	b.pages = append(b.pages, t)
	return nil
}

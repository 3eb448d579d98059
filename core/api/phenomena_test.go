package api_test

import (
	"encoding/json"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"halfsplit/core/api"
	"halfsplit/core/unit"
)

// A phenomenon is one file of testdata/vectors/phenomena: a small panel of its
// own and what fools a technician on it, case by case.
type phenomenon struct {
	About string          `json:"about"`
	Panel json.RawMessage `json:"panel"` // a panel document
	Cases []fooled        `json:"cases"`
}

// A fooled case is one state of the panel with what a meter shows, what the
// devices do and what the what-if answers. Every figure comes from Source.
type fooled struct {
	vector
	Devices  map[string]string `json:"devices"`  // REF → state, of devices and of blown-link indicators
	Affected []affected        `json:"affected"` // all there are, in any order; needs faults
	Ghosts   []ghost           `json:"ghosts"`   // readings that insulation decides
	// Seen is what fools: from it the search keeps the first fault among the first
	// three suspects, and every observation fits it.
	Seen *api.Observations `json:"seen"`
}

// affected is one device of the what-if. Why lists codes of package words that
// must be among its reasons, in this order; Says what must stand in a sentence.
type affected struct {
	Ref    string   `json:"ref"`
	Effect string   `json:"effect"`
	Why    []string `json:"why"`
	Says   []string `json:"says"`
}

// A ghost is a reading between bounds, in volts: insulation is not the same twice.
type ghost struct {
	Mode, Red, Black string
	Least, Most      float64
}

// ask does one request of a case and fails with the core's own words.
func (c *fooled) ask(t *testing.T, h *api.Host, r api.Request) api.Response {
	t.Helper()
	r.At, r.Onset, r.Faults = c.At, c.Onset, c.Faults
	a := h.Do(r)
	if a.Error != nil {
		t.Fatal(a.Error.Text.Text, a.Error.Hint)
	}
	return a
}

// What fools a technician comes out as worked by hand: readings, states, who is
// affected and why.
func TestPhenomena(t *testing.T) {
	for _, file := range files(t, "testdata/vectors/phenomena/*.json") {
		var p phenomenon
		read(t, file, &p)
		h := api.NewHost()
		open := h.Do(api.Request{Op: api.OpOpen, Text: string(p.Panel)})
		if open.Error != nil {
			t.Fatal(file, open.Error.Text.Text, open.Error.Problems)
		}
		for _, pr := range open.Opened.Problems {
			if pr.Severity == "error" {
				t.Errorf("%s: %s", file, pr.Text.Text)
			}
		}
		s := open.Opened.Session
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		for i := range p.Cases {
			c := &p.Cases[i]
			t.Run(name+"/"+strconv.Itoa(i), func(t *testing.T) {
				if c.About == "" || c.Source == "" || len(c.Measure)+len(c.Devices)+len(c.Affected)+len(c.Ghosts) == 0 {
					t.Fatal("a case says what it shows, names its source and asserts something")
				}
				t.Log(c.About)
				for _, m := range c.Measure {
					if r := c.ask(t, h, api.Request{Op: api.OpMeter, Session: s, Mode: m.Mode, Red: m.Red, Black: m.Black}); r.Meter.Shown != m.Want {
						t.Errorf("%s %s – %s shows %q, want %q (%s)", m.Mode, m.Red, m.Black, r.Meter.Shown, m.Want, c.Source)
					}
				}
				for _, g := range c.Ghosts {
					r := c.ask(t, h, api.Request{Op: api.OpMeter, Session: s, Mode: g.Mode, Red: g.Red, Black: g.Black})
					if v := r.Meter.Value; v == nil || !(*v >= g.Least && *v <= g.Most) {
						t.Errorf("%s %s – %s shows %q, want %g to %g (%s)", g.Mode, g.Red, g.Black, r.Meter.Shown, g.Least, g.Most, c.Source)
					}
				}
				c.states(t, c.ask(t, h, api.Request{Op: api.OpState, Session: s}).State)
				if c.Seen != nil {
					c.search(t, h, s)
				}
				if len(c.Faults) > 0 {
					c.whatIf(t, c.ask(t, h, api.Request{Op: api.OpWhatIf, Session: s}).WhatIf)
				}
			})
		}
	}
}

func (c *fooled) states(t *testing.T, st *api.State) {
	got := map[string]string{}
	for _, d := range append(st.Lights, st.Devices...) {
		got[d.Ref] = d.State
	}
	for ref, want := range c.Devices {
		if got[ref] != want {
			t.Errorf("%s is %q, want %q (%s)", ref, got[ref], want, c.Source)
		}
	}
}

func (c *fooled) search(t *testing.T, h *api.Host, session int) {
	r := h.Do(api.Request{Op: api.OpFind, Session: session, At: c.At, Observations: c.Seen})
	if r.Error != nil {
		t.Fatal(r.Error.Text.Text, r.Error.Hint)
	}
	for i, s := range r.Find.Suspects {
		if !slices.ContainsFunc(s.Faults, func(f string) bool { return f == c.Faults[0] || nearly(f, c.Faults[0]) }) {
			continue
		}
		if i > 2 {
			t.Errorf("%s has rank %d (%s)", c.Faults[0], i+1, c.Source)
		}
		reasons := 0
		for _, e := range s.Evidence {
			switch e.Code {
			case "evidence.because":
				reasons++
			case "evidence.disagrees":
				t.Errorf("%s: %s (%s)", c.Faults[0], e.Text, c.Source)
			}
		}
		if s.Probability >= 0.25 && len(c.Seen.Dead) > 0 && reasons == 0 {
			t.Errorf("%s is the likeliest and no reason is given (%s)", c.Faults[0], c.Source)
		}
		return
	}
	t.Errorf("%s is no suspect (%s)", c.Faults[0], c.Source)
}

// nearly says that two faults are one but for their resistance, which differs by a
// tenth at most: nobody reads it off closer.
func nearly(a, b string) bool {
	cut := func(fault string) (string, float64) {
		name, value, _ := strings.Cut(fault, "=")
		mode, value, _ := strings.Cut(value, ":")
		ohms, err := unit.Parse(value, unit.Resistance)
		if err != nil {
			return fault, 0
		}
		return name + "=" + mode, ohms
	}
	x, ohms := cut(a)
	y, want := cut(b)
	return x == y && want > 0 && math.Abs(ohms-want) <= 0.1*want
}

func (c *fooled) whatIf(t *testing.T, w *api.WhatIf) {
	var got, want []string
	for _, a := range w.Affected {
		got = append(got, a.Ref+" "+a.Effect)
	}
	for _, a := range c.Affected {
		want = append(want, a.Ref+" "+a.Effect)
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("affected %v, want %v (%s)", got, want, c.Source)
	}
	for _, a := range c.Affected {
		k := slices.IndexFunc(w.Affected, func(x api.Affected) bool { return x.Ref == a.Ref })
		if k < 0 {
			continue
		}
		var codes, sentences []string
		for _, y := range w.Affected[k].Why {
			codes = append(codes, y.Code)
			sentences = append(sentences, y.Text)
		}
		if len(a.Why) > 0 && !slices.Equal(codes, a.Why) {
			t.Errorf("%s because %v, want %v: %q", a.Ref, codes, a.Why, sentences)
		}
		for _, s := range a.Says {
			if !strings.Contains(strings.Join(sentences, "\n"), s) {
				t.Errorf("%s: nothing says %q: %q", a.Ref, s, sentences)
			}
		}
	}
}

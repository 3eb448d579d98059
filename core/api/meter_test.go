package api_test

import (
	"encoding/json"
	"slices"
	"testing"

	"halfsplit/core/api"
)

// A metered file of testdata/vectors/meter is a small panel and what every mode
// shows on it, case by case.
type metered struct {
	About string          `json:"about"`
	Panel json.RawMessage `json:"panel"`
	Cases []struct {
		About   string    `json:"about"`
		Source  string    `json:"source"`
		At      string    `json:"at"`
		Onset   string    `json:"onset"`
		Faults  []string  `json:"faults"`
		Measure []reading `json:"measure"`
	} `json:"cases"`
}

// A reading is one measurement with any meter, and what comes of it.
type reading struct {
	Mode     string             `json:"mode"`
	Red      string             `json:"red"`
	Black    string             `json:"black"`
	Load     bool               `json:"load"`
	MyMeter  map[string]float64 `json:"my_meter"`
	Want     string             `json:"want"`
	Disturbs []string           `json:"disturbs"` // devices, in the order of the document
	Refused  string             `json:"refused"`  // the code
	Blows    bool               `json:"blows"`    // the meter's fuse, if done all the same
}

// requests are those of a file, in order, on a session.
func (m *metered) requests(session int) (list []api.Request) {
	for _, c := range m.Cases {
		for _, r := range c.Measure {
			list = append(list, api.Request{Op: api.OpMeter, Session: session, At: c.At, Onset: c.Onset, Faults: c.Faults,
				Mode: r.Mode, Red: r.Red, Black: r.Black, Load: r.Load, MyMeter: r.MyMeter})
		}
	}
	return list
}

// Every mode shows what is worked out by hand, changes what it must, and refuses
// what nobody may do.
func TestVectorMeters(t *testing.T) {
	for _, file := range files(t, "testdata/vectors/meter/*.json") {
		var m metered
		read(t, file, &m)
		h := api.NewHost()
		open := h.Do(api.Request{Op: api.OpOpen, Text: string(m.Panel)})
		if open.Error != nil {
			t.Fatal(file, open.Error.Text.Text, open.Error.Problems)
		}
		requests := m.requests(open.Opened.Session)
		for _, c := range m.Cases {
			if c.About == "" || c.Source == "" || len(c.Measure) == 0 {
				t.Fatalf("%s: a case says what it shows, names its source and measures something", file)
			}
			for _, want := range c.Measure {
				q := requests[0]
				requests = requests[1:]
				a := h.Do(q)
				if a.Error != nil {
					t.Errorf("%s %s – %s: %s", q.Mode, q.Red, q.Black, a.Error.Text.Text)
					continue
				}
				r := a.Meter
				if r.Shown != want.Want || r.RefusedCode != want.Refused {
					t.Errorf("%s %s – %s %v shows %q, refused %q; want %q, %q (%s)", q.Mode, q.Red, q.Black, q.MyMeter, r.Shown, r.RefusedCode, want.Want, want.Refused, c.Source)
				}
				if r.Refused != "" && (r.Hint == "" || r.Value != nil) {
					t.Errorf("%s %s – %s is refused without a remedy, or with a figure", q.Mode, q.Red, q.Black)
				}
				if (r.Consequence != nil) != want.Blows {
					t.Errorf("%s %s – %s: consequence %v, want %v (%s)", q.Mode, q.Red, q.Black, r.Consequence, want.Blows, c.Source)
				}
				var disturbed []string
				for _, d := range r.Disturbs {
					disturbed = append(disturbed, d.Args[0])
				}
				if !slices.Equal(disturbed, want.Disturbs) {
					t.Errorf("%s %s – %s disturbs %v, want %v (%s)", q.Mode, q.Red, q.Black, disturbed, want.Disturbs, c.Source)
				}
			}
		}
	}
}

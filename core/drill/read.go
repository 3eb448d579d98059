package drill

import (
	"errors"
	"strconv"

	"halfsplit/core/fault"
	"halfsplit/core/panel"
)

// A Doc is a drill with the place of every value in its file.
type Doc struct {
	Drill  *Drill
	Source *panel.Source

	varied   [][]*fault.Fault // variations, once they were asked for
	variedOn *Rig
}

// Read reads a drill document, sealed or open, as strictly as panel.Read reads a
// panel and bounded alike. A sealed one comes back with Hidden filled in.
//
// The error is a *panel.Error with every problem in file order. Whether names in
// it exist in its panel is for Set.
func Read(data []byte) (*Doc, error) {
	d := &Drill{}
	src, err := panel.Decode(data, Format, Version, d)
	if src == nil {
		return nil, err
	}
	doc := &Doc{Drill: d, Source: src}
	var list []panel.Problem
	var pe *panel.Error
	if errors.As(err, &pe) {
		list = pe.Problems
	} else {
		list = doc.whole()
	}
	if len(list) > 0 {
		panel.SortProblems(list)
		return doc, &panel.Error{Problems: list}
	}
	return doc, nil
}

// whole checks what needs no panel.
func (doc *Doc) whole() (list []panel.Problem) {
	d := doc.Drill
	tell := func(path, code string, args ...string) {
		list = append(list, doc.Source.Problem(path, code, args...))
	}
	if d.Name == "" {
		tell("name", "drill-name-missing")
	}
	if d.Grade < 1 || d.Grade > 4 {
		tell("grade", "drill-grade", strconv.Itoa(d.Grade))
	}
	if d.Complaint == "" {
		tell("complaint", "drill-complaint-missing")
	}
	switch {
	case d.Demo == "" && d.Panel == nil:
		tell("", "drill-panel-missing")
	case d.Demo != "" && d.Panel != nil:
		tell("panel", "drill-panel-twice", d.Demo)
	}
	switch {
	case d.Hidden == nil && d.Sealed == "":
		tell("", "drill-hidden-missing")
	case d.Hidden != nil && d.Sealed != "":
		tell("hidden", "drill-hidden-twice")
	case d.Hidden == nil:
		h, err := unseal(d)
		if err != nil {
			tell("sealed", "drill-seal-broken")
			break
		}
		d.Hidden = h
	}
	if h := d.Hidden; h != nil {
		if len(h.Answers) != len(d.Questions) {
			tell("hidden.answers", "drill-answers-differ", strconv.Itoa(len(d.Questions)), strconv.Itoa(len(h.Answers)))
		}
		if len(h.Faults) == 0 && h.Because == "" {
			tell("hidden", "drill-because-missing")
		}
		if h.Explanation == "" {
			tell("hidden.explanation", "drill-explanation-missing")
		}
	}
	for gate, effect := range sortedMap(d.Gates) {
		if _, known := gates[Gate(gate)]; !known {
			tell(panel.Key("gates", gate), "drill-gate-unknown", gate, gateNames())
		}
		if Effect(effect) != Ends && Effect(effect) != Caps && Effect(effect) != Notes {
			tell(panel.Key("gates", gate), "drill-gate-effect", gate, effect)
		}
	}
	return list
}

// Write gives the document as JSON for people: sealed where it is sealed, open
// where its Hidden part stands in it.
func Write(d *Drill) []byte {
	out := *d
	if out.Sealed != "" {
		out.Hidden = nil
	}
	return panel.Encode(&out, Drill{}, Hidden{})
}

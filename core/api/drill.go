//go:build !field

package api

import (
	"errors"
	"io/fs"
	"slices"
	"strings"

	"halfsplit/core/check"
	"halfsplit/core/drill"
	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
	"halfsplit/core/words"
	"halfsplit/scenarios"

	"halfsplit/core/diagnose"
)

// A drillSession is one open drill.
type drillSession struct {
	c    *drill.Case
	real *session       // what the panel is, for names of points
	last *drill.Attempt // replayed latest, its acts a prefix of what comes next
	acts []DrillAct
}

// A rigHeld is the panel of the drill opened latest: the next is often on the same.
type rigHeld struct {
	text string
	rig  *drill.Rig
	done check.Checked
}

const drillSuffix = ".drill"

// DrillNames lists the embedded drills.
func DrillNames() []string {
	files, err := fs.Glob(scenarios.Drills, "*"+drillSuffix+".json")
	if err != nil {
		return nil
	}
	names := []string{}
	for _, f := range files {
		names = append(names, strings.TrimSuffix(f, drillSuffix+".json"))
	}
	return names
}

// drillText is the document a request means.
func drillText(req Request) ([]byte, *Error) {
	if req.Demo == "" {
		return []byte(req.Text), nil
	}
	data, err := scenarios.Drills.ReadFile(req.Demo + drillSuffix + ".json")
	if err != nil {
		e := problem(req.Lang, "api.unknown-drill", req.Demo, panel.Nearest(req.Demo, DrillNames()))
		e.Choices = DrillNames()
		return nil, e
	}
	return data, nil
}

func listDrills(req Request) Response {
	out := &Drills{Drills: []DrillDef{}}
	for _, name := range DrillNames() {
		data, err := scenarios.Drills.ReadFile(name + drillSuffix + ".json")
		if err != nil {
			continue
		}
		doc, perr := drill.Read(data)
		if perr != nil {
			continue // a test reads every one
		}
		d := doc.Drill
		out.Drills = append(out.Drills, DrillDef{Demo: name, Name: d.Name, Grade: d.Grade, Panel: panelName(d), Complaint: d.Complaint})
	}
	return Response{answersAtTheBench: answersAtTheBench{Drills: out}}
}

func panelName(d *drill.Drill) string {
	if d.Panel != nil {
		return d.Panel.Name
	}
	if data, ok := Demo(d.Demo); ok {
		if doc, err := panel.Read(data); err == nil {
			return doc.Panel.Name
		}
	}
	return d.Demo
}

// readDrill reads a drill and its panel; problems are those of both, in the drill's
// file.
func readDrill(data []byte) (doc *drill.Doc, done check.Checked, text string, list []panel.Problem) {
	doc, err := drill.Read(data)
	var pe *panel.Error
	if errors.As(err, &pe) {
		list = pe.Problems
	}
	if doc == nil {
		return nil, done, "", list
	}
	panelText := []byte{}
	if raw, ok := doc.Source.Raw("panel"); ok {
		panelText = raw
		done = check.Document(raw)
		line, col := doc.Source.Pos("panel")
		for _, p := range done.Problems {
			if p.Line == 1 {
				p.Col += col - 1
			}
			if p.Line > 0 {
				p.Line += line - 1
			}
			p.Path = "panel." + p.Path
			list = append(list, p)
		}
	} else if doc.Drill.Demo != "" {
		data, ok := Demo(doc.Drill.Demo)
		if !ok {
			list = append(list, doc.Source.Problem("demo", "drill-demo-unknown", doc.Drill.Demo, strings.Join(Demos(), ", ")))
		}
		panelText = data
		if ok {
			done = check.Document(data)
		}
	}
	panel.SortProblems(list)
	return doc, done, string(panelText), list
}

func hasErrors(list []panel.Problem) bool {
	for _, p := range list {
		if check.SeverityOf(p.Code) == check.Error {
			return true
		}
	}
	return false
}

// setDrill reads a drill and sets it up.
func (h *Host) setDrill(req Request) (c *drill.Case, list []panel.Problem, e *Error) {
	data, e := drillText(req)
	if e != nil {
		return nil, nil, e
	}
	doc, done, text, list := readDrill(data)
	if hasErrors(list) || doc == nil || done.Found == nil {
		return nil, list, nil
	}
	if h.workshop.rig == nil || h.workshop.rig.text != text {
		h.workshop.rig = &rigHeld{text: text, rig: drill.NewRig(done.Found), done: done}
	}
	c, err := doc.Set(h.workshop.rig.rig, req.Seed)
	var pe *panel.Error
	if errors.As(err, &pe) {
		list = append(list, pe.Problems...)
		panel.SortProblems(list)
		return nil, list, nil
	}
	return c, list, nil
}

// isDrill says whether the text of a request means to be a drill: its format stands
// at the head.
func isDrill(req Request) bool {
	return req.Demo == "" && strings.Contains(req.Text[:min(len(req.Text), 200)], `"`+drill.Format+`"`)
}

// checkDrill reports the problems of a drill document.
func (h *Host) checkDrill(req Request) Response {
	_, list, err := h.setDrill(req)
	if err != nil {
		return Response{Error: err}
	}
	return Response{Problems: tally(req.Lang, list)}
}

func (h *Host) openDrill(req Request) Response {
	c, list, e := h.setDrill(req)
	if e != nil {
		return Response{Error: e}
	}
	if c == nil {
		bad := problem(req.Lang, "api.document-has-errors", req.Name)
		bad.Problems = problems(req.Lang, list)
		return Response{Error: bad}
	}
	d := &drillSession{c: c, real: sessionOf(c.Rig.Panel)}
	h.last++
	if h.workshop.drills == nil {
		h.workshop.drills = map[int]*drillSession{}
	}
	h.workshop.drills[h.last] = d
	out := &Drill{Session: h.last, Name: c.Drill.Name, Grade: c.Drill.Grade, Seed: c.Seed, Complaint: c.Complaint, At: c.Drill.At,
		Dead: orEmpty(c.Dead), Works: orEmpty(c.Works), Questions: orEmpty(c.Drill.Questions), Goals: orEmpty(c.Drill.Goals), Marked: orEmpty(c.Drill.Marked),
		Whys: choices(req.Lang, "because.", drill.Whys), Classes: choices(req.Lang, "class.", drill.Classes), Gates: []DrillGate{}, Sees: []DrillSeen{}, Reads: []DrillRead{}}
	for _, ref := range sortedKeysOf(c.Sees) {
		out.Sees = append(out.Sees, DrillSeen{Ref: ref, State: c.Sees[ref], Text: words.Say(req.Lang, "state."+c.Sees[ref])})
	}
	for _, m := range c.Reads {
		out.Reads = append(out.Reads, DrillRead(m))
	}
	for _, g := range c.Drill.GateEffects() {
		out.Gates = append(out.Gates, DrillGate{Gate: string(g.Gate), Effect: string(g.Effect), Text: words.Say(req.Lang, "gate."+string(g.Gate)), Act: -1})
	}
	shown := sessionOf(c.Shown)
	out.Panel = shown.view(req.Lang)
	out.Panel.Problems, out.Panel.Document = []Problem{}, string(panel.Write(c.Shown))
	d.last = c.Begin()
	out.State = d.state(req.Lang, d.last, nil)
	return Response{answersAtTheBench: answersAtTheBench{Drill: out}}
}

func sortedKeysOf(m map[string]string) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// sessionOf makes a session of a panel as found, for names and pictures.
func sessionOf(p *panel.Panel) *session {
	m := sim.New(p)
	return &session{drawing: p, found: p, index: panel.NewIndex(p), model: m, set: fault.All(m.Net),
		bases: map[string]*trace.Base{}, engines: map[string]*diagnose.Engine{}, sweeps: map[string]*sweepRun{}}
}

func choices(lang, family string, codes []string) []DrillChoice {
	out := []DrillChoice{}
	for _, c := range codes {
		out = append(out, DrillChoice{Code: c, Text: words.Say(lang, family+c)})
	}
	return out
}

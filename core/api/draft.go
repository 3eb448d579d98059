package api

import (
	"errors"
	"strings"

	"halfsplit/core/check"
	"halfsplit/core/diagnose"
	"halfsplit/core/draft"
	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
	"halfsplit/core/words"
)

// A DraftEdit is one small change of a panel; package draft says which fields
// each Op reads. Ops: name mains strip blocks jumper remove-jumper part set
// label rename wire move-wire between remove condition copy adopt-found
// forget-found.
type DraftEdit struct {
	Op        string            `json:"op"`
	AsFound   bool              `json:"as_found,omitempty"` // a correction at the panel: the drawing stays
	Ref       string            `json:"ref,omitempty"`      // the thing: "X1", "X1:4", "K1", a wire's number; empty for the next free name
	Name      string            `json:"name,omitempty"`     // of the panel or condition; the new name; the part of between
	About     string            `json:"about,omitempty"`
	Label     string            `json:"label,omitempty"`
	Word      string            `json:"word,omitempty"` // instead of kind: what a person calls it
	Kind      string            `json:"kind,omitempty"` // from Guess, or a block type
	Count     int               `json:"count,omitempty"`
	First     string            `json:"first,omitempty"` // marking of a strip's first block: "1", "PE1"
	Step      int               `json:"step,omitempty"`
	From      string            `json:"from,omitempty"` // first block of a range; where a wire begins
	To        string            `json:"to,omitempty"`   // last block; where a wire ends
	List      []string          `json:"list,omitempty"` // blocks by marking, instead of a range
	Level     int               `json:"level,omitempty"`
	Side      string            `json:"side,omitempty"` // "in" or "out"
	End       string            `json:"end,omitempty"`  // of a wire: "from" or "to"
	Fuse      string            `json:"fuse,omitempty"`
	Indicator string            `json:"indicator,omitempty"`
	Tag       string            `json:"tag,omitempty"`
	At        string            `json:"at,omitempty"` // "panel" or "field"
	Process   string            `json:"process,omitempty"`
	Ratings   map[string]string `json:"ratings,omitempty"` // an empty text takes one away
	Contacts  []string          `json:"contacts,omitempty"`
	Channels  int               `json:"channels,omitempty"`
	Clear     []string          `json:"clear,omitempty"` // fields to empty
	Size      string            `json:"size,omitempty"`
	Length    string            `json:"length,omitempty"`
	Colour    string            `json:"colour,omitempty"`
	Cable     string            `json:"cable,omitempty"`
	Core      string            `json:"core,omitempty"`
	Voltage   string            `json:"voltage,omitempty"` // with op mains, as the four below
	Frequency string            `json:"frequency,omitempty"`
	Earthing  string            `json:"earthing,omitempty"`
	Impedance string            `json:"impedance,omitempty"`
	Supply    string            `json:"supply,omitempty"`    // where it is switched off and locked
	Positions map[string]string `json:"positions,omitempty"` // of a condition: "S1": "pressed"; an empty text takes one away
	Steps     []string          `json:"steps,omitempty"`     // of a condition
	Note      string            `json:"note,omitempty"`      // of a correction, as the two below
	By        string            `json:"by,omitempty"`
	When      string            `json:"when,omitempty"` // RFC 3339
}

// Edited answers edit: the new document and how it stands. A draft with errors
// is a draft: it is kept, shown and edited on.
type Edited struct {
	Document string    `json:"document"` // canonical text, to keep
	Made     []Made    `json:"made"`     // what the edits did, in order
	Problems []Problem `json:"problems"`
	Errors   int       `json:"errors"`
	Warnings int       `json:"warnings"`
	Notes    int       `json:"notes"`
	Opened   *Opened   `json:"opened"` // to draw; its session is 0 while errors keep the panel from being solved
}

// A Made is one thing an edit did.
type Made struct {
	Edit int    `json:"edit"` // which of the request's edits
	Ref  string `json:"ref"`  // the thing; empty where it is gone
	Text
}

// Guesses answers guess, the likeliest first.
type Guesses struct {
	Guesses []Candidate `json:"guesses"`
}

// A Candidate is one thing a text may mean. Its fields go into a DraftEdit.
type Candidate struct {
	Kind     string            `json:"kind"`
	KindName string            `json:"kind_name"` // for people
	Block    bool              `json:"block"`     // stands on a strip
	Ref      string            `json:"ref"`
	Tag      string            `json:"tag"`
	Label    string            `json:"label"`
	At       string            `json:"at"`
	Fuse     string            `json:"fuse"`
	Ratings  map[string]string `json:"ratings"`
	Channels int               `json:"channels"`
	Why      Text              `json:"why"`
}

// edit applies Edits to Text or Demo; with neither it begins an empty panel.
func (h *Host) edit(req Request) Response {
	p := draft.New()
	if req.Text != "" || req.Demo != "" {
		data, err := source(req)
		if err != nil {
			return Response{Error: err}
		}
		doc, bad := panel.Read(data)
		var unread *panel.Error
		if errors.As(bad, &unread) {
			e := problem(req.Lang, "api.document-has-errors", req.Name)
			e.Problems = problems(req.Lang, unread.Problems)
			return Response{Error: e}
		}
		p = doc.Panel
	}
	edits := make([]draft.Edit, len(req.Edits))
	for i := range req.Edits {
		edits[i] = draft.Edit(req.Edits[i])
	}
	p, made, err := draft.Apply(p, edits, trade(req.Lang))
	var refused *draft.Error
	if errors.As(err, &refused) {
		e := problem(req.Lang, refused.Code, refused.Args...)
		e.Choices = refused.Choices
		e.Edit = refused.Edit
		return Response{Error: e}
	}
	out := &Edited{Document: string(panel.Write(p)), Made: []Made{}}
	for _, m := range made {
		out.Made = append(out.Made, Made{Edit: m.Edit, Ref: m.Ref, Text: sayMade(req.Lang, m)})
	}
	if len(out.Document) > panel.MaxBytes {
		return failure(req.Lang, "too-large", "16")
	}
	done := check.Document([]byte(out.Document))
	told := tally(req.Lang, done.Problems)
	out.Problems, out.Errors, out.Warnings, out.Notes = told.Problems, told.Errors, told.Warnings, told.Notes
	if done.Found != nil {
		delete(h.sessions, req.Session)
		out.Opened = h.show(req.Lang, done, told)
	}
	return Response{Edited: out}
}

// sayMade puts what an edit did into words: kinds by the name people know.
func sayMade(lang string, m draft.Made) Text {
	args := append([]string{}, m.Args...)
	for i := range args {
		if words.Known(lang, "kind."+args[i]) {
			args[i] = words.Say(lang, "kind."+args[i])
		}
	}
	return say(lang, m.Code, args...)
}

// tally counts problems by severity.
func tally(lang string, list []panel.Problem) *Problems {
	p := &Problems{Problems: problems(lang, list)}
	for _, x := range p.Problems {
		switch check.Severity(x.Severity) {
		case check.Error:
			p.Errors++
		case check.Warning:
			p.Warnings++
		default:
			p.Notes++
		}
	}
	return p
}

// show makes a checked document a session, or without one when it has errors, and
// gives what to draw.
func (h *Host) show(lang string, done check.Checked, told *Problems) *Opened {
	s := newSession(done)
	view := s.view(lang)
	if told.Errors == 0 {
		h.last++
		h.sessions[h.last] = s
		view.Session = h.last
	}
	view.Problems, view.Document = told.Problems, string(panel.Write(done.Doc.Panel))
	return view
}

func newSession(done check.Checked) *session {
	model := sim.Of(done.Found, done.Net)
	return &session{drawing: done.Doc.Panel, found: done.Found, index: panel.NewIndex(done.Found), model: model, set: fault.All(model.Net),
		bases: map[string]*trace.Base{}, engines: map[string]*diagnose.Engine{}, sweeps: map[string]*sweepRun{}}
}

// guess says what kinds a text may mean.
func guess(req Request) Response {
	out := &Guesses{Guesses: []Candidate{}}
	for _, c := range draft.Guess(req.Word, trade(req.Lang)) {
		out.Guesses = append(out.Guesses, Candidate{Kind: c.Kind, KindName: words.Say(req.Lang, "kind."+c.Kind), Block: c.Block, Ref: c.Ref, Tag: c.Tag,
			Label: c.Label, At: c.At, Fuse: c.Fuse, Ratings: orNone(c.Ratings), Channels: c.Channels, Why: why(req.Lang, c)})
	}
	return Response{Guesses: out}
}

// why says the reason for a guess; of a tag, what its letters stand for.
func why(lang string, c draft.Candidate) Text {
	args := append([]string{}, c.Args...)
	if c.Code == "guess.isa" {
		letters := args[0]
		var list []string
		for i, r := range letters {
			place := "first."
			if i > 0 {
				place = "next."
			}
			if name := "isa." + place + string(r); words.Known(lang, name) {
				list = append(list, string(r)+" "+words.Say(lang, name))
			}
		}
		args = append(args, strings.Join(list, ", "))
	}
	args = append(args, words.Say(lang, "kind."+c.Kind))
	return say(lang, c.Code, args...)
}

// trade is what people call the kinds in a language.
func trade(lang string) draft.Trade {
	return func(kind string) []string {
		names := []string{words.Say(lang, "kind."+kind), kind}
		if words.Known(lang, "trade."+kind) {
			names = append(names, strings.Split(words.Say(lang, "trade."+kind), "; ")...)
		}
		return names
	}
}

func orNone(m map[string]string) map[string]string {
	if m == nil {
		return map[string]string{}
	}
	return m
}

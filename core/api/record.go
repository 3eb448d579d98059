package api

import (
	"errors"
	"slices"

	"halfsplit/core/diagnose"
	"halfsplit/core/panel"
	"halfsplit/core/record"
	"halfsplit/core/words"
)

// Record answers record: a job put on paper, and what is still open in it.
type Record struct {
	Document string     `json:"document"` // the job as text, to keep
	Job      record.Job `json:"job"`
	As       string     `json:"as"`      // "text", "csv", "html"
	Content  string     `json:"content"` // what was asked for
	Type     string     `json:"type"`    // its media type
	Open     []Text     `json:"open"`    // temporary changes that are not back yet
	// Left is the panel as left, as a document: its drawing with what was found and
	// what the repair changed. Empty where the job has no panel.
	Left    string          `json:"left"`
	Earlier *record.Earlier `json:"earlier"` // for History the next time; null without a cause known by name
}

// An Earlier is what an earlier job at a panel found.
type Earlier = record.Earlier

// jobRecord exports Job, or the one that Text holds.
func jobRecord(req Request) Response {
	j, err := readJob(req)
	if err != nil {
		return Response{Error: err}
	}
	say := func(code string, args ...string) string { return words.Say(req.Lang, code, args...) }
	out := &Record{Document: string(record.Write(j)), As: req.As, Open: []Text{}}
	switch req.As {
	case "", "text":
		out.As, out.Type, out.Content = "text", "text/plain;charset=utf-8", record.Text(j, say)
	case "csv":
		out.Type, out.Content = "text/csv;charset=utf-8", record.CSV(j, say)
	case "html":
		out.Type, out.Content = "text/html;charset=utf-8", record.HTML(j, language(req.Lang), record.Paper(req.Paper), say)
	default:
		e := problem(req.Lang, "record.unknown-form", req.As)
		e.Choices = []string{"text", "csv", "html"}
		return Response{Error: e}
	}
	for _, i := range j.Open() {
		t := &j.Temporary[i]
		out.Open = append(out.Open, stillOpen(req.Lang, "record.still", t))
	}
	if p, problems := j.AsLeft(); p != nil && len(problems) == 0 {
		left := j.Panel.Clone()
		left.Found = append(left.Found, j.Left...)
		out.Left = string(panel.Write(left))
	}
	if e, ok := j.Earlier(); ok {
		out.Earlier = &e
	}
	out.Job = *j
	return Response{Record: out}
}

func stillOpen(lang, code string, t *record.Temporary) Text {
	what := words.Say(lang, "temporary.other", t.Where)
	if words.Known(lang, "temporary."+t.What) {
		what = words.Say(lang, "temporary."+t.What, t.Where)
	}
	return say(lang, code, what, t.Placed)
}

// language is the language a page says it is in.
func language(lang string) string {
	if lang == "" {
		return "en"
	}
	return lang
}

// readJob reads the job of a request. One that comes as fields is written and read
// again, so that it is judged as strictly as a file.
func readJob(req Request) (*record.Job, *Error) {
	data := []byte(req.Text)
	if req.Job != nil {
		data = record.Write(req.Job)
	}
	j, err := record.Read(data)
	var unread *panel.Error
	if errors.As(err, &unread) {
		e := problem(req.Lang, "record.unread", req.Name)
		e.Problems = problems(req.Lang, unread.Problems)
		return nil, e
	}
	return j, nil
}

// remember takes the history of the panel into account. Another history than the
// one before costs what is solved.
func (s *session) remember(list []record.Earlier) {
	same := slices.EqualFunc(s.earlier, list, func(a, b record.Earlier) bool { return a.When == b.When && slices.Equal(a.Faults, b.Faults) })
	if same {
		return
	}
	s.earlier, s.history, s.weighted = list, nil, nil
	if len(list) > 0 {
		s.history = record.NewHistory(list)
		s.weighted = s.set.Weighted(s.history.Weight)
	}
	s.engines = map[string]*diagnose.Engine{}
}

//go:build !field

package api

import (
	"errors"

	"halfsplit/core/panel"
	"halfsplit/core/record"
	"halfsplit/core/words"
)

// jobRecord exports Job, or the one that Text holds.
func jobRecord(req Request) Response {
	j, err := readJob(req)
	if err != nil {
		return Response{Error: err}
	}
	say := func(code string, args ...string) string { return words.Say(req.Lang, code, args...) }
	out := &Record{Document: string(record.Write(j)), As: req.As, Open: []Text{}, Title: say("record.page-title", j.Title),
		Sections: append([]record.Section{}, record.Sections(j, say)...), Caution: say("record.caution"), Signature: say("record.signature")}
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
	return Response{answersAtTheBench: answersAtTheBench{Record: out}}
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

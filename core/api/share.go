//go:build !field

package api

import (
	"errors"
	"strconv"
	"strings"

	"halfsplit/core/check"
	"halfsplit/core/drill"
	"halfsplit/core/panel"
	"halfsplit/core/record"
	"halfsplit/core/share"
	"halfsplit/core/words"
)

// shareError tells an error of package share.
func shareError(lang, name string, err error) *Error {
	var se *share.Error
	if !errors.As(err, &se) {
		return problem(lang, "api.internal", err.Error())
	}
	args := se.Args
	if len(args) == 0 && len(se.Problems) > 0 {
		args = []string{name}
	}
	e := problem(lang, se.Code, args...)
	if len(se.Problems) > 0 {
		e.Problems = problems(lang, se.Problems)
	}
	return e
}

// document is what a request hands over: a document, or one packed.
func document(req Request, text string) ([]byte, *Error) {
	data, g, err := share.Open(text)
	if err == nil && data == nil {
		err = &share.Error{Code: "share.missing", Args: []string{strconv.Itoa(len(g.Missing)), strconv.Itoa(g.Count), numbers(g.Missing)}}
	}
	if err != nil {
		return nil, shareError(req.Lang, req.Name, err)
	}
	return data, nil
}

func pack(req Request) Response {
	text := []byte(req.Text)
	if req.Demo != "" {
		data, err := source(req)
		if err != nil {
			return Response{Error: err}
		}
		text = data
	}
	data, e := document(req, string(text))
	if e != nil {
		return Response{Error: e}
	}
	data, err := share.WithEditions(data, req.Editions)
	if err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	packed, err := share.Pack(data)
	if err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	out := &Packed{Link: share.Link(packed), Parts: []string{}, Bytes: len(packed), Document: string(data)}
	if out.Edition, err = share.Edition(data); err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	if req.Size > 0 {
		if out.Parts, err = share.Split(packed, req.Size); err != nil {
			return Response{Error: shareError(req.Lang, req.Name, err)}
		}
	}
	return Response{answersAtTheBench: answersAtTheBench{Packed: out}}
}

func unpack(req Request) Response {
	data, g, err := share.Open(req.Text)
	if err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	out := &Unpacked{Have: []int{}, Missing: []int{}, Editions: []string{}}
	if g != nil {
		out.Count, out.Damaged, out.Foreign = g.Count, g.Damaged, g.Foreign
		out.Have, out.Missing = append(out.Have, g.Have...), append(out.Missing, g.Missing...)
	}
	if data == nil {
		out.Text = say(req.Lang, "share.missing", strconv.Itoa(len(g.Missing)), strconv.Itoa(g.Count), numbers(g.Missing))
		return Response{answersAtTheBench: answersAtTheBench{Unpacked: out}}
	}
	kind, err := share.Read(data)
	if err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	out.Document = string(data)
	out.Kind, out.Name = describe(kind, data)
	if out.Digest, err = share.Digest(data); err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	if out.Edition, err = share.Edition(data); err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	from, err := share.Editions(data)
	if err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	out.Editions = append(out.Editions, from...)
	if j, err := record.Read(data); err == nil && j.Panel != nil {
		drawn := *j.Panel
		drawn.Found = nil
		out.Panel = string(panel.Write(&drawn))
	}
	out.Text = say(req.Lang, "shared."+out.Kind, out.Name)
	return Response{answersAtTheBench: answersAtTheBench{Unpacked: out}}
}

// describe gives a document's kind and what people call it.
func describe(kind share.Kind, data []byte) (string, string) {
	switch kind {
	case share.Drill:
		if d, err := drill.Read(data); err == nil {
			return "drill", d.Drill.Name
		}
		return "drill", ""
	case share.Job:
		if j, err := record.Read(data); err == nil {
			return "job", j.Title
		}
		return "job", ""
	}
	if d, err := panel.Read(data); err == nil {
		return "panel", d.Panel.Name
	}
	return "panel", ""
}

func numbers(list []int) string {
	var texts []string
	for _, n := range list {
		texts = append(texts, strconv.Itoa(n))
	}
	return strings.Join(texts, ", ")
}

// twoDocuments are the two documents of a request.
func twoDocuments(req Request) (a, b []byte, err *Error) {
	if a, err = document(req, req.Text); err == nil {
		b, err = document(req, req.Other)
	}
	return a, b, err
}

func diff(req Request) Response {
	a, b, e := twoDocuments(req)
	if e != nil {
		return Response{Error: e}
	}
	list, err := share.Diff(a, b)
	if err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	out := &Diff{Same: len(list) == 0, Differences: []Difference{}}
	for i := range list {
		out.Differences = append(out.Differences, difference(req.Lang, &list[i]))
	}
	return Response{answersAtTheBench: answersAtTheBench{Diff: out}}
}

func merge(req Request) Response {
	a, b, e := twoDocuments(req)
	if e != nil {
		return Response{Error: e}
	}
	var base []byte
	if req.Base != "" {
		if base, e = document(req, req.Base); e != nil {
			return Response{Error: e}
		}
	}
	m, err := share.Merge(base, a, b, req.Choices)
	if err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	out := &Merge{Document: string(m.Document), Taken: []Difference{}, Conflicts: []Conflict{}, Open: m.Open(), Problems: []Problem{}}
	if out.Digest, err = share.Digest(m.Document); err != nil {
		return Response{Error: shareError(req.Lang, req.Name, err)}
	}
	for i := range m.Taken {
		out.Taken = append(out.Taken, difference(req.Lang, &m.Taken[i]))
	}
	for i := range m.Conflicts {
		out.Conflicts = append(out.Conflicts, conflict(req.Lang, &m.Conflicts[i]))
	}
	if kind, _ := share.Read(m.Document); kind == share.Panel {
		out.Problems = problems(req.Lang, check.Document(m.Document).Problems)
	}
	return Response{answersAtTheBench: answersAtTheBench{Merge: out}}
}

// difference puts a difference into words.
func difference(lang string, d *share.Difference) Difference {
	out := Difference{Path: d.Path, What: d.What, Thing: thing(lang, d), Field: d.Field, Was: d.Was, Is: d.Is}
	field := d.Field
	if ref, ok := strings.CutPrefix(field, "set "); ok && d.List == "conditions" {
		field = ref // how a thing stands: its name says enough
	}
	switch {
	case d.Field == share.HiddenField && d.List == "":
		out.Text = say(lang, "diff.hidden")
	case d.What == share.Order:
		out.Text = say(lang, "diff.order", out.Thing, d.Was, d.Is)
	case d.What == share.Added && d.Field == "":
		out.Text = say(lang, "diff.added", out.Thing, d.Is)
	case d.What == share.Removed && d.Field == "":
		out.Text = say(lang, "diff.removed", out.Thing, d.Was)
	case d.What == share.Added:
		out.Text = say(lang, "diff.field-added", out.Thing, field, d.Is)
	case d.What == share.Removed:
		out.Text = say(lang, "diff.field-removed", out.Thing, field, d.Was)
	default:
		out.Text = say(lang, "diff.changed", out.Thing, field, d.Was, d.Is)
	}
	return out
}

// thing is what people call the place of a difference.
func thing(lang string, d *share.Difference) string {
	name := "thing." + d.List
	if d.List == "" || !words.Known(lang, name) {
		name = "thing.other"
		if len(d.Thing) == 0 {
			name = "thing.document"
		}
	}
	args := append([]string{}, d.Thing...)
	for i := range args {
		args[i] = panel.Shorten(args[i])
	}
	return words.Say(lang, name, args...)
}

func conflict(lang string, c *share.Conflict) Conflict {
	out := Conflict{Both: c.Both, Difference: difference(lang, &c.Difference), Base: c.Base, Taken: c.Taken, Chosen: c.Chosen}
	was, is := c.Was, c.Is
	for _, side := range []*string{&was, &is} {
		if *side == "" {
			*side = words.Say(lang, "merge.absent")
		}
	}
	out.Text = say(lang, "merge.conflict", out.Thing, c.Field, was, is, c.Base)
	return out
}

//go:build !field

package api

import (
	"errors"
	"slices"
	"strings"

	"halfsplit/core/check"
	"halfsplit/core/draft"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/words"
)

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
		h.forget(req.Session)
		out.Opened = h.show(req.Lang, done, told)
	}
	return Response{answersAtTheBench: answersAtTheBench{Edited: out}}
}

// sayMade puts what an edit did into words: kinds by the name people know.
func sayMade(lang string, m draft.Made) Text {
	args := append([]string{}, m.Args...)
	if m.Code == "draft.made-condition" {
		args = []string{args[0], standing(lang, args[1:])}
	}
	for i := range args {
		if words.Known(lang, "kind."+args[i]) {
			args[i] = words.Say(lang, "kind."+args[i])
		}
	}
	return say(lang, m.Code, args...)
}

// standing says how things stand, given in pairs: "S1 pressed, B3 50 %".
func standing(lang string, pairs []string) string {
	var list []string
	for pair := range slices.Chunk(pairs, 2) {
		position := pair[1]
		if words.Known(lang, "position."+position) {
			position = words.Say(lang, "position."+position)
		}
		list = append(list, pair[0]+" "+position)
	}
	return strings.Join(list, ", ")
}

// guess says what kinds a text may mean; of no text, the kinds a block can be.
func guess(req Request) Response {
	out := &Guesses{Guesses: []Candidate{}}
	if req.Word == "" { // to choose from instead of to say
		for _, k := range parts.Kinds() {
			if k.Block {
				out.Guesses = append(out.Guesses, Candidate{Kind: k.Name, KindName: words.Say(req.Lang, "kind."+k.Name), Block: true,
					Ratings: map[string]string{}, Why: Text{Args: []string{}}})
			}
		}
	}
	for _, c := range draft.Guess(req.Word, trade(req.Lang)) {
		out.Guesses = append(out.Guesses, Candidate{Kind: c.Kind, KindName: words.Say(req.Lang, "kind."+c.Kind), Block: c.Block, Ref: c.Ref, Tag: c.Tag,
			Label: c.Label, At: c.At, Fuse: c.Fuse, Ratings: orNone(c.Ratings), Channels: c.Channels, Why: why(req.Lang, c)})
	}
	return Response{answersAtTheBench: answersAtTheBench{Guesses: out}}
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

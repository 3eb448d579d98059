package draft_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"halfsplit/core/draft"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// Any list of edits is carried out or refused with a code; the result is a
// document that can be read, the same each time, and that the model can be built
// of, however wrong it is.
func FuzzApply(f *testing.F) {
	for _, edits := range [][]draft.Edit{
		loop,
		append(loop[:len(loop):len(loop)], draft.Edit{Op: draft.Copy, Ref: "B1", Count: 3}),
		append(loop[:len(loop):len(loop)], draft.Edit{Op: draft.Remove, Ref: "X2:3", AsFound: true}, draft.Edit{Op: draft.AdoptFound}),
		append(loop[:len(loop):len(loop)], draft.Edit{Op: draft.Between, Ref: "W12", Word: "lamp", Name: "P1"}, draft.Edit{Op: draft.Rename, Ref: "X1:2", Name: "9"}),
		{{Op: draft.Strip, Ref: "X1", Count: 3, First: "09", Kind: "double-level-fused"}, {Op: draft.Jumper, Ref: "X1", From: "09", To: "11", Level: 2}},
	} {
		data, err := json.Marshal(edits)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(data))
	}
	f.Fuzz(func(t *testing.T, data string) {
		var edits []draft.Edit
		if json.Unmarshal([]byte(data), &edits) != nil {
			return
		}
		for i := range edits { // a strip of a thousand is tried elsewhere
			edits[i].Count %= 20
		}
		edits = edits[:min(len(edits), 30)]
		p, made, err := draft.Apply(draft.New(), edits, trade)
		if err != nil {
			var refused *draft.Error
			if !errors.As(err, &refused) || refused.Code == "" {
				t.Fatalf("an error of another type: %v", err)
			}
			return
		}
		text := panel.Write(p)
		d, err := panel.Read(text)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if string(panel.Write(d.Panel)) != string(text) {
			t.Fatalf("reading and writing again changed\n%s", text)
		}
		again, _, _ := draft.Apply(draft.New(), edits, trade)
		if string(panel.Write(again)) != string(text) {
			t.Fatalf("the same edits gave another panel\n%s", text)
		}
		for _, m := range made {
			if !strings.HasPrefix(m.Code, "draft.") || m.Edit < 0 || m.Edit >= len(edits) {
				t.Fatalf("%+v", m)
			}
		}
		found, _ := panel.AsFound(p)
		parts.Assemble(found)
	})
}

// What a person calls a thing is understood or not; what is offered for it can be
// drawn, or is refused with the reason.
func FuzzGuess(f *testing.F) {
	for _, text := range []string{"K7", "-K7", "CR3", "PT-102", "10-PT-102A", "PSU 24 V", "fuse 2 A T", "24 V lamp", "pump, 0.75 kW", "terminal", "", "  ", "\x00", "Ж1", "K99999999999999999999", "2 A 2 A 2 A V"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		list := draft.Guess(text, trade)
		if len(list) > 8 {
			t.Fatalf("%d candidates", len(list))
		}
		for _, c := range list {
			if c.Kind == "" || c.Code == "" {
				t.Fatalf("%q: %+v", text, c)
			}
			if c.Block {
				continue
			}
			_, _, err := draft.Apply(draft.New(), []draft.Edit{{Op: draft.Part, Kind: c.Kind, Name: c.Ref, Tag: c.Tag, Label: c.Label, Ratings: c.Ratings, Channels: c.Channels}}, trade)
			var refused *draft.Error
			if err != nil && (!errors.As(err, &refused) || refused.Code == "") {
				t.Fatalf("%q as %s: %v", text, c.Kind, err)
			}
		}
	})
}

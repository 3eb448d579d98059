//go:build !field

package api_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"halfsplit/core/api"
	"halfsplit/core/draft"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// Edits of every kind in any order: each is carried out or refused with a reason,
// the draft is drawn however wrong it is, and its document reads back.
func TestRandomEdits(t *testing.T) {
	const rounds = 150 // in which each edit is carried out at least once
	rng := rand.New(rand.NewPCG(11, 12))
	done, refused := map[string]int{}, map[string]int{}
	h := api.NewHost()
	for range rounds {
		text, session := edit(t, h, "", append(slices.Clone(minimal), api.DraftEdit{Op: "condition", Name: "running"})...).Document, 0
		for range 12 {
			e := randomEdit(rng)
			r := h.Do(api.Request{Op: api.OpEdit, Text: text, Session: session, Edits: []api.DraftEdit{e}})
			if r.Error != nil {
				if r.Error.Code == "api.internal" || r.Error.Hint == "" {
					t.Fatalf("%+v: %s", e, r.Error.Text.Text)
				}
				refused[e.Op]++
				continue
			}
			done[e.Op]++
			text = r.Edited.Document
			if _, err := panel.Read([]byte(text)); err != nil {
				t.Fatalf("%+v: %v\n%s", e, err, text)
			}
			if r.Edited.Opened == nil {
				t.Fatalf("%+v: the draft is not drawn\n%s", e, text)
			}
			session = r.Edited.Opened.Session
			if (session == 0) != (r.Edited.Errors > 0) {
				t.Fatalf("%+v: %d errors and session %d", e, r.Edited.Errors, session)
			}
		}
	}
	for _, op := range draft.Ops() {
		if done[op] == 0 {
			t.Errorf("%s was never carried out (refused %d times)", op, refused[op])
		}
	}
}

func randomEdit(rng *rand.Rand) api.DraftEdit {
	one := func(of ...string) string { return of[rng.IntN(len(of))] }
	kinds := parts.Kinds()
	no := fmt.Sprint(1 + rng.IntN(11))
	e := api.DraftEdit{Op: draft.Ops()[rng.IntN(len(draft.Ops()))], AsFound: rng.IntN(4) == 0,
		Ref:   one("X1", "X1:"+no, "X1:"+no, "B1", "A1", "G1", "W"+no, "W"+no, "K9", ""),
		Count: 1 + rng.IntN(4), Level: rng.IntN(3), Side: one("", "", "in", "out"), End: one("from", "to"), Label: one("", "x")}
	switch e.Op {
	case draft.Strip, draft.Jumper, draft.Unjumper, draft.Blocks:
		e.Ref, e.From, e.To = one("X1", "X1", "X1", "X2", ""), no, fmt.Sprint(1+rng.IntN(11))
		e.Fuse, e.Indicator = one("", "2 A T"), one("", "24 V")
		if e.Op == draft.Strip {
			e.From, e.To = "", ""
		}
		if e.Op == draft.Strip || e.Op == draft.Blocks {
			e.Kind = kinds[rng.IntN(len(kinds))].Name
		}
	case draft.Part, draft.Set, draft.Between:
		e.Kind, e.Contacts, e.At = kinds[rng.IntN(len(kinds))].Name, []string{one("13-14", "11-12-14", "?")}, one("", "field", "panel")
		e.Name = one("R1", "", "K3", "B1")
		if e.Op == draft.Part {
			e.Ref = one("", "", "K3", "B1")
		}
	case draft.Wire, draft.MoveWire:
		end := func() string { return one("X1:"+no, "B1:+", "A1:3", "G1:1", "X1:9", "K9:1", "X1:"+no+".2") }
		e.From, e.To = end(), end()
	case draft.Rename, draft.Name:
		e.Name = one("Z1", "X1", "77", "")
	case draft.Condition:
		e.Name, e.Positions, e.Steps = one("", "running"), map[string]string{e.Ref: one("50 %", "open", "?")}, []string{one("open X1:1", "press S9")}
		e.Ref = one("", "", "", "running")
	case draft.Uncondition:
		e.Ref = one("running", "normal", "x")
	}
	return e
}

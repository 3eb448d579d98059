//go:build !field

package api_test

import (
	"encoding/json"
	"testing"

	"halfsplit/core/api"
)

// Whatever a page sends is answered, and never by a fault of the core: a draft is
// drawn however wrong it is.
func FuzzEdit(f *testing.F) {
	for _, edits := range [][]api.DraftEdit{
		minimal,
		{{Op: "strip", Ref: "X1", Count: 3, Kind: "fuse-block"}, {Op: "jumper", Ref: "X1", From: "1", To: "3"}},
		{{Op: "part", Kind: "analogue-input"}, {Op: "wire", From: "A1:0", To: "A1:M"}, {Op: "remove", Ref: "A1", AsFound: true}},
		{{Op: "mains"}, {Op: "part", Kind: "motor", Ratings: map[string]string{"voltage": "much"}}, {Op: "condition", Positions: map[string]string{"M1": "?"}, Steps: []string{"press"}}},
	} {
		data, err := json.Marshal(edits)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(data), "")
	}
	f.Add("[]", `{"format":"halfsplit-panel","version":1,"name":"x","strips":[{"ref":"X1","blocks":[{"no":"","type":"?"}],"jumpers":[{"blocks":[""]}]}],"wires":[{"no":"","from":"X1:","to":""}]}`)
	f.Fuzz(func(t *testing.T, data, text string) {
		var edits []api.DraftEdit
		if json.Unmarshal([]byte(data), &edits) != nil {
			return
		}
		for i := range edits {
			edits[i].Count %= 20
		}
		r := api.NewHost().Do(api.Request{Op: api.OpEdit, Text: text, Edits: edits[:min(len(edits), 20)]})
		if r.Error != nil && r.Error.Code == "api.internal" {
			t.Fatal(r.Error.Text.Text)
		}
		if r.Error == nil && r.Edited == nil {
			t.Fatal("no answer")
		}
	})
}

// The requests of the workshop's module, one of each and some that are half there.
func FuzzWorkshop(f *testing.F) {
	const small, job = `{\"format\":\"halfsplit-panel\",\"version\":1,\"name\":\"x\"}`, `{\"format\":\"halfsplit-job\",\"version\":1,\"title\":\"x\"}`
	for _, request := range []string{
		`{"op":"guess","word":"PT-102"}`, `{"op":"conditions","demo":"training-bench"}`, `{"op":"edit","edits":[{"op":"strip","ref":"X1","count":3}]}`,
		`{"op":"record","text":"` + job + `","as":"html","paper":"A4"}`, `{"op":"record","job":{"title":"x","temporary":[{"what":"?"}]},"as":"csv"}`,
		`{"op":"pack","demo":"training-bench","size":600}`, `{"op":"pack","text":"` + small + `","editions":["?"],"size":-1}`, `{"op":"unpack","text":"open=AAAA"}`,
		`{"op":"unpack","text":"HS1:00C0FFEE:1:3:DEADBEEF:ABC."}`, `{"op":"diff","text":"` + small + `","other":"` + job + `"}`,
		`{"op":"merge","text":"` + small + `","other":"` + small + `","base":"","choices":{"/name":"both"}}`,
		`{"op":"drill-open","demo":"run-lamp-dark","seed":3}`, `{"op":"drill-act","session":2,"acts":[{"kind":"read","mode":"vdc","red":"K1:24","black":"X2:1","why":"feed"}]}`,
		`{"op":"drill-debrief","session":2,"acts":[{"kind":"call","thing":"W17","class":"open"},{"kind":"done"}]}`, `{"op":"drill-author","text":"{}"}`,
		`{"op":"drill-short","session":1,"form":"choose","seed":5,"marks":{}}`,
	} {
		f.Add([]byte(request))
	}
	fuzzRequests(f)
}

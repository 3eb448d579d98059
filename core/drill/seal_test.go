package drill_test

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"halfsplit/core/drill"
)

// What is sealed comes back as it was, nothing of it stands in the open, and a
// changed open text no longer fits its seal.
func TestSeal(t *testing.T) {
	names, docs := embedded(t)
	for i, doc := range docs {
		d := doc.Drill
		sealed := drill.Write(drill.Seal(d))
		for _, f := range append(append([]string{}, d.Hidden.Faults...), d.Hidden.Explanation) {
			quoted, err := json.Marshal(f)
			if err != nil {
				t.Fatal(err)
			}
			if bytes.Contains(sealed, bytes.Trim(quoted, `"`)) {
				t.Errorf("%s: %q stands in the sealed file", names[i], f)
			}
		}
		again, err := drill.Read(sealed)
		if err != nil {
			t.Fatalf("%s: %s", names[i], told(err))
		}
		if !reflect.DeepEqual(again.Drill.Hidden, d.Hidden) {
			t.Errorf("%s: hidden\n%+v, unsealed\n%+v", names[i], d.Hidden, again.Drill.Hidden)
		}
		if open, err := drill.Unseal(again.Drill); err != nil || open.Sealed != "" || !bytes.Equal(drill.Write(open), drill.Write(d)) {
			t.Errorf("%s: unsealed and written it is another document: %v", names[i], err)
		}
		changed := strings.Replace(string(sealed), `"grade": `, `"grade":  `, 1) // white space is no change
		if _, err := drill.Read([]byte(changed)); err != nil {
			t.Errorf("%s: a space broke the seal: %v", names[i], err)
		}
		changed = strings.Replace(string(sealed), d.Complaint[:3], "Boo", 1)
		if _, err := drill.Read([]byte(changed)); err == nil || !strings.Contains(told(err), "drill-seal-broken") {
			t.Errorf("%s: the complaint was changed and the seal holds: %v", names[i], err)
		}
	}
}

// FuzzRead: whatever is read, there is a drill or a told problem, and what is read is
// written and read again as itself.
func FuzzRead(f *testing.F) {
	_, docs := embedded(f)
	f.Add(drill.Write(docs[0].Drill))
	f.Add(drill.Write(drill.Seal(docs[0].Drill)))
	f.Add([]byte(`{"format": "halfsplit-drill", "version": 1, "sealed": "AAAAAAAAAAAAAAAAAAAAAAAAAA=="}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := drill.Read(data)
		if err != nil {
			told(err)
			return
		}
		again, err := drill.Read(drill.Write(doc.Drill))
		if err != nil || !reflect.DeepEqual(again.Drill, doc.Drill) {
			t.Fatalf("written and read again: %v\n%s", err, drill.Write(doc.Drill))
		}
	})
}

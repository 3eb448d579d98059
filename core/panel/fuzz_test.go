package panel_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"halfsplit/core/panel"
)

// Whatever the bytes: no panic, no error type but our own with its place filled
// in, and what is read comes back from Write unchanged.
func FuzzRead(f *testing.F) {
	f.Add([]byte(bench))
	f.Add([]byte(corrected))
	f.Add([]byte(`{"format":"halfsplit-panel","version":1,"name":"\ud83d\ude00\u0000\u2028","wires":[{"no":"1","from":"a","to":null}],"strips":null}`))
	f.Add([]byte(`{"format":"halfsplit-panel","version":1,"conditions":[{"name":"n","set":{"A]\"[\\":"x","":"y","a.b":"z"}}],"found":[{"op":"add-wire","add":null}]}`))
	f.Add([]byte("\xef\xbb\xbf{}"))
	f.Add([]byte("{\"a\xff"))
	f.Add([]byte(`[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[`))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := panel.Read(data)
		if err != nil {
			var e *panel.Error
			if !errors.As(err, &e) || len(e.Problems) == 0 {
				t.Fatalf("error %T %v", err, err)
			}
			for _, p := range e.Problems {
				if p.Line < 1 || p.Col < 1 || p.Code == "" {
					t.Errorf("problem without place or code: %+v", p)
				}
			}
			if d == nil {
				return
			}
		}
		out := panel.Write(d.Panel)
		if d.Panel.Format != panel.Format || d.Panel.Version != panel.Version {
			return // written, it would be refused
		}
		again, err := panel.Read(out)
		if err != nil {
			t.Fatalf("what was written is refused: %v\n%s", err, out)
		}
		if !reflect.DeepEqual(d.Panel, again.Panel) {
			t.Errorf("read, write, read differs:\n%+v\n%+v", d.Panel, again.Panel)
		}
		if twice := panel.Write(again.Panel); !bytes.Equal(out, twice) {
			t.Errorf("write, read, write differs:\n%s\n%s", out, twice)
		}
		if !json.Valid(out) {
			t.Errorf("not JSON: %s", out)
		}
		found, problems := d.AsFound()
		if len(d.Panel.Found) == 0 && len(problems) > 0 {
			t.Errorf("no edits, and yet %+v", problems)
		}
		found.Pos("wires[0].to")
	})
}

// A point that parses prints in one canonical form, and that form is itself.
func FuzzParsePoint(f *testing.F) {
	for _, s := range []string{"K1:A1", "X1:4/out", "X3:7.1/in", "W12@X1:4/out", "=A+P-X1:4", "-X1:4", "a@b@c:d", "X1:", ":4", "X1:4/up", " X1:4 ", "=:1", "@X1:4", "W@-:1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, ok := panel.ParsePoint(s)
		if !ok {
			if p != (panel.Point{}) {
				t.Errorf("ParsePoint(%q) refuses and yet gives %+v", s, p)
			}
			return
		}
		again, ok := panel.ParsePoint(p.String())
		if !ok || again != p {
			t.Errorf("ParsePoint(%q) = %+v; its form %q parses as %+v, %v", s, p, p.String(), again, ok)
		}
	})
}

// Every path a problem can carry leads back to its value, odd keys included.
func TestKey(t *testing.T) {
	d := read(t, `{"format":"halfsplit-panel","version":1,"name":"x",
"conditions":[{"name":"n","set":{
"S1":"a",
"A3:0":"b",
"a.b":"c",
"]\"[\\":"d",
"":"e"}}]}`)
	for i, key := range []string{"S1", "A3:0", "a.b", `]"[\`, ""} {
		if line, _ := d.Pos(panel.Key("conditions[0].set", key)); line != 3+i {
			t.Errorf("%s is on line %d, want %d", panel.Key("conditions[0].set", key), line, 3+i)
		}
	}
}

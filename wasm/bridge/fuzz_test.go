package bridge

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

// Whatever bytes come, something is answered; and where they are JSON, they are
// refused exactly when encoding/json counts deeper nesting than the limit.
func FuzzGuard(f *testing.F) {
	for _, seed := range []string{
		`{"op":"open","demo":"training-bench"}`, `[[["[[["]]]`, `"\\\"["`, `{"a":"\u005b"}`, `]]]][[[[`, "\"\xff[",
		strings.Repeat("[", MaxDepth+1) + strings.Repeat("]", MaxDepth+1), `[` + strings.Repeat(`{},`, 200) + `{}]`, ``,
	} {
		f.Add([]byte(seed))
	}
	echo := Guard(func(b []byte) []byte { return b })
	f.Fuzz(func(t *testing.T, b []byte) {
		got := echo(b)
		if !json.Valid(b) {
			return // the handler says what is wrong with it
		}
		refused := !bytes.Equal(got, b)
		if deepest := depth(b); refused != (deepest > MaxDepth) {
			t.Errorf("nested %d deep: refused %v\n%.200s", deepest, refused, b)
		}
	})
}

// depth counts with the decoder of the standard library.
func depth(b []byte) (deepest int) {
	d := json.NewDecoder(bytes.NewReader(b))
	for at := 0; ; {
		token, err := d.Token()
		if err != nil {
			return deepest // io.EOF: b is valid
		}
		switch token {
		case json.Delim('['), json.Delim('{'):
			at++
		case json.Delim(']'), json.Delim('}'):
			at--
		}
		deepest = max(deepest, at)
	}
}

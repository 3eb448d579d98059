package bridge

import (
	"strings"
	"testing"
)

func TestGuard(t *testing.T) {
	echo := func(b []byte) []byte { return b }
	deep := func(n int) string { return strings.Repeat("[", n) + strings.Repeat("]", n) }
	for _, tc := range []struct {
		name, in, want string
		h              Handler
	}{
		{"answer passes", `{"op":"x"}`, `{"op":"x"}`, echo},
		{"at the limit", deep(MaxDepth), deep(MaxDepth), echo},
		{"one beyond", deep(MaxDepth + 1), `{"error":{"code":"too-deep","args":["100","100"]}}`, echo},
		{"a million deep", deep(1_000_000), `{"error":{"code":"too-deep","args":["100","100"]}}`, echo},
		{"brackets in a string", `"` + deep(500) + `"`, `"` + deep(500) + `"`, echo},
		{"escaped quote in a string", `"\"` + deep(500) + `"`, `"\"` + deep(500) + `"`, echo},
		{"panic", `{}`, `{"error":{"code":"panic","args":["node 7 of 3"]}}`,
			func([]byte) []byte { panic("node 7 of 3") }},
		{"run-time panic", `{}`, `{"error":{"code":"panic","args":["runtime error: index out of range [2] with length 0"]}}`,
			func(b []byte) []byte { return []byte{[]byte(nil)[len(b)]} }},
	} {
		t.Run(tc.name, func(t *testing.T) {
			if got := string(Guard(tc.h)([]byte(tc.in))); got != tc.want {
				t.Errorf("got %.80s, want %.80s", got, tc.want)
			}
		})
	}
}

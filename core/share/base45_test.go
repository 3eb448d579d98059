package share

import (
	"bytes"
	"math/rand/v2"
	"testing"
)

// Source: the examples of RFC 9285, sections 4.3 and 4.4.
func TestBase45(t *testing.T) {
	for text, want := range map[string]string{"AB": "BB8", "Hello!!": "%69 VD92EX0", "base-45": "UJCLQE7W581", "ietf!": "QED8WEX0"} {
		if got := encode45([]byte(text)); got != want {
			t.Errorf("%s is %q, want %q", text, got, want)
		}
		if back, ok := decode45(want); !ok || string(back) != text {
			t.Errorf("%q is %q, want %s", want, back, text)
		}
	}
	for _, bad := range []string{"A", "GGW", ":::", "ab0", "ABCD", "::"} { // GGW is 65536, section 4.2
		if _, ok := decode45(bad); ok {
			t.Errorf("%q is taken", bad)
		}
	}
	rng := rand.New(rand.NewPCG(3, 4))
	for n := range 200 {
		data := make([]byte, n)
		for i := range data {
			data[i] = byte(rng.UintN(256))
		}
		if back, ok := decode45(encode45(data)); !ok || !bytes.Equal(back, data) {
			t.Fatalf("%x came back as %x", data, back)
		}
	}
}

package drill

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"errors"
	"hash/fnv"
	"io"
	"strings"

	"halfsplit/core/panel"
)

// A seal keeps a learner from reading the answer by accident: the Hidden part
// deflated, mixed with a stream keyed by the open text of the drill, and written as
// base64. It is no secret: whoever has this program can undo it, and is meant to be
// able to. What it does detect is a drill whose open text was changed afterwards.

var errSeal = errors.New("drill: the seal does not fit the text")

// hiddenDoc is the text of a Hidden part by itself.
type hiddenDoc struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	Hidden  Hidden `json:"hidden"`
}

const hiddenFormat = "halfsplit-drill-hidden"

// Seal gives a copy whose Hidden part is sealed.
func Seal(d *Drill) *Drill {
	out := *d
	if d.Hidden == nil {
		return &out
	}
	out.Hidden, out.Sealed = nil, ""
	plain := panel.Encode(&hiddenDoc{hiddenFormat, Version, *d.Hidden}, hiddenDoc{}, Hidden{})
	var packed bytes.Buffer
	w, err := flate.NewWriter(&packed, flate.BestCompression)
	if err != nil {
		panic(err) // the level is one of flate's own
	}
	_, _ = w.Write(plain) // into memory
	_ = w.Close()
	body := append(sum(plain), packed.Bytes()...)
	mix(&out, body)
	out.Sealed = base64.StdEncoding.EncodeToString(body)
	return &out
}

// Unseal gives a copy with its Hidden part open. A drill that is open already is
// copied. The error says that the seal does not fit the open text.
func Unseal(d *Drill) (*Drill, error) {
	out := *d
	if d.Sealed == "" {
		return &out, nil
	}
	h, err := unseal(d)
	if err != nil {
		return nil, err
	}
	out.Hidden, out.Sealed = h, ""
	return &out, nil
}

// mostHidden bounds what a seal unpacks to: a few bytes must not become a phone's
// whole memory.
const mostHidden = 1 << 20

func unseal(d *Drill) (*Hidden, error) {
	open := *d
	open.Hidden, open.Sealed = nil, ""
	body, err := base64.StdEncoding.DecodeString(strings.TrimSpace(d.Sealed))
	if err != nil || len(body) < 8 {
		return nil, errSeal
	}
	mix(&open, body)
	plain, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(body[8:])), mostHidden))
	if err != nil || !bytes.Equal(sum(plain), body[:8]) {
		return nil, errSeal
	}
	var doc hiddenDoc
	if _, err := panel.Decode(plain, hiddenFormat, Version, &doc); err != nil {
		return nil, errSeal
	}
	return &doc.Hidden, nil
}

// sum is the FNV-1a hash of a text, eight bytes.
func sum(text []byte) []byte {
	h := fnv.New64a()
	h.Write(text)
	return h.Sum(nil)
}

// mix combines bytes with the stream of a drill's open text; again undoes it.
func mix(open *Drill, body []byte) {
	key := sum(panel.Encode(open, Drill{}, Hidden{}))
	s := uint64(0)
	for _, b := range key {
		s = s<<8 | uint64(b)
	}
	r := random(s)
	for i := range body {
		body[i] ^= byte(r.next() >> 56)
	}
}

// A random is a stream of numbers that is the same everywhere. Source: splitmix64,
// Steele, Lea & Flood, OOPSLA 2014.
type random uint64

func (r *random) next() uint64 {
	*r += 0x9e3779b97f4a7c15
	z := uint64(*r)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// upTo is a number from 0 to n-1.
func (r *random) upTo(n int) int { return int(r.next() % uint64(n)) }

package panel

import (
	"bytes"
	"strconv"
	"unicode/utf8"
)

// What one document may hold. A phone's memory and a browser's small stack set
// the limits; the largest plants are far below them.
const (
	MaxBytes  = 16 << 20
	MaxDepth  = 32
	MaxValues = 1_000_000
	MaxCount  = 60_000 // of wires, of parts, of blocks on all strips, of blocks named by all jumpers
	MaxEdits  = 2_000  // as-found corrections
	// MaxEditions are remembered of the states a panel was handed over in: a choice.
	// Two copies that have not met for longer are told apart by a person.
	MaxEditions = 20
	MaxEach     = 64 // contacts of one part
)

// A kind of JSON value.
type kind byte

const (
	object kind = iota + 1
	array
	text
	number
	boolean
	null
)

// A node is one JSON value with its place in the file.
type node struct {
	kind     kind
	off, end int32  // bytes, half open
	key      string // name of this member, in an object
	keyOff   int32
	kids     []node
	index    map[string]int32 // member → its place in kids, the first of equals; only of large objects
}

// large is how many members make an object worth an index.
const large = 64

// A flaw is the first thing that keeps a file from being read.
type flaw struct {
	off  int
	code string
	args []string
}

// bounds refuses, without decoding anything, what is too large, too deep, has
// too many values, or is not UTF-8. It reads every byte once and allocates
// nothing.
func bounds(data []byte) *flaw {
	if len(data) > MaxBytes {
		return &flaw{0, "too-large", []string{strconv.Itoa(MaxBytes >> 20)}}
	}
	if !utf8.Valid(data) {
		off := 0
		for off < len(data) {
			r, n := utf8.DecodeRune(data[off:])
			if r == utf8.RuneError && n == 1 {
				break
			}
			off += n
		}
		return &flaw{off, "not-utf8", nil}
	}
	depth, values, quoted := 0, 1, false
	for i := 0; i < len(data); i++ {
		switch c := data[i]; {
		case quoted && c == '\\':
			i++
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '{' || c == '[':
			if depth++; depth > MaxDepth {
				return &flaw{i, "too-deep", []string{strconv.Itoa(MaxDepth)}}
			}
			values++
		case c == '}' || c == ']':
			depth--
		case c == ',':
			values++
		}
		if values > MaxValues {
			return &flaw{i, "too-many-values", []string{strconv.Itoa(MaxValues)}}
		}
	}
	return nil
}

// A scanner turns JSON text (RFC 8259) into nodes. It is our own because the
// place of every value is wanted, and encoding/json gives it for errors only.
type scanner struct {
	data  []byte
	at    int
	flaw  *flaw
	names map[string]string // member names seen, so that each is kept once
}

// scan reads one whole document.
func scan(data []byte) (node, *flaw) {
	s := &scanner{data: data, names: map[string]string{}}
	s.space()
	if s.at == len(s.data) {
		return node{}, &flaw{0, "empty-file", nil}
	}
	n := s.value()
	if s.flaw == nil {
		if s.space(); s.at < len(s.data) {
			s.fail(s.at, "trailing-data", s.found())
		}
	}
	return n, s.flaw
}

func (s *scanner) fail(off int, code string, args ...string) {
	if s.flaw == nil {
		s.flaw = &flaw{off, code, args}
	}
}

// found is the character at the scanner, for messages.
func (s *scanner) found() string {
	r, _ := utf8.DecodeRune(s.data[s.at:])
	return strconv.QuoteRune(r)
}

// ended fails where the file stops in the middle of something.
func (s *scanner) ended() bool {
	if s.at < len(s.data) {
		return false
	}
	s.fail(s.at, "file-ends")
	return true
}

func (s *scanner) space() {
	for s.at < len(s.data) {
		switch s.data[s.at] {
		case ' ', '\t', '\n', '\r':
			s.at++
		default:
			return
		}
	}
}

// value reads the value at the scanner. Its depth is bounded by bounds.
func (s *scanner) value() node {
	if s.space(); s.ended() {
		return node{}
	}
	n := node{off: int32(s.at)}
	switch c := s.data[s.at]; {
	case c == '{':
		n.kind = object
		s.members(&n)
	case c == '[':
		n.kind = array
		s.items(&n)
	case c == '"':
		n.kind = text
		s.quoted()
	case c == '-' || c >= '0' && c <= '9':
		n.kind = number
		s.number()
	case s.word("true"), s.word("false"):
		n.kind = boolean
	case s.word("null"):
		n.kind = null
	default:
		s.fail(s.at, "value-expected", s.found())
	}
	n.end = int32(s.at)
	return n
}

func (s *scanner) word(w string) bool {
	if !bytes.HasPrefix(s.data[s.at:], []byte(w)) {
		return false
	}
	s.at += len(w)
	return true
}

func (s *scanner) members(n *node) {
	s.entries(n)
	if len(n.kids) <= large {
		return
	}
	n.index = make(map[string]int32, len(n.kids))
	for i := range n.kids {
		if _, taken := n.index[n.kids[i].key]; !taken {
			n.index[n.kids[i].key] = int32(i)
		}
	}
}

func (s *scanner) entries(n *node) {
	s.at++ // {
	for first := true; ; first = false {
		if s.space(); s.ended() {
			return
		}
		if s.data[s.at] == '}' && first {
			s.at++
			return
		}
		if s.data[s.at] != '"' {
			s.fail(s.at, "name-expected", s.found())
			return
		}
		off := s.at
		s.quoted()
		if s.flaw != nil {
			return
		}
		key := s.name(off, s.at)
		if s.space(); s.ended() {
			return
		}
		if s.data[s.at] != ':' {
			s.fail(s.at, "colon-expected", Shorten(key), s.found())
			return
		}
		s.at++
		kid := s.value()
		kid.key, kid.keyOff = key, int32(off)
		n.kids = append(n.kids, kid)
		if s.flaw != nil || s.closed('}') {
			return
		}
	}
}

func (s *scanner) items(n *node) {
	s.at++ // [
	for first := true; ; first = false {
		if s.space(); s.ended() {
			return
		}
		if s.data[s.at] == ']' && first {
			s.at++
			return
		}
		n.kids = append(n.kids, s.value())
		if s.flaw != nil || s.closed(']') {
			return
		}
	}
}

// closed reads the comma before the next entry, or the end of the list.
func (s *scanner) closed(end byte) bool {
	if s.space(); s.ended() {
		return true
	}
	switch s.data[s.at] {
	case ',':
		s.at++
		return false
	case end:
		s.at++
	default:
		s.fail(s.at, "comma-expected", string(end), s.found())
	}
	return true
}

func (s *scanner) number() {
	start := s.at
	digits := func() bool {
		from := s.at
		for s.at < len(s.data) && s.data[s.at] >= '0' && s.data[s.at] <= '9' {
			s.at++
		}
		return s.at > from
	}
	is := func(set string) bool {
		if s.at < len(s.data) && bytes.IndexByte([]byte(set), s.data[s.at]) >= 0 {
			s.at++
			return true
		}
		return false
	}
	is("-")
	zero := s.at < len(s.data) && s.data[s.at] == '0'
	whole := s.at
	ok := digits() && !(zero && s.at > whole+1)
	if ok && is(".") {
		ok = digits()
	}
	if ok && is("eE") {
		is("+-")
		ok = digits()
	}
	if !ok {
		for s.at < len(s.data) && bytes.IndexByte([]byte("+-.eE0123456789"), s.data[s.at]) >= 0 {
			s.at++
		}
		s.fail(start, "bad-number", Shorten(string(s.data[start:s.at])))
	}
}

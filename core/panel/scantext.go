package panel

import (
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// quoted passes over the string at the scanner and checks its escapes.
func (s *scanner) quoted() {
	start := s.at
	for s.at++; s.at < len(s.data); s.at++ {
		switch c := s.data[s.at]; {
		case c == '"':
			s.at++
			return
		case c < ' ':
			if c == '\n' || c == '\r' {
				s.fail(start, "quote-expected")
			} else {
				s.fail(s.at, "control-character", strconv.QuoteRune(rune(c)))
			}
			return
		case c == '\\':
			if !s.escape() {
				return
			}
		}
	}
	s.fail(start, "quote-expected")
}

// escape passes over one escape, both halves of a surrogate pair, and leaves the
// scanner on its last byte. Half a pair is no character and is refused, where
// encoding/json would put a replacement in: a document must come back unchanged.
func (s *scanner) escape() bool {
	start := s.at
	if s.at+1 < len(s.data) {
		switch s.data[s.at+1] {
		case '"', '\\', '/', 'b', 'f', 'n', 'r', 't':
			s.at++
			return true
		case 'u':
			r, ok := hex4(s.data, s.at)
			if !ok {
				break
			}
			s.at += 5
			if !utf16.IsSurrogate(r) {
				return true
			}
			if low, ok := hex4(s.data, s.at+1); ok && utf16.DecodeRune(r, low) != utf8.RuneError {
				s.at += 6
				return true
			}
		}
	}
	s.fail(start, "bad-escape")
	return false
}

// hex4 reads the escape \uXXXX that begins at data[at].
func hex4(data []byte, at int) (rune, bool) {
	if at+6 > len(data) || data[at] != '\\' || data[at+1] != 'u' {
		return 0, false
	}
	var r rune
	for _, c := range data[at+2 : at+6] {
		switch {
		case c >= '0' && c <= '9':
			r = r<<4 | rune(c-'0')
		case c >= 'a' && c <= 'f':
			r = r<<4 | rune(c-'a'+10)
		case c >= 'A' && c <= 'F':
			r = r<<4 | rune(c-'A'+10)
		default:
			return 0, false
		}
	}
	return r, true
}

// name is the member name written in data[off:end], kept once for all members
// that share it.
func (s *scanner) name(off, end int) string {
	if have, ok := s.names[string(s.data[off+1:end-1])]; ok { // no copy is made for the look-up
		return have
	}
	raw := string(s.data[off+1 : end-1])
	s.names[raw] = unquote(s.data[off:end])
	return s.names[raw]
}

// unquote gives the text of a JSON string that quoted accepted.
func unquote(q []byte) string {
	q = q[1 : len(q)-1]
	var out []byte
	for i := 0; i < len(q); i++ {
		if q[i] != '\\' {
			if out != nil {
				out = append(out, q[i])
			}
			continue
		}
		if out == nil {
			out = append(make([]byte, 0, len(q)), q[:i]...)
		}
		i++
		switch q[i] {
		case 'b':
			out = append(out, '\b')
		case 'f':
			out = append(out, '\f')
		case 'n':
			out = append(out, '\n')
		case 'r':
			out = append(out, '\r')
		case 't':
			out = append(out, '\t')
		case 'u':
			r, _ := hex4(q, i-1)
			i += 4
			if utf16.IsSurrogate(r) {
				low, _ := hex4(q, i+1)
				r = utf16.DecodeRune(r, low)
				i += 6
			}
			out = utf8.AppendRune(out, r)
		default: // quote, backslash, solidus
			out = append(out, q[i])
		}
	}
	if out == nil {
		return string(q)
	}
	return string(out)
}

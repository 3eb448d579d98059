package share

import (
	"encoding/base64"
	"strings"
)

// linkKey stands before packed text in the fragment of a link, which no server is
// ever sent (RFC 3986, 3.5).
const linkKey = "open="

// Link gives packed bytes as text for a message or the fragment of a link.
//
// Source: RFC 4648, base64url without padding.
func Link(packed []byte) string { return linkKey + base64.RawURLEncoding.EncodeToString(packed) }

// Open reads whatever a person was sent: a document, a link or its fragment, or
// the texts of several codes, one a line. Gathered is filled in for codes; the
// document is nil while some are missing. The error is an *Error.
func Open(text string) ([]byte, *Gathered, error) {
	trimmed := strings.TrimSpace(strings.TrimPrefix(text, "\ufeff"))
	switch {
	case trimmed == "":
		return nil, nil, &Error{Code: "share.nothing"}
	case trimmed[0] == '{':
		if _, err := Read([]byte(text)); err != nil {
			return nil, nil, err
		}
		return []byte(text), nil, nil
	case IsPart(trimmed):
		packed, g, err := Join(lines(trimmed))
		if err != nil || packed == nil {
			return nil, g, err
		}
		data, err := Unpack(packed)
		return data, g, err
	}
	if len(text) > MaxPacked*2 {
		return nil, nil, &Error{Code: "share.not-packed"}
	}
	if i := strings.LastIndex(trimmed, linkKey); i >= 0 {
		trimmed = trimmed[i+len(linkKey):]
	}
	plain := strings.TrimRight(strings.Join(strings.Fields(trimmed), ""), "=") // messages break lines
	packed, err := base64.RawURLEncoding.DecodeString(plain)
	if err != nil {
		return nil, nil, &Error{Code: "share.not-packed"}
	}
	data, err := Unpack(packed)
	return data, nil, err
}

// lines are the texts of codes, one a line.
func lines(text string) (list []string) {
	for line := range strings.SplitSeq(text, "\n") {
		if strings.TrimSpace(line) != "" {
			list = append(list, line)
		}
	}
	return list
}

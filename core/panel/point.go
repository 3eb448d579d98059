package panel

import (
	"strings"
	"unicode"
)

// A Point is a place a probe can touch or a wire can land, as written.
//
//	K1:A1          Device K1, Terminal A1
//	X1:4/out       Device X1, Terminal 4, Side out
//	X3:7.1/in      Device X3, Terminal 7.1, Side in: whether ".1" is a level or
//	               part of a marking, the strip decides (a marking wins)
//	W12@X1:4/out   Wire W12: the strand of that wire at that terminal
type Point struct {
	Wire     string // number of the wire whose strand this is; empty for the terminal itself
	Device   string
	Terminal string
	Side     string // "in", "out" or empty
}

// ParsePoint reads a point as written. It accepts the leading dash and the
// higher levels of IEC 81346 (=A+P-X1:4 is X1:4). ok is false where the text
// has no device or no terminal, or a side that is neither in nor out.
func ParsePoint(s string) (p Point, ok bool) {
	s = strings.TrimSpace(s)
	if at := strings.IndexByte(s, '@'); at >= 0 {
		p.Wire, s = strings.TrimSpace(s[:at]), s[at+1:]
		if p.Wire == "" {
			return Point{}, false
		}
	}
	colon := strings.IndexByte(s, ':')
	if colon < 0 {
		return Point{}, false
	}
	p.Device, p.Terminal = Designation(s[:colon]), strings.TrimSpace(s[colon+1:])
	if slash := strings.LastIndexByte(p.Terminal, '/'); slash >= 0 {
		p.Terminal, p.Side = strings.TrimSpace(p.Terminal[:slash]), p.Terminal[slash+1:]
		if p.Side != "in" && p.Side != "out" {
			return Point{}, false
		}
	}
	if p.Device == "" || p.Terminal == "" || strings.ContainsAny(p.Device, "@/") || strings.ContainsAny(p.Terminal, ":@/") {
		return Point{}, false
	}
	return p, true
}

// Designation strips the function and location of an IEC 81346 designation and
// the dash of its product: "=A+P-X1" and "-X1" are "X1".
func Designation(s string) string {
	s = strings.TrimSpace(s)
	if strings.HasPrefix(s, "=") || strings.HasPrefix(s, "+") {
		dash := strings.LastIndexByte(s, '-')
		if dash < 0 {
			return s
		}
		s = s[dash:]
	}
	return strings.TrimLeftFunc(s, func(r rune) bool { return r == '-' || unicode.IsSpace(r) })
}

// String gives the point back in the one canonical form.
func (p Point) String() string {
	s := p.Device + ":" + p.Terminal
	if p.Side != "" {
		s += "/" + p.Side
	}
	if p.Wire != "" {
		s = p.Wire + "@" + s
	}
	return s
}

package draft

import (
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// Figures are the quantities that stand in what a person calls a thing: "24 V",
// "2 A T", "C6", "8 ch".
type figures []string

// splitFigures takes a text apart into its words and its quantities. A quantity
// begins with a digit and may be as long as three words: "2 A T".
func splitFigures(text string) (words []string, f figures) {
	all := strings.Fields(text)
	for i := 0; i < len(all); {
		n := 0
		for k := min(3, len(all)-i); k > 0 && n == 0; k-- {
			if quantity(strings.Join(all[i:i+k], " ")) {
				n = k
			}
		}
		switch {
		case n > 0:
			f = append(f, strings.Join(all[i:i+n], " "))
			i += n
		case i > 0 && breakerMark(all[i]):
			f = append(f, all[i])
			i++
		default:
			words = append(words, all[i])
			i++
		}
	}
	return words, f
}

// quantity says that a text is a figure with its unit.
func quantity(s string) bool {
	if s[0] < '0' || s[0] > '9' || strings.Trim(s, "0123456789.,") == "" {
		return false
	}
	if _, ok := channels(s); ok {
		return true
	}
	if _, err := unit.ParseFuse(s); err == nil {
		return true
	}
	for _, dim := range []unit.Dimension{unit.Voltage, unit.Current, unit.Resistance, unit.Power} {
		if _, err := unit.Parse(s, dim); err == nil {
			return true
		}
	}
	return false
}

// breakerMark is a characteristic and its amperes: "C6", "T2A".
func breakerMark(s string) bool {
	_, err := unit.ParseFuse(s)
	return err == nil && strings.Trim(s, "0123456789.,") != "" && strings.ContainsAny(s, "0123456789")
}

// channels reads "8 ch", "16 channels".
func channels(s string) (int, bool) {
	digits := strings.TrimRight(strings.ToLower(s), "abcdefghijklmnopqrstuvwxyz ")
	switch strings.TrimSpace(strings.ToLower(s)[len(digits):]) {
	case "ch", "channel", "channels":
		n, err := strconv.Atoi(digits)
		return n, err == nil && n > 0 && n <= 64
	}
	return 0, false
}

// rateWords gives a candidate the ratings that are words and stand in the text:
// "feed", "PELV".
func rateWords(c *Candidate, k *parts.Kind, words []string) {
	for _, r := range k.Ratings {
		for _, w := range words {
			if slices.Contains(r.Words, w) && c.Ratings[r.Name] == "" {
				if c.Ratings == nil {
					c.Ratings = map[string]string{}
				}
				c.Ratings[r.Name] = w
			}
		}
	}
}

// rate gives a candidate the figures its kind has a rating for, each to the
// first that takes it.
func (f figures) rate(c *Candidate, k *parts.Kind) {
	for _, text := range f {
		if n, ok := channels(text); ok {
			if !k.Block && byChannel(k) {
				c.Channels = n
			}
			continue
		}
		if k.Fused {
			if _, err := unit.ParseFuse(text); err == nil && c.Fuse == "" {
				c.Fuse = text
			}
			continue
		}
		for _, r := range k.Ratings {
			if c.Ratings[r.Name] != "" || !takes(&r, text) {
				continue
			}
			if c.Ratings == nil {
				c.Ratings = map[string]string{}
			}
			c.Ratings[r.Name] = plainUnit(text)
			break
		}
	}
}

func takes(r *parts.Rating, text string) bool {
	if r.Link {
		_, err := unit.ParseFuse(text)
		return err == nil
	}
	if r.Dim == 0 || r.Dim == unit.Ratio {
		return false
	}
	_, err := unit.Parse(text, r.Dim)
	return err == nil
}

// plainUnit takes away what a document does not need: "24 V DC" is "24 V".
func plainUnit(text string) string {
	low := strings.ToLower(text)
	for _, tail := range []string{" dc", " ac", "dc", "ac"} {
		if cut, ok := strings.CutSuffix(low, tail); ok && strings.HasSuffix(cut, "v") {
			return text[:len(cut)]
		}
	}
	return text
}

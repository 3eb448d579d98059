package draft

import (
	"cmp"
	"slices"
	"strings"

	"halfsplit/core/parts"
)

// A Trade tells what people of the trade call a kind in one language: "relay",
// "control relay". Package words holds them.
type Trade func(kind string) []string

// A Candidate is one thing a text may mean, ready to be made a part or a block.
type Candidate struct {
	Kind     string
	Block    bool // stands on a strip
	Ref      string
	Tag      string
	Label    string
	At       string
	Fuse     string // of a block
	Ratings  map[string]string
	Channels int
	// Code and Args say why: guess.iec with the letter, guess.letters with
	// American device letters, guess.isa or guess.equipment with the letters of the
	// tag, guess.trade with the word.
	Code string
	Args []string

	score int
}

// maxCandidates are shown to a person: what stands lower is not meant.
const maxCandidates = 8

// How much each reason counts, choices that put the more telling first: a word
// for a thing means it; a tag of two letters and three digits is read by ISA 5.1,
// one of fewer digits without a dash as device letters.
const (
	scoreWord    = 100 // the text is the word
	scoreWithin  = 60  // the word stands in the text; 4 more for each of its words
	scoreBegin   = 40  // the text begins the word
	scoreLetters = 88
	scoreTag     = 90
	scoreAnyTag  = 80 // by the function letter alone
	scoreUnlike  = 40 // less, where the form speaks for the other reading
)

// Guess reads what a person calls a thing: a designation by IEC 81346-2 letters
// ("K7"), American device letters ("CR3"), an instrument tag by ISA 5.1
// ("PT-102") or words of the trade with figures ("PSU 24 V"). It gives the kinds
// that may be meant, the likeliest first, none where nothing fits.
func Guess(text string, trade Trade) []Candidate {
	text = strings.Join(strings.Fields(text), " ")
	if text == "" || len(text) > 4*MaxText {
		return nil
	}
	words, figures := splitFigures(text)
	var list []Candidate
	for _, k := range parts.Kinds() {
		if k == mainsKind() {
			continue
		}
		best := Candidate{}
		for _, c := range []Candidate{byLetters(text, k), byTag(text, k), byWord(words, k, trade)} {
			if c.score > best.score {
				best = c
			}
		}
		if best.score == 0 {
			continue
		}
		best.Kind, best.Block = k.Name, k.Block
		figures.rate(&best, k)
		rateWords(&best, k, words)
		list = append(list, best)
	}
	slices.SortStableFunc(list, func(a, b Candidate) int { return cmp.Compare(b.score, a.score) })
	return list[:min(len(list), maxCandidates)]
}

// designation splits "K7", "-K7", "PT-102A" or "10-PT-102" at its letters; ok is
// false for any other text. dashed says that a dash or space stands between.
func designation(text string) (letters, digits string, dashed, ok bool) {
	s := strings.ToUpper(strings.TrimLeft(text, "-"))
	if i := strings.IndexFunc(s, letter); i > 0 && strings.Trim(s[:i], "0123456789-") == "" { // area before the letters
		s = s[i:]
	}
	end := 0
	for end < len(s) && s[end] >= 'A' && s[end] <= 'Z' {
		end++
	}
	letters, digits = s[:end], s[end:]
	if letters == "" || len(letters) > 5 {
		return "", "", false, false
	}
	if rest := strings.TrimLeft(digits, "- "); rest != digits {
		digits, dashed = rest, true
	}
	core := strings.TrimRight(digits, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	if core == "" || len(core) > 6 || strings.Trim(core, "0123456789") != "" || len(digits)-len(core) > 1 {
		return "", "", false, false
	}
	return letters, digits, dashed, true
}

func letter(r rune) bool { return r >= 'A' && r <= 'Z' }

// byLetters reads a text as a designation with device letters.
func byLetters(text string, k *parts.Kind) Candidate {
	letters, digits, dashed, ok := designation(text)
	place := slices.Index(k.Letters, letters)
	if !ok || k.Block || place < 0 {
		return Candidate{}
	}
	c := Candidate{Ref: letters + digits, Code: "guess.iec", Args: []string{letters}, score: scoreLetters - 2*place}
	if len(letters) > 1 {
		c.Code = "guess.letters"
		if dashed || len(digits) > 2 {
			c.score -= scoreUnlike
		}
	}
	return c
}

// byTag reads a text as an instrument tag.
func byTag(text string, k *parts.Kind) Candidate {
	letters, digits, dashed, ok := designation(text)
	if !ok {
		return Candidate{}
	}
	score, code := 0, "guess.isa"
	switch {
	case len(letters) == 1: // a pump P-101 on a flow sheet, where K7 and P1 stand in the panel: common practice
		if !dashed || len(digits) < 3 || !slices.Contains(k.Tags, letters) {
			return Candidate{}
		}
		score, code = scoreTag, "guess.equipment"
	case slices.Contains(k.Tags, letters):
		score = scoreTag
	case slices.Contains(k.Tags, "*"+letters[1:]):
		score = scoreAnyTag
	default:
		return Candidate{}
	}
	if !dashed && len(digits) < 3 {
		score -= scoreUnlike
	}
	c := Candidate{Tag: strings.ToUpper(strings.ReplaceAll(text, " ", "-")), Code: code, Args: []string{letters}, score: score}
	if fieldKind(k) {
		c.At = "field"
	}
	return c
}

// fieldKind says that a kind stands outside the panel as a rule: what measures
// (IEC 81346-2 B) and what moves something (M). Choice.
func fieldKind(k *parts.Kind) bool {
	return len(k.Letters) > 0 && k.Letters[0] == "B" || slices.Contains(k.Letters, "M")
}

// byWord looks for a word of the trade in a text.
func byWord(words []string, k *parts.Kind, trade Trade) Candidate {
	if trade == nil || len(words) == 0 {
		return Candidate{}
	}
	text := strings.ToLower(strings.Join(words, " "))
	best := Candidate{}
	for _, term := range trade(k.Name) {
		low := strings.ToLower(term)
		score := 0
		switch {
		case low == "":
		case low == text || low+"s" == text:
			score = scoreWord
		case within(text, low):
			score = scoreWithin + 4*(1+strings.Count(low, " "))
		case len(text) >= 2 && strings.HasPrefix(low, text):
			score = scoreBegin
		}
		if score <= best.score {
			continue
		}
		best = Candidate{Code: "guess.trade", Args: []string{term}, score: score}
		if score != scoreWord && score != scoreBegin && !k.Block {
			best.Label = strings.Join(words, " ")
		}
		if fieldKind(k) {
			best.At = "field"
		}
	}
	return best
}

// within says that a term stands in a text as whole words.
func within(text, term string) bool {
	return strings.Contains(" "+text+" ", " "+term+" ")
}

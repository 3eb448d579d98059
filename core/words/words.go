// Package words holds the sentences people read: one flat catalogue a language,
// from code to sentence. The core answers in codes and arguments; only here do
// they become language.
//
// # Sentences
//
// {0}, {1} … stand for the arguments. A part in square brackets that names an
// argument is left out where that argument is empty: "[; did you mean {2}?]".
// CODE.hint is the remedy of CODE. Codes that begin with "page." are the page's.
package words

import (
	_ "embed"
	"encoding/json"
	"maps"
	"strconv"
	"strings"
	"sync"

	"halfsplit/core/panel"
)

// fallback is the language every code has a sentence in.
const fallback = "en"

// A file of sentences, in a language of two letters. Each is embedded as a text, for
// what a file system costs (package scenarios).
type file struct{ lang, text string }

//go:embed en.json
var en string

// catalogues are read once, when first asked for. LANG.json holds the words of the
// open panel, workshop.LANG.json those of drawing, sharing and drills, page.LANG.json
// those of the page.
var catalogues = sync.OnceValue(func() map[string]map[string]string {
	all := map[string]map[string]string{}
	for _, f := range files {
		var words map[string]string
		if err := json.Unmarshal([]byte(f.text), &words); err != nil {
			panic("words: " + f.lang + ": " + err.Error()) // a test reads every file
		}
		if all[f.lang] == nil {
			all[f.lang] = map[string]string{}
		}
		maps.Copy(all[f.lang], words)
	}
	return all
})

// catalogue picks the language: "de-CH" reads de, what is unknown reads English.
func catalogue(lang string) map[string]string {
	base, _, _ := strings.Cut(strings.ToLower(lang), "-")
	if c, ok := catalogues()[base]; ok {
		return c
	}
	return catalogues()[fallback]
}

// Catalogue gives all sentences of a language, those that it lacks in English.
// The map is the caller's own.
func Catalogue(lang string) map[string]string {
	c := maps.Clone(catalogues()[fallback])
	maps.Copy(c, catalogue(lang))
	return c
}

func sentence(lang, code string) (string, bool) {
	if s, ok := catalogue(lang)[code]; ok {
		return s, true
	}
	s, ok := catalogues()[fallback][code]
	return s, ok
}

// Known says whether a code has a sentence.
func Known(lang, code string) bool {
	_, ok := sentence(lang, code)
	return ok
}

// Say gives the sentence of a code. A code without one shows itself and its
// arguments in angle brackets, so that the gap is seen and nothing is lost.
func Say(lang, code string, args ...string) string {
	s, ok := sentence(lang, code)
	if !ok {
		return "⟨" + strings.Join(append([]string{code}, args...), " | ") + "⟩"
	}
	return fill(s, args)
}

// Hint gives the remedy of a code, empty where it has none.
func Hint(lang, code string, args ...string) string {
	s, ok := sentence(lang, code+".hint")
	if !ok {
		return ""
	}
	return fill(s, args)
}

// Render gives a problem as a line for a terminal, and its remedy on the next:
//
//	pump.json:41:17: wire W12 ends at Q1:A3, and Q1 has no terminal A3
//	  hint: Q1 is a relay with A1, A2, 13, 14; did you mean Q1:A2?
func Render(lang, file string, p panel.Problem) string {
	place := file
	if p.Line > 0 {
		place += ":" + strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Col)
	}
	s := place + ": " + Say(lang, p.Code, p.Args...)
	if h := Hint(lang, p.Code, p.Args...); h != "" {
		s += "\n  " + Say(lang, "hint", h)
	}
	return s
}

// fill puts arguments into a sentence.
func fill(s string, args []string) string {
	var out strings.Builder
	for s != "" {
		open := strings.IndexByte(s, '[')
		end := -1
		if open >= 0 {
			end = strings.IndexByte(s[open:], ']')
		}
		if end < 0 {
			text, _, _ := place(s, args)
			out.WriteString(text)
			break
		}
		end += open
		before, _, _ := place(s[:open], args)
		out.WriteString(before)
		text, named, complete := place(s[open+1:end], args)
		switch {
		case !named: // brackets that belong to the sentence
			out.WriteString("[" + text + "]")
		case complete:
			out.WriteString(text)
		}
		s = s[end+1:]
	}
	return out.String()
}

// place replaces each {n} of a text. named says that there was one, complete
// that none of them was empty or missing.
func place(s string, args []string) (text string, named, complete bool) {
	var out strings.Builder
	complete = true
	for {
		open := strings.IndexByte(s, '{')
		if open < 0 || open+2 >= len(s) || s[open+1] < '0' || s[open+1] > '9' || s[open+2] != '}' {
			if open < 0 {
				out.WriteString(s)
				return out.String(), named, complete
			}
			out.WriteString(s[:open+1])
			s = s[open+1:]
			continue
		}
		out.WriteString(s[:open])
		named = true
		n := int(s[open+1] - '0')
		if n < len(args) && args[n] != "" {
			out.WriteString(args[n])
		} else {
			complete = false
		}
		s = s[open+3:]
	}
}

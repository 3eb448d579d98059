package panel

import (
	"cmp"
	"fmt"
	"slices"
	"unicode/utf8"
)

// A Problem is one thing wrong in a document. Its sentence and its remedy are
// made from Code and Args by package words, in the reader's language.
type Problem struct {
	Line, Col int      // 1-based, Col in characters; 0 when unknown
	Path      string   // the value meant: "wires[3].to"
	Code      string   // never reworded: "unknown-field"
	Args      []string // what the sentence names
}

// An Error is the error type of Read: every problem found, in file order.
type Error struct {
	Problems []Problem // at least one
}

// Error is for logs; people are shown the sentences of package words.
func (e *Error) Error() string {
	p := e.Problems[0]
	s := fmt.Sprintf("%d:%d: %s %q", p.Line, p.Col, p.Code, p.Args)
	if n := len(e.Problems) - 1; n > 0 {
		s += fmt.Sprintf(" and %d more", n)
	}
	return s
}

// SortProblems puts problems into file order: by line and column, then code and
// arguments, so that the order never depends on who found what first.
func SortProblems(list []Problem) {
	slices.SortStableFunc(list, func(a, b Problem) int {
		return cmp.Or(
			cmp.Compare(a.Line, b.Line),
			cmp.Compare(a.Col, b.Col),
			cmp.Compare(a.Code, b.Code),
			slices.Compare(a.Args, b.Args),
		)
	})
}

// Shorten cuts a text for a message, so that it stays readable when a stranger's
// file holds a page where a name belongs.
func Shorten(s string) string { return cut(s, 60) }

// argument cuts one argument of a problem: long enough for a list of choices.
func argument(s string) string { return cut(s, 500) }

func cut(s string, most int) string {
	if len(s) <= most || utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most-1]) + "…"
}

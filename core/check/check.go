// Package check finds what is wrong with a drawing: names that lead nowhere,
// ratings nobody can read, potentials that are joined and must not be, wires
// their fuse does not protect, earth that is missing.
//
// # Three passes
//
// The words of the document come first: names, kinds, ratings, points. Then what
// its metal joins, which is judged even in a document with errors, since a
// connection that is there stays there. What is missing (an unfed coil, an
// unearthed rail) is judged last and only where no name is wrong and nothing is
// shorted: one misspelt terminal would otherwise be reported five times.
//
// A panel is checked as found: the edits of the document are part of what the
// panel is. A problem stands at the line where its value was written, in the
// drawing or in the edit.
//
// # What is allowed
//
// An error means that the model cannot be built as drawn or that the drawing is
// unsafe; a warning that it is doubtful; a note that something is left unsaid and
// a default stands in. Silence says nothing about the panel itself.
package check

import (
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/pace"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// A Checked document, with what checking it has made on the way: assembling a
// panel takes long on a phone, and whoever solves it next need not do so again.
type Checked struct {
	Doc      *panel.Doc // nil where the file could not be read at all
	Problems []panel.Problem
	Found    *panel.Panel // as found; nil where checking stopped at the reading
	Net      *parts.Net   // of Found
}

// Document reads and checks a document in one pass over its problems: those of
// reading and those of the drawing, in file order.
func Document(data []byte) Checked {
	doc, err := panel.Read(data)
	done := Checked{Doc: doc}
	if e, ok := err.(*panel.Error); ok {
		done.Problems = e.Problems
	}
	if doc == nil || slices.ContainsFunc(done.Problems, wholeList) {
		return done // a list that could not be read makes every name that stood in it unknown
	}
	u := newUnread(done.Problems)
	c := check(doc, len(done.Problems) == 0)
	for _, p := range c.problems {
		if !u.spoils(p.Path) {
			done.Problems = append(done.Problems, p)
		}
	}
	panel.SortProblems(done.Problems)
	done.Found, done.Net = c.p, c.net
	return done
}

// wholeList says that a problem of reading cost a whole list of the document.
func wholeList(p panel.Problem) bool {
	return !strings.ContainsAny(p.Path, ".[") && p.Code != "version-missing" && p.Code != "not-text"
}

// unread holds the paths that could not be read, and the things they belong to.
type unread struct{ paths, things map[string]bool }

func newUnread(list []panel.Problem) unread {
	u := unread{map[string]bool{}, map[string]bool{}}
	for _, p := range list {
		u.paths[p.Path] = true
		if dot := strings.LastIndexByte(p.Path, '.'); dot >= 0 {
			u.things[p.Path[:dot]] = true
		}
	}
	return u
}

// spoils says that a problem at path follows from one of reading: where a field
// could not be read, that it is missing is no second problem.
func (u unread) spoils(path string) bool {
	if u.things[path] {
		return true
	}
	for path != "" {
		if u.paths[path] {
			return true
		}
		path = path[:max(0, strings.LastIndexAny(path, ".["))]
	}
	return false
}

// Check reports every problem of a drawing, in file order.
func Check(doc *panel.Doc) []panel.Problem { return check(doc, true).problems }

// check does not look for what is missing unless the document is whole.
func check(doc *panel.Doc, whole bool) *checker {
	found, problems := doc.AsFound()
	c := &checker{doc: found, p: found.Panel, x: panel.NewIndex(found.Panel), net: parts.Assemble(found.Panel), problems: problems}
	obey(c.names, c.mains, c.strips, c.parts, c.wires, c.conditions, func() { c.edits(doc) })
	g := newGraph(c)
	obey(g.joined)
	whole = whole && !slices.ContainsFunc(c.problems, func(p panel.Problem) bool { return SeverityOf(p.Code) == Error })
	obey(g.protection, g.colours)
	if whole {
		obey(g.unfused, g.earth, g.feeds, g.outputs)
	}
	panel.SortProblems(c.problems)
	return c
}

// obey checks rule after rule.
func obey(rules ...func()) {
	for _, rule := range rules {
		rule()
		pace.Yield()
	}
}

type checker struct {
	doc      *panel.Doc
	p        *panel.Panel
	x        *panel.Index
	net      *parts.Net
	problems []panel.Problem
	searches int // for names that are alike, of those that look at the whole panel
}

// nearest is panel.Nearest for the first mistakes of a document; a search looks at
// every name of the panel, and a file of nothing but mistakes must not take for
// ever.
func (c *checker) nearest(name string, from func() []string) string {
	const most = 50
	if c.searches++; c.searches > most {
		return ""
	}
	return panel.Nearest(name, from())
}

func (c *checker) report(path, code string, args ...string) {
	c.problems = append(c.problems, c.doc.Problem(path, code, args...))
}

func item(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

func list(names []string) string { return strings.Join(names, ", ") }

// kindNames lists the kinds that stand on strips, or those that do not.
func kindNames(block bool) []string {
	var names []string
	for _, k := range parts.Kinds() {
		if k.Block == block && !isMains(k) {
			names = append(names, k.Name)
		}
	}
	return names
}

// refs lists the designations of everything that has terminals.
func (c *checker) refs() []string {
	var refs []string
	for i := range c.p.Mains {
		refs = append(refs, c.p.Mains[i].Ref)
	}
	for i := range c.p.Strips {
		refs = append(refs, c.p.Strips[i].Ref)
	}
	for i := range c.p.Parts {
		refs = append(refs, c.p.Parts[i].Ref)
	}
	return refs
}

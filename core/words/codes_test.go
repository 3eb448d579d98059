package words_test

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/words"
)

// sources parses the files of the core that are no tests, and the open panel's
// among them: those of its module, which does without the packages and files of the
// workshop.
func sources(t *testing.T) (all, open []*ast.File) {
	t.Helper()
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || d.Name() == "internal") {
			return fs.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		src, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, src, 0)
		all = append(all, f)
		if !workshop[f.Name.Name] && !strings.HasPrefix(string(src), "//go:build !field") {
			open = append(open, f)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(open) < 20 || len(open) == len(all) {
		t.Fatalf("%d files of the core found, %d of the open panel", len(all), len(open))
	}
	return all, open
}

// workshop are the packages that the open panel's module does not link.
var workshop = map[string]bool{"draft": true, "drill": true, "share": true, "generate": true, "main": true}

// codeName is how the core calls what holds a code: a parameter, result, field,
// variable or constant of that name, or a table of them.
var codeName = regexp.MustCompile(`^(code|Code|\w+Codes?|[cC]ode[A-Z]\w*)$`)

// emitted collects the codes of the core from its source: every text given to a
// parameter, field, variable, constant or result called code. Texts whose name
// only ends in Code, such as keys of a table, are taken too.
func emitted(files []*ast.File) map[string]bool {
	params := map[string]int{}  // function → place of its parameter called code
	results := map[string]int{} // function → place of its result called code
	fields := map[string]int{}  // struct → place of its field called code
	place := func(list *ast.FieldList) int {
		n := 0
		if list == nil {
			return -1
		}
		for _, f := range list.List {
			for _, name := range f.Names {
				if codeName.MatchString(name.Name) {
					return n
				}
				n++
			}
			if len(f.Names) == 0 {
				n++
			}
		}
		return -1
	}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				if k := place(n.Type.Params); k >= 0 {
					params[f.Name.Name+"."+n.Name.Name], params[n.Name.Name] = k, k
				}
				if k := place(n.Type.Results); k >= 0 {
					results[f.Name.Name+"."+n.Name.Name] = k
				}
			case *ast.TypeSpec:
				if s, ok := n.Type.(*ast.StructType); ok {
					if k := place(s.Fields); k >= 0 {
						fields[n.Name.Name] = k
					}
				}
			}
			return true
		})
	}
	codes := map[string]bool{}
	kebab := regexp.MustCompile(`^[a-z][a-z0-9]*([-.][a-z0-9]+)*$`)
	take := func(e ast.Expr) {
		if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if s, err := strconv.Unquote(lit.Value); err == nil && kebab.MatchString(s) {
				codes[s] = true
			}
		}
	}
	takeAll := func(e ast.Expr) {
		take(e)
		if table, ok := e.(*ast.CompositeLit); ok {
			for _, el := range table.Elts {
				if kv, ok := el.(*ast.KeyValueExpr); ok {
					take(kv.Value)
				}
			}
		}
	}
	at := func(list []ast.Expr, k int, ok bool) {
		if ok && k < len(list) {
			take(list[k])
		}
	}
	for _, f := range files {
		for _, decl := range f.Decls {
			fn, _ := decl.(*ast.FuncDecl)
			ast.Inspect(decl, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.CallExpr:
					name := ""
					switch fun := n.Fun.(type) {
					case *ast.Ident:
						name = fun.Name
					case *ast.SelectorExpr:
						name = fun.Sel.Name
					}
					k, ok := params[f.Name.Name+"."+name] // of this package, else of another
					if !ok {
						k, ok = params[name]
					}
					at(n.Args, k, ok)
				case *ast.CompositeLit:
					name := ""
					switch typ := n.Type.(type) {
					case *ast.Ident:
						name = typ.Name
					case *ast.SelectorExpr:
						name = typ.Sel.Name
					}
					if list, ok := n.Type.(*ast.ArrayType); ok { // []Reason{{"why.live", …}}
						if id, ok := list.Elt.(*ast.Ident); ok {
							k, ok := fields[id.Name]
							for _, el := range n.Elts {
								if one, isLit := el.(*ast.CompositeLit); isLit && one.Type == nil {
									at(one.Elts, k, ok)
								}
							}
						}
					}
					for i, el := range n.Elts {
						kv, keyed := el.(*ast.KeyValueExpr)
						if !keyed {
							k, ok := fields[name]
							at(n.Elts, k, ok && i == 0)
							continue
						}
						if key, ok := kv.Key.(*ast.Ident); ok && codeName.MatchString(key.Name) {
							take(kv.Value)
						}
					}
				case *ast.ReturnStmt:
					if fn != nil {
						k, ok := results[f.Name.Name+"."+fn.Name.Name]
						at(n.Results, k, ok)
					}
				case *ast.AssignStmt:
					for i, l := range n.Lhs {
						if id, ok := l.(*ast.Ident); ok && i < len(n.Rhs) && codeName.MatchString(id.Name) {
							takeAll(n.Rhs[i])
						}
					}
				case *ast.ValueSpec:
					for i, id := range n.Names {
						if i < len(n.Values) && codeName.MatchString(id.Name) {
							takeAll(n.Values[i])
						}
					}
				}
				return true
			})
		}
	}
	return codes
}

// literals are the texts that stand in files.
func literals(files []*ast.File) map[string]bool {
	texts := map[string]bool{}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if s, err := strconv.Unquote(lit.Value); err == nil {
					texts[s] = true
				}
			}
			return true
		})
	}
	return texts
}

// Every code the core emits has a sentence; every problem of a document has a
// remedy; no sentence is left over that nothing says.
func TestEveryCodeHasItsSentence(t *testing.T) {
	files, _ := sources(t)
	codes := emitted(files)
	for _, must := range []string{"too-deep", "not-text", "edit-unknown-wire", "contact-function", "plus-on-earth", "ac-dc-joined", "wire-too-thin"} {
		if !codes[must] {
			t.Errorf("%s is not found in the source: this test does not see what it should", must)
		}
	}
	all := words.Catalogue("en")
	for _, code := range sorted(codes) {
		if _, ok := all[code]; !ok {
			t.Errorf("%s is said by the core and has no sentence", code)
		}
	}
	said := literals(files)
	for code := range all {
		if strings.HasPrefix(code, "page.") {
			continue
		}
		base := strings.TrimSuffix(code, ".hint")
		if _, ok := all[base]; !ok {
			t.Errorf("%s is the remedy of nothing", code)
		}
		family, _, dotted := strings.Cut(base, ".")
		if !said[base] && !(dotted && (families[family] || said[family+"."])) {
			t.Errorf("%s has a sentence, and nothing says it", base)
		}
	}
}

// What is said at the open panel stands in its own catalogue, all else in the
// workshop's, which a phone does not wait for.
func TestTheOpenPanelWaitsForItsOwnSentences(t *testing.T) {
	data, err := os.ReadFile("workshop.en.json")
	if err != nil {
		t.Fatal(err)
	}
	var apart map[string]string
	if err := json.Unmarshal(data, &apart); err != nil {
		t.Fatal(err)
	}
	all, open := sources(t)
	said := literals(open)
	for code := range apart {
		base := strings.TrimSuffix(code, ".hint")
		if family, _, dotted := strings.Cut(base, "."); said[base] || dotted && (families[family] || said[family+"."]) {
			t.Errorf("%s is said at the open panel: it belongs in en.json", code)
		}
	}
	apartSaid := literals(all)
	for code := range words.Catalogue("en") {
		base := strings.TrimSuffix(code, ".hint")
		family, _, dotted := strings.Cut(base, ".")
		if _, ok := apart[code]; ok || strings.HasPrefix(code, "page.") || said[base] || dotted && (families[family] || said[family+"."]) {
			continue
		}
		if apartSaid[base] || dotted && apartSaid[family+"."] {
			t.Errorf("%s is not said at the open panel: it belongs in workshop.en.json", code)
		}
	}
}

// families are the codes that are put together from a word of the catalogue.
var families = map[string]bool{"kind": true, "fault": true, "repair": true, "event": true, "state": true, "effect": true}

// Every word that a kind of part, a fault or a state is called by has a sentence
// in its family, and no sentence of a family is left over. The words are those of
// a panel with one part of every kind.
func TestEveryWordOfTheCatalogueHasItsSentence(t *testing.T) {
	said := map[string]bool{}
	p := &panel.Panel{Mains: []panel.Mains{{Ref: "G0", Earthing: "TN-S"}}, Strips: []panel.Strip{{Ref: "X1"}}}
	for i, k := range parts.Kinds() {
		said["kind."+k.Name] = true
		for _, p := range k.Positions {
			said["position."+p.Name], said["verb."+p.Verb] = true, true
		}
		no := strconv.Itoa(i)
		if k.Block {
			p.Strips[0].Blocks = append(p.Strips[0].Blocks, panel.Block{No: no, Type: k.Name, Fuse: "2 A T", Indicator: "24 V"})
		} else {
			p.Parts = append(p.Parts, panel.Part{Ref: "A" + no, Kind: k.Name, At: "field", Contacts: []string{"11-12-14"}, Ratings: map[string]string{"current": "2 A T", "resistance": "1 ohm", "beyond": "feed"}})
			for n, term := range k.Terminals(&p.Parts[len(p.Parts)-1]) {
				p.Wires = append(p.Wires, panel.Wire{No: "w" + no + "-" + strconv.Itoa(n), From: "A" + no + ":" + term.Name, To: "X1:0/in", Cable: "C" + no})
			}
		}
	}
	p.Strips[0].Jumpers = []panel.Jumper{{Blocks: []string{"0", "1"}}}
	net := parts.Assemble(p)
	for _, f := range fault.All(net).Faults {
		said["fault."+f.Name] = true
		said["repair."+f.Repair] = true
	}
	all := words.Catalogue("en")
	for _, code := range sorted(said) {
		if _, ok := all[code]; !ok {
			t.Errorf("%s has no sentence", code)
		}
	}
	for code := range all {
		family, _, _ := strings.Cut(code, ".")
		if (family == "kind" || family == "fault" || family == "repair" || family == "position" || family == "verb") && !said[code] {
			t.Errorf("%s has a sentence, and nothing is called that", code)
		}
	}
}

func sorted(set map[string]bool) []string {
	var list []string
	for s := range set {
		list = append(list, s)
	}
	sort.Strings(list)
	return list
}

// Command schema prints the JSON Schema of what crosses the seam of the core,
// api.Request and api.Response, from which the page's types are generated, or
// with the argument "panel", "job" or "drill" that of a document.
//
//	go run ./core/internal/schema        > web/gen/api.schema.json
//	go run ./core/internal/schema panel
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"reflect"
	"strings"

	"github.com/invopop/jsonschema"

	"halfsplit/core/api"
	"halfsplit/core/drill"
	"halfsplit/core/panel"
	"halfsplit/core/record"
)

// seam is both directions in one schema, so that types shared by them are
// written once.
type seam struct {
	Request  api.Request  `json:"request"`
	Response api.Response `json:"response"`
}

// documents are the files that people write and keep.
var documents = map[string]any{"panel": panel.Panel{}, "job": record.Job{}, "drill": drill.Drill{}}

func main() {
	var of any = seam{}
	if len(os.Args) > 1 {
		of = documents[os.Args[1]]
	}
	out, err := json.MarshalIndent(schemaOf(of), "", "  ")
	if err != nil {
		fmt.Fprintln(os.Stderr, "schema:", err)
		os.Exit(1)
	}
	fmt.Println(string(out))
}

// schemaOf reflects v. Unlike the reflector alone it keeps the null of a
// pointer that is always written.
func schemaOf(v any) *jsonschema.Schema {
	r := jsonschema.Reflector{Anonymous: true, ExpandedStruct: true}
	s := r.Reflect(v)
	seen := map[reflect.Type]bool{}
	keepNulls(reflect.TypeOf(v), s, s.Definitions, seen)
	return s
}

func keepNulls(t reflect.Type, s *jsonschema.Schema, defs jsonschema.Definitions, seen map[reflect.Type]bool) {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct || seen[t] {
		return
	}
	seen[t] = true
	if d := defs[t.Name()]; d != nil {
		s = d
	}
	for _, f := range reflect.VisibleFields(t) {
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if f.Type.Kind() == reflect.Pointer && !strings.Contains(options, "omitempty") && s.Properties != nil {
			if p, ok := s.Properties.Get(name); ok {
				s.Properties.Set(name, &jsonschema.Schema{AnyOf: []*jsonschema.Schema{p, {Type: "null"}}})
			}
		}
		keepNulls(f.Type, s, defs, seen)
	}
}

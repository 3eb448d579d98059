// Package bridge is what every wasm entry point puts between the browser and
// the core: a limit on nesting before anything is decoded, a net under panics, so
// that the worker always answers, and a rest between answers.
//
// It knows bytes only; registering with JavaScript is the entry point's work.
package bridge

import (
	"encoding/json"
	"fmt"
)

// MaxDepth is the deepest nesting of arrays and objects a request may have.
//
// A browser gives a worker a small stack: encoding/json at a depth near 10,000
// overflows it, and at 2,000 the result overflows when it is posted back. The
// deepest request of the page is a panel document, under 20.
const MaxDepth = 100

// Handler answers one request; both are JSON texts.
type Handler func(request []byte) (response []byte)

// Guard wraps h so that every call returns a JSON text: h's own answer, or a
// failure {"error":{"code":…,"args":[…]}} with code
//
//	too-deep   the request nests deeper than MaxDepth; h was not called
//	panic      h panicked; args[0] is the panic's text
func Guard(h Handler) Handler {
	return func(request []byte) (response []byte) {
		if at, ok := tooDeep(request, MaxDepth); !ok {
			return failure("too-deep", fmt.Sprint(at), fmt.Sprint(MaxDepth))
		}
		defer func() {
			if p := recover(); p != nil {
				response = failure("panic", fmt.Sprint(p))
			}
		}()
		return h(request)
	}
}

// failure is the shape of an answer that is not one.
func failure(code string, args ...string) []byte {
	type body struct {
		Code string   `json:"code"`
		Args []string `json:"args"`
	}
	out, err := json.Marshal(struct {
		Error body `json:"error"`
	}{body{code, args}})
	if err != nil {
		panic(err) // strings always encode
	}
	return out
}

// tooDeep scans b without decoding it. It returns the offset of the bracket
// that goes beyond limit and false, or true when there is none. Brackets
// inside strings do not count.
func tooDeep(b []byte, limit int) (at int, ok bool) {
	depth, inString, escaped := 0, false, false
	for i, c := range b {
		switch {
		case escaped:
			escaped = false
		case inString && c == '\\':
			escaped = true
		case c == '"':
			inString = !inString
		case inString:
		case c == '{' || c == '[':
			if depth++; depth > limit {
				return i, false
			}
		case c == '}' || c == ']':
			depth--
		}
	}
	return 0, true
}

//go:build js && wasm

// Command core is the Go core as a browser's worker runs it.
//
// It registers three globals and then waits:
//
//	halfsplitVersion          string; what this module was built from
//	halfsplitCall(Uint8Array) Uint8Array; a JSON request in, a JSON response out
//	halfsplitRest()           to be called when an answer is out: see bridge.Rest
//
// The worker calls halfsplitReady() once both stand.
package main

import (
	"runtime/debug"

	"github.com/hack-pad/safejs"

	"halfsplit/wasm/bridge"
)

// version is set by the linker: -X main.version=…
var version = "dev"

// roomy is how much memory the collector leaves alone, in bytes: a phone's browser
// gives a page about 500 MB before it takes the page away, and what WebAssembly
// has once taken it never gives back.
const roomy = 360 << 20

// seldom is how much the heap may grow before it is collected, in percent of what is
// in use. The collector has no thread of its own here: while it marks, the answer
// waits, and with the usual 100 it marked through a third of every sweep.
const seldom = 200

func main() {
	debug.SetMemoryLimit(roomy)
	debug.SetGCPercent(seldom)
	if err := register(bridge.Guard(handle)); err != nil {
		panic(err) // the worker's error event carries it to the page
	}
	select {} // the module must outlive main to be called
}

func register(h bridge.Handler) error {
	call, err := safejs.FuncOf(func(_ safejs.Value, args []safejs.Value) any {
		out, err := exchange(h, args)
		if err != nil {
			return safejs.Null() // not bytes in: the worker reports its own mistake
		}
		return out
	})
	if err != nil {
		return err
	}
	resting, err := safejs.FuncOf(func(safejs.Value, []safejs.Value) any {
		bridge.Rest()
		return nil
	})
	if err != nil {
		return err
	}
	global := safejs.Global()
	if err := global.Set("halfsplitVersion", version); err != nil {
		return err
	}
	if err := global.Set("halfsplitCall", call); err != nil {
		return err
	}
	if err := global.Set("halfsplitRest", resting); err != nil {
		return err
	}
	_, err = global.Call("halfsplitReady")
	return err
}

// exchange copies the request out of JavaScript and the response back in.
func exchange(h bridge.Handler, args []safejs.Value) (safejs.Value, error) {
	if len(args) != 1 {
		return safejs.Undefined(), errOneArgument
	}
	length, err := args[0].Length()
	if err != nil {
		return safejs.Undefined(), err
	}
	request := make([]byte, length)
	if _, err := safejs.CopyBytesToGo(request, args[0]); err != nil {
		return safejs.Undefined(), err
	}
	response := h(request)
	array, err := safejs.Global().Get("Uint8Array")
	if err != nil {
		return safejs.Undefined(), err
	}
	out, err := array.New(len(response))
	if err != nil {
		return safejs.Undefined(), err
	}
	_, err = safejs.CopyBytesToJS(out, response)
	return out, err
}

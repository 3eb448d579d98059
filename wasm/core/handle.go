//go:build js && wasm

package main

import (
	"errors"

	"halfsplit/core/api"
)

var errOneArgument = errors.New("halfsplitCall takes one Uint8Array")

// host lives as long as the worker, and its sessions with it.
var host = api.NewHost()

func handle(request []byte) []byte { return host.Handle(request) }

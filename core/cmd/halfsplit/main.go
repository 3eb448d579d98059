// Command halfsplit traces faults in control panels from a terminal, and
// serves the phone page.
package main

import (
	"fmt"
	"os"
)

func main() {
	if len(os.Args) > 1 && os.Args[1] == "serve" {
		os.Exit(serve(os.Args[2:], os.Stdout, os.Stderr))
	}
	fmt.Fprintln(os.Stderr, "usage: halfsplit serve [--addr :8420] [--data DIR]")
	os.Exit(2)
}

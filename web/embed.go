// Package web carries the built page, so that the command can serve it from
// one file.
//
// The folder dist is made by "make web". In a bare clone it holds only the
// placeholder that keeps this package compiling; Built tells the two apart.
package web

import (
	"embed"
	"io/fs"
)

//go:embed all:dist
var dist embed.FS

// Dist is the built page, rooted where index.html is.
func Dist() fs.FS {
	sub, err := fs.Sub(dist, "dist")
	if err != nil {
		panic(err) // "dist" is a valid path: a mistake in this file
	}
	return sub
}

// Built says whether the page was built before this program was.
func Built() bool {
	_, err := fs.Stat(dist, "dist/index.html")
	return err == nil
}

// Package scenarios holds the demo panels and drills that every host ships.
// Plant, people and places in them are invented.
package scenarios

import "embed"

// Files holds the panels as NAME.json.
//
//go:embed *.json
var Files embed.FS

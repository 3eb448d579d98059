// Package scenarios holds the demo panels and drills that every host ships.
// Plant, people and places in them are invented.
package scenarios

import "embed"

// Files holds the panels as NAME.json, by name: a pattern would take the drills
// along into the module of the open panel. A test finds a file that is missing.
//
//go:embed training-bench.json dosing-skid.json wash-line.json
var Files embed.FS

// Drills holds the drills as NAME.drill.json.
//
//go:embed *.drill.json
var Drills embed.FS

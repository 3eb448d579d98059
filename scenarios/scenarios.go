// Package scenarios holds the demo panels and drills that every host ships.
// Plant, people and places in them are invented.
package scenarios

import (
	"embed"
	"errors"
)

// Each panel is embedded as a text: a file system would take the packages io/fs and
// time into the module of the open panel, 4 % of what a phone downloads.
var (
	//go:embed dosing-skid.json
	dosingSkid string
	//go:embed training-bench.json
	trainingBench string
	//go:embed wash-line.json
	washLine string
)

// Names lists the demo panels.
var Names = []string{"dosing-skid", "training-bench", "wash-line"}

// Panel gives the document of a demo panel.
func Panel(name string) ([]byte, error) {
	switch name {
	case "dosing-skid":
		return []byte(dosingSkid), nil
	case "training-bench":
		return []byte(trainingBench), nil
	case "wash-line":
		return []byte(washLine), nil
	}
	return nil, errors.New("scenarios: there is no panel " + name)
}

// Drills holds the drills as NAME.drill.json.
//
//go:embed *.drill.json
var Drills embed.FS

//go:build !field

package words

import "embed"

//go:embed *.json
var files embed.FS

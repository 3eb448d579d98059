//go:build !field

package words

import _ "embed"

var (
	//go:embed page.en.json
	pageEN string
	//go:embed workshop.en.json
	workshopEN string
)

var files = []file{{"en", en}, {"en", pageEN}, {"en", workshopEN}}

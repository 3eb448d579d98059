//go:build field

package words

import "embed"

// The page's own sentences come with the page; the module a phone waits for does
// without them. A language is two letters.
//
//go:embed ??.json
var files embed.FS

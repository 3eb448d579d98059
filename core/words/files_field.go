//go:build field

package words

import "embed"

// The page's own sentences come with the page, those of the workshop with the
// workshop; the module a phone waits for does without both. A language is two
// letters.
//
//go:embed ??.json
var files embed.FS

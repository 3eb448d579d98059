//go:build field

package words

// The page's own sentences come with the page, those of the workshop with the
// workshop; the module a phone waits for does without both.
var files = []file{{"en", en}}

package share

import (
	"strconv"
	"testing"
)

// forged is a part whose own checksum is right.
func forged(id string, index, count int, data string) string {
	body := id + ":" + strconv.Itoa(index) + ":" + strconv.Itoa(count)
	text := encode45([]byte(data))
	return partMark + body + ":" + sum(body+":"+text) + ":" + text + "."
}

// Parts that contradict each other are refused, not put together.
func TestPartsDisagree(t *testing.T) {
	id := sum("abcd")
	for name, parts := range map[string][]string{
		"two contents":       {forged(id, 1, 2, "ab"), forged(id, 1, 2, "xy")},
		"two counts":         {forged(id, 1, 2, "ab"), forged(id, 2, 3, "cd")},
		"not what it was":    {forged(id, 1, 2, "ab"), forged(id, 2, 2, "cx")},
		"an index too large": {forged(id, 3, 2, "ab")},
		"too many":           {forged(id, 1, MaxParts+1, "ab")},
	} {
		if data, _, err := Join(parts); err == nil || data != nil {
			t.Errorf("%s: joined to %q", name, data)
		}
	}
	if data, g, err := Join([]string{forged(id, 2, 2, "cd"), forged(id, 1, 2, "ab")}); err != nil || string(data) != "abcd" || g.ID != id {
		t.Errorf("%q %v", data, err)
	}
}

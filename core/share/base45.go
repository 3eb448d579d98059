package share

import "strings"

// alphabet45 is that of the alphanumeric mode of QR codes (ISO/IEC 18004), in
// which a code holds half as much again as in bytes of base64.
const alphabet45 = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

// encode45 writes two bytes as three characters, a last single one as two, the
// least significant first.
//
// Source: RFC 9285.
func encode45(data []byte) string {
	var out strings.Builder
	for i := 0; i < len(data); i += 2 {
		if i+1 == len(data) {
			n := int(data[i])
			out.WriteByte(alphabet45[n%45])
			out.WriteByte(alphabet45[n/45])
			break
		}
		n := int(data[i])<<8 | int(data[i+1])
		out.WriteByte(alphabet45[n%45])
		out.WriteByte(alphabet45[n/45%45])
		out.WriteByte(alphabet45[n/45/45])
	}
	return out.String()
}

// decode45 reads what encode45 writes; ok is false for anything else.
func decode45(text string) (data []byte, ok bool) {
	if len(text)%3 == 1 {
		return nil, false
	}
	for i := 0; i < len(text); i += 3 {
		group := text[i:min(i+3, len(text))]
		n, weight := 0, 1
		for k := range len(group) {
			v := strings.IndexByte(alphabet45, group[k])
			if v < 0 {
				return nil, false
			}
			n += v * weight
			weight *= 45
		}
		switch {
		case len(group) == 3 && n <= 0xFFFF:
			data = append(data, byte(n>>8), byte(n))
		case len(group) == 2 && n <= 0xFF:
			data = append(data, byte(n))
		default:
			return nil, false
		}
	}
	return data, true
}

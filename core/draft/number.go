package draft

import (
	"strconv"
	"strings"
)

// countOn adds by to the last number in a name and keeps its width: W9 and 1 are
// W10, X1.09 and 2 X1.11, "12a" and 1 "13a". ok is false where there is no
// number, or it would become negative or longer than nine digits.
func countOn(name string, by int) (next string, ok bool) {
	head, n, tail := number(name)
	if n < 0 || n+by < 0 || n+by > 999_999_999 {
		return "", false
	}
	digits := strconv.Itoa(n + by)
	if width := len(name) - len(head) - len(tail); len(digits) < width && name[len(head)] == '0' {
		digits = strings.Repeat("0", width-len(digits)) + digits
	}
	return head + digits + tail, true
}

// number splits a name at its last number; n is -1 where it has none that is
// short enough to count with.
func number(name string) (head string, n int, tail string) {
	end := strings.LastIndexAny(name, "0123456789") + 1
	start := end
	for start > 0 && name[start-1] >= '0' && name[start-1] <= '9' {
		start--
	}
	if start == end || end-start > 9 {
		return name, -1, ""
	}
	n, _ = strconv.Atoi(name[start:end]) // nine digits at most
	return name[:start], n, name[end:]
}

// nextWire is the number the next wire gets: one more than the largest that is
// written like the last wire's.
func (d *drafter) nextWire() string {
	like, most := "W", 0
	if n := len(d.p.Wires); n > 0 {
		head, last, tail := number(d.p.Wires[n-1].No)
		if last >= 0 && tail == "" {
			like = head
		}
	}
	for i := range d.p.Wires {
		if head, n, tail := number(d.p.Wires[i].No); head == like && tail == "" {
			most = max(most, n)
		}
	}
	return like + strconv.Itoa(most+1)
}

// nextRef is the first designation with these letters that nothing carries.
func (d *drafter) nextRef(letters string) string {
	taken := d.refs()
	for n := 1; ; n++ {
		if ref := letters + strconv.Itoa(n); !taken[ref] {
			return ref
		}
	}
}

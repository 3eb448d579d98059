package record

import "strings"

// Text is the record as lines for a message or a terminal.
func Text(j *Job, say Say) string {
	var out strings.Builder
	all := rows(j, say)
	for _, part := range sections {
		first := true
		for i := range all {
			r := &all[i]
			if r.part != part {
				continue
			}
			if first {
				if out.Len() > 0 {
					out.WriteByte('\n')
				}
				out.WriteString(say(part) + "\n")
				first = false
			}
			out.WriteString(line(r, say) + "\n")
		}
	}
	return out.String()
}

func line(r *row, say Say) string {
	s := "  "
	if r.open {
		s = "! "
	}
	if r.when != "" {
		s += oneLine(r.when) + "  "
	}
	s += oneLine(r.what)
	if r.shown != "" {
		s += ": " + oneLine(r.shown)
	}
	if r.expected != "" {
		s += " (" + say("record.expected", oneLine(r.expected)) + ")"
	}
	if r.note != "" {
		s += " – " + oneLine(r.note)
	}
	return s
}

// oneLine keeps a remark of several lines in its line.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

package record

import "strings"

// Text is the record as lines for a message or a terminal.
func Text(j *Job, say Say) string {
	var out strings.Builder
	for i, section := range Sections(j, say) {
		if i > 0 {
			out.WriteByte('\n')
		}
		out.WriteString(section.Title + "\n")
		for _, l := range section.Lines {
			out.WriteString(line(&l, say) + "\n")
		}
	}
	return out.String()
}

func line(l *Line, say Say) string {
	s := "  "
	if l.Open {
		s = "! "
	}
	if l.When != "" {
		s += oneLine(l.When) + "  "
	}
	s += oneLine(l.What)
	if l.Shown != "" {
		s += ": " + oneLine(l.Shown)
	}
	if l.Expected != "" {
		s += " (" + say("record.expected", oneLine(l.Expected)) + ")"
	}
	if l.Note != "" {
		s += " – " + oneLine(l.Note)
	}
	return s
}

// oneLine keeps a remark of several lines in its line.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

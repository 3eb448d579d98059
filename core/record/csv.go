package record

import (
	"strconv"
	"strings"
)

// CSV is the record as a table for a spreadsheet: RFC 4180, with a byte-order
// mark so that the program reads UTF-8, every cell in quotes.
//
// A cell that begins with = + - @ or a control character would be taken for a
// formula; it gets an apostrophe in front (common practice). A plain number is
// none and stays as it is.
func CSV(j *Job, say Say) string {
	var out strings.Builder
	out.WriteString("\ufeff")
	write := func(cells ...string) {
		for i, c := range cells {
			if i > 0 {
				out.WriteByte(',')
			}
			out.WriteString(`"` + strings.ReplaceAll(guard(c), `"`, `""`) + `"`)
		}
		out.WriteString("\r\n")
	}
	write(say("record.column-part"), say("record.column-when"), say("record.column-what"), say("record.column-shown"),
		say("record.column-expected"), say("record.column-note"))
	for _, section := range Sections(j, say) {
		for _, l := range section.Lines {
			write(section.Title, l.When, l.What, l.Shown, l.Expected, l.Note)
		}
	}
	return out.String()
}

func guard(cell string) string {
	lead := strings.TrimLeft(cell, " \t\r\n\u00a0")
	if lead == "" {
		return cell
	}
	if _, err := strconv.ParseFloat(cell, 64); err == nil && strings.Trim(cell, "0123456789.+-") == "" {
		return cell
	}
	if strings.ContainsRune("=+-@＝＋－＠", []rune(lead)[0]) || lead != cell && strings.ContainsAny(cell[:1], "\t\r\n") {
		return "'" + cell
	}
	return cell
}

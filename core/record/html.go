package record

import (
	"html"
	"strings"
)

// Paper is what a record is printed on.
type Paper string

// The papers: ISO 216 and ANSI.
const (
	A4     Paper = "A4"
	Letter Paper = "letter"
)

// HTML is the record as a page to print: black on white, no script, nothing
// loaded from elsewhere, everything a person wrote escaped.
func HTML(j *Job, lang string, paper Paper, say Say) string {
	if paper != Letter {
		paper = A4
	}
	var out strings.Builder
	w := func(parts ...string) {
		for _, p := range parts {
			out.WriteString(p)
		}
	}
	title := say("record.page-title", j.Title)
	w("<!doctype html>\n<html lang=\"", html.EscapeString(lang), "\">\n<meta charset=\"utf-8\">\n",
		`<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`, "\n",
		"<title>", html.EscapeString(title), "</title>\n<style>\n@page { size: ", string(paper), "; margin: 15mm }\n", style, "</style>\n",
		"<h1>", html.EscapeString(title), "</h1>\n")
	for _, section := range Sections(j, say) {
		w("<h2>", html.EscapeString(section.Title), "</h2>\n<table>\n")
		if section.Code == partSteps {
			w("<tr>")
			for _, code := range []string{"record.column-when", "record.column-what", "record.column-shown", "record.column-expected", "record.column-note"} {
				w("<th>", html.EscapeString(say(code)), "</th>")
			}
			w("</tr>\n")
		}
		for _, l := range section.Lines {
			if l.Open {
				w(`<tr class="open">`)
			} else {
				w("<tr>")
			}
			for _, cell := range []string{l.When, l.What, l.Shown, l.Expected, l.Note} {
				w("<td>", strings.ReplaceAll(html.EscapeString(cell), "\n", "<br>"), "</td>")
			}
			w("</tr>\n")
		}
		w("</table>\n")
	}
	w("<p class=\"small\">", html.EscapeString(say("record.caution")), "</p>\n<p class=\"sign\">", html.EscapeString(say("record.signature")), "</p>\n</html>\n")
	return out.String()
}

// style marks what is open with a thick frame and a sign, never by colour alone.
const style = `body { font: 11pt/1.35 sans-serif; color: #000; background: #fff; margin: 0 }
h1 { font-size: 16pt; margin: 0 0 4mm } h2 { font-size: 12pt; margin: 5mm 0 1mm; border-bottom: 1px solid #000 }
table { border-collapse: collapse; width: 100% } th { text-align: left }
td, th { padding: 0.6mm 2mm 0.6mm 0; vertical-align: top; overflow-wrap: anywhere }
tr { break-inside: avoid } tr.open td { border: 2px solid #000; padding-left: 1mm; font-weight: bold }
tr.open td:first-child::before { content: "! " } .small { font-size: 9pt } .sign { margin-top: 12mm; border-top: 1px solid #000; width: 80mm }
`

package main

import (
	"bufio"
	"fmt"
	"strconv"
	"strings"

	"halfsplit/core/api"
)

// understand reads one line: "look K1", "vdc K1:A1 X2:1 feed", "press S2",
// "call W16 open", a number from the list, or ?.
func (t *trainee) understand(in *bufio.Scanner, words []string) (act api.DrillAct, ok bool) {
	if len(words) == 0 {
		return act, false
	}
	if words[0] == "?" || words[0] == "help" {
		t.list()
		return act, false
	}
	if n, err := strconv.Atoi(words[0]); err == nil {
		if n < 1 || n > len(t.state.Offers) {
			fmt.Fprintf(t.stdout, "  the list has 1 to %d\n", len(t.state.Offers))
			return act, false
		}
		return t.choose(in, &t.state.Offers[n-1])
	}
	return t.typed(words)
}

func (t *trainee) list() {
	for i, o := range t.state.Offers {
		what := strings.Join(o.Targets, ", ")
		if len(what) > 100 {
			what = what[:100] + " …"
		}
		fmt.Fprintf(t.stdout, "  %2d  %-20s %-16s %s\n", i+1, o.Text, o.Kind, what)
	}
	fmt.Fprintln(t.stdout, "  a reading is typed as MODE RED BLACK WHY: vdc K1:A1 X2:1 feed; a call as: call W16 open")
}

// choose asks for what an act of the list needs.
func (t *trainee) choose(in *bufio.Scanner, o *api.DrillOffer) (act api.DrillAct, ok bool) {
	ask := func(what string, from []string) string {
		for i, s := range from {
			fmt.Fprintf(t.stdout, "    %d %s\n", i+1, s)
		}
		fmt.Fprintf(t.stdout, "    %s: ", what)
		if !in.Scan() {
			return ""
		}
		text := strings.TrimSpace(in.Text())
		if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= len(from) {
			return from[n-1]
		}
		return text
	}
	words := []string{o.Kind}
	switch o.Kind {
	case "read":
		words = []string{ask("mode", o.Targets), ask("red on", nil), ask("black on", nil), ask("why", codes(t.drill.Whys))}
	case "operate":
		words = strings.Fields(ask("what", o.Targets))
	case "prove-dead", "bypass":
		words = append(words, ask("one point", nil), ask("the other", nil))
	case "call":
		words = append(words, ask("where", nil), ask("what it is", codes(t.drill.Classes)))
	case "prove-tester", "repair", "prove-function", "done", "give-up":
	case "ask":
		words = append(words, ask("number", nil))
	default:
		words = append(words, ask("what", o.Targets))
	}
	return t.typed(words)
}

func codes(list []api.DrillChoice) (out []string) {
	for _, c := range list {
		out = append(out, c.Code)
	}
	return out
}

// typed reads an act as words.
func (t *trainee) typed(words []string) (act api.DrillAct, ok bool) {
	at := func(i int) string {
		if i < len(words) {
			return words[i]
		}
		return ""
	}
	if len(words) == 0 {
		return act, false
	}
	act.Kind = words[0]
	switch act.Kind {
	case "read", "measure":
		return t.typed(words[1:])
	case "operate":
		act.Step = strings.Join(words[1:], " ")
		return act, true
	case "call":
		act.Thing, act.Class = at(1), at(2)
		return act, true
	case "prove-dead", "prove-tester", "bypass":
		act.Red, act.Black = at(1), at(2)
		return act, true
	}
	for _, o := range t.state.Offers {
		if o.Kind == "read" && contains(o.Targets, act.Kind) {
			act = api.DrillAct{Kind: "read", Mode: words[0], Red: at(1), Black: at(2), Why: at(3)}
			if act.Mode == "clamp" && act.Why == "" {
				act.Black, act.Why = "", at(2)
			}
			return act, true
		}
		if o.Kind == "operate" && contains(o.Targets, strings.Join(words, " ")) {
			return api.DrillAct{Kind: "operate", Step: strings.Join(words, " ")}, true
		}
	}
	act.Thing = strings.Join(words[1:], " ")
	return act, true
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

package api

import (
	"encoding/json"
	"fmt"

	"halfsplit/core/words"
	"halfsplit/scenarios"
)

// A Host holds the open sessions of one worker, server or command. It is not
// safe for concurrent use.
type Host struct {
	sessions map[int]*session
	last     int
	workshop workshop // what only the workshop's operations need
}

// NewHost gives a host without sessions.
func NewHost() *Host { return &Host{sessions: map[int]*session{}} }

// Handle answers one request in JSON. It never panics: a fault of the core
// itself comes back as an Error.
func (h *Host) Handle(request []byte) []byte {
	var req Request
	var resp Response
	if err := json.Unmarshal(request, &req); err != nil {
		resp = failure(req.Lang, "api.request-unreadable", err.Error())
	} else {
		resp = h.Do(req)
	}
	out, err := json.Marshal(resp)
	if err != nil { // a NaN that slipped through
		out, _ = json.Marshal(failure(req.Lang, "api.internal", err.Error()))
	}
	return out
}

// Do answers one request.
func (h *Host) Do(req Request) (resp Response) {
	defer func() {
		if r := recover(); r != nil {
			resp = failure(req.Lang, "api.internal", fmt.Sprint(r))
		}
	}()
	if resp, known := h.atTheBench(req); known {
		return resp
	}
	switch req.Op {
	case OpVersion:
		return Response{Hello: &Hello{Version: Version, Demos: Demos()}}
	case OpOpen:
		return h.open(req)
	case OpClose:
		h.forget(req.Session)
		h.workshop.close(req.Session)
		return Response{Hello: &Hello{Version: Version, Demos: Demos()}}
	case OpCheck:
		return checkDocument(req)
	case OpMyMeter:
		return describeMeter(req)
	}
	run, known := operations[req.Op]
	if !known {
		return failure(req.Lang, "api.unknown-operation", req.Op)
	}
	s := h.sessions[req.Session]
	if s == nil {
		return failure(req.Lang, "api.no-session", req.Op)
	}
	return answer(run(s, req))
}

// forget gives a session up.
func (h *Host) forget(session int) {
	if s := h.sessions[session]; s != nil {
		s.interrupt()
		delete(h.sessions, session)
	}
}

func answer(resp Response, err *Error) Response {
	if err != nil {
		return Response{Error: err}
	}
	return resp
}

// operations of an open panel.
var operations = map[string]func(*session, Request) (Response, *Error){
	OpFaults:  (*session).faults,
	OpState:   (*session).state,
	OpWhatIf:  (*session).whatIf,
	OpSweep:   (*session).sweep,
	OpMeter:   (*session).meter,
	OpPredict: (*session).predict,
	OpIsolate: (*session).isolate,
	OpFind:    (*session).find,
}

// Demos lists the embedded panels by name.
func Demos() []string { return scenarios.Names }

// Demo gives the document of an embedded panel.
func Demo(name string) ([]byte, bool) {
	data, err := scenarios.Panel(name)
	return data, err == nil
}

func failure(lang, code string, args ...string) Response {
	return Response{Error: problem(lang, code, args...)}
}

func problem(lang, code string, args ...string) *Error {
	return &Error{Text: say(lang, code, args...), Hint: words.Hint(lang, code, args...)}
}

// say makes a Text; Args is never null.
func say(lang, code string, args ...string) Text {
	if args == nil {
		args = []string{}
	}
	return Text{Code: code, Args: args, Text: words.Say(lang, code, args...)}
}

package api

import (
	"bytes"
	"encoding/json"

	"halfsplit/core/pace"
)

// A portioned operation is under way: the same request goes on with it.
type portioned struct {
	request []byte
	job     *pace.Job
	resp    Response // once it is done
	err     *Error
}

// inPortions does an operation at the request's budget. A session has one under way:
// another one ends it, and what was solved for good by then stays.
func (s *session) inPortions(req Request, do func(Request) (Response, *Error)) (Response, *Error) {
	budget := req.Budget
	request, err := json.Marshal(req)
	if err != nil { // a figure that JSON does not know
		return do(req)
	}
	w := s.waiting
	if w == nil || !bytes.Equal(w.request, request) {
		s.interrupt()
		w = &portioned{request: request}
		w.job = pace.Start(&s.pace, func() { w.resp, w.err = do(req) })
	}
	s.waiting = nil // should it panic
	if w.job.Next(budget) {
		return w.resp, w.err
	}
	s.waiting = w
	done, total := w.job.Progress()
	return Response{Progress: &Progress{Done: done, Total: total}}, nil
}

// interrupt ends what is under way.
func (s *session) interrupt() {
	if s.waiting != nil {
		s.waiting.job.Stop()
		s.waiting = nil
	}
}

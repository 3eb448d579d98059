//go:build !field

package api

// What is done away from the panel, in the workshop: drawing, records, sharing and
// drills. A phone loads it as a module of its own, after the one that answers at
// the open panel: together they would take half as long again to be there. The
// tag field leaves it out.

// workshop is what its operations keep of a host.
type workshop struct {
	drills map[int]*drillSession
	rig    *rigHeld // panel of the drill opened latest
}

// answersAtTheBench are the fields of Response that only the workshop fills. The
// module of the open panel does without their types.
type answersAtTheBench struct {
	Edited     *Edited     `json:"edited,omitempty"`
	Guesses    *Guesses    `json:"guesses,omitempty"`
	Conditions *Conditions `json:"conditions,omitempty"`
	Record     *Record     `json:"record,omitempty"`
	Packed     *Packed     `json:"packed,omitempty"`
	Unpacked   *Unpacked   `json:"unpacked,omitempty"`
	Diff       *Diff       `json:"diff,omitempty"`
	Merge      *Merge      `json:"merge,omitempty"`

	Drills        *Drills        `json:"drills,omitempty"`
	Drill         *Drill         `json:"drill,omitempty"`
	DrillState    *DrillState    `json:"drill_state,omitempty"`
	DrillDebrief  *DrillDebrief  `json:"drill_debrief,omitempty"`
	DrillAuthored *DrillAuthored `json:"drill_authored,omitempty"`
	DrillShort    *DrillShort    `json:"drill_short,omitempty"`
}

func (w *workshop) close(session int) { delete(w.drills, session) }

// atTheBench answers the workshop's operations; known is false for all others.
func (h *Host) atTheBench(req Request) (resp Response, known bool) {
	switch req.Op {
	case OpCheck:
		if !isDrill(req) {
			return Response{}, false
		}
		return h.checkDrill(req), true
	case OpEdit:
		return h.edit(req), true
	case OpGuess:
		return guess(req), true
	case OpConditions:
		return conditions(req), true
	case OpRecord:
		return jobRecord(req), true
	case OpPack:
		return pack(req), true
	case OpUnpack:
		return unpack(req), true
	case OpDiff:
		return diff(req), true
	case OpMerge:
		return merge(req), true
	case OpDrills:
		return listDrills(req), true
	case OpDrillOpen:
		return h.openDrill(req), true
	case OpDrillAuthor:
		return h.author(req), true
	case OpDrillShort:
		if s := h.sessions[req.Session]; s != nil {
			return answer(s.drillShort(req)), true
		}
		return failure(req.Lang, "api.no-session", req.Op), true
	case OpDrillAct:
		return h.inDrill(req, (*drillSession).act), true
	case OpDrillDebrief:
		return h.inDrill(req, (*drillSession).debrief), true
	}
	return Response{}, false
}

// inDrill runs an operation of an open drill.
func (h *Host) inDrill(req Request, run func(*drillSession, Request) (Response, *Error)) Response {
	d := h.workshop.drills[req.Session]
	if d == nil {
		return failure(req.Lang, "api.no-drill", req.Op)
	}
	return answer(run(d, req))
}

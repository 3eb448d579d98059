package api

import (
	"slices"

	"halfsplit/core/diagnose"
	"halfsplit/core/record"
)

// remember takes the history of the panel into account. Another history than the
// one before costs what is solved.
func (s *session) remember(list []record.Earlier) {
	same := slices.EqualFunc(s.earlier, list, func(a, b record.Earlier) bool { return a.When == b.When && slices.Equal(a.Faults, b.Faults) })
	if same {
		return
	}
	s.earlier, s.history, s.weighted = list, nil, nil
	if len(list) > 0 {
		s.history = record.NewHistory(list)
		s.weighted = s.set.Weighted(s.history.Weight)
	}
	s.engines = map[string]*diagnose.Engine{}
}

package api

import (
	"sort"
	"strconv"
	"strings"

	"halfsplit/core/meter"
	"halfsplit/core/words"
)

// myMeter is the meter in a person's hand: a typical one, but for what the request
// says of it.
func myMeter(req Request) (meter.Meter, *Error) {
	m, left := meter.Typical, len(req.MyMeter)
	for i := range meter.Data {
		d := &meter.Data[i]
		v, given := req.MyMeter[d.Key]
		if !given {
			continue
		}
		left--
		with, ok := d.With(m, v)
		if !ok {
			return m, problem(req.Lang, "api.meter-figure", words.Say(req.Lang, "mymeter."+d.Key), number(d.Least), number(d.Most), d.Unit)
		}
		m = with
	}
	if left > 0 {
		return m, unknownFigure(req)
	}
	if req.Load {
		m = m.Pressed()
	}
	return m, nil
}

func unknownFigure(req Request) *Error {
	keys := map[string]bool{}
	for _, d := range meter.Data {
		keys[d.Key] = true
	}
	var strange []string
	for k := range req.MyMeter {
		if !keys[k] {
			strange = append(strange, k)
		}
	}
	sort.Strings(strange)
	var choices []string
	for _, d := range meter.Data {
		choices = append(choices, d.Key)
	}
	e := problem(req.Lang, "api.meter-unknown", strange[0], strings.Join(choices, ", "))
	e.Choices = choices
	return e
}

// describeMeter answers mymeter.
func describeMeter(req Request) Response {
	m, err := myMeter(req)
	if err != nil {
		return Response{Error: err}
	}
	out := &MyMeter{Modes: []MeterMode{}, Rows: []MeterDatum{}}
	for _, mode := range meter.Modes {
		one := MeterMode{Mode: string(mode), Name: words.Say(req.Lang, "mode."+string(mode)), Probes: "points", PowerOff: mode.Passive()}
		switch mode {
		case meter.Clamp:
			one.Probes = "wire"
		case meter.MA:
			one.Probes = "break"
		}
		out.Modes = append(out.Modes, one)
	}
	for i := range meter.Data {
		d := &meter.Data[i]
		out.Rows = append(out.Rows, MeterDatum{Key: d.Key, Name: words.Say(req.Lang, "mymeter."+d.Key), Unit: d.Unit, Value: d.Of(m), Typical: d.Of(meter.Typical),
			Least: d.Least, Most: d.Most, Source: words.Say(req.Lang, "mymeter."+d.Key+".source")})
	}
	return Response{MyMeter: out}
}

// number writes a bound of a figure.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

package meter_test

import (
	"testing"

	"halfsplit/core/meter"
)

// Ranges and rounding are those of the counts. Source: the meaning of counts: a
// range shows up to so many last digits, then the next one is taken.
func TestDisplay(t *testing.T) {
	with := func(key string, v float64) meter.Meter {
		for i := range meter.Data {
			if meter.Data[i].Key == key {
				m, ok := meter.Data[i].With(meter.Typical, v)
				if !ok {
					t.Fatalf("%s does not take %g", key, v)
				}
				return m
			}
		}
		t.Fatalf("no figure %s", key)
		return meter.Meter{}
	}
	m, few, fine := meter.Typical, with("counts", 2000), with("vdc_step", 0.001)
	for _, tc := range []struct{ got, want, how string }{
		{m.Volts(24, meter.VDC), "24.00 V", "60.00 V range"},
		{m.Volts(59.996, meter.VDC), "60.00 V", "6000 counts"},
		{m.Volts(60.006, meter.VDC), "60.0 V", "6001 counts are too many"},
		{m.Volts(-0.004, meter.VDC), "0.00 V", "no minus zero"},
		{m.Volts(-0.005, meter.VDC), "-0.01 V", "halves away from zero"},
		{m.Volts(230.04, meter.VAC), "230.0 V", "600.0 V range"},
		{m.Volts(999.4, meter.VDC), "999 V", "6000 V range"},
		{few.Volts(19.99, meter.VDC), "19.99 V", "2000 counts"},
		{few.Volts(24, meter.VDC), "24.0 V", "2000 counts"},
		{fine.Volts(5.9994, meter.VDC), "5.999 V", "6.000 V range"},
		{fine.Volts(24, meter.VDC), "24.00 V", "and the next"},
		{m.Resistance(0.04), "0.0 Ω", "600.0 Ω range"},
		{m.Resistance(599.94), "599.9 Ω", "600.0 Ω range"},
		{m.Resistance(794), "0.794 kΩ", "6.000 kΩ range"},
		{m.Resistance(59994), "59.99 kΩ", "60.00 kΩ range"},
		{m.Resistance(5.5e5), "550.0 kΩ", "600.0 kΩ range"},
		{m.Resistance(9.995e5), "1.000 MΩ", "6.000 MΩ range, halves away from zero"},
		{few.Resistance(794), "0.794 kΩ", "2.000 kΩ range"},
		{few.Resistance(19.94), "19.9 Ω", "200.0 Ω range"},
		{m.Milliamps(0.0121), "12.10 mA", "60.00 mA range"},
		{m.Milliamps(0.3), "300.0 mA", "600.0 mA range"},
		{m.Amps(0.0121), "0.0121 A", "0.6 A range"},
		{m.Amps(2.1553), "2.155 A", "6 A range"},
	} {
		if tc.got != tc.want {
			t.Errorf("shows %q, want %q (%s)", tc.got, tc.want, tc.how)
		}
	}
}

// Every figure of a meter has bounds that hold its typical value and keep out what
// is none.
func TestData(t *testing.T) {
	seen := map[string]bool{}
	for i := range meter.Data {
		d := &meter.Data[i]
		if seen[d.Key] {
			t.Errorf("%s stands twice", d.Key)
		}
		seen[d.Key] = true
		v := d.Of(meter.Typical)
		if m, ok := d.With(meter.Typical, v); !ok || m != meter.Typical {
			t.Errorf("%s does not take its own typical %g", d.Key, v)
		}
		if m, ok := d.With(meter.Typical, d.Most); !ok || d.Of(m) != d.Most {
			t.Errorf("%s does not take %g", d.Key, d.Most)
		}
		nan := v - v
		nan /= nan
		for _, bad := range []float64{d.Least - 1, 2 * d.Most, nan} {
			if _, ok := d.With(meter.Typical, bad); ok {
				t.Errorf("%s takes %g", d.Key, bad)
			}
		}
	}
}

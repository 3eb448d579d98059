package parts

import "testing"

// EN 50005: the last figure of a marking says what the contact does: 1-2 opens,
// 3-4 closes, 1-2-4 changes over; the figures before it count the contacts.
func TestParseContact(t *testing.T) {
	for _, tc := range []struct {
		text string
		want Contact
		ok   bool
	}{
		{"13-14", Contact{Common: "13", Made: "14"}, true},
		{"21-22", Contact{Common: "21", Rest: "22"}, true},
		{"11-12-14", Contact{Common: "11", Rest: "12", Made: "14"}, true},
		{"103-104", Contact{Common: "103", Made: "104"}, true},
		{"13-24", Contact{}, false}, // two contacts
		{"14-13", Contact{}, false},
		{"11-14", Contact{}, false},
		{"95-96", Contact{}, false}, // an overload relay's
		{"1-2", Contact{}, false},
		{"A1-A2", Contact{}, false},
		{"13", Contact{}, false},
		{"", Contact{}, false},
		{"-", Contact{}, false},
		{"13-14-15-16", Contact{}, false},
	} {
		got, ok := ParseContact(tc.text)
		if got != tc.want || ok != tc.ok {
			t.Errorf("%q: %+v %v, want %+v %v", tc.text, got, ok, tc.want, tc.ok)
		}
	}
}

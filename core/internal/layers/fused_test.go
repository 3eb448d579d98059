package layers

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// fused are the instructions of arm64 that multiply and add with one rounding
// (Arm Architecture Reference Manual, C7.2: FMADD, FMSUB, FNMADD, FNMSUB).
// A phone has an arm64; an amd64 desktop would round twice and answer
// otherwise in the last digit.
var fused = regexp.MustCompile(`\bFN?M(ADD|SUB)[DS]\b`)

// assembly compiles packages for arm64 and returns the compiler's listing.
func assembly(t *testing.T, dir, flags string, patterns ...string) string {
	t.Helper()
	cmd := exec.Command("go", append([]string{"build", "-gcflags=" + flags}, patterns...)...)
	cmd.Dir = dir
	cmd.Env = append(cmd.Environ(), "GOOS=linux", "GOARCH=arm64", "CGO_ENABLED=0")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%.2000s", err, out)
	}
	return string(out)
}

var place = regexp.MustCompile(`\(([^()]+\.go:\d+)\)`)

func fusedPlaces(listing string) (places []string) {
	for line := range strings.SplitSeq(listing, "\n") {
		if !fused.MatchString(line) {
			continue
		}
		where := line
		if m := place.FindStringSubmatch(line); m != nil {
			where = m[1]
		}
		if len(places) == 0 || places[len(places)-1] != where {
			places = append(places, where)
		}
	}
	return places
}

func TestNothingFuses(t *testing.T) {
	var packages []string
	for _, u := range loadCore(t) {
		if pure(u.path) {
			packages = append(packages, u.path)
		}
	}
	listing := assembly(t, ".", module+"core/...=-S", packages...)
	if !strings.Contains(listing, "FMULD") {
		t.Fatal("the listing multiplies nothing: nothing is being checked")
	}
	for _, p := range fusedPlaces(listing) {
		t.Errorf("%s: multiplies and adds with one rounding on arm64; write float64(a*b) + c", p)
	}

	dir := t.TempDir()
	for name, text := range map[string]string{
		"go.mod": "module bad\n\ngo 1.26\n",
		"bad.go": "package bad\n\nfunc F(a, b, c float64) float64 { return a*b + c }\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	broken(t, "fused", fusedPlaces(assembly(t, dir, "-S", ".")), "bad.go:3")
}

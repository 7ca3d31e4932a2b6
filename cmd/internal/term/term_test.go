package term

import (
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The order of precedence: the flag, then NO_COLOR (no-color.org: "when present
// and not an empty string"), then CLICOLOR_FORCE (bixense.com/clicolors) and
// FORCE_COLOR (force-color.org), then TERM=dumb, then the terminal. From memory.
func TestColour(t *testing.T) {
	tty := Stream{Terminal: true, Columns: 90}
	for _, c := range []struct {
		name string
		mode string
		f    Facts
		to   Stream
		want bool
	}{
		{"terminal", "auto", Facts{}, tty, true},
		{"empty mode is auto", "", Facts{}, tty, true},
		{"pipe", "auto", Facts{}, Stream{}, false},
		{"always into a pipe", "always", Facts{}, Stream{}, true},
		{"always beats no_color", "always", Facts{NoColor: "1"}, Stream{}, true},
		{"always beats dumb", "always", Facts{Term: "dumb"}, tty, true},
		{"never beats force", "never", Facts{ForceColor: "1"}, tty, false},
		{"no_color on a terminal", "auto", Facts{NoColor: "1"}, tty, false},
		{"no_color whatever its value", "auto", Facts{NoColor: "0"}, tty, false},
		{"no_color beats force", "auto", Facts{NoColor: "1", ForceColor: "1"}, tty, false},
		{"force into a pipe", "auto", Facts{ForceColor: "1"}, Stream{}, true},
		{"force beats dumb", "auto", Facts{ForceColor: "1", Term: "dumb"}, tty, true},
		{"dumb terminal", "auto", Facts{Term: "dumb"}, tty, false},
		{"named terminal", "auto", Facts{Term: "xterm-256color"}, tty, true},
		{"other stream a terminal", "auto", Facts{Stdout: tty}, Stream{}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.f.Colour(c.mode, c.to)
			if got != c.want || err != nil {
				t.Errorf("got %v, %v, want %v", got, err, c.want)
			}
		})
	}
}

func TestColourRefusesOtherModes(t *testing.T) {
	for _, mode := range []string{"yes", "Always", "on "} {
		_, err := Facts{}.Colour(mode, Stream{Terminal: true})
		if err == nil || !strings.Contains(err.Error(), "auto, always or never") {
			t.Errorf("mode %q: error %v, want one that names the three values", mode, err)
		}
	}
}

func TestWidth(t *testing.T) {
	for _, c := range []struct {
		name  string
		asked int
		f     Facts
		want  int
	}{
		{"nothing known", 0, Facts{}, 80},
		{"terminal", 0, Facts{Stdout: Stream{true, 120}}, 120},
		{"terminal without a size", 0, Facts{Stdout: Stream{true, 0}}, 80},
		{"columns beats terminal", 0, Facts{Columns: "60", Stdout: Stream{true, 120}}, 60},
		{"columns not a number", 0, Facts{Columns: "wide", Stdout: Stream{true, 120}}, 120},
		{"columns negative", 0, Facts{Columns: "-5"}, 80},
		{"flag beats columns", 100, Facts{Columns: "60", Stdout: Stream{true, 120}}, 100},
		{"flag too small", 12, Facts{}, 40},
		{"narrow terminal", 0, Facts{Stdout: Stream{true, 20}}, 40},
		{"absurd", 1 << 40, Facts{}, 1000},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.f.Width(c.asked); got != c.want {
				t.Errorf("got %d, want %d", got, c.want)
			}
		})
	}
}

func TestWidthIsAlwaysUsable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Facts{Columns: rapid.String().Draw(t, "columns"), Stdout: Stream{true, rapid.Int().Draw(t, "tty")}}
		if w := f.Width(rapid.Int().Draw(t, "flag")); w < Narrowest || w > Widest {
			t.Errorf("width %d", w)
		}
	})
}

func TestCanAsk(t *testing.T) {
	tty := Stream{Terminal: true}
	for _, c := range []struct {
		f       Facts
		noInput bool
		want    bool
	}{
		{Facts{Stdin: tty, Stderr: tty}, false, true},
		{Facts{Stdin: tty, Stderr: tty}, true, false},
		{Facts{Stderr: tty}, false, false},
		{Facts{Stdin: tty, Stdout: tty}, false, false},
	} {
		if got := c.f.CanAsk(c.noInput); got != c.want {
			t.Errorf("%+v, no input %v: got %v", c.f, c.noInput, got)
		}
	}
}

func TestReadOfPipes(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	defer w.Close()
	env := map[string]string{"FORCE_COLOR": "1", "TERM": "dumb", "COLUMNS": "70", "ACCESSIBLE": "1"}
	got := Read(r, w, w, func(k string) string { return env[k] })
	want := Facts{Columns: "70", Term: "dumb", ForceColor: "1", Accessible: "1"}
	if got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if !got.PlainWords() {
		t.Error("ACCESSIBLE was not honoured")
	}
	env["CLICOLOR_FORCE"] = "2"
	if got := Read(r, w, w, func(k string) string { return env[k] }); got.ForceColor != "2" {
		t.Errorf("CLICOLOR_FORCE: got %q", got.ForceColor)
	}
}

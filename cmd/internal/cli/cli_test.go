package cli

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"example.org/takeup/cmd/internal/term"
)

const (
	lampPack = "../../../testdata/packs/lamp"
	lampCase = lampPack + "/cases/dark.yaml"
)

// call runs the command line in this process.
func call(facts term.Facts, args ...string) (code int, out, talk string) {
	var o, e bytes.Buffer
	code = run(append([]string{"--pack", lampPack}, args...), facts, &o, &e)
	return code, o.String(), e.String()
}

func TestTheDefaultFormatFollowsTheStream(t *testing.T) {
	_, piped, _ := call(term.Facts{}, "diagnose", lampCase)
	if !strings.HasPrefix(piped, "# The bench lamp stays dark") {
		t.Errorf("in a pipe:\n%s", piped)
	}
	_, shown, _ := call(term.Facts{Stdout: term.Stream{Terminal: true, Columns: 60}}, "diagnose", lampCase)
	if !strings.Contains(shown, "\x1b[") || strings.HasPrefix(shown, "#") {
		t.Errorf("on a terminal:\n%q", shown)
	}
	_, plain, _ := call(term.Facts{Stdout: term.Stream{Terminal: true}, NoColor: "1"}, "diagnose", lampCase)
	if strings.Contains(plain, "\x1b") {
		t.Errorf("with NO_COLOR:\n%q", plain)
	}
}

// No line is wider than asked, ends with a blank or holds an escape unasked for.
func TestEveryPageKeepsToItsWidth(t *testing.T) {
	for _, args := range [][]string{
		{"diagnose", lampCase}, {"diagnose", lampCase, "--all"}, {"why", lampCase}, {"why", lampCase, "battery_flat", "--not", "lead_loose"},
		{"next", lampCase}, {"words"}, {"words", "battery_flat"}, {"words", "lamp"}, {"rules", "check"}, {"rules", "show", "long_use_empties"},
	} {
		for _, width := range []string{"40", "60", "80", "120"} {
			n := map[string]int{"40": 40, "60": 60, "80": 80, "120": 120}[width]
			code, out, talk := call(term.Facts{}, append(args, "--format", "terminal", "--width", width)...)
			if args[0] == "words" && len(args) > 1 && args[1] == "lamp" && code == usage {
				continue // nothing in the pack is called so
			}
			if code != done {
				t.Fatalf("%v: code %d, %s", args, code, talk)
			}
			for line := range strings.Lines(out) {
				line = strings.TrimSuffix(line, "\n")
				if utf8.RuneCountInString(line) > n || strings.TrimRight(line, " ") != line || strings.Contains(line, "\x1b") {
					t.Errorf("%v at %s: %q", args, width, line)
				}
			}
		}
	}
}

func TestEveryCommandSpeaksJSON(t *testing.T) {
	for _, args := range [][]string{
		{"diagnose", lampCase}, {"why", lampCase}, {"why", lampCase, "battery_flat", "--not", "lead_loose"}, {"next", lampCase},
		{"words"}, {"words", "dark"}, {"rules", "check"}, {"rules", "test"}, {"rules", "show", "long_use_empties"},
	} {
		code, out, talk := call(term.Facts{}, append(args, "--format", "json")...)
		if code != done || !json.Valid([]byte(out)) {
			t.Errorf("%v: code %d, %s\n%s", args, code, talk, out)
		}
	}
}

// Talk goes to stderr, so that an answer that is piped on stays clean.
func TestMistakesLeaveStdoutEmpty(t *testing.T) {
	for _, args := range [][]string{
		{"diagnos", lampCase}, {"diagnose"}, {"diagnose", "nowhere.yaml"}, {"diagnose", lampCase, "--formt", "html"},
		{"diagnose", lampCase, "--format", "htm"}, {"diagnose", lampCase, "--stage", "fact"}, {"diagnose", lampCase, "--width", "10"},
		{"diagnose", lampCase, "--color", "blue"}, {"why", lampCase, "batery_flat"}, {"words", "zeppelin"}, {"rules", "show", "nothing"},
		{"next", lampCase, "--open", "cellar"}, {"rules", "chek"}, {"rules", "check", "more"},
	} {
		code, out, talk := call(term.Facts{}, args...)
		if code != usage || out != "" || !strings.HasPrefix(talk, "error: ") && !strings.Contains(talk, "error Y001") {
			t.Errorf("%v: code %d, stdout %q, stderr %q", args, code, out, talk)
		}
	}
}

var style = regexp.MustCompile(`(?m)^error: [^A-Z].*[^.!]$`)

// House style of messages: lower case, no full stop.
func TestMessagesAreInHouseStyle(t *testing.T) {
	for _, args := range [][]string{{"diagnos"}, {"diagnose"}, {"why", lampCase, "x"}, {"diagnose", lampCase, "--format", "x"}, {"--x"}, {"next", "--width"}} {
		if _, _, talk := call(term.Facts{}, args...); !style.MatchString(talk) {
			t.Errorf("%v: %q", args, talk)
		}
	}
}

// Whatever is typed, there is no fault of the program.
func TestArgumentsNeverBreakTheProgram(t *testing.T) {
	words := []string{"diagnose", "why", "next", "words", "rules", "check", "show", "--all", "--stage", "facts", "--format", "json", "--not", lampCase, "battery_flat", "", "\x00", "-", "--"}
	rapid.Check(t, func(t *rapid.T) {
		args := rapid.SliceOfN(rapid.SampledFrom(words), 0, 5).Draw(t, "args")
		if code, _, talk := call(term.Facts{}, args...); code == internal {
			t.Errorf("%q: %s", args, talk)
		}
	})
}

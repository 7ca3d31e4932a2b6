package cli

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/takeup/cmd/internal/term"
)

// child makes the test program act as takeup itself, so that a whole process can
// be killed.
const child = "TAKEUP_IS_THE_CHILD"

func TestMain(m *testing.M) {
	if os.Getenv(child) != "" {
		os.Exit(Main())
	}
	os.Exit(m.Run())
}

// kept is a hand-written case that every interview of this test goes on with.
const kept = "# mine\ntitle: It creeps   # they say\nmachine: {actuation: cable}\n\nsigns:\n    creeps_hot:  yes  # tried it\n\nnotes: >-\n    stays as it is\n"

const answers = 4

// states is what the file holds after none, one, two ... answers.
func states(t *testing.T, folder string) [][]byte {
	t.Helper()
	var out [][]byte
	for n := range answers + 1 {
		path := filepath.Join(folder, fmt.Sprintf("state%d.yaml", n))
		if err := os.WriteFile(path, []byte(kept), 0o644); err != nil {
			t.Fatal(err)
		}
		var talk bytes.Buffer
		typed := strings.NewReader(strings.Repeat("2\n", n) + "q\n")
		if code := runWith(typed, []string{"interview", path}, term.Facts{}, io.Discard, &talk); code != done {
			t.Fatalf("code %d\n%s", code, talk.String())
		}
		if got := strings.Count(talk.String(), "Saved: "); got != n {
			t.Fatalf("%d of %d answers were saved\n%s", got, n, talk.String())
		}
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, text)
	}
	return out
}

// A process killed at any moment has saved every answer that it said it had, and
// at most the one being typed besides; the file is whole, to the byte.
func TestKilledInterviewLosesAtMostTheAnswerBeingTyped(t *testing.T) {
	folder := t.TempDir()
	want := states(t, folder)
	rounds := 8
	if testing.Short() {
		rounds = 3
	}
	r := rand.New(rand.NewPCG(1, 2))
	after := map[int]int{}
	for round := range rounds {
		path := filepath.Join(folder, fmt.Sprintf("killed%d.yaml", round))
		if err := os.WriteFile(path, []byte(kept), 0o640); err != nil {
			t.Fatal(err)
		}
		acknowledged := killed(t, path, r.IntN(answers), time.Duration(r.IntN(15))*time.Millisecond)
		got, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		at := -1
		for n, text := range want {
			if bytes.Equal(got, text) {
				at = n
			}
		}
		if at != acknowledged && at != acknowledged+1 {
			t.Errorf("after %d answers were acknowledged the file holds %d of them:\n%s", acknowledged, at, got)
		}
		if info, _ := os.Stat(path); info.Mode().Perm() != 0o640 {
			t.Errorf("the mode is %v", info.Mode())
		}
		after[at-acknowledged]++
	}
	t.Logf("%d kills; the answer being typed was lost in %d and saved in %d", rounds, after[0], after[1])
}

// killed answers so many questions, types one more answer, waits and kills. It
// returns how many answers were acknowledged.
func killed(t *testing.T, path string, full int, wait time.Duration) int {
	t.Helper()
	cmd := exec.Command(os.Args[0], "interview", path)
	cmd.Env = append(os.Environ(), child+"=1")
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	talk, err := cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer cmd.Wait()
	lines := bufio.NewReader(talk)
	for range full {
		prompt(t, lines)
		io.WriteString(in, "2\n")
		for line := ""; !strings.HasPrefix(line, "Saved: "); {
			if line, err = lines.ReadString('\n'); err != nil {
				t.Fatal(err)
			}
		}
	}
	prompt(t, lines)
	io.WriteString(in, "2\n")
	time.Sleep(wait)
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	rest, _ := io.ReadAll(lines)
	return full + strings.Count(string(rest), "Saved: ")
}

// prompt reads up to the next prompt, when the process waits to be typed to.
func prompt(t *testing.T, talk *bufio.Reader) {
	t.Helper()
	for before := byte(0); ; {
		c, err := talk.ReadByte()
		if err != nil {
			t.Fatal(err)
		}
		if before == '>' && c == ' ' {
			return
		}
		before = c
	}
}

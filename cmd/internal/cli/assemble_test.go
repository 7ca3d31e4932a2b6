package cli

import (
	"bytes"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"example.org/takeup/cmd/internal/term"
	"example.org/takeup/engine"
)

// assembled are the cases of which the build sheet is kept in every format: worn out,
// a pack built wrong, a job down to the hub, and one down to the basket.
var assembled = []string{"tired-all-over", "built-in-a-hurry", "never-twice-the-same-since-the-nut", "lamp-stays-on-after-the-basket"}

func TestAssembleGoldens(t *testing.T) {
	t.Chdir("../../..")
	for _, name := range assembled {
		for _, g := range goldens {
			var out, talk bytes.Buffer
			args := []string{"assemble", filepath.Join("testdata/cases", name+".yaml"), "--format", g.format, "--width", "80", "--color", term.Never}
			if code := run(args, term.Facts{}, &out, &talk); code != done {
				t.Fatalf("%v ends with %d: %s", args, code, talk.String())
			}
			same(t, filepath.Join("testdata/golden/assemble", name+g.ending), out.Bytes())
		}
	}
}

// page runs a command and parses what it prints as a browser would.
func page(t *testing.T, args ...string) (*html.Node, string) {
	t.Helper()
	var out, talk bytes.Buffer
	if code := run(append(args, "--format", "html"), term.Facts{}, &out, &talk); code != done {
		t.Fatalf("%v ends with %d: %s", args, code, talk.String())
	}
	root, err := html.Parse(bytes.NewReader(out.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	return root, out.String()
}

// each visits every element of a page.
func each(n *html.Node, visit func(*html.Node)) {
	if n.Type == html.ElementNode {
		visit(n)
	}
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		each(k, visit)
	}
}

// harmless fails for anything in a page that runs, loads or leads away.
func harmless(t *testing.T, root *html.Node) {
	t.Helper()
	each(root, func(n *html.Node) {
		if slices.Contains([]string{"script", "link", "img", "iframe", "object", "embed", "form", "a", "base", "audio", "video", "use", "image"}, n.Data) {
			t.Errorf("<%s> in the page", n.Data)
		}
		for _, a := range n.Attr {
			if strings.HasPrefix(a.Key, "on") || slices.Contains([]string{"href", "src", "srcset", "action", "style", "ping"}, a.Key) {
				t.Errorf("%s=%q on <%s>", a.Key, a.Val, n.Data)
			}
			if (strings.Contains(a.Val, "://") || strings.Contains(a.Val, "url(")) && a.Key != "xmlns" && a.Key != "aria-label" {
				t.Errorf("%s=%q on <%s>", a.Key, a.Val, n.Data)
			}
		}
	})
}

// find lists the elements of one name.
func find(root *html.Node, name string) (out []*html.Node) {
	each(root, func(n *html.Node) {
		if n.Data == name {
			out = append(out, n)
		}
	})
	return out
}

func words(n *html.Node) string {
	if n.Type == html.TextNode {
		return n.Data
	}
	s := ""
	for k := n.FirstChild; k != nil; k = k.NextSibling {
		s += words(k)
	}
	return s
}

// The page of a diagnosis stands alone and points at the parts of the likeliest causes;
// the build sheet draws the pack and has a box for every step.
func TestPagesStandAlone(t *testing.T) {
	t.Chdir("../../..")
	root, text := page(t, "diagnose", "testdata/cases/tired-all-over.yaml")
	harmless(t, root)
	figures := find(root, "figure")
	if len(figures) != 1 || !strings.Contains(words(figures[0]), "1, 3, 4\u00a0friction plates; 2\u00a0clutch springs") {
		t.Fatalf("%d figures; no part is pointed at", len(figures))
	}
	if n := len(find(figures[0], "svg")); n != 1 {
		t.Errorf("%d drawings", n)
	}
	if strings.Contains(text, "takeup ") {
		t.Error("a hand-out says what to type")
	}
	root, _ = page(t, "assemble", "testdata/cases/lamp-stays-on-after-the-basket.yaml")
	harmless(t, root)
	if len(find(root, "svg")) == 0 {
		t.Error("no pack is drawn")
	}
	for args, want := range map[string]string{"": "basket bearing", "release_ball_missing": "Where it is found: ball of the pushrod"} {
		root, _ := page(t, append([]string{"words"}, strings.Fields(args)...)...)
		harmless(t, root)
		if len(find(root, "figure")) != 1 || !strings.Contains(words(root), want) {
			t.Errorf("words %s: no drawing with %q", args, want)
		}
	}
	root, _ = page(t, "assemble", "testdata/cases/lamp-stays-on-after-the-basket.yaml")
	ticks := 0
	for _, n := range find(root, "ol") {
		for _, a := range n.Attr {
			if a.Key == "class" && a.Val == "tick" {
				ticks += len(find(n, "li"))
			}
		}
	}
	if ticks < 30 {
		t.Errorf("%d steps to tick off", ticks)
	}
}

// Nothing a user typed acts: not in a page, not in a post, not on a terminal.
func TestHostileCase(t *testing.T) {
	const bad = `</title><script>alert(1)</script>[url=http://a.example]x[/url] <img src=x onerror=alert(1)> ` + "\x1b]0;owned\x07"
	dir := t.TempDir()
	s := script{T: t}
	file := filepath.Join(dir, "case.yaml")
	quoted := strings.ReplaceAll(strings.ReplaceAll(bad, "\x1b", `\e`), "\x07", `\a`)
	s.write(file, []byte(`title: "`+quoted+`"
machine: {title: "`+quoted+`", frictions: 7, steels: 6}
signs: {slips_top_gear: yes, linings_thin_found: yes}
stack: [hub, friction: {mark: "`+quoted+`"}, friction: {batch: "`+quoted+`"}, steel, pressure_plate]
`))
	for _, command := range []string{"diagnose", "assemble"} {
		root, text := page(t, command, file)
		harmless(t, root)
		if !strings.Contains(words(root), "<script>alert(1)</script>") {
			t.Errorf("%s: what was typed is lost", command)
		}
		if strings.ContainsAny(text, "\x1b\x07") {
			t.Errorf("%s: control characters in the page", command)
		}
		for _, format := range []string{"terminal", "markdown", "plain", "bbcode"} {
			var out, talk bytes.Buffer
			if code := run([]string{command, file, "--format", format, "--color", term.Never}, term.Facts{}, &out, &talk); code != done {
				t.Fatalf("%s --format %s ends with %d: %s", command, format, code, talk.String())
			}
			if strings.ContainsAny(out.String(), "\x1b\x07") {
				t.Errorf("%s --format %s: an escape sequence", command, format)
			}
			if format == "bbcode" && strings.Contains(out.String(), "[url") {
				t.Errorf("%s: a link in the post", command)
			}
		}
	}
}

// Every drawing of the built-in pack is a drawing, whatever it points at, and every cause
// points at a part of it.
func TestEveryCauseHasAPlaceInTheDrawing(t *testing.T) {
	s := &session{format: "html", color: term.Never}
	e, err := s.open()
	if err != nil {
		t.Fatal(err)
	}
	knowing, _, err := s.folders()
	if err != nil {
		t.Fatal(err)
	}
	drawings, ps := engine.Figures(knowing)
	if len(ps) > 0 || len(drawings) == 0 {
		t.Fatal(ps, len(drawings))
	}
	for _, c := range e.Catalog.Causes {
		if !slices.Contains(drawings[0].Parts(), c.Part) {
			t.Errorf("%s points at %q, which is not drawn", c.ID, c.Part)
		}
	}
}

package html

import (
	"strings"
	"testing"

	"example.org/takeup/engine/document"
)

func render(t *testing.T, blocks ...document.Block) string {
	t.Helper()
	out, err := Render(document.New("t", blocks...))
	if err != nil {
		t.Fatal(err)
	}
	_, body, _ := strings.Cut(string(out), "<main>")
	return body
}

// A drawing that is not only a drawing is replaced by its characters.
func TestDoubtfulSVGFallsBack(t *testing.T) {
	body := render(t, document.Drawing("c", "+--+", `<svg><script>alert(1)</script></svg>`))
	if strings.Contains(body, "script") || !strings.Contains(body, "<pre>&#43;--&#43;</pre>") {
		t.Errorf("got %s", body)
	}
}

func TestBarLengthAndText(t *testing.T) {
	body := render(t, document.Bars(document.NewBar(document.Plain("a <b>"), 0.462, "46 %")))
	for _, want := range []string{`width="46.2"`, `<b>46 %</b>`, `a &lt;b&gt;`, `aria-hidden="true"`} {
		if !strings.Contains(body, want) {
			t.Errorf("no %s in %s", want, body)
		}
	}
}

// The file must work from a mail or a stick: nothing is loaded, nothing runs.
func TestSelfContained(t *testing.T) {
	out, err := Render(document.New("t"))
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{"<script", "<link", "<img", "src=", "@import", "url(", "http://", "https://"} {
		if strings.Contains(string(out), bad) {
			t.Errorf("%s in the page", bad)
		}
	}
	if !strings.Contains(string(out), `content="default-src 'none'; style-src 'unsafe-inline'"`) {
		t.Error("the page does not forbid loading")
	}
}

func TestProse(t *testing.T) {
	out, err := Prose("A & B", []byte("# Slip\n\nText with <script>alert(1)</script> and [x](javascript:alert(1)).\n\n- **one**\n"))
	if err != nil {
		t.Fatal(err)
	}
	s := string(out)
	for _, want := range []string{"<title>A &amp; B</title>", "<h1>Slip</h1>", "<li><strong>one</strong></li>"} {
		if !strings.Contains(s, want) {
			t.Errorf("no %s", want)
		}
	}
	for _, bad := range []string{"<script", "javascript:"} {
		if strings.Contains(s, bad) {
			t.Errorf("%s in the page", bad)
		}
	}
}

package html

import (
	"strings"
	"testing"

	"example.org/takeup/engine/document"
)

func TestCheckSVG(t *testing.T) {
	good := `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><g stroke="currentColor"><rect width="2" height="3"/></g><text x="1" y="2">a &lt; b</text></svg>`
	if err := checkSVG(good); err != nil {
		t.Errorf("a drawing was refused: %v", err)
	}
	for _, bad := range []string{
		``, `<svg>`, `<p>x</p>`, `<svg></svg><svg></svg>`, `<svg></svg>x</svg>`,
		`<svg><script>alert(1)</script></svg>`,
		`<svg onload="alert(1)"></svg>`,
		`<svg><a href="http://a.example"><text>x</text></a></svg>`,
		`<svg xmlns:xlink="http://www.w3.org/1999/xlink"><use xlink:href="x.svg"/></svg>`,
		`<svg><image href="http://a.example/x.png"/></svg>`,
		`<svg><foreignObject><p>x</p></foreignObject></svg>`,
		`<svg><style>body{display:none}</style></svg>`,
		`<svg><rect style="position:fixed"/></svg>`,
		`<svg><rect fill="url(http://a.example)"/></svg>`,
		`<svg><!-- x --></svg>`, `<svg><![CDATA[<p>]]></svg>`, `<svg><?x y?></svg>`,
		`<svg xmlns="http://www.w3.org/1999/xhtml"><title>x</title></svg>`,
		`<svg><g></svg>`,
	} {
		if checkSVG(bad) == nil {
			t.Errorf("%s was accepted", bad)
		}
	}
}

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

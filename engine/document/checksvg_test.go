package document

import "testing"

func TestCheckSVG(t *testing.T) {
	good := `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><g stroke="currentColor"><rect width="2" height="3"/></g><text x="1" y="2">a &lt; b</text></svg>`
	if err := CheckSVG(good); err != nil {
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
		if CheckSVG(bad) == nil {
			t.Errorf("%s was accepted", bad)
		}
	}
}

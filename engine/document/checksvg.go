package document

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"
)

// What a drawing may be made of. Nothing here can run, load, link or style the
// page around it: there is no href, no style, no id and no event.
var (
	svgElements = wordSet("svg g title desc defs path rect circle ellipse line polyline polygon text tspan")
	svgAttrs    = wordSet("xmlns viewBox color width height role aria-label aria-hidden preserveAspectRatio transform " +
		"x y x1 y1 x2 y2 dx dy cx cy r rx ry d points fill fill-opacity fill-rule stroke stroke-width " +
		"stroke-dasharray stroke-linecap stroke-linejoin stroke-opacity opacity " +
		"font-size font-weight font-family text-anchor dominant-baseline letter-spacing")
)

const svgNamespace = "http://www.w3.org/2000/svg"

func wordSet(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}

// CheckSVG returns an error unless s is one well-formed svg element made of the
// allowed parts. HTML and XML must read it alike, so comments, instructions and
// CDATA, on which they differ, are refused.
func CheckSVG(s string) error {
	s = strings.TrimSpace(s)
	if !strings.HasPrefix(s, "<svg") || !strings.HasSuffix(s, "</svg>") {
		return fmt.Errorf("svg: want one svg element")
	}
	if strings.Contains(s, "<!") || strings.Contains(s, "<?") {
		return fmt.Errorf("svg: no comments, instructions or cdata")
	}
	dec := xml.NewDecoder(strings.NewReader(s))
	roots, depth := 0, 0
	for {
		tok, err := dec.Token() // checks that elements nest
		if err == io.EOF && roots == 1 {
			return nil
		}
		if err != nil {
			return fmt.Errorf("svg: %w", err)
		}
		switch t := tok.(type) {
		case xml.StartElement:
			if depth == 0 {
				roots++
			}
			depth++
			if err := checkSVGElement(t); err != nil {
				return err
			}
		case xml.EndElement:
			depth--
		}
	}
}

func checkSVGElement(t xml.StartElement) error {
	if t.Name.Space != "" && t.Name.Space != svgNamespace || !svgElements[t.Name.Local] {
		return fmt.Errorf("svg: element %s", t.Name.Local)
	}
	for _, a := range t.Attr {
		if a.Name.Space != "" || !svgAttrs[a.Name.Local] || a.Name.Local == "xmlns" && a.Value != svgNamespace {
			return fmt.Errorf("svg: attribute %s of %s", a.Name.Local, t.Name.Local)
		}
		if a.Name.Local == "aria-label" { // words, read by no style
			continue
		}
		if strings.Contains(a.Value, "url(") || strings.Contains(a.Value, `\`) {
			return fmt.Errorf("svg: address in %s of %s", a.Name.Local, t.Name.Local)
		}
	}
	return nil
}

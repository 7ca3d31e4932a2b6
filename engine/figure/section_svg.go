package figure

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/document"
)

// Measures of the drawn section in its own units, as wide as a page is: the basket
// above, the hub below, the axis under it, the pack from left to right.
const (
	sheetHeight = 226
	narrowest   = 300.0
	packLeft    = 40
	packWidth   = 400 // room for the pack
	widestScale = 12000
	layerGap    = 2
	basketY     = 34 // inner face of the fingers
	tabY        = 26
	liningY     = 62
	boreY       = 146 // where an outer plate ends
	shortY      = 112 // where one with a larger bore ends
	ringY       = 118
	plateY      = 54  // where an inner plate begins
	splineY     = 172 // outer face of the hub
	toothY      = 180
	axisY       = 212
)

// caution is the colour of the page for what is wrong, with one for a reader that
// has no page around the drawing.
const caution = "var(--caution, #a3341f)"

// svg draws the section as a cut through its upper half.
func (s Section) svg() document.SVG {
	var b strings.Builder
	scale := s.scale()
	x := float64(packLeft)
	var layers strings.Builder
	for i, l := range s.Layers {
		w := l.width() * scale
		layers.WriteString(l.svg(x, w))
		fmt.Fprintf(&layers, `<text x="%.1f" y="198" text-anchor="middle" font-size="10" stroke="none" fill="%s">%d</text>`, x+w/2, l.ink(), i+1)
		x += w + layerGap
	}
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.0f %d" role="img" aria-label="%s" fill="none" stroke="currentColor" stroke-width="1" font-size="11" font-family="sans-serif">`,
		max(narrowest, x+packLeft), sheetHeight, document.SVGText(s.Words()))
	s.frame(&b, x)
	b.WriteString(layers.String())
	b.WriteString(`</svg>`)
	return document.SVG(b.String())
}

// frame draws what holds the plates: the fingers of the outer drum and the splines
// of the inner one, with the axis both turn on.
func (s Section) frame(b *strings.Builder, right float64) {
	const left = packLeft - 24
	fmt.Fprintf(b, `<path d="M%d %d H%.1f V%d H%d Z" fill="currentColor" fill-opacity=".12"/>`, left, tabY-12, right+14, basketY, left)
	fmt.Fprintf(b, `<path d="M%d %d H%.1f V%d H%d Z" fill="currentColor" fill-opacity=".12"/>`, left, splineY, right+6, splineY+14, left)
	fmt.Fprintf(b, `<path d="M4 %d H%.1f" stroke-dasharray="12 3 2 3" stroke-width=".8"/>`, axisY, right+28)
	fmt.Fprintf(b, `<text x="%d" y="11" stroke="none" fill="currentColor">%s</text>`, left, document.SVGText(s.Outer))
	fmt.Fprintf(b, `<text x="%d" y="198" text-anchor="end" stroke="none" fill="currentColor">%s</text>`, packLeft-6, document.SVGText(s.Inner))
}

// scale is units for one metre, such that the pack fills the sheet.
func (s Section) scale() float64 {
	sum := 0.0
	for _, l := range s.Layers {
		sum += l.width()
	}
	room := float64(packWidth - layerGap*len(s.Layers))
	if sum <= 0 || room <= 0 {
		return widestScale
	}
	return min(widestScale, room/sum)
}

// width is what a layer takes up in the drawing, in metres.
func (l Layer) width() float64 {
	switch {
	case l.ThicknessM > 0:
		return min(l.ThicknessM, 0.02) // a slip of the pen does not fill the page
	case l.Usual > 0:
		return l.Usual
	}
	return 0.002
}

func (l Layer) ink() string {
	if l.Mark == Wrong {
		return caution
	}
	return "currentColor"
}

// svg draws one layer at x, w wide.
func (l Layer) svg(x, w float64) string {
	ink := l.ink()
	switch l.Mark {
	case Missing:
		return fmt.Sprintf(`<path d="M%.1f %d H%.1f V%d H%.1f Z" stroke="%s" stroke-dasharray="3 2"/>`, x, liningY, x+w, boreY, x, caution)
	case Unseen:
		return fmt.Sprintf(`<text x="%.1f" y="110" text-anchor="middle" stroke="none" fill="%s" font-size="14">?</text>`, x+w/2, ink)
	}
	open := fmt.Sprintf(`<g stroke="%s" fill="%s" stroke-width="%s">`, ink, ink, weight(l.Mark))
	return open + l.shape(x, w) + `</g>`
}

func weight(m Mark) string {
	if m == Wrong {
		return "2"
	}
	return "1"
}

// shape is the geometry of a layer; its fill is thinned out so that outlines show.
func (l Layer) shape(x, w float64) string {
	bar := func(x, w float64, top, bottom int, opacity string) string {
		return fmt.Sprintf(`<rect x="%.1f" y="%d" width="%.1f" height="%d" fill-opacity="%s"/>`, x, top, w, bottom-top, opacity)
	}
	switch l.Shape {
	case "lined":
		bottom, top := boreY, tabY
		if l.Draw == "short" {
			bottom = shortY
		}
		if l.Draw == "stepped" {
			top = tabY - 6
		}
		return bar(x+w*.3, w*.4, top, bottom, ".5") + bar(x, w*.3, liningY, bottom, ".1") + bar(x+w*.7, w*.3, liningY, bottom, ".1")
	case "ring":
		return bar(x, w, ringY, boreY, ".7")
	case "cone":
		return fmt.Sprintf(`<path d="M%.1f %d L%.1f %d" stroke-width="2.5"/>`, x, ringY, x+w, boreY)
	case "cap":
		return bar(x, w, plateY-6, toothY, ".3")
	}
	return bar(x, w, plateY, toothY, ".7")
}

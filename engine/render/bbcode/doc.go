// Package bbcode renders a page as a forum post in the part of BBCode that every
// common board understands: [b], [i], [list], [*], [quote] and [code].
//
//	post := bbcode.Render(page)
//
// Tags are closed in order, lists nest at most once, lines in [code] are at most
// 70 wide, and no line outside of [code] begins with a blank. Square brackets in
// the text of the page become parentheses, so nothing in it can be a tag.
//
// It sets no colours, sizes or fonts, which are unreadable on half of the boards'
// themes, and it makes no links.
package bbcode

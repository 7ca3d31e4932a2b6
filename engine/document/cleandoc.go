package document

// Clean returns a copy of the page with every text cleaned, shares between 0 and
// 1 and heading levels between 2 and 4. Renderers begin with it, since a page
// may have been built without the constructors. SVG stays: it is code, and the
// page renderer checks it.
func (d Document) Clean() Document {
	return Document{Title: Clean(d.Title), Blocks: cleanBlocks(d.Blocks)}
}

func cleanBlocks(in []Block) []Block {
	if in == nil {
		return nil
	}
	out := make([]Block, len(in))
	for i, b := range in {
		out[i] = cleanBlock(b)
	}
	return out
}

func cleanBlock(b Block) Block {
	if b.Kind == KindHeading {
		b.Level = min(max(b.Level, 2), 4)
	}
	b.Text, b.Code = cleanText(b.Text), CleanLines(b.Code)
	b.Items = each(b.Items, func(i Item) Item {
		return Item{Text: cleanText(i.Text), Blocks: cleanBlocks(i.Blocks)}
	})
	b.Bars = each(b.Bars, func(r Bar) Bar {
		return NewBar(cleanText(r.Label), r.Share, r.Value, cleanBlocks(r.Blocks)...).With(cleanText(r.Note))
	})
	b.Facts = each(b.Facts, func(f Fact) Fact { return NewFact(f.Label, cleanText(f.Value)) })
	b.Ledger = each(b.Ledger, func(e Entry) Entry {
		return Entry{cleanText(e.Label), Clean(e.Amount), cleanText(e.Note), e.Total}
	})
	if b.Table != nil {
		b.Table = Table(b.Table.Head, b.Table.Align, b.Table.Rows...).Table
	}
	if b.Figure != nil {
		b.Figure = Drawing(b.Figure.Caption, b.Figure.Drawing, b.Figure.SVG).Saying(b.Figure.Alt).Figure
	}
	return b
}

func cleanText(t Text) Text {
	return merge(each(t, func(s Span) Span { return Span{Clean(s.Text), s.Style} }))
}

func each[T any](in []T, f func(T) T) []T {
	var out []T
	for _, v := range in {
		out = append(out, f(v))
	}
	return out
}

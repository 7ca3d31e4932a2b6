package source

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestSuggest(t *testing.T) {
	known := []string{"when", "because", "basis", "id", "oil_temperature", "oil_age", "slips_hot", "slips_cold"}
	for _, c := range []struct {
		word string
		want []string
	}{
		{"wen", []string{"when"}},
		{"hwen", []string{"when"}}, // a swap counts as one
		{"when", nil},              // itself is no suggestion
		{"WHEN", []string{"when"}},
		{"whxx", nil},
		{"becuase", []string{"because"}},
		{"oil-temprature", []string{"oil_temperature"}},
		{"oil_tmp", nil}, // too far for seven letters
		{"slips hot", []string{"slips_hot"}},
		{"slips_hold", []string{"slips_cold", "slips_hot"}},
		{"x", nil},
		{"", nil},
	} {
		if got := Suggest(c.word, known); !slices.Equal(got, c.want) {
			t.Errorf("%q: got %q, want %q", c.word, got, c.want)
		}
	}
	if got := Suggest("aab", []string{"aaf", "aae", "aad", "aac", "aac"}); !slices.Equal(got, []string{"aac", "aad", "aae"}) {
		t.Errorf("at most three, sorted: %q", got)
	}
}

func TestAlike(t *testing.T) {
	known := []string{"rattle_idle_lever_out", "rattle_lever_in", "tinny_rattle", "idle_uneven", "oil_age", "rattle_lever_in"}
	for _, c := range []struct {
		word string
		want []string
	}{
		{"rattles_idle", []string{"rattle_idle_lever_out"}},
		{"rattle", []string{"tinny_rattle", "rattle_lever_in", "rattle_idle_lever_out"}},
		{"Rattles at idle", []string{"rattle_idle_lever_out"}},
		{"oil", nil}, // three letters are in too many words
		{"judder", nil},
		{"", nil},
		{"tinny_rattle", []string{"rattle_lever_in", "rattle_idle_lever_out"}}, // itself is no suggestion
	} {
		if got := Alike(c.word, known); !slices.Equal(got, c.want) {
			t.Errorf("%q: got %q, want %q", c.word, got, c.want)
		}
	}
}

// plainDistance is the textbook recurrence of optimal string alignment (Boytsov
// 2011, "Indexing methods for approximate dictionary searching", section 2.2,
// from memory), without any shortcut.
func plainDistance(a, b []rune) int {
	switch {
	case len(a) == 0:
		return len(b)
	case len(b) == 0:
		return len(a)
	}
	x, y := a[:len(a)-1], b[:len(b)-1]
	change := 1
	if a[len(x)] == b[len(y)] {
		change = 0
	}
	d := min(plainDistance(x, b)+1, plainDistance(a, y)+1, plainDistance(x, y)+change)
	if len(x) > 0 && len(y) > 0 && a[len(x)] == b[len(y)-1] && a[len(x)-1] == b[len(y)] {
		d = min(d, plainDistance(x[:len(x)-1], y[:len(y)-1])+1)
	}
	return d
}

func TestDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[ab_]{0,6}`)
		a, b := []rune(word.Draw(t, "a")), []rune(word.Draw(t, "b"))
		limit := rapid.IntRange(0, 6).Draw(t, "limit")
		want := plainDistance(a, b)
		got := distance(a, b, limit)
		if want <= limit && got != want || want > limit && got <= limit {
			t.Fatalf("%q %q limit %d: got %d, want %d", string(a), string(b), limit, got, want)
		}
	})
}

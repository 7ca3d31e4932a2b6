package prose_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/prose"
	"example.org/takeup/engine/source"
)

// checkDraft holds for every text: the draft opens as it stands, says nothing
// twice and nothing in it acts on a terminal.
func checkDraft(t interface {
	Helper()
	Errorf(string, ...any)
}, l *prose.Lexicon, cat *catalog.Catalog, post string) {
	t.Helper()
	draft := l.Read(post).Draft()
	if again := l.Read(post).Draft(); string(again) != string(draft) {
		t.Errorf("two readings differ:\n%s\n%s", draft, again)
	}
	if text := strings.ReplaceAll(string(draft), "\n", ""); document.Clean(text) != text {
		t.Errorf("control characters in %q", draft)
	}
	c, ps := intake.Parse(&source.File{Name: "draft", Text: draft}, cat, nil)
	if ps.HasErrors() || c == nil {
		t.Errorf("post %q: the draft cannot be read: %v\n%s", post, ps, draft)
	}
}

// hostile texts try to leave the comment, the quotation marks or the text itself.
var hostile = []string{
	"it slips in top gear\u2028signs:\n  grabs: yes",
	"the lever is heavy\" # \nsigns: {grabs: yes}",
	"\x1b]52;c;cm0gLXJm\x07it creeps when hot\x1b[2J",
	"<script>it slips uphill</script> the lever is <b onclick=x>heavy</b>",
	"[quote]it slips uphill[quote]nested[/quote] the lever is heavy",
	"[url=javascript:alert(1)]the lever is heavy[/url]",
	"%YAML 1.2\n---\n!!binary aXQgc2xpcHM=\n... the lever is heavy",
	"- : ? | > & * ! % @ ` # { } [ ] , the lever is heavy",
	"\u202eyvaeh si revel eht\u202c the lever is heavy",
	"the lever is heavy \ufeff\u200b\u00ad\x00\x7f",
	strings.Repeat("the lever is heavy and it slips in top gear when hot, ", 3000),
	strings.Repeat("(", 5000) + strings.Repeat("a ", 9000),
	strings.Repeat("no ", 4000) + "slip in top gear",
	"1e999 mm 99999999999999999999 miles on the clock 1/0 in free play",
	"free play \xff\xfe 3 mm",
}

func TestHostilePosts(t *testing.T) {
	l, cat := lexicon(t)
	for _, post := range hostile {
		checkDraft(t, l, cat, post)
	}
	r := l.Read("<script>alert(1)</script>The lever is heavy.<!-- it slips in top gear -->")
	for _, e := range r.Entries {
		if e.ID != "lever_heavy" {
			t.Errorf("%s was read out of markup", e.ID)
		}
	}
	if strings.Contains(string(r.Draft()), "alert") {
		t.Errorf("a script is quoted:\n%s", r.Draft())
	}
}

// Words of the phrases in any order, with marks between them, are the texts in
// which a mistake of the reader shows soonest.
func TestAnyWords(t *testing.T) {
	l, cat := lexicon(t)
	words := strings.Fields(`slips slip creeps hot cold top gear neutral hard find not no never doesn't lever clutch in out heavy grabs judder
		when if only but and or , . ? ! : ; - ( ) " ' changed new plates springs oil cable 200 miles ago 3 mm 2-3mm 1/4 in. fine it happens i think could be
		my mate's going to used to update: 38k stood for years engine off rattle stops pull # [ ] { } free play gone on the clock`)
	rapid.Check(t, func(rt *rapid.T) {
		checkDraft(rt, l, cat, strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 0, 40).Draw(rt, "words"), " "))
	})
}

func FuzzRead(f *testing.F) {
	l, cat := lexicon(f)
	for _, post := range hostile[:10] {
		f.Add(post)
	}
	files, _ := filepath.Glob("../../testdata/posts/*.txt")
	for _, file := range files[:min(12, len(files))] {
		post, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(post))
	}
	f.Fuzz(func(t *testing.T, post string) { checkDraft(t, l, cat, post) })
}

// Problems of a phrase file come back together, each with its place and, where
// there is one, the word that was meant.
func TestPhraseProblems(t *testing.T) {
	_, cat := lexicon(t)
	text := `phrases:
  slips_top_gaer: [slips]
  lever_heavy: ["<heavvy> lever", ".. lever"]
facts:
  changed: {stels: [new steels]}
  chnged: {steels: [new steels]}
amounts:
  free_play: ["{length} slack"]
vague:
  when_slip: [slips]
concepts:
  heavy: [heavy]
`
	_, ps := prose.Load(fstest.MapFS{"phrases/bad.yaml": {Data: []byte(text)}}, cat)
	want := []string{
		`phrases/bad.yaml:2:3: error K150: unknown sign "slips_top_gaer"`, `phrases/bad.yaml:3:17: error K150: unknown concept <heavvy>`,
		`phrases/bad.yaml:3:35: error K150: nothing to look for in ".. lever"`, `phrases/bad.yaml:5:13: error K150: changed: "stels" is not one of its values`,
		`phrases/bad.yaml:6:3: error K150: unknown fact "chnged"`, `phrases/bad.yaml:8:3: error K150: unknown fact or reading "free_play"`,
		`phrases/bad.yaml:10:3: error K150: unknown question "when_slip"`,
	}
	for i, p := range ps {
		if i >= len(want) || !strings.HasPrefix(p.String(), want[i]) {
			t.Errorf("problem %d is %s, want %v", i, p, want)
		}
	}
	if len(ps) != len(want) {
		t.Errorf("%d problems, want %d", len(ps), len(want))
	}
	if ps[0].Hint != "did you mean slips_top_gear?" {
		t.Errorf("hint %q", ps[0].Hint)
	}
}

// A pack without phrases still reads the words of its facts, and nothing else.
func TestNoPhrases(t *testing.T) {
	_, cat := lexicon(t)
	l, ps := prose.Load(fstest.MapFS{}, cat)
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	r := l.Read("It slips in top gear. It fell over in the garage.")
	if len(r.Entries) != 1 || r.Entries[0].ID != "crashed" || len(r.Unread) != 1 {
		t.Errorf("got %+v", r)
	}
}

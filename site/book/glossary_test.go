package book

import (
	"errors"
	"strings"
	"testing"
)

const twoTerms = `Said before.

## tilt
forms: tilts, tilted
also: lean

How it leans, {{q 100 µm/m}}.

## side tilt

To one side.

## way
forms: only slideway

A guide.

## level
forms: none

A vial.
`

func TestParseTerms(t *testing.T) {
	terms, err := parseTerms([]byte(twoTerms))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, term := range terms {
		got = append(got, term.ID+"="+strings.Join(term.Forms, ","))
	}
	want := "level= side-tilt=side tilt,side tilts tilt=tilt,tilted,tilts way=slideway"
	if strings.Join(got, " ") != want {
		t.Errorf("terms = %q, want %q", strings.Join(got, " "), want)
	}
	for name, source := range map[string]string{
		"no meaning":      "\n## tilt\nforms: x\n",
		"one form twice":  "\n## tilt\n\nA.\n\n## lean\nforms: tilt\n\nB.\n",
		"a nameless term": "\n## \n\nA.\n",
	} {
		if terms, err := parseTerms([]byte(source)); err == nil || !strings.Contains(err.Error(), "glossary.md:") {
			t.Errorf("%s: parseTerms = %v, %v, want an error that names the line", name, terms, err)
		}
	}
}

func TestTermsAreLinkedAtTheirFirstUse(t *testing.T) {
	terms, err := parseTerms([]byte(twoTerms))
	if err != nil {
		t.Fatal(err)
	}
	const (
		tilt = `<a href="../glossary/index.html#tilt" class="term">`
		side = `<a href="../glossary/index.html#side-tilt" class="term">`
	)
	tests := []struct{ name, source, want string }{
		{"first use only", "A tilt and a tilt.", "<p>A " + tilt + "tilt</a> and a tilt.</p>\n"},
		{"another form, in capitals", "Tilted so.", "<p>" + tilt + "Tilted</a> so.</p>\n"},
		{"the longest term", "Its side tilt, a tilt.", "<p>Its " + side + "side tilt</a>, a " + tilt + "tilt</a>.</p>\n"},
		{"not in a word", "Tiltable, a tilt-meter.", "<p>Tiltable, a tilt-meter.</p>\n"},
		{"not in a heading", "## Tilt\n\nnone", "<h2 id=\"tilt\">Tilt</h2>\n<p>none</p>\n"},
		{"not in code", "`tilt`\n\n```\ntilt\n```", "<p><code>tilt</code></p>\n<pre><code>tilt\n</code></pre>\n"},
		{"not in a link", "[tilt](x.html)", "<p><a href=\"x.html\">tilt</a></p>\n"},
		{"not in bold", "**\"A tilt.\"** so", "<p><strong>&ldquo;A tilt.&rdquo;</strong> so</p>\n"},
		{"not in a directive", "{{tilt}} of it", "<p>[tilt] of it</p>\n"},
		{"in a list and over lines", "- a\n- a tilt\n  of it", "<ul>\n<li>a</li>\n<li>a " + tilt + "tilt</a>\nof it</li>\n</ul>\n"},
		{"not the word alone", "By the way, a level.", "<p>By the way, a level.</p>\n"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			linker := &termLinker{termMatcher: newTermMatcher(terms), seen: map[string]bool{}}
			got, problems := prose([]byte(test.source), "lesson.md", func(d directive) (string, error) { return "[" + d.verb + "]", nil }, linker)
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			if got != test.want {
				t.Errorf("got  %q\nwant %q", got, test.want)
			}
		})
	}
}

func TestShopQuantity(t *testing.T) {
	tests := []struct{ text, metric, inch string }{
		{"0.02 mm", "0.020 mm", "0.00079 in"},
		{"25.4 µm", "25.4 µm", "1.000 thou"},
		{"100 µm/m", "100 µm/m", "1.20 thou/ft"},
		{"2.0 A/dm²", "2.0 A/dm²", "19 A/ft²"},
	}
	for _, test := range tests {
		q, err := shopQuantity(test.text)
		if err != nil {
			t.Errorf("shopQuantity(%q): %v", test.text, err)
			continue
		}
		space := strings.NewReplacer("\u00a0", " ")
		if metric, inch := space.Replace(q.In(0).String()), space.Replace(q.In(1).String()); metric != test.metric || inch != test.inch {
			t.Errorf("shopQuantity(%q) = %s, %s, want %s, %s", test.text, metric, inch, test.metric, test.inch)
		}
	}
	for _, text := range []string{"", "x mm", "3", "3 furlongs"} {
		if q, err := shopQuantity(text); err == nil {
			t.Errorf("shopQuantity(%q) = %v, want an error", text, q)
		}
	}
}

// Every term of the glossary that can be linked is used by some lesson, or it
// is a word of the trade that a reader may bring along.
func TestGlossaryIsUsed(t *testing.T) {
	page := string(theBook(t).Files["glossary/index.html"])
	used := strings.Count(page, `<p class="used-in">`)
	terms := strings.Count(page, "<dt id=")
	if terms < 90 || used < terms/2 {
		t.Errorf("the glossary has %d terms, of which lessons use %d", terms, used)
	}
	for _, unit := range []string{`class="metric"`, `class="inch"`} {
		if !strings.Contains(page, unit) {
			t.Errorf("the glossary shows no quantity with %s", unit)
		}
	}
}

func TestPageDirectivesAreRefused(t *testing.T) {
	s := &surroundings{}
	for verb, argument := range map[string]string{"paint": "blue", "of": "nowhere tilt", "page": "nowhere", "term": "nothing", "q": "3 ells"} {
		_, problems := prose([]byte("one\n\n{{"+verb+" "+argument+"}}"), "story.md", s.resolve)
		if err := errors.Join(problems...); err == nil || !strings.Contains(err.Error(), "story.md:3: ") {
			t.Errorf("{{%s %s}} gives %v, want an error that names the line", verb, argument, err)
		}
	}
}

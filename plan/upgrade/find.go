package upgrade

import (
	"cmp"
	"slices"
	"strings"
	"sync"
	"unicode"
)

// Find lists the kinds that fit what was typed, the best first: by label, by other
// words for it, by its purpose and by the complaints that it cures, whole words and
// beginnings of words, British or American ([Glossary]). Where no kind fits all of
// the words, those that fit most of them are listed. Nothing typed finds every kind.
func Find(query string) []Kind {
	typed := words(query)
	want := concepts(typed)
	if len(want) == 0 {
		return slices.Clone(Kinds)
	}
	type hit struct {
		kind  Kind
		fits  int
		score float64
	}
	var hits []hit
	most := 0
	for _, d := range documents() {
		h := hit{kind: d.kind}
		for _, c := range want {
			if s := d.scores(c); s > 0 {
				h.fits++
				h.score += s
			}
		}
		if h.fits > 0 {
			h.score += d.says(typed)
			most = max(most, h.fits)
			hits = append(hits, h)
		}
	}
	hits = slices.DeleteFunc(hits, func(h hit) bool { return h.fits < most })
	slices.SortStableFunc(hits, func(a, b hit) int { return cmp.Compare(b.score, a.score) })
	kinds := make([]Kind, len(hits))
	for i, h := range hits {
		kinds[i] = h.kind
	}
	return kinds
}

// How much a word counts by where it stands, by what it shares with what was
// typed, and by whether it was typed itself.
const (
	inLabel, inWords, inPurpose, inCure = 8, 6, 2, 1

	begun = 0.6 // the beginning of a word
	other = 0.7 // another word for it
	exact = 1.5 // a whole entry
)

// document is what a kind is found by.
type document struct {
	kind  Kind
	texts []text
}

type text struct {
	weight float64
	words  []string
}

// documents are those of all kinds, in their order.
var documents = sync.OnceValue(func() []document {
	all := make([]document, len(Kinds))
	for i, k := range Kinds {
		a := k.About()
		d := document{kind: k}
		add := func(weight float64, s string) { d.texts = append(d.texts, text{weight, words(s)}) }
		add(inLabel, a.Label)
		for _, w := range a.Words {
			add(inWords, w)
		}
		add(inPurpose, a.Purpose)
		for _, key := range a.Cures {
			if complaint, cause, ok := CauseNamed(key); ok {
				add(inCure, complaint.Say+" "+cause.Says)
			}
		}
		all[i] = d
	}
	return all
})

// concept is something that was asked for, in all the ways of saying it: as it was
// typed, and by other words.
type concept struct{ typed, others [][]string }

// scores is how well a kind fits a concept; 0 where it does not.
func (d document) scores(c concept) float64 {
	best := 0.0
	for _, t := range d.texts {
		for _, w := range c.typed {
			best = max(best, t.weight*t.fits(w, true))
		}
		for _, w := range c.others {
			best = max(best, t.weight*other*t.fits(w, false))
		}
	}
	return best
}

// says is how much it counts that a text has all that was typed, in that order.
func (d document) says(typed []string) float64 {
	best := 0.0
	for _, t := range d.texts {
		for i := 0; i+len(typed) <= len(t.words) && len(typed) > 1; i++ {
			if slices.Equal(t.words[i:i+len(typed)], typed) {
				best = max(best, t.weight)
			}
		}
	}
	return best
}

// fits is how well a text has all of some words: 1 as whole words, more where it has
// no others, less where one is only begun; 0 where one is missing.
func (t text) fits(want []string, begin bool) float64 {
	share := 1.0
	for _, w := range want {
		switch {
		case slices.Contains(t.words, w):
		case begin && len(w) > 1 && slices.ContainsFunc(t.words, func(x string) bool { return strings.HasPrefix(x, w) }):
			share = min(share, begun)
		default:
			return 0
		}
	}
	if len(want) == len(t.words) && share == 1 {
		return exact
	}
	return share
}

// concepts groups what was typed: the longest run of words that the glossary has
// stands for all that it is called; any other word for itself.
func concepts(typed []string) []concept {
	var all []concept
	for len(typed) > 0 {
		n, others := said(typed)
		c := concept{typed: [][]string{typed[:n]}, others: others}
		all = append(all, c)
		typed = typed[n:]
	}
	return all
}

// said finds the longest name at the beginning of what was typed, how many words it
// has, and what else the thing is called.
func said(typed []string) (n int, others [][]string) {
	n = 1
	for _, names := range glossary() {
		for _, name := range names {
			if len(name) >= n && len(name) <= len(typed) && slices.Equal(name, typed[:len(name)]) {
				if len(name) > n {
					n, others = len(name), nil
				}
				others = append(others, names...)
				break
			}
		}
	}
	return n, others
}

// glossary is [Glossary] as words: all names of each term.
var glossary = sync.OnceValue(func() [][][]string {
	all := make([][][]string, len(Glossary))
	for i, t := range Glossary {
		for _, name := range append([]string{t.Say}, t.Also...) {
			all[i] = append(all[i], words(name))
		}
	}
	return all
})

// empty words say nothing of what is looked for.
var empty = []string{"a", "an", "and", "for", "how", "i", "in", "is", "it", "my", "of", "on", "or", "the", "to", "too", "with"}

// plainLetters are letters without their marks.
var plainLetters = strings.NewReplacer("à", "a", "á", "a", "â", "a", "ä", "a", "ã", "a", "å", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ñ", "n", "ò", "o", "ó", "o", "ô", "o", "ö", "o", "õ", "o", "ø", "o", "ù", "u", "ú", "u", "û", "u", "ü", "u", "ß", "ss", "æ", "ae", "œ", "oe",
	"'", "", "’", "")

// oneSpelling makes British and American spellings the same.
var oneSpelling = strings.NewReplacer("centre", "center", "grey", "gray", "aluminium", "aluminum", "mould", "mold", "lling", "ling", "colour", "color")

// words are the words of a text: small letters without marks, one spelling, one
// number of a noun, and none of the empty ones.
func words(s string) []string {
	var all []string
	for _, w := range strings.FieldsFunc(plainLetters.Replace(strings.ToLower(s)), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		w = oneSpelling.Replace(w)
		if len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") {
			w = strings.TrimSuffix(w, "s")
		}
		if !slices.Contains(empty, w) {
			all = append(all, w)
		}
	}
	return all
}

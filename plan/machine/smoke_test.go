package machine_test

import (
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/upgrade"

	"github.com/stretchr/testify/require"
)

func TestSmoke(t *testing.T) {
	m := lathe()
	p, err := m.Build("1")
	require.NoError(t, err)
	t.Log(p.Problems, p.Findings)
	s := p.Site("1")
	t.Log(s.Problems)
	for _, f := range s.Fields {
		t.Logf("%+v", f)
	}
	t.Log(upgrade.Text(s.Kind.Answer(s, p.Result)))
	var show func(k *sheet.KnockOn, in string)
	show = func(k *sheet.KnockOn, in string) {
		also := ""
		for _, a := range k.Also {
			also += " also " + a.Label
		}
		t.Log(in, k.Label, "|", k.Now.Text(0), "->", k.Figure.Text(k.Now.Value), k.Delta, k.New, also)
		for _, c := range k.Children {
			show(c, in+"    ")
		}
	}
	for _, k := range p.Result.KnockOns(s.Goals...) {
		show(k, "")
	}
	for _, c := range p.Result.Checks() {
		t.Log(c.Label, "|", c.Figure.Text(0), c.Limit.Text(0), c.Verdict, c.Was, c.Phrase, c.PlusMinus, c.AsFound, c.Worse, "|", c.Sentence)
	}
	h := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
	t.Log(h.From, h.To, h.AtMost, h.Best)
	for _, l := range h.Limits {
		t.Log(l.Label, l.From, l.To, l.Level, l.AsFound)
	}
}

package machine_test

import (
	"github.com/stretchr/testify/require"

	"testing"

	"fettle/plan/demo"
)

// BenchmarkBuild works the demo lathe out with one draft: from what was typed
// to every figure, as found, now and planned.
func BenchmarkBuild(b *testing.B) {
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = "12"
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.Build("1"); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPage is all that a page shows of it: checks, knock-ons, how far, the answer.
func BenchmarkPage(b *testing.B) {
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = "12"
	b.ReportAllocs()
	for b.Loop() {
		p, err := m.Build("1")
		if err != nil {
			b.Fatal(err)
		}
		s := p.Site("1")
		p.Result.Checks()
		p.Result.KnockOns(s.GoalKeys()...)
		p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
		s.Kind.Answer(s, p.Result)
	}
}

// BenchmarkProject is the demo lathe with all its axes and upgrades: worked out
// anew from its leaves; everything that is shown after a keystroke; and built
// from what was typed.
func BenchmarkProject(b *testing.B) {
	m := demo.LatheProject()
	p, err := m.Build("")
	require.NoError(b, err)
	s := p.Site("1")
	b.Run("recompute", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			p.Result.Recompute()
		}
	})
	b.Run("keystroke", func(b *testing.B) {
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			p.Result.Try(s.Amount, 8+float64(i%5))
			p.Result.Checks()
			p.Result.KnockOns(s.GoalKeys()...)
			p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
		}
	})
	b.Run("build", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := m.Build(""); err != nil {
				b.Fatal(err)
			}
		}
	})
}

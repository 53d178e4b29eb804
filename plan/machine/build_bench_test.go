package machine_test

import (
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

package machine

import (
	"errors"
	"maps"
	"reflect"
	"slices"
	"sync"

	"fettle/plan/upgrade"
)

// Offering is what a machine could become, kept with what that was worked out from. The zero Offering is of none.
type Offering struct {
	Offers []Offer
	axes   []offered
}

// offered is what was offered on one axis.
type offered struct {
	machine Machine         // with that axis alone
	whole   map[string]bool // keys of the kinds of the whole machine that an axis before it has
	offers  []Offer
}

// Offers tells of every kind, on every axis that it suits, what it would gain,
// beside the machine as it is planned.
func (m *Machine) Offers() ([]Offer, error) {
	o, err := Offering{}.Renew(m)
	return o.Offers, err
}

// Renew gives the [Machine.Offers] of a machine. What was offered on an axis that stands as it did, with all that is
// planned on it, is taken over. A machine that was given is not to be changed afterwards.
func (o Offering) Renew(m *Machine) (Offering, error) {
	var out Offering
	var jobs []func() error
	whole := map[string]bool{}
	for i := range m.Axes {
		on := offered{machine: m.alone(i), whole: maps.Clone(whole)}
		same := slices.IndexFunc(o.axes, func(was offered) bool {
			return maps.Equal(was.whole, on.whole) && reflect.DeepEqual(was.machine, on.machine)
		})
		if same >= 0 {
			on = o.axes[same]
		} else if b, err := m.bench(i); err != nil {
			return Offering{}, err
		} else if b != nil {
			on.offers = b.offers(whole)
			for j := range on.offers {
				jobs = append(jobs, func() (err error) {
					x := &on.offers[j]
					x.Gain, err = b.gain(x.Kind, x.Trial)
					return err
				})
			}
		}
		for _, x := range on.offers {
			if x.About.Whole {
				whole[x.About.Key] = true
			}
		}
		out.axes = append(out.axes, on)
	}
	faults := make([]error, len(jobs))
	each(len(jobs), func(i int) { faults[i] = jobs[i]() })
	for _, on := range out.axes {
		out.Offers = append(out.Offers, on.offers...)
	}
	return out, errors.Join(faults...)
}

// offers are those on an axis, without what they gain; whole are the kinds of the whole machine that are offered already.
func (b *bench) offers(whole map[string]bool) (all []Offer) {
	for _, k := range upgrade.Kinds {
		about := k.About()
		if whole[about.Key] || !k.Suits(b.layout) {
			continue
		}
		for _, t := range k.Trials(b.layout) {
			all = append(all, Offer{Kind: k, About: about, Axis: b.layout.Axis, Trial: t})
		}
	}
	return all
}

// atOnce is how many upgrades are tried at the same time: as many as a small computer has processors.
const atOnce = 4

// each calls f for 0 to n-1, a few at a time.
func each(n int, f func(i int)) {
	var wait sync.WaitGroup
	next := make(chan int)
	for range min(n, atOnce) {
		wait.Go(func() {
			for i := range next {
				f(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wait.Wait()
}

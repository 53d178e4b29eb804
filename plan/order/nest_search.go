package order

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// answer is the best packing found and what no packing is below.
type answer struct {
	bins        []bin
	cost, bound int64
}

// solve tries the sets of bars, the cheapest first.
func (p *problem) solve() answer {
	if len(p.pieces) == 0 {
		return answer{}
	}
	best := answer{bins: p.greedy(-1)}
	if len(p.bars) > 0 {
		best.bins = nil
		for j := range p.bars {
			if bins := p.greedy(j); best.bins == nil || p.costOf(bins) < best.cost {
				best.bins, best.cost = bins, p.costOf(bins)
			}
		}
	}
	demands, reach := p.demands()
	sets, all := p.sets(demands, best.cost)
	var open []set // neither packed nor shown to be impossible
	effort := p.effort
	for _, s := range sets {
		if s.cost >= best.cost {
			break
		}
		if bins, sure := p.pack(s, reach, min(effort, p.effort/40), &effort); bins != nil {
			best.bins, best.cost = bins, s.cost
		} else if !sure {
			open = append(open, s)
		}
	}
	for i, s := range open {
		if s.cost >= best.cost {
			break
		}
		bins, sure := p.pack(s, reach, effort/(len(open)-i), &effort)
		switch {
		case bins != nil:
			best.bins, best.cost = bins, s.cost
		case sure:
			open[i].cost = best.cost // as good as gone
		}
	}
	best.bound = best.cost
	for _, s := range open {
		best.bound = min(best.bound, s.cost)
	}
	if !all {
		best.bound = min(best.bound, p.plainBound(demands))
	}
	p.useOffcuts(best.bins)
	best.cost = p.costOf(best.bins)
	best.bound = min(best.bound, best.cost)
	return best
}

// pack looks for a packing of every piece into the offcuts and the set of bars.
// sure tells that there is none; effort is lessened by the steps taken.
func (p *problem) pack(s set, reach func(int64) int64, steps int, effort *int) (bins []bin, sure bool) {
	if steps <= 0 {
		return nil, false
	}
	// A bar's room beyond the best sum that fits it is of no use to anybody.
	var empty []bin
	for i, r := range p.offcuts {
		empty = append(empty, bin{bar: -1, offcut: i, room: reach(r)})
	}
	for j, n := range s.bars {
		for range n {
			empty = append(empty, bin{bar: j, offcut: -1, room: reach(p.bars[j].room)})
		}
	}
	empty = slices.DeleteFunc(empty, func(b bin) bool { return b.room == 0 })
	slices.SortStableFunc(empty, func(a, b bin) int { return cmp.Compare(a.room, b.room) })
	f := &filling{kinds: p.kinds, left: slices.Clone(p.count), steps: steps, dead: map[string]struct{}{}}
	var slack int64
	for _, b := range empty {
		if len(f.rooms) == 0 || f.rooms[len(f.rooms)-1] != b.room {
			f.rooms, f.bins = append(f.rooms, b.room), append(f.bins, 0)
		}
		f.bins[len(f.bins)-1]++
		slack += b.room
	}
	for k, n := range p.count {
		slack -= p.kinds[k] * int64(n)
	}
	ok := slack >= 0 && f.next(slack)
	*effort -= steps - f.steps
	if !ok {
		return nil, f.steps > 0
	}
	return p.lay(f, empty), true
}

// lay gives the pieces themselves to the bins that a filling found.
func (p *problem) lay(f *filling, empty []bin) (bins []bin) {
	var items [][]int // pieces of each kind
	for range p.kinds {
		items = append(items, nil)
	}
	for i, k := range p.kind {
		items[k] = append(items[k], i)
	}
	for _, full := range f.full {
		i := slices.IndexFunc(empty, func(b bin) bool { return b.room == full.room })
		b := empty[i]
		empty = slices.Delete(empty, i, i+1)
		b.room = p.fullRoom(b)
		for _, k := range full.kinds {
			b.items = append(b.items, items[k][0])
			b.room -= p.kinds[k]
			items[k] = items[k][1:]
		}
		bins = append(bins, b)
	}
	// What stays empty may still take what a bar need not carry.
	for _, b := range empty {
		b.room = p.fullRoom(b)
		bins = append(bins, b)
	}
	return bins
}

func (p *problem) fullRoom(b bin) int64 {
	if b.bar >= 0 {
		return p.bars[b.bar].room
	}
	return p.offcuts[b.offcut]
}

// filling is a search for a packing, bin by bin: the largest piece left goes
// into a bin, and the bin is filled in every way that is worth it before the
// next. A filling that has room for one more piece, or for a larger one in the
// place of a smaller, is never worth it: what can be done with it can be done
// with the fuller one.
type filling struct {
	kinds []int64
	left  []int   // pieces of each kind
	rooms []int64 // the rooms that occur, the smallest first
	bins  []int   // of each room
	steps int
	dead  map[string]struct{} // states from which there is no packing
	full  []filled
}

// filled is one bin that is done.
type filled struct {
	room  int64
	kinds []int
}

// mostDead bounds the memory that is spent on remembering.
const mostDead = 200_000

// next fills the next bin; slack is the room that may still be wasted in all.
func (f *filling) next(slack int64) bool {
	k := slices.IndexFunc(f.left, func(n int) bool { return n > 0 })
	if k < 0 {
		return true
	}
	state := f.state()
	if _, ok := f.dead[state]; ok {
		return false
	}
	for r, room := range f.rooms {
		if f.bins[r] == 0 || room < f.kinds[k] {
			continue
		}
		f.bins[r]--
		f.left[k]--
		if f.fill(r, []int{k}, room-f.kinds[k], slack) {
			return true
		}
		f.left[k]++
		f.bins[r]++
		if f.steps <= 0 {
			return false
		}
	}
	if len(f.dead) < mostDead {
		f.dead[state] = struct{}{}
	}
	return false
}

// fill adds to a bin that has taken some kinds, none larger than the last of
// them, and has room left.
func (f *filling) fill(r int, took []int, room, slack int64) bool {
	if f.steps--; f.steps <= 0 {
		return false
	}
	last := took[len(took)-1]
	rest := room - slack // what has to be added at the least
	for k := last; k < len(f.kinds) && rest > 0; k++ {
		rest -= int64(f.left[k]) * f.kinds[k]
	}
	if rest > 0 {
		return false
	}
	for k := last; k < len(f.kinds); k++ {
		if f.left[k] == 0 || f.kinds[k] > room {
			continue
		}
		f.left[k]--
		if f.fill(r, append(took, k), room-f.kinds[k], slack) {
			return true
		}
		f.left[k]++
		if f.steps <= 0 {
			return false
		}
	}
	if room > slack || !f.worthIt(took, room) {
		return false
	}
	f.full = append(f.full, filled{f.rooms[r], slices.Clone(took)})
	if f.next(slack - room) {
		return true
	}
	f.full = f.full[:len(f.full)-1]
	return false
}

// worthIt tells that no piece left goes into the room, nor a larger one in the
// place of one that was taken.
func (f *filling) worthIt(took []int, room int64) bool {
	for k := len(f.kinds) - 1; k >= 0; k-- {
		if f.left[k] > 0 {
			if f.kinds[k] <= room {
				return false
			}
			break
		}
	}
	for i, t := range took[1:] {
		if i > 0 && took[i] == t {
			continue
		}
		for k := t - 1; k >= 0 && f.kinds[k]-f.kinds[t] <= room; k-- {
			if f.left[k] > 0 {
				return false
			}
		}
	}
	return true
}

// state is what is left, as a key.
func (f *filling) state() string {
	var b []byte
	for _, n := range f.left {
		b = binary.AppendUvarint(b, uint64(n))
	}
	for _, n := range f.bins {
		b = binary.AppendUvarint(b, uint64(n))
	}
	return string(b)
}

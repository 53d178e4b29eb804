package order

import (
	"cmp"
	"math/bits"
	"slices"
)

// demand is something that bars must give: a weight of every piece, and the
// most of it that a bar of each sort can hold. A set of bars that holds less of
// it than there is cannot take all the pieces.
type demand struct {
	need    int64
	offcuts int64   // what all the offcuts together hold at the most
	bars    []int64 // what each sort of bar holds
}

// set is how many bars of each sort are bought.
type set struct {
	bars []int
	cost int64
}

// demands are, for the pieces not shorter than each of the sizes that occur:
// their lengths, of which a bar holds no more than the best sum of lengths that
// fits it; and their number.
func (p *problem) demands() (all []demand, reach func(room int64) int64) {
	sums := newSums(p.most())
	var length, number int64
	for k, size := range p.kinds {
		for range p.count[k] {
			sums.add(size)
		}
		length += size * int64(p.count[k])
		number += int64(p.count[k])
		byLength, byNumber := demand{need: length}, demand{need: number}
		for _, r := range p.offcuts {
			byLength.offcuts += sums.below(r)
			byNumber.offcuts += p.mostOf(k, r)
		}
		for _, b := range p.bars {
			byLength.bars = append(byLength.bars, sums.below(b.room))
			byNumber.bars = append(byNumber.bars, p.mostOf(k, b.room))
		}
		all = append(all, byLength, byNumber)
	}
	return all, sums.below
}

// most is the largest room of any bar or offcut.
func (p *problem) most() (most int64) {
	for _, r := range p.offcuts {
		most = max(most, r)
	}
	for _, b := range p.bars {
		most = max(most, b.room)
	}
	return most
}

// mostOf is how many pieces of the k largest kinds fit at the most: the
// smallest of them first.
func (p *problem) mostOf(k int, room int64) (n int64) {
	for ; k >= 0; k-- {
		fit := min(int64(p.count[k]), room/p.kinds[k])
		n += fit
		room -= fit * p.kinds[k]
		if fit < int64(p.count[k]) {
			break
		}
	}
	return n
}

// sums knows which sums of lengths can be made, each length used once.
type sums []uint64

func newSums(most int64) sums {
	s := make(sums, most/64+1)
	s[0] = 1
	return s
}

func (s sums) add(size int64) {
	words, shift := int(size/64), uint(size%64)
	for i := len(s) - 1; i >= words; i-- {
		v := s[i-words] << shift
		if shift > 0 && i > words {
			v |= s[i-words-1] >> (64 - shift)
		}
		s[i] |= v
	}
}

// below is the largest sum that is not above the limit.
func (s sums) below(limit int64) int64 {
	i := min(int(limit/64), len(s)-1)
	w := s[i]
	if over := uint(limit % 64); int(limit/64) == i && over < 63 {
		w &= 1<<(over+1) - 1
	}
	for w == 0 {
		i--
		w = s[i] // the empty sum is always there
	}
	return int64(i)*64 + int64(bits.Len64(w)) - 1
}

// mostSets is how many sets of bars are listed.
const mostSets = 50_000

// sets lists the sets of bars that cost less than the limit and meet every
// demand, the cheapest first, then those with fewer bars. all is false where
// there are too many to list.
func (p *problem) sets(demands []demand, limit int64) (list []set, all bool) {
	all = true
	bars := make([]int, len(p.bars))
	visits := 0
	var walk func(j int, cost int64)
	walk = func(j int, cost int64) {
		if !all {
			return
		}
		if j == len(p.bars) {
			if visits++; visits > 40*mostSets {
				all = false
			}
			if p.meets(demands, bars) {
				list = append(list, set{slices.Clone(bars), cost})
				all = all && len(list) <= mostSets
			}
			return
		}
		for bars[j] = 0; cost < limit; bars[j]++ {
			walk(j+1, cost)
			cost += p.bars[j].cost
			if bars[j] >= len(p.pieces) {
				break
			}
		}
		bars[j] = 0
	}
	walk(0, 0)
	slices.SortStableFunc(list, func(a, b set) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(total(a.bars), total(b.bars)))
	})
	return list, all
}

func (p *problem) meets(demands []demand, bars []int) bool {
	for _, d := range demands {
		held := d.offcuts
		for j, n := range bars {
			held += int64(n) * d.bars[j]
		}
		if held < d.need {
			return false
		}
	}
	return true
}

// plainBound is a cost that no set is below, by each demand's cheapest bar
// alone, for when the sets are too many to list.
func (p *problem) plainBound(demands []demand) (bound int64) {
	for _, d := range demands {
		short := d.need - d.offcuts
		if short <= 0 {
			continue
		}
		var best int64 = -1
		for j, b := range p.bars {
			if d.bars[j] <= 0 {
				continue
			}
			// short / held bars of it, in parts of a bar, rounded up.
			if c := (short*b.cost + d.bars[j] - 1) / d.bars[j]; best < 0 || c < best {
				best = c
			}
		}
		bound = max(bound, best)
	}
	return bound
}

func total(bars []int) (n int) {
	for _, b := range bars {
		n += b
	}
	return n
}

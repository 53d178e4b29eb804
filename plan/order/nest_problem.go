package order

import (
	"cmp"
	"math"
	"slices"
)

// grain is how many parts of a millimetre lengths are reckoned in. Pieces are
// rounded up and bars down, so that what fits on paper fits on the bench.
const grain = 100

// problem is a nest in whole numbers. Every piece takes its length and one
// kerf; every bar gives its length and one kerf, since the last cut need not be
// made where the piece ends with the bar.
type problem struct {
	pieces  []Piece // the longest first
	size    []int64 // of each, with its kerf
	kinds   []int64 // the sizes that occur, the largest first
	count   []int   // of each kind
	kind    []int   // of each piece
	owned   []Offcut
	offcuts []int64 // of each, with the kerf
	bars    []stock // none that another betters
	kerf    float64
	byCost  bool
	effort  int
}

// stock is a bar that can be bought.
type stock struct {
	length float64
	room   int64 // with the kerf
	cost   int64 // what is made least: the length, or the price
}

// bin is a bar or an offcut with what is cut from it.
type bin struct {
	bar    int // index, or -1
	offcut int // index, or -1
	room   int64
	items  []int // indices of pieces
}

func newProblem(pieces []Piece, c Cutting) *problem {
	p := &problem{pieces: slices.Clone(pieces), owned: c.Offcuts, kerf: c.Kerf, effort: c.Effort}
	if p.effort <= 0 {
		p.effort = Effort
	}
	slices.SortStableFunc(p.pieces, func(a, b Piece) int { return byLength(b, a) })
	for _, piece := range p.pieces {
		size := int64(math.Ceil((piece.Length+c.Kerf)*grain - 1e-6))
		if len(p.kinds) == 0 || p.kinds[len(p.kinds)-1] != size {
			p.kinds, p.count = append(p.kinds, size), append(p.count, 0)
		}
		p.size, p.kind = append(p.size, size), append(p.kind, len(p.kinds)-1)
		p.count[len(p.kinds)-1]++
	}
	for _, o := range c.Offcuts {
		p.offcuts = append(p.offcuts, room(o.Length, c.Kerf))
	}
	p.byCost = len(c.Bars) > 0 && !slices.ContainsFunc(c.Bars, func(b Bar) bool { return b.Cost == 0 })
	for _, b := range c.Bars {
		s := stock{b.Length, room(b.Length, c.Kerf), b.Cost}
		if !p.byCost {
			s.cost = int64(math.Round(b.Length * grain))
		}
		if s.room > 0 {
			p.bars = append(p.bars, s)
		}
	}
	// Longest first; a shorter bar that costs as much is no use.
	slices.SortFunc(p.bars, func(a, b stock) int { return cmp.Or(cmp.Compare(b.room, a.room), cmp.Compare(a.cost, b.cost)) })
	var useful []stock
	for _, b := range p.bars {
		if !slices.ContainsFunc(useful, func(u stock) bool { return u.cost <= b.cost }) {
			useful = append(useful, b)
		}
	}
	p.bars = useful
	return p
}

func room(length, kerf float64) int64 { return int64(math.Floor((length+kerf)*grain + 1e-6)) }

// greedy puts each piece where the least room is left, the longest first, and
// opens a bar of the given sort where none has room, or the cheapest that is
// long enough. A sort of -1 opens none: what does not fit stays out.
func (p *problem) greedy(sort int) []bin {
	var bins []bin
	for i, r := range p.offcuts {
		bins = append(bins, bin{bar: -1, offcut: i, room: r})
	}
	for i, size := range p.size {
		best := -1
		for j, b := range bins {
			if b.room >= size && (best < 0 || b.room < bins[best].room) {
				best = j
			}
		}
		if best < 0 && sort >= 0 {
			open := sort
			if p.bars[open].room < size {
				open = p.cheapest(size)
			}
			if open < 0 {
				continue
			}
			bins = append(bins, bin{bar: open, offcut: -1, room: p.bars[open].room})
			best = len(bins) - 1
		}
		if best >= 0 {
			bins[best].items = append(bins[best].items, i)
			bins[best].room -= size
		}
	}
	p.shrink(bins)
	return bins
}

// cheapest is the bar that costs least of those with the room, or -1.
func (p *problem) cheapest(need int64) int {
	best := -1
	for j, b := range p.bars {
		if b.room >= need && (best < 0 || b.cost < p.bars[best].cost) {
			best = j
		}
	}
	return best
}

// shrink takes for every bar the cheapest that holds its pieces.
func (p *problem) shrink(bins []bin) {
	for i, b := range bins {
		if b.bar < 0 {
			continue
		}
		var load int64
		for _, item := range b.items {
			load += p.size[item]
		}
		if j := p.cheapest(load); j >= 0 && p.bars[j].cost < p.bars[b.bar].cost {
			bins[i].bar, bins[i].room = j, p.bars[j].room-load
		}
	}
}

func (p *problem) costOf(bins []bin) (cost int64) {
	for _, b := range bins {
		if b.bar >= 0 && len(b.items) > 0 {
			cost += p.bars[b.bar].cost
		}
	}
	return cost
}

// useOffcuts moves pieces from bars to offcuts that have room for them, so that
// what the owner has is used and what is left of a bar is long.
func (p *problem) useOffcuts(bins []bin) {
	for i := range bins {
		if bins[i].offcut < 0 {
			continue
		}
		for from, item := p.longestOnBars(bins, bins[i].room); from >= 0; from, item = p.longestOnBars(bins, bins[i].room) {
			bins[from].items = slices.DeleteFunc(bins[from].items, func(j int) bool { return j == item })
			bins[from].room += p.size[item]
			bins[i].items = append(bins[i].items, item)
			bins[i].room -= p.size[item]
		}
	}
	p.shrink(bins)
}

// longestOnBars is the longest piece on a bar to buy that goes into the room.
func (p *problem) longestOnBars(bins []bin, room int64) (from, item int) {
	from, item = -1, -1
	for i, b := range bins {
		if b.bar < 0 {
			continue
		}
		for _, j := range b.items {
			if p.size[j] <= room && (item < 0 || p.size[j] > p.size[item]) {
				from, item = i, j
			}
		}
	}
	return from, item
}

// cuts writes bins as the reader wants them.
func (p *problem) cuts(bins []bin) (cuts []Cut) {
	for _, b := range bins {
		if len(b.items) == 0 {
			continue
		}
		cut := Cut{}
		if b.bar >= 0 {
			cut.Length = p.bars[b.bar].length
		} else {
			cut.Length, cut.Offcut = p.owned[b.offcut].Length, p.owned[b.offcut].Key
		}
		slices.Sort(b.items)
		cut.Left = cut.Length
		for _, i := range b.items {
			cut.Pieces = append(cut.Pieces, p.pieces[i])
			cut.Left -= p.pieces[i].Length + p.kerf
		}
		cut.Left = max(0, cut.Left)
		cuts = append(cuts, cut)
	}
	slices.SortStableFunc(cuts, func(a, b Cut) int {
		return cmp.Or(cmp.Compare(btoi(a.Offcut == ""), btoi(b.Offcut == "")), cmp.Compare(b.Length, a.Length), cmp.Compare(a.Left, b.Left))
	})
	return cuts
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

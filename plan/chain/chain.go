package chain

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

const geometry = "geometry: y = Σ c x"

// Formulas of one link.
var (
	linkMiddle = sheet.Method{Text: "size + (upper + lower) / 2", Source: "geometry"}
	linkHalf   = sheet.Method{Text: "(upper - lower) / 2", Source: "geometry"}
	linkPart   = sheet.Method{Text: "factor * middle", Source: geometry}
	linkWorst  = sheet.Method{Text: "abs(factor) * half", Source: "worst case: |c| t"}
	linkSquare = sheet.Method{Text: "pow(worst, 2)", Source: "root sum square: (c t)²"}
	linkMade   = sheet.Method{Text: "factor * (middle + half * made)", Source: geometry + ", with the part as it may be made"}
)

// shape is how the sizes of a part fall, as a formula of leaves that fall anywhere
// between −1 and 1 alike, or normally; its mean and standard deviation as shares of
// half the tolerance.
type shape struct {
	text      string // of a, and b
	leaves    int
	normal    bool
	mean, std float64
	source    string
}

var shapes = map[Shape]shape{
	Normal:     {"a", 1, true, 0, 1.0 / 3, "normal, the limits at three standard deviations"},
	Uniform:    {"a", 1, false, 0, 1 / math.Sqrt(3), "rectangular: JCGM 100:2008, 4.3.7"},
	Triangular: {"(a + b) / 2", 2, false, 0, 1 / math.Sqrt(6), "triangular, the mean of two rectangular: JCGM 100:2008, 4.3.9"},
	Large:      {"max(a, b)", 2, false, 1.0 / 3, math.Sqrt2 / 3, "rising evenly to the upper limit, the larger of two rectangular"},
	Small:      {"min(a, b)", 2, false, -1.0 / 3, math.Sqrt2 / 3, "rising evenly to the lower limit, the smaller of two rectangular"},
}

// fine is millimetres to a tenth of a micrometre.
var fine = unit.Unit{Symbol: "mm", Dim: unit.LengthD, Scale: 1, Decimals: 4}

// squared is what variances are shown in.
var squared = unit.Unit{Symbol: "µm²", Dim: unit.MM2.Dim, Scale: 1e-6, Decimals: 2}

// Lay puts a chain onto sc: of the whole nominal (in the middle of all
// tolerances), worst (half of the most that it can vary), least and most, rss, mean
// and std; closing, the size itself, which carries the uncertainty of all links; and
// of each link, in the scope link_1 and so on, its share of the variance.
func Lay(sc *sheet.Scope, links []Link) {
	for i, l := range links {
		l.lay(sc, i)
	}
	of := func(key, label, symbol, text, source string) {
		sc.Formula(sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: fine}, text, source)
	}
	of("closing", "closing size", "y", "sum(made)", geometry)
	of("nominal", "closing size, all links in the middle", "y_0", "sum(parts)", geometry)
	of("worst", "worst case, ±", "T", "sum(worsts)", "worst case: Σ |c| t")
	of("least", "least at the worst", "y_min", "nominal - worst", "worst case")
	of("most", "most at the worst", "y_max", "nominal + worst", "worst case")
	of("rss", "root sum square, ±", "T_rss", "sqrt(sum(squares))", RSS.Source+"; valid "+RSS.Valid)
	of("rss_inflated", "root sum square times 1.5, ±", "", "1.5 * rss", "from memory, unchecked: 1.5 for processes that wander")
	sc.Formula(sheet.Q{Key: "variance", Label: "variance of the closing size", Symbol: "σ²", Unit: squared, Quiet: true}, "sum(variances)", "JCGM 100:2008, 5.1.2: Σ (c σ)²")
	of("std", "standard deviation", "σ", "sqrt(variance)", "JCGM 100:2008, 5.1.2: Σ (c σ)²")
	of("mean", "mean, as the links are made", "ȳ", "sum(means)", geometry)
	for i := range links {
		in := sc.In(fmt.Sprintf("link_%d", i+1))
		in.Formula(sheet.Q{Key: "share", Label: fmt.Sprintf("share of link %d in the variance", i+1), Unit: unit.Percent, Decimals: 1}, "link_variance / variance", "JCGM 100:2008, 5.1.2")
	}
}

// RSS says what root sum square rests on.
var RSS = sheet.Method{
	Text: "sqrt(sum(squares))", Source: "root sum square: √ Σ (c t)²",
	Valid: "for four or more like links, independent, made in the middle of their tolerance; not for parts made one by one to one side",
}

func (l Link) lay(sc *sheet.Scope, i int) {
	in := sc.In(fmt.Sprintf("link_%d", i+1))
	called := fmt.Sprintf("link %d", i+1)
	if l.Name != "" {
		called += ", " + l.Name
	}
	leaf := func(key, label, symbol string, u unit.Unit, value float64, spread sheet.Spread, note string) {
		in.Measure(sheet.Q{Key: key, Label: called + ": " + label, Symbol: fmt.Sprintf("%s_%d", symbol, i+1), Unit: u, Quiet: true},
			sheet.Leaf{Value: value, Origin: sheet.Chosen, Spread: spread, Note: note})
	}
	quiet := func(key, label, symbol string, u unit.Unit, m sheet.Method, with sheet.With) {
		in.Method(sheet.Q{Key: key, Label: called + ": " + label, Symbol: fmt.Sprintf(symbol, i+1), Unit: u, Quiet: true}, m, with)
	}
	leaf("size", "size", "x", fine, l.Size, sheet.Spread{}, "as given")
	leaf("upper", "upper deviation", "u", fine, l.Upper, sheet.Spread{}, "as given")
	leaf("lower", "lower deviation", "l", fine, l.Lower, sheet.Spread{}, "as given")
	leaf("factor", "factor", "c", unit.One, l.Factor, sheet.Spread{}, "1 opens the gap, −1 closes it")
	s := shapes[l.Shape]
	spread := sheet.Within(1)
	if s.normal {
		spread = sheet.Std(1.0 / 3)
	}
	with := sheet.With{"a": "made_a", "b": "made_b"}
	leaf("made_a", "where in the tolerance", "a", unit.One, 0, spread, s.source)
	if s.leaves > 1 {
		leaf("made_b", "where in the tolerance, again", "b", unit.One, 0, spread, s.source)
	}
	leaf("mean_share", "mean, in half tolerances", "m", unit.One, s.mean, sheet.Spread{}, s.source)
	leaf("std_share", "standard deviation, in half tolerances", "s", unit.One, s.std, sheet.Spread{}, s.source)
	quiet("made", "where in the tolerance it is made", "a_%d", unit.One, sheet.Method{Text: s.text, Source: s.source}, with)
	quiet("middle", "middle of the tolerance", "x̄_%d", fine, linkMiddle, nil)
	quiet("half", "half of the tolerance", "t_%d", fine, linkHalf, nil)
	quiet("part", "its part", "c x̄_%d", fine, linkPart, nil)
	quiet("worst", "at the worst", "|c| t_%d", fine, linkWorst, nil)
	quiet("square", "squared", "(c t_%d)²", squared, linkSquare, nil)
	quiet("as_made", "its part as made", "y_%d", fine, linkMade, nil)
	quiet("mean", "its mean part", "ȳ_%d", fine, sheet.Method{Text: "factor * (middle + half * mean_share)", Source: s.source}, nil)
	quiet("link_variance", "variance", "(c σ_%d)²", squared, sheet.Method{Text: "pow(worst * std_share, 2)", Source: s.source}, nil)
	for _, f := range []struct{ family, key string }{{"parts", "part"}, {"worsts", "worst"}, {"made", "as_made"}, {"means", "mean"}} {
		sc.Family(f.family, f.family+" of the links", fine, fmt.Sprintf("link_%d.%s", i+1, f.key))
	}
	sc.Family("squares", "squares of the links", squared, fmt.Sprintf("link_%d.square", i+1))
	sc.Family("variances", "variances of the links", squared, fmt.Sprintf("link_%d.link_variance", i+1))
}

// Trials is how many times a chain is put together, and the seed of the draws.
const (
	Trials = 40000
	Seed   = 1
)

const trialSource = "JCGM 101:2008: 40 000 trials with the links as they are made, the same draws each time"

// LayTrials puts what trials say onto sc, on which [Lay] has put the chain:
// trial_mean, trial_std, and the middle 95 % from trial_low to trial_high. Where
// the scope has limit_least and limit_most, trial_out is the share that is
// outside them.
func LayTrials(sc *sheet.Scope, links []Link) {
	t := &trial{links: links, limits: sc.Has("limit_least")}
	args := make([]string, 0, 3*len(links)+2)
	dims := make([]unit.Dim, 0, cap(args))
	for i := range links {
		in := fmt.Sprintf("link_%d.", i+1)
		args = append(args, in+"factor", in+"middle", in+"half")
		dims = append(dims, unit.Number, unit.LengthD, unit.LengthD)
	}
	if t.limits {
		args, dims = append(args, "limit_least", "limit_most"), append(dims, unit.LengthD, unit.LengthD)
	}
	figure := func(key, label string, u unit.Unit, of func(outcome) float64) {
		sc.Sheet().Register(&sheet.Func{Name: key, Args: dims, Result: u.Dim, Source: trialSource,
			F: func(args []float64) float64 { return of(t.run(args)) }})
		sc.Formula(sheet.Q{Key: key, Label: label, Unit: u}, key+"("+strings.Join(args, ", ")+")", trialSource)
	}
	figure("trial_mean", "mean of the trials", fine, func(o outcome) float64 { return o.Mean })
	figure("trial_std", "standard deviation of the trials", fine, func(o outcome) float64 { return o.Std })
	figure("trial_low", "95 % of the trials lie between this", fine, func(o outcome) float64 { return o.Low })
	figure("trial_high", "and this", fine, func(o outcome) float64 { return o.High })
	if t.limits {
		share := unit.Percent
		share.Decimals = 2
		figure("trial_out", "share of the trials outside the limits", share, func(o outcome) float64 { return o.out })
	}
}

type outcome struct {
	sheet.Distribution
	out float64 // share outside the limits
}

// trial puts a chain together over and over; it remembers the last answer, which
// several figures are taken from.
type trial struct {
	links  []Link
	limits bool
	args   []float64
	last   outcome
}

func (t *trial) run(args []float64) outcome {
	if slices.Equal(args, t.args) {
		return t.last
	}
	t.args = slices.Clone(args)
	links := slices.Clone(t.links)
	for i := range links {
		links[i].Factor, links[i].Size = args[3*i], args[3*i+1]
		links[i].Upper, links[i].Lower = args[3*i+2], -args[3*i+2]
	}
	s := sheet.New()
	Lay(s.Root(), links)
	r, err := s.Bind()
	if err != nil {
		panic(err) // the formulas are bound by a test: a programming error
	}
	drawn, _ := r.Drawn("closing", sheet.Planned, Trials, Seed)
	t.last = outcome{Distribution: sheet.Distributed(drawn)}
	if t.limits {
		n := 3 * len(links)
		t.last.out = outside(drawn, args[n], args[n+1])
	}
	return t.last
}

// outside is the share of values, which are in order of size, below least or above most.
func outside(drawn []float64, least, most float64) float64 {
	below, _ := slices.BinarySearch(drawn, least)
	within, _ := slices.BinarySearchFunc(drawn, most, func(x, most float64) int {
		if x <= most {
			return -1
		}
		return 1
	})
	return float64(below+max(0, len(drawn)-max(below, within))) / float64(len(drawn))
}

// LaySuit puts onto sc what it takes to make one link, counted from 0, to suit the
// others: the sizes that it may have to be made to, suit_least to suit_most, and
// suit_closing, within how much the closing size then is, ±, when the link is made
// to within made_within of what suits.
func LaySuit(sc *sheet.Scope, link int) {
	in := fmt.Sprintf("link_%d.", link+1)
	with := sheet.With{"factor": in + "factor", "middle": in + "middle", "own": in + "worst"}
	sc.Formula(sheet.Q{Key: "suit_others", Label: "worst case of the other links, ±", Unit: fine}, "worst - own", "worst case: Σ |c| t of the others", with)
	const source = "geometry: the link takes up what the others leave"
	sc.Formula(sheet.Q{Key: "suit_least", Label: fmt.Sprintf("make link %d to suit, from", link+1), Unit: fine}, "middle - suit_others / abs(factor)", source, with)
	sc.Formula(sheet.Q{Key: "suit_most", Label: fmt.Sprintf("make link %d to suit, up to", link+1), Unit: fine}, "middle + suit_others / abs(factor)", source, with)
	sc.Formula(sheet.Q{Key: "suit_closing", Label: "closing size is then within ±", Unit: fine}, "abs(factor) * made_within", source, with)
}

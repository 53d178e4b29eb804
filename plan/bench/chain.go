package bench

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"fettle/plan/chain"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// chainMethods are the calculations of plan/chain.
var chainMethods = []Method{toleranceChain}

var toleranceChain = Method{
	Key: "chain", Label: "Tolerance chain", Field: "Tolerance chains",
	Purpose: "What a gap or length comes to that several parts make together: at the worst, by root sum square, and by trials with the parts as they are made; and which part to make to suit.",
	Example: map[string]string{"links": "housing: 52 ±0.03; bush: -14 ±0.02; spacer: -30 ±0.05 large; -8 +0.01 -0.02", "limit_least": "-0.1", "limit_most": "0.1"},
	Inputs: []Input{
		{Key: "links", Label: "links, apart by semicolons: name: size ±tolerance, or +upper -lower; a minus before the size closes the gap; x0.5 is a factor", Word: true},
		{Key: "unit", Label: "sizes are in", Word: true, Default: "mm", Options: readingUnit.Options},
		{Key: "shape", Label: "parts are made, where a link does not say", Word: true, Default: string(chain.Uniform), Options: chainShapes()},
		{Key: "limit_least", Label: "least that the closing size may be", Symbol: "y_l", Unit: tenths, Optional: true},
		{Key: "limit_most", Label: "most that it may be", Symbol: "y_u", Unit: tenths, Optional: true},
		{Key: "suit", Label: "link to make to suit, by name or number; nothing means the one that varies it most", Word: true, Optional: true},
		{Key: "made_within", Label: "it can be made to suit within ±", Symbol: "δ", Unit: tenths, Default: "0.005", Source: "common practice, no source: turned or filed to a fit, a few µm", Positive: true},
	},
	Outputs: append([]string{
		"nominal", "worst", "least", "most", "rss", "rss_inflated", "mean", "std",
		"trial_mean", "trial_std", "trial_low", "trial_high", "trial_out",
		"suit_link", "suit_least", "suit_most", "suit_closing",
	}, linkShares()...),
	Define: func(sc *sheet.Scope, words Words) error {
		links, err := chain.Parse(words["links"], readingUnits[words["unit"]], chain.Shape(words["shape"]))
		if err != nil {
			return at("links", err)
		}
		suit, err := suited(links, words["suit"])
		if err != nil {
			return err
		}
		limits := sc.Has("limit_least") && sc.Has("limit_most")
		switch {
		case sc.Has("limit_least") != sc.Has("limit_most"):
			return refuse("limit_most", "give both the least and the most, or neither")
		case limits && typedValue(sc, "limit_most") < typedValue(sc, "limit_least"):
			return refuse("limit_most", "the most is below the least")
		}
		chain.Lay(sc, links)
		chain.LayTrials(sc, links)
		sc.Measure(sheet.Q{Key: "suit_link", Label: "link to make to suit", Unit: unit.Count, Whole: true},
			sheet.Leaf{Value: float64(suit + 1), Origin: sheet.Chosen, Note: "common practice, no source: the link that varies it most; better still the one that is made last and comes down easily"})
		chain.LaySuit(sc, suit)
		if limits {
			chainLimits(sc)
		}
		rssHolds(sc, links)
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		t := Table{Caption: "Each link", Header: []string{"link", "name", "middle mm", "± mm", "factor", "made", "share of the worst case %", "share of the variance %"}, Source: "JCGM 100:2008, 5.1.2"}
		links, err := chain.Parse(words["links"], readingUnits[words["unit"]], chain.Shape(words["shape"]))
		if err != nil {
			return t
		}
		worst := r.Value("worst", sheet.Planned)
		for i, l := range links {
			key := fmt.Sprintf("link_%d.", i+1)
			t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), l.Name, cell(r, key+"middle", 4), cell(r, key+"half", 4), cell(r, key+"factor", 3), string(l.Shape),
				unit.Percent.Text(r.Value(key+"worst", sheet.Planned)/worst, 1), cell(r, key+"share", 1)})
		}
		return t
	},
}

func chainShapes() (all []Option) {
	for _, s := range chain.Shapes {
		all = append(all, Option{string(s.Shape), s.Label})
	}
	return all
}

func linkShares() (keys []string) {
	for i := range chain.MostLinks {
		keys = append(keys, fmt.Sprintf("link_%d.share", i+1))
	}
	return keys
}

// suited is the link to make to suit, counted from 0.
func suited(links []chain.Link, typed string) (int, error) {
	if typed == "" {
		return chain.Suited(links), nil
	}
	if i := slices.IndexFunc(links, func(l chain.Link) bool { return l.Name == typed }); i >= 0 {
		return i, nil
	}
	n, err := strconv.Atoi(typed)
	if err != nil || n < 1 || n > len(links) {
		return 0, refuse("suit", "give the name of a link, or a number from 1 to %d", len(links))
	}
	return n - 1, nil
}

// chainLimits checks the closing size against its limits, at the worst and by trials.
func chainLimits(sc *sheet.Scope) {
	sc.Check(sheet.Check{Key: "worst_least", Label: "Least at the worst", Figure: "least", Limit: "limit_least", Level: sheet.Rule,
		Sentence: "At the worst the closing size is {figure}, and {limit} is the least that it may be.", Source: "worst case"})
	sc.Check(sheet.Check{Key: "worst_most", Label: "Most at the worst", Figure: "most", Limit: "limit_most", AtMost: true, Level: sheet.Rule,
		Sentence: "At the worst the closing size is {figure}, and {limit} is the most that it may be.", Source: "worst case"})
	share := unit.Percent
	share.Decimals = 2
	bound(sc, sheet.Check{Key: "rejects", Label: "Share outside the limits", Figure: "trial_out", AtMost: true, Level: sheet.Rule,
		Sentence: "{figure} of the trials are outside the limits, and {limit} is the most.", Source: "common practice, no source: one in twenty for parts that can be made again; 0.27 % is three standard deviations"},
		sheet.Q{Unit: share}, 0.0027, 0.05)
}

// rssHolds says when root sum square is not to be relied on.
func rssHolds(sc *sheet.Scope, links []chain.Link) {
	like, largest := 0.0, 0.0
	for _, l := range links {
		largest = max(largest, math.Abs(l.Factor)*l.Half())
	}
	for _, l := range links {
		if math.Abs(l.Factor)*l.Half() >= largest/4 && l.Shape != chain.Large && l.Shape != chain.Small {
			like++
		}
	}
	sc.Measure(sheet.Q{Key: "like_links", Label: "links that vary it alike, made in the middle of their tolerance", Unit: unit.Count, Whole: true, Quiet: true},
		sheet.Leaf{Value: like, Origin: sheet.Chosen, Note: "counted: within a quarter of the largest"})
	enough(sc, sheet.Check{Key: "rss_holds", Label: "Root sum square can be relied on", Figure: "like_links", Level: sheet.Note,
		Sentence: "{figure} links vary the closing size alike and are made in the middle of their tolerance; root sum square wants {limit}.", Source: "root sum square holds " + chain.RSS.Valid}, 4)
}

// Package chain adds up tolerances: what a gap or a length comes to that several
// parts make together, at the worst, by root sum square, and by trials on the
// sheet (JCGM 101); and which part to make to suit the others.
//
//	links, err := chain.Parse("housing: 52 ±0.03; bush: -14 ±0.02; spacer: -30 ±0.05", unit.MM, chain.Uniform)
//	chain.Lay(sc, links)   // nominal, worst, rss, std, trial_std …
//
// A [Link] is a part's size with its tolerance. A size with a minus sign closes
// the gap. Each link has a [Shape]: how sizes fall within the tolerance when the
// part is made. Root sum square is for many like parts, in the middle of their
// tolerance; parts made one by one, to one side of the limit, are what the trials
// are for.
package chain

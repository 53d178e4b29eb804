// Package machine puts a machine together: its axes as measured, the upgrades
// that are finished, and those that are planned, on one sheet.
//
//	p, err := m.Build("")            // as planned, drafts left out
//	p, err := m.Build("3")           // with the draft 3 as if it were planned
//	p.Result.KnockOns(p.Site("3").GoalKeys()...)
//	p.Site("3").Make(p.Result)       // parts, what is bought, operations in order
//	p.Site("3").AsMade(p.Result)     // sizes as made, judged against their limits
//	p.Clashes()                      // what needs the machine while it is in pieces
//
// A size as made ([upgrade.Upgrade].Made) replaces what was planned. Which figure
// that is, follows from the part; so the machine is worked out once without them,
// to find the parts, and again with them.
package machine

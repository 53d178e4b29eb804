// Package machine puts a machine together: its axes as measured, the upgrades
// that are finished, and those that are planned, on one sheet.
//
//	p, err := m.Build("")            // as planned, drafts left out
//	p, err := m.Build("3")           // with the draft 3 as if it were planned
//	p.Result.KnockOns(p.Site("3").Goals...)
package machine

package web

import (
	"time"

	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
	"fettle/store"
)

// upgradeLine is one upgrade on the machine's page.
type upgradeLine struct {
	ID       string        `json:"id"`
	Label    string        `json:"label"`
	Axis     string        `json:"axis"`
	State    upgrade.State `json:"state"`
	Since    string        `json:"since,omitempty"` // "on 2 March 2026"
	Answer   string        `json:"answer,omitempty"`
	Href     string        `json:"href"`
	Up, Down bool          `json:"-"` // it can be moved there
	Revision int64         `json:"-"`
	Today    string        `json:"-"`

	runs []upgrade.Run
}

// offersFor is the first kind of upgrade that makes sense on an axis: the page of upgrades has them all.
func offersFor(l *axis.Layout) []offer {
	for _, kind := range upgrade.Kinds {
		if about := kind.About(); kind.Suits(l) {
			return []offer{{Kind: about.Key, Text: "Plan: " + lowered(about.Label), Purpose: about.Purpose}}
		}
	}
	return nil
}

// upgradeLines lists the upgrades in their order. A draft is told as if it were planned.
func (s *Server) upgradeLines(m store.Stored, p *machine.Plan) []upgradeLine {
	lines := make([]upgradeLine, len(m.Upgrades))
	for i, u := range m.Upgrades {
		line := upgradeLine{ID: u.ID, Label: u.Kind, Axis: u.Axis, State: u.State, Href: planPath(m.ID, u.ID),
			Revision: m.UpgradeRevisions[u.ID], Today: s.now().Format(time.DateOnly)}
		movable := func(j int) bool {
			return u.State != upgrade.Finished && j >= 0 && j < len(m.Upgrades) && m.Upgrades[j].State != upgrade.Finished
		}
		whole := false // of the whole machine
		line.Up, line.Down = movable(i-1), movable(i+1)
		if kind, ok := upgrade.KindNamed(u.Kind); ok {
			line.Label, whole = kind.About().Label, kind.About().Whole
		}
		if l := p.Layout(u.Axis); whole {
			line.Axis = "the whole machine"
		} else if l != nil {
			line.Axis = l.Label
		}
		line.Since = since(u)
		line.runs = told(m, p, u)
		line.Answer = upgrade.Text(line.runs)
		lines[i] = line
	}
	return lines
}

// since is the day on which an upgrade was fitted, in words: "on 2 March 2026"; "" where it is not said.
func since(u upgrade.Upgrade) string {
	day, err := time.Parse(time.DateOnly, u.On)
	if err != nil {
		return ""
	}
	return "on " + day.Format("2 January 2006")
}

// told says what comes of an upgrade, or came of one that is fitted.
func told(m store.Stored, p *machine.Plan, u upgrade.Upgrade) []upgrade.Run {
	if u.State != upgrade.Planned {
		with, err := worked(m, u.ID)
		if err != nil {
			return nil // as without it, which the page has said
		}
		p = with
	}
	if site := p.Site(u.ID); site != nil {
		return site.Kind.Answer(site, p.Result)
	}
	return nil
}

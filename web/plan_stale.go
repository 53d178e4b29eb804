package web

import "fettle/plan/upgrade"

// planStale is what somebody else saved since this page was opened.
type planStale struct {
	Revision int64            `json:"revision"` // of theirs
	Theirs   []planDifference `json:"theirs"`
	State    upgrade.State    `json:"state"`
}

// planDifference is a field on which the two do not agree.
type planDifference struct {
	Label  string `json:"label"`
	Mine   string `json:"mine"`
	Theirs string `json:"theirs"`
}

// changedMeanwhile sets what is stored beside what was typed, of which nothing was saved.
func (v *planView) changedMeanwhile(theirs upgrade.Upgrade, revision int64, mine upgrade.Upgrade) {
	v.Saved = "not saved"
	v.Stale = &planStale{Revision: revision, State: theirs.State}
	names := map[string]bool{}
	for name := range theirs.Inputs {
		names[name] = true
	}
	for name := range mine.Inputs {
		names[name] = true
	}
	said := func(u upgrade.Upgrade, name string) string {
		if text := v.option(name, u.Inputs[name]); text != "" {
			return text
		}
		return "blank"
	}
	for _, name := range v.order(names) {
		if theirs.Inputs[name] != mine.Inputs[name] {
			v.Stale.Theirs = append(v.Stale.Theirs, planDifference{Label: v.label(name), Mine: said(mine, name), Theirs: said(theirs, name)})
		}
	}
}

package upgrade

import (
	"maps"
	"slices"

	"fettle/plan"
	"fettle/plan/sheet"
)

// Retype takes u in place of the upgrade that was laid out here, where nothing
// but the amount was typed anew: then there is nothing to lay out, and r is only
// worked out again. It reports false, and changes nothing, where more is another,
// or where the amount before or now is none that can be taken.
func (s *Site) Retype(r *sheet.Result, u Upgrade) bool {
	at := slices.IndexFunc(s.Fields, func(f Field) bool { return s.Amount != "" && s.Scope.Key(f.Name) == s.Amount })
	if at < 0 || len(s.Problems) > 0 || s.input(s.Fields[at].Name, "") == "" {
		return false
	}
	f := &s.Fields[at]
	typed := u.Inputs[f.Name]
	as := maps.Clone(s.Inputs)
	as[f.Name] = typed
	if u.ID != s.ID || u.Kind != s.Upgrade.Kind || u.Axis != s.Axis || u.State != s.State || len(u.Made)+len(s.Made) > 0 || !maps.Equal(as, u.Inputs) {
		return false
	}
	leaf, err := plan.Entry{Typed: typed, Origin: sheet.Chosen}.Leaf(f.Unit)
	if err != nil || !(leaf.Value >= f.Least && leaf.Value <= f.Most) || leaf.Origin == sheet.Unknown || !r.Try(s.Amount, leaf.Value) {
		return false
	}
	f.Value = typed
	s.Upgrade = u
	return true
}

package machine

import "fettle/plan/upgrade"

// Retype takes u in place of the upgrade with its ID, as if the machine had been
// built with it, where nothing but its amount was typed anew; see
// [upgrade.Site.Retype]. It reports false, and changes nothing, where the machine
// has to be built again.
func (p *Plan) Retype(u upgrade.Upgrade) bool {
	for _, s := range p.Sites {
		if len(s.Made) > 0 { // what was made of a part may depend on the amount
			return false
		}
	}
	s := p.Site(u.ID)
	return s != nil && s.Retype(p.Result, u)
}

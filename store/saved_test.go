package store_test

import (
	"strings"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/buildlog"
	"fettle/plan/machine"
	"fettle/plan/order"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
	"fettle/store"
)

// saved1 is the machine in testdata/version-1.sql: something in every column.
func saved1() machine.Machine {
	return machine.Machine{
		Name: "Bench lathe", Kind: "lathe", Units: "in", Note: "Großvater's, \"as found\"\nin the cellar",
		Axes: []axis.Axis{{
			Key: "cross", Label: "Cross slide", Arrangement: "nut_travels", Capacity: "facing",
			Datum: "back of the saddle", Plus: "outward", Minus: "inward",
			Entries: map[string]plan.Entry{
				"travel_found": {Typed: `3-7/16"`, Spread: "5 thou", With: "caliper", On: "2026-02-28", Note: "twice"},
			},
			Answers: map[string]string{"who_carries_the_screw": "yes"},
			Parts: []axis.Part{
				{Key: "bracket", Label: "Bracket", Role: "bracket", Side: axis.Fixed, Material: "aluminium",
					Entries: map[string]plan.Entry{"from": {Typed: "141 mm"}, "to": {Typed: "167 mm", Origin: sheet.AsMade}}},
				{Key: "dial", Label: "Dial", Role: "dial", Side: axis.Fixed, Tie: &axis.Tie{Part: "bracket", Face: "to"},
					Lanes: []string{"screw"}, Entries: map[string]plan.Entry{"gap": {Typed: "0.5"}}},
				{Key: "nut", Label: "Nut", Role: "nut", Side: axis.Moving, Lanes: []string{}, Entries: map[string]plan.Entry{}},
			},
			Obstacles: []axis.Obstacle{
				{Key: "tray", Label: "Splash tray", End: axis.Plus, Gap: plan.Entry{Typed: "20", Origin: sheet.Assumed, Note: "a guess"}},
				{Key: "web", Label: "Rear web", End: axis.Minus, Clear: true},
			},
		}},
		Upgrades: []upgrade.Upgrade{
			{ID: "2", Kind: "extend_travel", Axis: "cross", State: upgrade.Finished, On: "2026-02-27",
				Inputs: map[string]string{"amount": `1/2"`, "end": "plus"}},
			{ID: "1", Kind: "extend_travel", Axis: "cross", State: upgrade.Draft, Inputs: map[string]string{"amount": "12,"}},
		},
	}
}

// saved2 is the machine in testdata/version-2.sql: sizes as made beside the rest.
func saved2() machine.Machine {
	m := saved1()
	m.Upgrades[0].Made = map[string]plan.Entry{
		"bracket.length":   {Typed: "38.58", Spread: "0.02", With: "caliper", On: "2026-02-27", Note: "cold"},
		"extension.length": {Typed: "0.97 in", Origin: sheet.AsMade},
	}
	return m
}

// shopping3 is what was noted of it in testdata/version-3.sql.
func shopping3() store.Shopping {
	return store.Shopping{Currency: "eur", Marks: []store.Mark{
		{Key: "bearing", Called: "support bearing", State: order.Ordered, Quantity: "2", Price: "6,50", Note: "one to spare"},
	}, Offcuts: []store.Offcut{{Label: "end of the last job", Material: "c45", Form: "round", Across: `7/8"`, Second: "", Length: "260"}}}
}

// log4 is its log in testdata/version-4.sql.
func log4() []buildlog.Entry {
	return []buildlog.Entry{
		{Key: "first", At: "2026-02-27T18:30", Text: "Bored the *bracket*.", Hours: "1:30", Cost: "6,50", Currency: "eur",
			Axis: "cross", Upgrade: "2", Part: "bracket", Photos: []buildlog.Photo{
				{SHA256: strings.Repeat("ab", 32), Caption: "before", Role: buildlog.Before, Type: "image/jpeg", Width: 4000, Height: 3000,
					Taken: "2026-02-27T17:00:05", Place: "51.477900,-0.001500"},
				{SHA256: strings.Repeat("cd", 32), Type: "image/heic", Width: 3024, Height: 4032},
			}},
		{Key: "second", At: "2026-02-28T09:00"},
	}
}

package bench

import (
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

var feedScrews = []Method{
	{
		Key: "side_force", Label: "Side force of a nut off the screw's line", Field: "Feed screws",
		Purpose: "What a nut that is not in line with the bracket presses on the screw with, and why a screw binds at one end.",
		Inputs: []Input{
			{Key: "root", Label: "root diameter of the screw", Symbol: "d_3", Unit: unit.MM, Positive: true},
			{Key: "distance", Label: "bracket to the middle of the nut", Symbol: "a", Unit: unit.MM, Positive: true},
			{Key: "misalignment", Label: "nut off the line by", Symbol: "e", Unit: unit.MM, Default: "0.1", Source: "assumed: as found on many small machines; common practice, no source"},
			{Key: "modulus", Label: "modulus of the screw", Symbol: "E", Unit: unit.GPa, Default: "206", Source: screw.SteelModulusSource, Positive: true},
		},
		Outputs: []string{"side_force", "second_moment"},
		Define: func(sc *sheet.Scope, _ Words) error {
			sc.Method(sheet.Q{Key: "second_moment", Label: "second moment of the root", Symbol: "I", Unit: unit.MM4}, screw.SecondMoment)
			sc.Method(sheet.Q{Key: "side_force", Label: "side force", Symbol: "F", Unit: unit.Newton}, screw.SideForce)
			return nil
		},
	},
}

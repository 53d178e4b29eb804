package slide

import "fettle/plan/sheet"

const (
	beam    = "elementary beam theory"
	contact = "flat joints of machine tools, λ = C √p with p in kgf/cm² (published measurements of scraped and ground iron, read in a handbook of machine tool joints)"
)

// A slide that stands out beyond its ways, loaded at the tool: overhang is what
// stands out, arm what the tool stands beyond that, stiff; supported is what lies
// on the ways.
var (
	// BlockSecondMoment of a rectangular section.
	BlockSecondMoment = sheet.Method{Text: "width * pow(height, 3) / 12", Source: "geometry: I = b h³/12"}

	// OverhangBend is how far bending moves the tool.
	OverhangBend = sheet.Method{
		Text:   "force * (pow(overhang + arm, 3) - pow(arm, 3)) / (3 * modulus * second_moment)",
		Source: beam + ": a bar held at its root with a stiff arm at its end, F ((L + a)³ − a³) / 3 E I; F L³ / 3 E I without the arm",
	}

	// OverhangSlope is how far the slide's end turns.
	OverhangSlope = sheet.Method{
		Text:   "force * overhang * (overhang + 2 * arm) / (2 * modulus * second_moment)",
		Source: beam + ": F L (L + 2 a) / 2 E I; F L² / 2 E I without the arm",
	}

	// ContactGive is how much two faces give for a little more pressure, where
	// press is what they are pressed together with already, and give_ref what
	// they have given at 1 kgf/cm².
	ContactGive = sheet.Method{Text: "0.5 * give_ref / sqrt(press * mpa(0.0980665))", Source: contact + ", its slope at the present pressure"}

	// WaysSink is how far the ways let the tool move: the slide sinks into them
	// and turns on them.
	WaysSink = sheet.Method{
		Text:   "give * force / (ways_width * supported) * (1 + 12 * pow((overhang + arm + supported / 2) / supported, 2))",
		Source: "statics of a stiff slide on an elastic bed: k F / b L (1 + 12 (r / L)²), r from the middle of the bed to the tool",
		Valid:  "while no edge lifts",
	}

	// ToolMoves is both together, and Stiffness the force that it takes.
	ToolMoves = sheet.Method{Text: "bend + sink", Source: "springs in series"}
	Stiffness = sheet.Method{Text: "force / moves", Source: "definition"}

	// StiffnessShare is what is left of the stiffness when the tool moves more.
	StiffnessShare = sheet.Method{Text: "moves_before / moves", Source: "definition: the same force, before and after"}
)

// A wall that is cut thinner, as a plate of the width, held at its root, that is
// loaded at the reach.
var (
	// StrengthLeft and StiffnessLeft are shares of what they were.
	StrengthLeft  = sheet.Method{Text: "pow(after / before, 2)", Source: beam + ": the section modulus of a rectangle goes with h²"}
	StiffnessLeft = sheet.Method{Text: "pow(after / before, 3)", Source: beam + ": the second moment of a rectangle goes with h³"}

	// WallStress and WallBend are what the force makes of the wall that is left.
	WallStress = sheet.Method{Text: "6 * force * reach / (width * pow(after, 2))", Source: beam + ": 6 F L / b h²"}
	WallBend   = sheet.Method{Text: "4 * force * pow(reach, 3) / (modulus * width * pow(after, 3))", Source: beam + ": F L³ / 3 E I with I = b h³/12"}

	// IronAllowable is what grey iron is to bear in bending: it breaks without
	// yielding, and chill, notches and fatigue are in the fifth.
	IronAllowable = sheet.Method{Text: "0.2 * strength", Source: "common practice, no source: a fifth of the tensile strength in the wall (EN 1561)"}
)

// Figures that slides and walls assume.
const (
	ContactRef       = 0.00115 // mm
	ContactRefSource = "flat joints of machine tools: 1.0 to 1.3 µm at 1 kgf/cm² for 15 to 18 scraped spots to the square inch; 0.4 to 0.65 for 20 to 25, 1.7 to 2.6 for 5 to 12, 0.8 to 0.9 ground"
	StiffLeast       = 0.5
	StiffGood        = 0.7
	StiffSource      = "common practice, no source: 70 % of the stiffness before the change, 50 % at the least"
)

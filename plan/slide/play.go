package slide

import "fettle/plan/sheet"

// A quill or slide with play in its guide.
var (
	// PlaySwing is how far, from one side to the other, the end swings that
	// stands out by overhang from a guide of the length guide.
	PlaySwing = sheet.Method{Text: "play * (1 + 2 * overhang / guide)", Source: "geometry: across the play at the mouth, and its slope c / G both ways beyond it"}

	// PlaySlope is how far it turns to either side.
	PlaySlope = sheet.Method{Text: "play / guide", Source: "geometry: from corner to corner of the guide"}
)

// A column of which the load stands at the height before above its foot, and a
// block of the height riser under it: one joint becomes two.
var (
	// RaisedHeight is the height after.
	RaisedHeight = sheet.Method{Text: "before + riser", Source: "geometry"}

	// BendRatio, SlopeRatio and FrequencyRatio compare a column after with before.
	BendRatio      = sheet.Method{Text: "pow(after / before, 3)", Source: beam + ": a column loaded at its top bends with L³"}
	SlopeRatio     = sheet.Method{Text: "pow(after / before, 2)", Source: beam + ": its top turns with L²"}
	FrequencyRatio = sheet.Method{Text: "pow(before / after, 3 / 2)", Source: beam + ": a weight on its top swings with L^−1.5"}

	// JointGive is how far a joint turns for a moment across it, from the give
	// of its faces, which are so wide and, along the bending, so long.
	JointGive = sheet.Method{Text: "12 * give / (face_width * pow(face_length, 3))", Source: "statics of a stiff face on an elastic one: M / k I with I = b l³/12"}

	// OneJoint and TwoJoints are how far the load moves by the give of one joint
	// at the foot, and of two, a riser apart.
	OneJoint  = sheet.Method{Text: "force * joint_give * pow(before, 2)", Source: "statics: F h² c"}
	TwoJoints = sheet.Method{Text: "force * joint_give * (pow(after, 2) + pow(after - riser, 2))", Source: "statics: F c (h² + (h − R)²)"}
)

// The limits of a riser.
const (
	BendRatioMost   = 3.5
	BendRatioGood   = 2.0
	BendRatioSource = "common practice, no source: twice the bending wants lighter cuts, 3.5 times is the most"
)

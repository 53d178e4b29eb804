package reading

import "fettle/plan/sheet"

const welch = "Welch's test: two series that need not scatter alike"

// Formulas of before against after: of each series its mean, its scatter and how
// many readings there are.
var (
	// Difference is after less before. What is wrong with the instrument in both
	// series alike is not in it.
	Difference = sheet.Method{Text: "after_mean - before_mean", Source: "a constant error of the instrument cancels"}

	// DifferenceStd is its standard uncertainty.
	DifferenceStd = sheet.Method{Text: "sqrt(pow(before_scatter, 2) / before_number + pow(after_scatter, 2) / after_number)", Source: welch}

	// DifferenceDegrees is its degrees of freedom.
	DifferenceDegrees = sheet.Method{
		Text:   "pow(difference_std, 4) / (pow(before_scatter, 4) / (pow(before_number, 2) * (before_number - 1)) + pow(after_scatter, 4) / (pow(after_number, 2) * (after_number - 1)))",
		Source: "Welch–Satterthwaite, JCGM 100:2008, G.4.1",
	}

	// DifferenceTimes is how many times its uncertainty the difference is.
	DifferenceTimes = sheet.Method{Text: "abs(difference) / difference_std", Source: welch + ": t"}

	// DifferenceChance is the chance that chance alone gives so much.
	DifferenceChance = sheet.Method{Text: "chance(times, degrees)", Source: annexG + ", both tails"}
)

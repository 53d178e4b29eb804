package preset

// Kinds are the kinds of machine that can be started from. What the classes mean
// is common practice, no source.
var Kinds = []Kind{
	{Key: "lathe", Label: "Lathe", Machine: "lathe",
		Means: []string{"about 90 to 105 mm centre height, 300 to 400 mm between centres; one person lifts it", "about 110 to 135 mm centre height, 500 to 700 mm between centres; a bench lathe for two to lift", "about 150 to 180 mm centre height, 750 to 1000 mm between centres; it stands on a cabinet"},
		Axes:  []string{"carriage", "cross_slide", "top_slide", "tailstock", "set_over"}, More: []string{"vertical_slide", "tailstock_lever"}},
	{Key: "mill", Label: "Mill with its head on a column", Machine: "mill", Says: "the head goes up and down the column",
		Means: []string{"a table of about 400 × 130 mm, 270 mm of travel along it", "a table of about 600 × 180 mm, 420 mm of travel along it", "a table of about 850 × 240 mm, 600 mm of travel along it"},
		Axes:  []string{"mill_x", "mill_y", "mill_z"}, More: []string{"mill_quill", "column"}},
	{Key: "knee_mill", Label: "Mill with a knee", Machine: "mill", Says: "the table goes up and down on a knee",
		Means: []string{"a table of about 400 × 130 mm; the knee travels 200 mm", "a table of about 600 × 180 mm; the knee travels 280 mm", "a table of about 850 × 240 mm; the knee travels 350 mm"},
		Axes:  []string{"mill_x", "mill_y", "knee", "mill_quill"}, More: []string{"column"}},
	{Key: "column_drill_mill", Label: "Mill drill on a round column", Machine: "mill", Says: "the head is clamped on a round column and loses its place when it is unclamped",
		Means: []string{"a table of about 400 × 130 mm; a column of about 70 mm", "a table of about 600 × 180 mm; a column of about 100 mm", "a table of about 850 × 240 mm; a column of about 120 mm"},
		Axes:  []string{"mill_x", "mill_y", "column_head", "mill_quill"}},
	{Key: "drill", Label: "Drill press", Machine: "drill",
		Means: []string{"stands on the bench and drills to about 13 mm; its quill travels 50 mm", "stands on the bench and drills to about 16 mm; its quill travels 75 mm", "stands on the floor and drills to about 25 mm; its quill travels 110 mm"},
		Axes:  []string{"drill_quill", "drill_table"}, More: []string{"drill_lever"}},
	{Key: "shaper", Label: "Shaper", Machine: "shaper",
		Means: []string{"a stroke of about 150 mm; it stands on the bench", "a stroke of about 250 mm", "a stroke of about 350 mm"},
		Axes:  []string{"shaper_ram", "shaper_cross", "shaper_table", "tool_slide"}},
	{Key: "grinder", Label: "Small surface grinder", Machine: "other",
		Means: []string{"a table of about 360 × 100 mm", "a table of about 560 × 150 mm", "a table of about 710 × 200 mm"},
		Axes:  []string{"grinder_table", "grinder_cross", "grinder_head"}},
}

// axes are the presets of axes. The ranges are common practice, no source; the
// figures are ours.
var axes = append(append(append([]spec{}, latheAxes...), millAxes...), otherAxes...)

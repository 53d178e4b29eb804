package preset

// endParts stand on the screw's end, outside its bracket: bored as the end is thick,
// held by a nut on its thread, and so many lines on the dial that each is a round figure.
func endParts(bore, thread, lines, dial, dialDia, handle, nut string) []piece {
	return []piece{
		{label: "dial", role: "dial", material: "aluminium", on: "bracket", from: "0.5", to: dial, sizes: sizes{"dia": dialDia, "bore": bore, "divisions": lines, "room": "24 30 36"}},
		{label: "handle", role: "handle", material: "steel", on: "dial", from: "0", to: handle, sizes: sizes{"bore": bore, "rim": "36 45 60", "room": "48 60 80"}},
		{label: "lock nut", role: "lock_nut", material: "steel", on: "handle", from: "0", to: nut, sizes: sizes{"thread_dia": thread, "pitch": "1 1 1.5"}},
	}
}

// bolted is how a bracket is held, and its own sizes.
func bolted(dia, bore string) sizes {
	return sizes{"dia": dia, "bore": bore, "flange": "8 10 12", "bolts": "2 2 4", "bolt_dia": "5 6 8", "bolt_length": "20 25 30", "bolt_offset": "20 26 34", "tapped_depth": "14 18 22"}
}

// gib is what a gib strip is made by.
func gib(screws string, more ...string) sizes {
	s := sizes{"gib_gap": "3.5 4.5 6", "gib_gap_other": "3.5 4.5 6", "gib_angle": "60 60 55", "gib_depth": "8 10 14", "gib_play": "0.06 0.08 0.10", "gib_screws": screws}
	for i := 0; i+1 < len(more); i += 2 {
		s[more[i]] = more[i+1]
	}
	return s
}

var latheAxes = []spec{
	{
		key: "carriage", label: "Carriage", says: "along the bed, by handwheel and rack, and by the lead screw", arrangement: "half_nuts",
		datum: "the bed's end at the headstock", plus: "right, towards the tailstock", minus: "left, towards the headstock",
		own: sizes{"travel_found": "300 490 800", "gear_ratio": "2 3 4"},
		parts: []piece{
			{label: "bed", role: "ways", material: "cast_iron", from: "0", to: "450 700 1100"},
			{label: "headstock guard", role: "other", material: "steel", from: "-40 -50 -60", to: "40 50 60"},
			{label: "lead screw bracket", role: "other", material: "cast_iron", from: "450 700 1100", to: "475 735 1140"},
			{label: "rack", role: "rack", material: "steel", from: "20", to: "400 660 1040"},
			{label: "lead screw", role: "thread", material: "steel", from: "30 40 50", to: "440 690 1090", sizes: sizes{"dia": "16 22 28", "pitch": "2 4 6", "form": "metric trapezoidal trapezoidal"}},
			{label: "carriage", role: "slide", material: "cast_iron", from: "40 50 60", to: "150 210 300"},
			{label: "pinion", role: "pinion", material: "steel", from: "85 120 170", to: "97 136 190", sizes: sizes{"module": "1 1.25 1.5", "teeth": "14 16 18"}},
			{label: "half nuts", role: "nut", material: "bronze", from: "80 100 150", to: "115 150 220"},
		},
		near: sizes{"far_stop": "60 80 120", "near_stop": "10"}, calls: map[string]string{"far_stop": "tailstock's base", "near_stop": "chuck or its guard"},
	},
	{
		key: "cross_slide", label: "Cross slide", says: "square to the bed; the handle stays where it is", arrangement: "held_screw", capacity: "lathe_cross_slide",
		datum: "the saddle's rear face", plus: "outward, towards the operator", minus: "inward, away from the operator",
		own: sizes{"travel_found": "70 110 170", "end_float": "0.10 0.12 0.15", "lost_motion": "0.18 0.20 0.25", "lost_motion_minus": "0.14 0.16 0.20", "lost_motion_plus": "0.13 0.15 0.18", "tip_past_axis": "2 3 4", "swing_bed": "200 250 330", "swing_slide": "110 150 195"},
		parts: append([]piece{
			{label: "saddle ways", role: "ways", material: "cast_iron", from: "0", to: "120 172 248"},
			{label: "rear wall", role: "wall", material: "cast_iron", from: "0", to: "6 6 8"},
			{label: "front wall", role: "wall", material: "cast_iron", from: "96 148 223", to: "120 172 248", sizes: sizes{"keep": "6 8 10"}},
			{label: "slide", role: "slide", material: "cast_iron", from: "-40 -57 -76", to: "80 117 154", sizes: gib("-30;-5;20;45;70 -45;-10;25;60;100 -60;-20;20;60;100;140", "underside", "12 20 26", "width", "80 110 150")},
			{label: "nut", role: "nut", material: "bronze", from: "6 6 8", to: "26 38 53"},
			{label: "bracket", role: "bracket", material: "cast_iron", from: "120 172 248", to: "150 212 304", sizes: bolted("26 32 40", "8 10 13")},
			{label: "screw thread", role: "thread", material: "steel", from: "6 6 8", to: "119 171 246", sizes: sizes{"dia": "10 12 16", "pitch": "1.5 2 4", "hand": "left", "form": "metric metric trapezoidal"}},
			{label: "screw shank", role: "shank", material: "steel", from: "119 171 246", to: "183 253 352", sizes: sizes{"dia": "8 10 13", "end_thread": "8 10 12"}},
		}, endParts("8 10 13", "8 10 12", "60 80 80", "14 16 20", "28 34 42", "12 16 18", "5 6 7")...),
		near: sizes{"splash_tray": "25 30 40", "rear_obstacle": "20 30 40"},
	},
	compound("top_slide", "Top slide", "on the cross slide, swivels; the handle goes with it", "toolpost", "the swivel base's front end",
		"back, towards the handle", "forward, towards the work", "gib's end plate"),
	{
		key: "tailstock", label: "Tailstock barrel", says: "in and out by a handwheel", arrangement: "barrel_screw", capacity: "depth",
		datum: "the body's front face", plus: "out, towards the headstock", minus: "in",
		own: sizes{"travel_found": "50 75 110", "tang_depth": "58 70 88", "end_float": "0.10 0.15 0.15", "lost_motion": "0.18 0.20 0.25", "lost_motion_minus": "0.14 0.16 0.20", "lost_motion_plus": "0.13 0.15 0.18"},
		parts: []piece{
			{label: "body", role: "guide", material: "cast_iron", from: "-95 -130 -180", to: "0", sizes: sizes{"bore": "24.03 30.03 42.04"}},
			{label: "rear plate", role: "bracket", material: "cast_iron", from: "-138 -182 -248", to: "-126 -168 -230", sizes: sizes{"dia": "44 56 76", "bore": "8 10 13"}},
			{label: "thrust collar", role: "collar", material: "steel", from: "-126 -168 -230", to: "-118 -158 -218"},
			{label: "screw", role: "thread", material: "steel", from: "-118 -158 -218", to: "-46 -54 -70", sizes: sizes{"dia": "10 14 20", "pitch": "1.5 3 4", "hand": "left", "form": "metric trapezoidal trapezoidal"}},
			{label: "key", role: "key", material: "steel", from: "-18 -22 -28", to: "-12 -14 -18"},
			{label: "barrel", role: "quill", material: "steel", from: "-118 -158 -218", to: "2", sizes: sizes{"dia": "24 30 42"}},
			{label: "nut", role: "nut", material: "bronze", from: "-118 -158 -218", to: "-100 -134 -186"},
			{label: "keyway", role: "keyway", material: "steel", from: "-68 -97 -138", to: "-9 -11 -15"},
			{label: "dial", role: "dial", material: "aluminium", from: "-152.5 -198.5 -268.5", to: "-138.5 -182.5 -248.5", sizes: sizes{"dia": "26 34 44", "bore": "8 10 13", "divisions": "60 60 80"}},
			{label: "handwheel", role: "handle", material: "cast_iron", from: "-166.5 -214.5 -288.5", to: "-152.5 -198.5 -268.5", sizes: sizes{"bore": "8 10 13", "rim": "40 55 70"}},
		},
		near: sizes{"work_side": "40 60 80"},
	},
	{
		key: "tailstock_lever", label: "Tailstock barrel by lever", says: "in and out by a lever, for drilling", arrangement: "lever", capacity: "depth",
		datum: "the body's front face", plus: "out, towards the headstock", minus: "in",
		own: sizes{"travel_found": "50 75 110", "lever_short": "50 75 110", "lever_long": "180 240 320", "lever_swing": "60"},
		parts: []piece{
			{label: "body", role: "guide", material: "cast_iron", from: "-95 -130 -180", to: "0"},
			{label: "barrel", role: "quill", material: "steel", from: "-118 -158 -218", to: "2", sizes: sizes{"dia": "24 30 42"}},
			{label: "key", role: "key", material: "steel", from: "-18 -22 -28", to: "-12 -14 -18"},
			{label: "keyway", role: "keyway", material: "steel", from: "-68 -97 -138", to: "-9 -11 -15"},
		},
		near: sizes{"far_stop": "40 60 80", "near_stop": "5"},
	},
	{
		key: "set_over", label: "Tailstock across", says: "sets the tailstock over, for tapers and to bring it in line", arrangement: "opposed_screws",
		datum: "the base's rear edge", plus: "towards the operator", minus: "away from the operator",
		own: sizes{"travel_found": "10 16 24"},
		parts: []piece{
			{label: "base", role: "ways", material: "cast_iron", from: "0", to: "70 95 130"},
			{label: "tongue", role: "key", material: "cast_iron", from: "25 35 50", to: "35 47 66"},
			{label: "set-over screw", role: "thread", material: "steel", from: "72 97 132", to: "92 122 162", sizes: sizes{"dia": "6 8 10", "pitch": "1 1.25 1.5"}},
			{label: "top", role: "slide", material: "cast_iron", from: "0", to: "60 79 106"},
			{label: "slot", role: "keyway", material: "cast_iron", from: "15 19 26", to: "35 47 66"},
		},
		near: sizes{"far_stop": "10", "near_stop": "10"},
	},
	{
		key: "vertical_slide", label: "Vertical slide", says: "a milling slide that stands on the cross slide", arrangement: "held_screw",
		datum: "its plate's lower end", plus: "up, towards the handle", minus: "down",
		own: sizes{"travel_found": "70 110 130", "moving_mass": "2 3.5 6"},
		parts: append([]piece{
			{label: "plate ways", role: "ways", material: "cast_iron", from: "0", to: "120 172 195"},
			{label: "lower wall", role: "wall", material: "cast_iron", from: "0", to: "6 6 8"},
			{label: "upper wall", role: "wall", material: "cast_iron", from: "96 148 173", to: "120 172 195"},
			{label: "slide", role: "slide", material: "cast_iron", from: "-40 -57 -55", to: "80 117 125", sizes: gib("-30;-5;20;45;70 -45;-10;25;60;100 -45;-10;25;60;95", "underside", "12 20 26")},
			{label: "nut", role: "nut", material: "bronze", from: "6 6 8", to: "26 38 43"},
			{label: "bracket", role: "bracket", material: "cast_iron", from: "120 172 195", to: "150 212 240", sizes: bolted("26 32 36", "8 10 11")},
			{label: "screw thread", role: "thread", material: "steel", from: "6 6 8", to: "119 171 193", sizes: sizes{"dia": "10 12 14", "pitch": "1.5 2 2", "hand": "left"}},
			{label: "screw shank", role: "shank", material: "steel", from: "119 171 193", to: "183 253 281", sizes: sizes{"dia": "8 10 11", "end_thread": "8 10 10"}},
		}, endParts("8 10 11", "8 10 10", "60 80 80", "14 16 16", "28 34 34", "12 16 16", "5 6 6")...),
		near: sizes{"splash_tray": "30", "rear_obstacle": "20"}, calls: map[string]string{"splash_tray": "what is above the handle", "rear_obstacle": "cross slide or vice below"},
	},
}

// compound is a slide that swivels and carries its own screw, on a lathe or a shaper.
func compound(key, label, says, capacity, datum, plus, minus, stop string) spec {
	own := sizes{"travel_found": "40 65 90", "end_float": "0.10 0.12 0.15", "lost_motion": "0.18 0.20 0.25", "lost_motion_minus": "0.14 0.16 0.20", "lost_motion_plus": "0.13 0.15 0.18"}
	if capacity == "toolpost" {
		for k, v := range (sizes{"centre_above_slide": "16 23 35", "centre_above_cross": "55 75 97", "holder_lowest": "10 14 22", "holder_highest": "18 26 38"}) {
			own[k] = v
		}
	}
	return spec{
		key: key, label: label, says: says, arrangement: "travelling_screw", capacity: capacity, datum: datum, plus: plus, minus: minus, own: own,
		parts: append([]piece{
			{label: "base ways", role: "ways", material: "cast_iron", from: "0", to: "95 140 200"},
			{label: "front web", role: "web", material: "cast_iron", from: "0", to: "6"},
			{label: "rear wall", role: "base", material: "cast_iron", from: "83 126 184", to: "95 140 200"},
			{label: "nut", role: "nut", material: "bronze", from: "55 80 110", to: "70 105 145"},
			{label: "slide", role: "slide", material: "cast_iron", from: "-25 -55 -70", to: "95 140 200", sizes: gib("-5;25;55;85 -35;5;45;85;125 -50;0;50;100;150", "underside", "10 13 17", "width", "60 80 110")},
			{label: "bracket", role: "bracket", material: "cast_iron", from: "95 140 200", to: "113 162 228", sizes: bolted("24 30 38", "7 10 12")},
			{label: "screw thread", role: "thread", material: "steel", from: "10 10 12", to: "93 138 198", sizes: sizes{"dia": "8 12 16", "pitch": "1.25 2 4", "hand": "left", "form": "metric metric trapezoidal"}},
			{label: "screw shank", role: "shank", material: "steel", from: "93 138 198", to: "144 198.5 275", sizes: sizes{"dia": "7 10 12", "end_thread": "8 10 12"}},
		}, endParts("7 10 12", "6 10 12", "50 80 80", "12 14 18", "26 32 40", "12 14 18", "5 6 8")...),
		near: sizes{"front_obstacle": "0", "column_cover": "15"}, calls: map[string]string{"front_obstacle": stop, "column_cover": "chuck or work"},
	}
}

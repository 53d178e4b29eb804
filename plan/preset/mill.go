package preset

// saddle is a slide on a base whose screw is held at its front.
func saddle(behind piece) []piece {
	return append([]piece{
		{label: "base ways", role: "ways", material: "cast_iron", from: "0", to: "240 310 420"},
		behind,
		{label: "front wall", role: "wall", material: "cast_iron", from: "210 270 365", to: "240 310 420", sizes: sizes{"keep": "6 8 10"}},
		{label: "saddle", role: "slide", material: "cast_iron", from: "10", to: "140 170 220", sizes: gib("25;60;95;125 25;65;105;150 30;80;130;170;205")},
		{label: "nut", role: "nut", material: "bronze", from: "60 70 90", to: "90 110 145"},
		{label: "bracket", role: "bracket", material: "cast_iron", from: "240 310 420", to: "265 340 455", sizes: bolted("34 42 52", "11 14 16")},
		{label: "screw thread", role: "thread", material: "steel", from: "20 25 30", to: "238 308 418", sizes: sizes{"dia": "14 18 22", "pitch": "2 2.5 5", "form": "metric metric trapezoidal"}},
		{label: "screw shank", role: "shank", material: "steel", from: "238 308 418", to: "302 384 505", sizes: sizes{"dia": "11 14 16", "end_thread": "10 13 13"}},
	}, endParts("11 14 16", "10 12 16", "80 100 100", "14 16 20", "34 42 52", "14 16 18", "6 8 8")...)
}

var millAxes = []spec{
	{
		key: "mill_x", label: "Table along (X)", says: "the long way of the table; the handle goes with it", arrangement: "travelling_screw",
		datum: "the saddle's left face", plus: "right", minus: "left",
		own: sizes{"travel_found": "270 420 600", "end_float": "0.10 0.12 0.15", "lost_motion": "0.18 0.20 0.25", "lost_motion_minus": "0.14 0.16 0.20", "lost_motion_plus": "0.13 0.15 0.18", "moving_mass": "12 30 70"},
		parts: append([]piece{
			{label: "saddle ways", role: "ways", material: "cast_iron", from: "0", to: "130 180 250"},
			{label: "saddle", role: "base", material: "cast_iron", from: "0", to: "130 180 250", sizes: sizes{"keep": "6 8 10"}},
			{label: "nut", role: "nut", material: "bronze", from: "45 65 95", to: "85 115 155"},
			{label: "table", role: "table", material: "cast_iron", from: "-270 -420 -600", to: "130 180 250", sizes: gib("15;45;85;115 20;65;115;160 25;75;125;175;225", "width", "130 180 240")},
			{label: "bracket", role: "bracket", material: "cast_iron", from: "130 180 250", to: "152 206 282", sizes: bolted("34 42 52", "11 14 16")},
			{label: "left bracket", role: "tail_bearing", material: "cast_iron", from: "-288 -442 -628", to: "-270 -420 -600", sizes: sizes{"bore": "11 14 16"}},
			{label: "screw thread", role: "thread", material: "steel", from: "-262 -410 -590", to: "128 178 248", sizes: sizes{"dia": "14 18 22", "pitch": "2 2.5 5", "form": "metric metric trapezoidal"}},
			{label: "screw shank", role: "shank", material: "steel", from: "128 178 248", to: "189 252 334", sizes: sizes{"dia": "11 14 16", "end_thread": "10 13 13"}},
		}, endParts("11 14 16", "10 12 16", "80 100 100", "14 16 20", "34 42 52", "14 18 20", "6 8 8")...),
		near: sizes{"front_obstacle": "20", "column_cover": "20"}, calls: map[string]string{"front_obstacle": "wall or scale on the right", "column_cover": "table stop or cover on the left"},
	},
	{
		key: "mill_y", label: "Saddle across (Y)", says: "towards you and away; the handle stays where it is", arrangement: "held_screw", capacity: "mill_reach",
		datum: "the base's rear end", plus: "outward, towards the operator", minus: "inward, towards the column",
		own:   sizes{"travel_found": "120 160 220", "end_float": "0.10 0.12 0.15", "lost_motion": "0.18 0.20 0.25", "lost_motion_minus": "0.14 0.16 0.20", "lost_motion_plus": "0.13 0.15 0.18", "table_width": "130 180 240", "axis_from_front": "125 170 230"},
		parts: saddle(piece{label: "column", role: "column", material: "cast_iron", from: "-80 -100 -140", to: "10"}),
		near:  sizes{"splash_tray": "30", "rear_obstacle": "15"}, calls: map[string]string{"splash_tray": "tray or stand in front", "rear_obstacle": "way cover"},
	},
	{
		key: "mill_z", label: "Head on the column (Z)", says: "the head slide, by a screw held in the column; a block under the column lifts it all", arrangement: "held_screw", capacity: "daylight",
		datum: "the column's lower end", plus: "up", minus: "down",
		own: sizes{"travel_found": "200 300 380", "end_float": "0.10 0.15 0.15", "lost_motion": "0.18 0.20 0.25", "lost_motion_minus": "0.14 0.16 0.20", "lost_motion_plus": "0.13 0.15 0.18", "gear_ratio": "1 1 2", "moving_mass": "25 50 90",
			"lowest": "50 60 80", "column": "300 420 560", "foot_bolt": "40 50 60", "foot_bolt_dia": "10 12 16", "foot_bolts": "4", "foot_length": "130 180 250", "foot_width": "110 150 200", "strut_spare": "60 80 100"},
		parts: append([]piece{
			{label: "column ways", role: "ways", material: "cast_iron", from: "0", to: "400 560 700"},
			{label: "lower stop", role: "other", material: "cast_iron", from: "0", to: "60 70 80"},
			{label: "upper stop", role: "other", material: "cast_iron", from: "380 540 680", to: "400 560 700"},
			{label: "lower bearing", role: "tail_bearing", material: "cast_iron", from: "60 70 80", to: "70 80 90", sizes: sizes{"bore": "12 15 16"}},
			{label: "head slide", role: "slide", material: "cast_iron", from: "60 70 80", to: "180 240 300", sizes: gib("75;105;135;165 90;130;170;220 100;150;200;240;280")},
			{label: "nut", role: "nut", material: "bronze", from: "100 130 150", to: "130 170 200"},
			{label: "bracket", role: "bracket", material: "cast_iron", from: "400 560 700", to: "425 590 735", sizes: bolted("36 44 52", "12 15 16")},
			{label: "screw thread", role: "thread", material: "steel", from: "70 80 90", to: "398 558 698", sizes: sizes{"dia": "16 20 22", "pitch": "3 4 5", "form": "trapezoidal"}},
			{label: "screw shank", role: "shank", material: "steel", from: "398 558 698", to: "464 636 788", sizes: sizes{"dia": "12 15 16", "end_thread": "10 13 14"}},
		}, endParts("12 15 16", "10 12 16", "60 80 100", "14 16 20", "38 46 54", "16 18 20", "6 8 8")...),
		near: sizes{"splash_tray": "200", "rear_obstacle": "20"}, calls: map[string]string{"splash_tray": "ceiling, lamp or cover above", "rear_obstacle": "vice or work below"},
	},
	{
		key: "column", label: "Column height", says: "how far the spindle is from the table, where the head's own drive is not looked at; a block under the column changes it", arrangement: "spaced", capacity: "daylight",
		datum: "the table", plus: "up", minus: "down",
		own: sizes{"travel_found": "200 300 380", "lowest": "50 60 80", "column": "300 420 560", "foot_bolt": "40 50 60", "foot_bolt_dia": "10 12 16", "foot_bolts": "4",
			"foot_length": "130 180 250", "foot_width": "110 150 200", "strut_spare": "60 80 100", "moving_mass": "25 50 90"},
		near: sizes{"ceiling": clear},
	},
	{
		key: "knee", label: "Knee (Z)", says: "the table goes up and down with the knee", arrangement: "travelling_screw",
		datum: "the base's upper face", plus: "up", minus: "down",
		own: sizes{"travel_found": "200 280 350", "gear_ratio": "1 2 2", "moving_mass": "60 120 220"},
		parts: []piece{
			{label: "column ways", role: "ways", material: "cast_iron", from: "100 120 150", to: "560 720 860"},
			{label: "pillar", role: "base", material: "cast_iron", from: "0", to: "45 60 75", sizes: sizes{"keep": "6 8 10"}},
			{label: "floor", role: "web", material: "cast_iron", from: "-220 -300 -375", to: "-210 -290 -360"},
			{label: "upper stop", role: "other", material: "cast_iron", from: "530 690 830", to: "560 720 860"},
			{label: "nut", role: "nut", material: "bronze", from: "0", to: "45 60 75"},
			{label: "knee", role: "slide", material: "cast_iron", from: "150 170 200", to: "330 410 480", sizes: gib("170;220;270;310 190;250;310;390 220;290;360;410;460")},
			{label: "bevel case", role: "bracket", material: "cast_iron", from: "45 60 75", to: "75 95 115", sizes: sizes{"dia": "60 70 84", "bore": "14 18 22"}},
			{label: "screw thread", role: "thread", material: "steel", from: "-200 -280 -350", to: "45 60 75", sizes: sizes{"dia": "20 24 28", "pitch": "4 5 5", "form": "trapezoidal"}},
		},
		near: sizes{"front_obstacle": "20", "column_cover": "10"}, calls: map[string]string{"front_obstacle": "spindle or vice above", "column_cover": "chips on the base below"},
	},
	{
		key: "mill_quill", label: "Quill", says: "by a lever, and slowly by a fine wheel", arrangement: "rack_worm", capacity: "depth",
		datum: "the head's lower face", plus: "down", minus: "up",
		own: sizes{"travel_found": "60 90 120", "wheel_teeth": "20 24 30"},
		parts: []piece{
			{label: "head", role: "guide", material: "cast_iron", from: "-120 -190 -240", to: "0", sizes: sizes{"bore": "40.03 60.03 76.04", "bore_middle": "40.03 60.03 76.04", "bore_far": "40.03 60.03 76.04", "wall": "10 12 14"}},
			{label: "upper stop", role: "collar", material: "steel", from: "-150 -227 -285", to: "-140 -215 -270"},
			{label: "pinion", role: "pinion", material: "steel", from: "-45 -60 -75", to: "-33 -44 -57", sizes: sizes{"module": "1 1.25 1.5", "teeth": "14 16 16"}},
			{label: "spline sleeve", role: "spline_sleeve", material: "steel", from: "-210 -300 -380", to: "-170 -250 -320"},
			{label: "quill", role: "quill", material: "steel", from: "-140 -215 -270", to: "20 25 30", sizes: sizes{"dia": "40 60 76", "dia_middle": "40 60 76", "dia_rear": "40 60 76", "nose": "25 30 40"}},
			{label: "rack", role: "rack", material: "steel", from: "-105 -150 -195", to: "-28 -38 -50"},
			{label: "spline", role: "spline", material: "steel", from: "-270 -400 -510", to: "-170 -250 -320"},
		},
		near: sizes{"depth_stop": "2"},
	},
	{
		key: "column_head", label: "Head on the round column", says: "cranked up and down the column, then clamped", arrangement: "rack_fixed", capacity: "daylight",
		datum: "the column's foot", plus: "up", minus: "down",
		own: sizes{"travel_found": "200 300 400", "gear_ratio": "16 20 24", "lowest": "60 80 100", "moving_mass": "45 90 160"},
		parts: []piece{
			{label: "column", role: "ways", material: "steel", from: "0", to: "650 900 1150"},
			{label: "lower collar", role: "other", material: "cast_iron", from: "200 300 390", to: "250 350 450"},
			{label: "top cap", role: "other", material: "cast_iron", from: "600 850 1100", to: "650 900 1150"},
			{label: "rack", role: "rack", material: "steel", from: "200 300 400", to: "620 870 1120"},
			{label: "head", role: "slide", material: "cast_iron", from: "250 350 450", to: "400 550 700"},
			{label: "pinion", role: "pinion", material: "steel", from: "310 430 550", to: "325 448 570", sizes: sizes{"module": "1.5 2 2", "teeth": "12"}},
		},
		near: sizes{"far_stop": "20", "near_stop": "30"}, calls: map[string]string{"far_stop": "ceiling or motor cover", "near_stop": "table or vice"},
	},
}

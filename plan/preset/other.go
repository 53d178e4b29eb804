package preset

// raised is a table or a head that a turning nut lifts by a screw that does not turn.
func raised(slide string) []piece {
	return []piece{
		{label: "column ways", role: "ways", material: "cast_iron", from: "150 180 220", to: "500 650 820"},
		{label: "lower stop", role: "other", material: "cast_iron", from: "150 180 220", to: "200 240 300"},
		{label: "upper stop", role: "other", material: "cast_iron", from: "470 620 780", to: "500 650 820"},
		{label: "bracket", role: "bracket", material: "cast_iron", from: "25 30 35", to: "40 50 60", sizes: sizes{"dia": "50 60 72", "bore": "28 34 40"}},
		{label: "nut", role: "nut", material: "bronze", from: "40 50 60", to: "75 95 115"},
		{label: slide, role: "slide", material: "cast_iron", from: "200 240 300", to: "330 420 520", sizes: gib("215;250;285;315 260;310;360;400 320;370;420;470;505")},
		{label: "screw thread", role: "thread", material: "steel", from: "-110 -160 -205", to: "200 240 300", sizes: sizes{"dia": "20 24 28", "pitch": "4 5 5", "form": "trapezoidal"}},
	}
}

var otherAxes = []spec{
	{
		key: "drill_quill", label: "Quill", says: "by a lever and a rack", arrangement: "rack", capacity: "depth",
		datum: "the head's lower face", plus: "down", minus: "up",
		own: sizes{"travel_found": "50 75 110"},
		parts: []piece{
			{label: "head", role: "guide", material: "cast_iron", from: "-100 -145 -190", to: "0", sizes: sizes{"bore": "36.04 44.04 56.05", "bore_middle": "36.04 44.04 56.05", "bore_far": "36.04 44.04 56.05", "wall": "8 10 12"}},
			{label: "upper stop", role: "collar", material: "steel", from: "-125 -177 -240", to: "-115 -165 -225"},
			{label: "pinion", role: "pinion", material: "steel", from: "-40 -50 -65", to: "-28 -36 -49", sizes: sizes{"module": "1 1.25 1.5", "teeth": "14"}},
			{label: "spline sleeve", role: "spline_sleeve", material: "steel", from: "-180 -250 -330", to: "-145 -205 -275"},
			{label: "quill", role: "quill", material: "steel", from: "-115 -165 -225", to: "15 15 20", sizes: sizes{"dia": "36 44 56", "dia_middle": "36 44 56", "dia_rear": "36 44 56", "nose": "35 40 50"}},
			{label: "rack", role: "rack", material: "steel", from: "-90 -125 -175", to: "-22 -30 -42"},
			{label: "spline", role: "spline", material: "steel", from: "-230 -330 -445", to: "-145 -205 -275"},
		},
		near: sizes{"depth_stop": "2"},
	},
	{
		key: "drill_lever", label: "Quill by lever alone", says: "a sensitive drill: the lever pushes the quill itself", arrangement: "lever", capacity: "depth",
		datum: "the head's lower face", plus: "down", minus: "up",
		own: sizes{"travel_found": "40 50 60", "lever_short": "40 50 60", "lever_long": "160 200 240", "lever_swing": "60"},
		parts: []piece{
			{label: "head", role: "guide", material: "cast_iron", from: "-90 -110 -130", to: "0"},
			{label: "quill", role: "quill", material: "steel", from: "-100 -120 -145", to: "10 12 15", sizes: sizes{"dia": "28 32 38"}},
		},
		near: sizes{"far_stop": "2", "near_stop": "0"}, calls: map[string]string{"far_stop": "depth stop", "near_stop": "collar on the quill"},
	},
	{
		key: "drill_table", label: "Table on the column", says: "cranked up and down the column, then clamped", arrangement: "rack_fixed",
		datum: "the base's upper face", plus: "up", minus: "down",
		own: sizes{"travel_found": "250 400 700", "gear_ratio": "16 20 24", "moving_mass": "5 9 20"},
		parts: []piece{
			{label: "column", role: "ways", material: "steel", from: "0", to: "450 720 1300"},
			{label: "foot", role: "other", material: "cast_iron", from: "0", to: "40 60 80"},
			{label: "head", role: "other", material: "cast_iron", from: "360 550 900", to: "450 720 1300"},
			{label: "rack", role: "rack", material: "steel", from: "20 30 40", to: "400 640 1150"},
			{label: "table arm", role: "slide", material: "cast_iron", from: "40 60 80", to: "110 150 200"},
			{label: "pinion", role: "pinion", material: "steel", from: "70 100 130", to: "82 114 148", sizes: sizes{"module": "1.5 1.5 2", "teeth": "12"}},
		},
		near: sizes{"far_stop": "10", "near_stop": "10"}, calls: map[string]string{"far_stop": "spindle, chuck or quill above", "near_stop": "work on the base below"},
	},
	{
		key: "shaper_ram", label: "Ram", says: "driven by crank and slotted lever; its clamp sets where the stroke lies", arrangement: "crank", capacity: "cut_length",
		datum: "the column's front face", plus: "forward, towards the work", minus: "back",
		own: sizes{"travel_found": "210 350 480", "crank_radius": "50 75 105", "lever_length": "300 500 600", "pivot_distance": "200 300 360", "clamp_range": "60 100 130", "moving_mass": "18 45 110"},
		parts: []piece{
			{label: "column ways", role: "ways", material: "cast_iron", from: "-260 -380 -500", to: "0"},
			{label: "ram", role: "table", material: "cast_iron", from: "-400 -620 -830", to: "60 80 100", sizes: sizes{"width": "80 120 160"}},
		},
		near: sizes{"front_obstacle": "30", "rear_obstacle": "50 80 100"},
	},
	{
		key: "shaper_cross", label: "Cross feed", says: "the table across the rail; the handle or a ratchet stays", arrangement: "held_screw",
		datum: "the rail's left end", plus: "right, towards the handle", minus: "left",
		own: sizes{"travel_found": "160 240 340", "end_float": "0.15", "lost_motion": "0.30", "lost_motion_minus": "0.25", "lost_motion_plus": "0.22"},
		parts: append([]piece{
			{label: "rail ways", role: "ways", material: "cast_iron", from: "0", to: "300 430 580"},
			{label: "left plate", role: "other", material: "cast_iron", from: "0", to: "10"},
			{label: "right plate", role: "other", material: "cast_iron", from: "290 420 570", to: "300 430 580"},
			{label: "left bearing", role: "tail_bearing", material: "cast_iron", from: "10", to: "20", sizes: sizes{"bore": "11 14 16"}},
			{label: "table slide", role: "slide", material: "cast_iron", from: "10", to: "130 180 230", sizes: gib("25;60;95;120 25;70;115;165 30;80;130;180;215")},
			{label: "nut", role: "nut", material: "bronze", from: "55 75 95", to: "85 115 145"},
			{label: "bracket", role: "bracket", material: "cast_iron", from: "300 430 580", to: "322 458 612", sizes: bolted("34 42 52", "11 14 16")},
			{label: "screw thread", role: "thread", material: "steel", from: "20 20 25", to: "298 428 578", sizes: sizes{"dia": "14 18 22", "pitch": "2 2.5 5", "form": "metric metric trapezoidal"}},
			{label: "screw shank", role: "shank", material: "steel", from: "298 428 578", to: "360 502 662", sizes: sizes{"dia": "11 14 16", "end_thread": "11 13 13"}},
		}, endParts("11 14 16", "10 12 16", "80 100 100", "14 16 20", "34 42 52", "14 16 18", "6 8 8")...),
		near: sizes{"splash_tray": "30", "rear_obstacle": "30"}, calls: map[string]string{"splash_tray": "ratchet or guard at the handle", "rear_obstacle": "wall on the left"},
	},
	{
		key: "shaper_table", label: "Table height", says: "the table up and down; the nut turns and the screw does not", arrangement: "turning_nut",
		datum: "the base's upper face", plus: "up", minus: "down",
		own:   sizes{"travel_found": "140 200 260", "gear_ratio": "1 2 2", "moving_mass": "25 60 130"},
		parts: raised("table rail"),
		near:  sizes{"far_obstacle": "20", "screw_room": "20"}, calls: map[string]string{"far_obstacle": "ram or tool above", "screw_room": "floor below the screw"},
	},
	compound("tool_slide", "Tool slide", "on the ram's head; the handle goes with it", "", "the swivel's lower end",
		"up, towards the handle", "down, towards the work", "gib's end plate"),
	{
		key: "grinder_table", label: "Table", says: "to and fro by handwheel and rack", arrangement: "rack", capacity: "cut_length",
		datum: "the saddle's left face", plus: "right", minus: "left",
		own: sizes{"travel_found": "250 400 500", "moving_mass": "10 25 50", "run_on": "15", "run_off": "15"},
		parts: []piece{
			{label: "saddle ways", role: "ways", material: "cast_iron", from: "0", to: "200 300 380"},
			{label: "pinion", role: "pinion", material: "steel", from: "95 143 182", to: "107 157 198", sizes: sizes{"module": "1 1.25 1.5", "teeth": "20"}},
			{label: "table", role: "table", material: "cast_iron", from: "-205 -330 -415", to: "155 230 295", sizes: sizes{"width": "100 150 200"}},
			{label: "rack", role: "rack", material: "steel", from: "-155 -257 -318", to: "107 157 198"},
		},
		near: sizes{"depth_stop": "5"}, calls: map[string]string{"depth_stop": "stop dog"},
	},
	{
		key: "grinder_cross", label: "Cross feed", says: "the saddle towards you and away; the handle stays where it is", arrangement: "held_screw",
		datum: "the base's rear end", plus: "outward, towards the operator", minus: "inward, towards the column",
		own:   sizes{"travel_found": "120 160 220", "end_float": "0.03", "lost_motion": "0.08", "lost_motion_minus": "0.06", "lost_motion_plus": "0.06"},
		parts: saddle(piece{label: "column", role: "column", material: "cast_iron", from: "-80 -100 -140", to: "10"}),
		near:  sizes{"splash_tray": "30", "rear_obstacle": "15"}, calls: map[string]string{"splash_tray": "splash tray in front", "rear_obstacle": "hose or cover behind"},
	},
	{
		key: "grinder_head", label: "Wheel head", says: "the wheel up and down; the nut turns and the screw does not", arrangement: "turning_nut",
		datum: "the base's upper face", plus: "up", minus: "down, towards the work",
		own:   sizes{"travel_found": "140 200 260", "gear_ratio": "4 5 5", "moving_mass": "20 40 80"},
		parts: raised("wheel head"),
		near:  sizes{"far_obstacle": "30", "screw_room": "20"}, calls: map[string]string{"far_obstacle": "cover above", "screw_room": "floor below the screw"},
	},
}

package upgrade

// Term is a word of the trade: what it is called here, what else it is called, in
// Britain, America or by habit, and what it means.
type Term struct {
	Say   string
	Also  []string
	Means string
}

// Glossary is the list of them. Common practice, no source.
var Glossary = []Term{
	{"top slide", []string{"topslide", "compound", "compound slide", "compound rest", "tool slide"}, "the lathe's upper slide, on its swivel"},
	{"cross slide", []string{"crossslide", "cross-feed slide", "crossfeed", "cross feed"}, "the lathe's slide across the bed"},
	{"carriage", []string{"saddle", "bed slide"}, "all that rides on a lathe's bed; a mill's saddle lies between knee or base and table"},
	{"tailstock", []string{"poppet", "loose headstock", "footstock"}, "what holds the far end of long work, and drills"},
	{"quill", []string{"barrel", "ram", "sleeve", "tailstock spindle", "tailstock ram"}, "what comes out of a tailstock or a drill's head"},
	{"gib", []string{"gib strip", "jib", "gib key", "slide packing"}, "the strip that takes up a slide's play, flat or taper"},
	{"feed screw", []string{"leadscrew", "lead screw", "cross screw", "feedscrew"}, "the screw that moves a slide; a lead screw in the strict sense is for threading"},
	{"nut", []string{"feed nut", "half nut", "halfnut"}, "what the feed screw turns in; half nuts close on a lead screw"},
	{"bracket", []string{"end plate", "end bracket", "bearing block", "screw boss"}, "what carries the screw's bearing"},
	{"dial", []string{"graduated collar", "micrometer collar", "index dial", "thimble", "graduations", "handwheel scale"}, "the graduated ring on a screw"},
	{"handle", []string{"handwheel", "crank", "ball handle", "hand wheel", "knob"}, "what the hand turns"},
	{"backlash", []string{"lost motion", "slop", "play", "lash", "slack"}, "the nut's clearance on its screw; lost motion is that and end float together"},
	{"end float", []string{"end play", "endplay", "axial play", "endfloat"}, "how far a screw or spindle moves endways"},
	{"thrust bearing", []string{"thrust washer", "thrust race", "needle thrust"}, "what holds a screw endways"},
	{"shim", []string{"packing", "spacer"}, "a thin piece that makes up a distance"},
	{"ways", []string{"slideway", "dovetail", "shears", "vee way"}, "what a slide runs on"},
	{"travel", []string{"stroke", "throw", "reach", "movement"}, "how far a slide goes"},
	{"column", []string{"pillar", "post of a mill"}, "what carries a mill's or drill's head"},
	{"height under the spindle", []string{"daylight", "nose to table", "headroom", "vertical capacity"}, "what goes between spindle and table"},
	{"riser", []string{"raising block", "lift block", "riser block", "packing block"}, "a block under a column or a headstock"},
	{"plinth", []string{"solid post", "compound delete", "solid toolpost mount"}, "a solid block in the top slide's place"},
	{"tool post", []string{"toolpost", "tool holder", "turret", "quick change", "qctp"}, "what holds the tool"},
	{"silver braze", []string{"silver solder", "hard solder", "brazing"}, "to join with a silver alloy, at red heat"},
	{"spigot", []string{"register", "pilot"}, "a step that centres one part in another"},
	{"run-out", []string{"runout", "wobble", "eccentricity", "total indicator reading", "tir"}, "how much a turning face moves to and fro"},
	{"dial gauge", []string{"dial indicator", "dti", "clock gauge", "test indicator"}, "the clock that reads hundredths"},
	{"stop", []string{"dead stop", "carriage stop", "depth stop"}, "what a slide comes up against"},
	{"swing", []string{"capacity over the bed"}, "twice the centre height"},
	{"centre", []string{"center"}, "the axis, or the point that work turns on"},
	{"back plate", []string{"backplate", "adapter plate", "chuck adapter"}, "what a chuck is fixed to"},
	{"key", []string{"keyway", "feather", "spline"}, "what keeps a part from turning"},
	{"bush", []string{"bushing", "sleeve bearing", "plain bearing"}, "a plain bearing"},
	{"swarf", []string{"chip", "turnings", "metal shavings"}, "what is cut off"},
	{"wiper", []string{"way wiper", "felt", "scraper strip"}, "what keeps swarf off a way"},
	{"bellows", []string{"gaiter", "boot", "way cover", "screw cover"}, "a folding cover"},
	{"follower", []string{"follow rest", "follower rest", "travelling steady", "traveling steady"}, "a steady that goes with the carriage"},
	{"steady", []string{"steady rest", "fixed steady", "center rest"}, "what supports long work in its middle"},
	{"drawbar", []string{"draw bar", "draw bolt", "drawbolt"}, "the bar that pulls a tool into its taper"},
	{"scales", []string{"dro", "digital readout", "read out", "linear scale", "glass scale"}, "what shows where a slide is"},
	{"power feed", []string{"auto feed", "powerfeed", "motor drive", "self-act"}, "a motor that winds a slide"},
	{"lock", []string{"clamp", "lever lock", "gib lock"}, "what keeps a slide where it is"},
	{"set-over", []string{"setover", "offset tailstock", "offsetting"}, "a tailstock moved across, for tapers"},
	{"tram", []string{"squareness of the head", "tramming", "nod"}, "the spindle square to the table"},
	{"levelling", []string{"leveling", "bed twist", "machine level"}, "a bed without twist"},
	{"guard", []string{"cover", "shield", "safety"}, "what keeps hands out"},
	{"emergency stop", []string{"e stop", "estop", "kill switch"}, "what stops it from where you stand"},
	{"motor speed", []string{"vfd", "inverter", "variable speed", "speed control"}, "how fast the spindle turns"},
	{"belt", []string{"vee belt", "v belt", "pulley", "sheave"}, "what drives the spindle"},
	{"table", []string{"bed of a mill", "work table"}, "what the work is clamped to"},
	{"grey iron", []string{"gray iron", "cast iron"}, "what castings are made of"},
	{"aluminium", []string{"aluminum", "alloy"}, "the light metal"},
	{"lubrication", []string{"oil", "oiling", "oiler", "lube", "lubricating", "grease", "greasing", "one shot oiler"}, "oil where metal rubs"},
	{"stiffness", []string{"stiffer", "rigid", "rigidity", "flex", "springy"}, "how little it gives when it is pushed"},
	{"chatter", []string{"vibration", "rattle", "resonance"}, "marks of a tool that springs"},
	{"counterbalance", []string{"counterweight", "gas strut", "gas spring", "balance weight"}, "what carries a head's weight"},
	{"adhesive", []string{"glue", "retaining compound", "bond", "epoxy"}, "what joins without heat"},
}

package parts

// Blocks of three levels, and the earth level many of them have at the bottom.
// Every level is jumpered by itself.

var tripleLevel = &Kind{
	Name: "triple-level", Block: true, Letters: []string{"X"}, Symbol: "terminal-triple",
	Metals: []Metal{{Level: 1}, {Level: 2}, {Level: 3}},
	Build:  func(*Builder) {},
}

// tripleLevelGround carries a sensor's or valve's protective conductor on its
// lowest level, which is bonded to the rail.
var tripleLevelGround = &Kind{
	Name: "triple-level-ground", Block: true, Letters: []string{"X"}, Symbol: "terminal-triple-earth",
	OnRail: true,
	Metals: []Metal{{Level: 1}, {Level: 2}, {Level: 3}},
	Build:  func(b *Builder) { railFoot(b, b.Metal(0)) },
}

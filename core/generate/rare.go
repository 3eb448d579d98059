package generate

// A rarity is a circuit that many a panel has one of, and the most blocks it adds,
// counted with a new card, its fuse and a 0 V block.
type rarity struct {
	blocks int
	draw   func(*section)
}

var rarities = []rarity{
	{5, (*section).sensor}, {5, (*section).sinkingSensor}, {4, (*section).seriesSensor}, {5, (*section).namur},
	{6, (*section).threeWire}, {5, (*section).fedLoop}, {4, (*section).resistanceThermometer}, {4, (*section).couple},
	{4, (*section).triac}, {4, (*section).contactCard}, {3, (*section).lowVoltage}, {3, (*section).unearthed},
	{5, (*section).emergencyStop}, {6, (*section).lampTest}, {4, (*section).metered}, {4, (*section).elsewhere},
}

// rare draws one of them, or nothing where it would not fit.
func (s *section) rare() {
	if r := pick(&s.random, rarities...); s.left() >= r.blocks {
		r.draw(s)
	}
}

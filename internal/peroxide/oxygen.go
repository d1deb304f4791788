package peroxide

// Hydrogen peroxide gives off its oxygen by 2 H2O2 → 2 H2O + O2: one mole of gas
// from two of peroxide. A solution of V volumes gives V litres of oxygen, measured
// at 0 °C and a stated pressure, from each litre of itself.
//
// The constants are for showing where the trade's rule comes from and how far it
// carries. No weight is computed with them.
const (
	// MolarMass of H2O2 in g/mol, from the abridged standard atomic weights of
	// hydrogen, 1.008, and oxygen, 15.999, each uncertain by 1 in its last place.
	// Pharmacopoeias print 34.01.
	MolarMass = 2*1.008 + 2*15.999

	// MolarVolumeAtmosphere is the volume of a mole of ideal gas in litres at 0 °C
	// and 101.325 kPa (CODATA 2018: 22.413 969 54… L/mol, exact).
	MolarVolumeAtmosphere = 22.41396954

	// MolarVolumeBar is the same at 0 °C and 100 kPa (CODATA 2018: 22.710 954 64…
	// L/mol, exact).
	MolarVolumeBar = 22.71095464
)

// Oxygen returns the litres of oxygen that grams of peroxide give off,
//
//	m · Vm ÷ (2 · M),
//
// with Vm the molar volume at the pressure the oxygen is measured at. What 10 g/L, one
// per cent by weight in volume, give off is the number of its volumes: 3.29 at one
// atmosphere and 3.34 at one bar, which the trade rounds to 10/3.
func Oxygen(grams, molarVolume float64) float64 {
	return grams * molarVolume / (2 * MolarMass)
}

// VolumesOfOxygen returns how many volumes of oxygen a strength gives off, at one
// atmosphere and at one bar, where its per cent are by weight in volume.
func (s Strength) VolumesOfOxygen() (atmosphere, bar float64) {
	perLitre := s.percent.Float() * 10
	return Oxygen(perLitre, MolarVolumeAtmosphere), Oxygen(perLitre, MolarVolumeBar)
}

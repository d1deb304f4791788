package peroxide

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/unit/constant"
)

func expectNear(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, within)
	}
}

// The molar volume is R·T/p with R = N_A·k; both constants are exact since 2019
// (CODATA values as gonum's package unit/constant holds them).
func TestMolarVolumesAgainstCODATA(t *testing.T) {
	const zeroCelsius = 273.15 // K
	gasConstant := float64(constant.Avogadro) * float64(constant.Boltzmann)
	litres := func(pascal float64) float64 { return 1000 * gasConstant * zeroCelsius / pascal }
	expectNear(t, "at one atmosphere", MolarVolumeAtmosphere, litres(101_325), 1e-8)
	expectNear(t, "at one bar", MolarVolumeBar, litres(100_000), 1e-8)
}

// Pharmacopoeias print 34.01 (British Pharmacopoeia, hydrogen peroxide solution;
// United States Pharmacopeia 29).
func TestMolarMass(t *testing.T) {
	expectNear(t, "M(H2O2)", MolarMass, 34.01, 0.005)
}

func TestGramsPerLitre(t *testing.T) {
	// Chemistry teaching pages on volume strength compute with 22.4 L and round: 30 vol
	// is 91.1 g/L, 10 vol is 3.03 % by weight in volume.
	expectNear(t, "30 vol, school values", gramsPerLitre(30, 22.4), 91.1, 0.05)
	expectNear(t, "10 vol, school values", gramsPerLitre(10, 22.4)/10, 3.03, 0.01)
	expectNear(t, "30 vol in mol/L", gramsPerLitre(30, 22.4)/MolarMass, 2.678, 0.001)
	expectNear(t, "volumes of 1 mol/L", Oxygen(MolarMass, 22.4), 11.2, 0.001)

	// Derived from the constants.
	for _, c := range []struct{ vol, atmosphere, bar float64 }{
		{5, 1.5175, 1.4977}, {7, 2.1246, 2.0968}, {10, 3.0351, 2.9954}, {13, 3.9456, 3.8940},
		{20, 6.0701, 5.9908}, {30, 9.1052, 8.9861}, {40, 12.1403, 11.9815}, {100, 30.3507, 29.9538},
	} {
		expectNear(t, "per cent at one atmosphere", gramsPerLitre(c.vol, MolarVolumeAtmosphere)/10, c.atmosphere, 0.00005)
		expectNear(t, "per cent at one bar", gramsPerLitre(c.vol, MolarVolumeBar)/10, c.bar, 0.00005)
	}
}

// gramsPerLitre is the inverse of Oxygen: the peroxide in a litre of so many volumes.
func gramsPerLitre(volumes, molarVolume float64) float64 { return volumes / Oxygen(1, molarVolume) }

func TestOxygen(t *testing.T) {
	// British Pharmacopoeia, assay of hydrogen peroxide solution: 1 mL of permanganate
	// stands for 1.701 mg of peroxide or 0.56 mL of oxygen.
	expectNear(t, "mL from 1.701 mg", Oxygen(1.701, MolarVolumeAtmosphere), 0.56, 0.00056)
	// The same monograph calls 6 % about 20 times its volume, and takes 5 to 7 %. The
	// expected figures are those of the assay, 0.56 over 1.701, to 0.1 %.
	expectNear(t, "volumes of 6 %", Oxygen(60, MolarVolumeAtmosphere), 19.753, 0.02)
	expectNear(t, "volumes of 5 %", Oxygen(50, MolarVolumeAtmosphere), 16.461, 0.02)
	expectNear(t, "volumes of 7 %", Oxygen(70, MolarVolumeAtmosphere), 23.045, 0.03)

	// Derived: 60 g of 6 % holds 3.6 g; its label promises 60 × 20 = 1200 mL.
	expectNear(t, "mL from 60 g of 6 %", 1000*Oxygen(3.6, MolarVolumeAtmosphere), 1186, 0.5)
	for _, c := range []struct{ percent, atmosphere, bar float64 }{
		{3, 9.884, 10.015}, {6, 19.769, 20.031}, {9, 29.653, 30.046}, {12, 39.538, 40.062}, {1.9, 6.260, 6.343}, {4, 13.179, 13.354},
	} {
		atmosphere, bar := strength(t, fmt.Sprintf("%g %%", c.percent)).VolumesOfOxygen()
		expectNear(t, "volumes at one atmosphere", atmosphere, c.atmosphere, 0.001)
		expectNear(t, "volumes at one bar", bar, c.bar, 0.001)
	}
}

// The trade's rule of 0.3 % per volume lies between the two pressures (derived).
func TestRuleOfTheTrade(t *testing.T) {
	rule := perVolume.Float()
	expectNear(t, "against one atmosphere", rule/(gramsPerLitre(1, MolarVolumeAtmosphere)/10)-1, -0.01156, 0.00001)
	expectNear(t, "against one bar", rule/(gramsPerLitre(1, MolarVolumeBar)/10)-1, 0.00154, 0.00001)

	// Weight in weight or weight in volume matters more: at about 1.0434 g/mL, a density
	// read off web pages, 12 % by weight is 12.52 % by volume.
	const density = 1.0434
	expectNear(t, "12 % w/w at one atmosphere", Oxygen(120*density, MolarVolumeAtmosphere), 41.25, 0.02)
	expectNear(t, "12 % w/w at one bar", Oxygen(120*density, MolarVolumeBar), 41.80, 0.02)
	expectNear(t, "6 % w/w at one atmosphere", Oxygen(60*1.0208, MolarVolumeAtmosphere), 20.2, 0.05)
}

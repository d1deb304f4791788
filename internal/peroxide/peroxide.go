// Package peroxide computes with the strength of hydrogen peroxide developers.
//
// Strength is kept as mass per cent; the trade's volumes are 10/3 of it, so that
// 10, 20, 30 and 40 vol are 3, 6, 9 and 12 %. That rule is the trade's own and
// the law pairs 12 % with 40 volumes; against the volume of oxygen really given
// off it is 1.2 % low at one atmosphere and 0.2 % high at one bar. Densities are
// taken as 1.00 g/mL: everything is weighed.
package peroxide

import (
	"fmt"
	"strings"

	"plait/internal/exact"
	"plait/internal/measure"
)

// Strength is the share of hydrogen peroxide in a developer or a bowl. The zero
// Strength is water.
type Strength struct{ percent exact.Number }

// perVolume is the per cent of one volume by the trade's rule.
var perVolume = exact.Of(3, 10)

// pairTolerance is how far a typed pair of per cent and volumes may lie apart:
// 0.15 %, half a volume, far inside the pharmacopoeial limits for a nominal 6 %
// (5.0 to 7.0 %).
var pairTolerance = exact.Of(15, 100)

// Percent returns the strength of n per cent.
func Percent(n exact.Number) Strength { return Strength{n} }

// Volumes returns the strength of n volumes.
func Volumes(n exact.Number) Strength { return Strength{n.Mul(perVolume)} }

// Percent returns the strength in per cent.
func (s Strength) Percent() exact.Number { return s.percent }

// Volumes returns the strength in volumes.
func (s Strength) Volumes() exact.Number { return s.percent.Quo(perVolume) }

// Cmp returns −1, 0 or +1 as s is weaker than, equal to or stronger than o.
func (s Strength) Cmp(o Strength) int { return s.percent.Cmp(o.percent) }

// Sub returns how much stronger s is than o.
func (s Strength) Sub(o Strength) Strength { return Strength{s.percent.Sub(o.percent)} }

// IsZero reports whether there is no peroxide.
func (s Strength) IsZero() bool { return s.percent.IsZero() }

// String prints the strength in per cent to at most two places, "1.27 %".
func (s Strength) String() string { return s.percent.With(" %", 2) }

// VolumesString prints the strength in volumes to at most one place, "6 vol".
func (s Strength) VolumesString() string { return s.Volumes().With(" vol", 1) }

// Name prints the strength as its bottle is called: "6 vol", and "1.9 %" where the volumes
// are no whole number, which no bottle is called by.
func (s Strength) Name() string {
	if s.Volumes().IsInt() {
		return s.VolumesString()
	}
	return s.String()
}

// Other prints the strength in the unit that [Strength.Name] leaves out.
func (s Strength) Other() string {
	if s.Volumes().IsInt() {
		return s.String()
	}
	return s.VolumesString()
}

// Agrees reports whether two strengths are one developer stated twice, in volumes
// and in per cent: they differ by no more than 0.15 %.
func (s Strength) Agrees(o Strength) bool {
	return !pairTolerance.Less(s.percent.Sub(o.percent).Abs())
}

// Parse reads "6 vol" or "1.8 %". Nothing is stronger than pure hydrogen peroxide, 100 %.
func Parse(text string) (Strength, error) {
	number, unit, ok := cutUnit(strings.ToLower(strings.TrimSpace(text)))
	if !ok || number == "" {
		return Strength{}, fmt.Errorf("%q is not a developer strength; write volumes or per cent, as in 20 vol or 6 %%", text)
	}
	n, err := measure.ParseNumber(number)
	if err != nil {
		return Strength{}, err
	}
	s := Percent(n)
	if strings.HasPrefix(unit, "vol") {
		s = Volumes(n)
	}
	if exact.Int(100).Less(s.Percent()) {
		return Strength{}, fmt.Errorf("%s is stronger than pure hydrogen peroxide; look at the number again", strings.TrimSpace(text))
	}
	return s, nil
}

// cutUnit takes a unit of strength off the end of a text in lower case.
func cutUnit(text string) (number, unit string, ok bool) {
	for _, unit := range []string{"volumes", "volume", "vols", "vol", "%", "per cent", "percent"} {
		if number, ok := strings.CutSuffix(text, unit); ok {
			return strings.TrimSpace(number), unit, true
		}
	}
	return "", "", false
}

package draw

import (
	"plait/internal/scalp"
)

// Shares returns each section's share of the scalp, as it is printed.
func Shares(plan *scalp.Plan) []string { return scalp.Shares(plan.Sections) }

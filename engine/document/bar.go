package document

import "strings"

// BarText draws share (0 to 1) as a bar of cells characters: full blocks, then
// light shade. A share that is not zero shows at least one full block, one below
// 1 leaves at least one shade, so that neither "impossible" nor "certain" is
// drawn where it is not meant. cells below 2 counts as 2.
func BarText(share float64, cells int) string {
	full := BarCells(share, cells)
	return strings.Repeat("█", full) + strings.Repeat("░", max(cells, 2)-full)
}

// BarCells is the number of full cells BarText draws.
func BarCells(share float64, cells int) int {
	cells, share = max(cells, 2), clampShare(share)
	full := int(share*float64(cells) + 0.5)
	switch {
	case share > 0 && full == 0:
		return 1
	case share < 1 && full == cells:
		return cells - 1
	}
	return full
}

func clampShare(share float64) float64 {
	if !(share > 0) { // not-a-number too
		return 0
	}
	return min(share, 1)
}

package trial

import (
	"math"
	"slices"
)

// Score sums up what one hand spent. Counts are means per machine.
type Score struct {
	Hand             string  `json:"hand"`
	Machines         int     `json:"machines"`
	MeanMinutes      float64 `json:"mean_minutes"`
	StandardError    float64 `json:"standard_error_minutes"` // of the mean
	Tenth            float64 `json:"tenth_percentile_minutes"`
	Median           float64 `json:"median_minutes"`
	Ninetieth        float64 `json:"ninetieth_percentile_minutes"`
	Worst            float64 `json:"worst_minutes"`
	Steps            float64 `json:"steps"`
	WrongParts       float64 `json:"wrong_parts"`       // replaced though not bad
	NeedlessOpenings float64 `json:"needless_openings"` // stages opened with nothing bad at or inside
	GivenUp          float64 `json:"given_up"`          // share handed to someone else, 0 to 1
}

// score sums up hand k.
func score(name string, jobs [][]record, k int) Score {
	n := float64(len(jobs))
	s := Score{Hand: name, Machines: len(jobs)}
	minutes := make([]float64, len(jobs))
	for i, records := range jobs {
		r := records[k]
		minutes[i] = r.minutes
		s.MeanMinutes += r.minutes / n
		s.Steps += float64(r.steps) / n
		s.WrongParts += float64(r.wrong) / n
		s.NeedlessOpenings += float64(r.needless) / n
		if r.gaveUp {
			s.GivenUp += 1 / n
		}
	}
	for _, x := range minutes {
		s.StandardError += (x - s.MeanMinutes) * (x - s.MeanMinutes)
	}
	s.StandardError = math.Sqrt(s.StandardError / max(n-1, 1) / n)
	slices.Sort(minutes)
	s.Tenth, s.Median, s.Ninetieth = quantile(minutes, .1), quantile(minutes, .5), quantile(minutes, .9)
	s.Worst = minutes[len(minutes)-1]
	return s
}

// quantile returns the smallest value with at least the share q of a sorted
// list at or below it.
func quantile(sorted []float64, q float64) float64 {
	return sorted[max(int(math.Ceil(q*float64(len(sorted))))-1, 0)]
}

package engine_test

import (
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"

	"example.org/takeup/engine"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/rule"
)

// Published complaint-to-cause pairs, from government, textbook, paper and
// trade-press sources without a brand behind them. The families that name each
// pair stand beside it: IDN Indonesian vocational book on motorcycles 2008; BUB
// German trade-journal series on motorcycle clutches 2014; ABD Abdo, study unit
// on motorcycle clutches; AWP US Army wet-pack overhaul pages; NCM US Navy
// construction-mechanic texts; NEN US Navy Engineman text; NSS US Navy 1945;
// GWT Manual Drive Trains and Axles 2010; SOV tractor and automobile textbook;
// ATS Shop Practice vol. 2; SOW Sowetan 2008; PPP, PPR, PPH, PPS, PPD, PPT New
// Zealand newspapers 1916-1931; IIR Irish Independent 2018; FZG, BIT, NUA, KUL,
// SVB, DET, IMP papers on wet clutches; LUB Lube magazine 2016; SEM SAE
// 2018-32-0024; MAP Spanish insurer's advice; CDX online automotive textbook;
// TCR converter rebuilders 2006; S84 SAE 841195; LBR Loughborough; AJA and ARM
// US Army; NSQ Indian NSQF notes.
//
// tier A: three or more families; B: two, or one about wet or motorcycle clutches.
var published = []struct {
	complaint, cause, tier, families string
}{
	{"slips", "friction_worn", "A", "SOV GWT SOW NEN ABD IDN IIR"},
	{"slips", "rider_partial", "A", "NCM ATS GWT PPP PPR PPH NSS"},
	{"slips", "spring_weak", "A", "SOV ATS ABD NEN IIR"},
	{"slips", "play_too_small", "A", "NCM SOV SOW"},
	{"slips", "friction_glazed", "B", "GWT ATS"},
	{"slips", "oil_degraded", "B", "FZG KUL"},
	{"slips", "overload", "B", "NEN GWT"},
	{"slips", "oil_wrong_friction", "B", "LUB SEM"},
	{"slips", "steel_worn", "B", "IDN"},
	{"slips", "stack_mixed", "B", "AWP"},
	{"drags", "play_too_large", "A", "NCM SOV SOW PPP"},
	{"drags", "steel_warped", "A", "NCM SOV SOW ABD"},
	{"drags", "lift_uneven", "A", "SOV NCM SOW IDN"},
	{"drags", "oil_thick_cold", "A", "IDN FZG BIT"},
	{"drags", "release_worn", "A", "ABD PPD IIR"},
	{"drags", "clearance_small", "B", "FZG CDX"},
	{"drags", "basket_hub_notched", "B", "ABD"},
	{"drags", "plates_stuck", "B", "BUB"},
	{"drags", "plates_seized_heat", "B", "PPS"},
	{"drags", "oil_level_high", "B", "FZG"},
	{"hard_shift", "play_too_large", "A", "SOV NCM SOW PPP"},
	{"hard_shift", "steel_warped", "A", "SOV NCM SOW PPP"},
	{"hard_shift", "oil_thick_cold", "B", "IDN"},
	{"hard_shift", "lift_uneven", "B", "IDN"},
	{"hard_shift", "plates_stuck", "B", "BUB"},
	{"hard_shift", "control_dry", "B", "NSQ"},
	{"hard_shift", "gearbox_fault", "X", "IDN"},
	{"judders", "friction_speed_slope", "B", "FZG IMP"},
	{"judders", "release_binding", "B", "NCM SOW"},
	{"judders", "water_in_oil", "B", "FZG"},
	{"judders", "mounts_loose", "B", "NCM SOW"},
	{"noise_lever_out", "uneven_idle", "B", "BUB"},
	{"noise_lever_out", "basket_bearing", "B", "BUB"},
	{"noise_lever_out", "basket_damper", "B", "BUB"},
	{"noise_lever_out", "backlash", "B", "LBR S84"},
	{"noise_lever_in", "release_bearing", "B", "BUB GWT"},
	{"heavy_lever", "cable_friction", "B", "MAP GWT"},
	{"heavy_lever", "release_damaged", "B", "MAP"},
	{"heavy_lever", "release_bearing", "B", "MAP"},
	{"late_takeup", "oil_film_slow", "B", "SVB DET"},
	{"lever_slack", "cable_broken", "B", "MAP"},
	{"vibration", "friction_speed_slope", "B", "FZG KUL"},
	{"vibration", "engine_fault", "X", "GWT"},
	{"vibration", "driveline_fault", "X", "GWT"},
	{"overheats", "play_too_small", "A", "SOV ATT GWT NCM: any cause of slip"},
	{"overheats", "friction_worn", "A", "SOV ATT GWT NCM: any cause of slip"},
	{"overheats", "rider_partial", "A", "PPP PPH GWT"},
	{"overheats", "overload", "B", "GWT NSS"},
	{"overheats", "oil_starved", "B", "PPS FZG"},
	{"overheats", "plates_dry_fitted", "B", "TCR"},
}

// complaints says which signs stand for a published complaint; one of them
// alone is enough.
var complaints = map[string][]string{
	"slips":           {"slips_top_gear", "slips_light_throttle", "slips_hot_only"},
	"drags":           {"creeps_hot", "creeps_cold", "grinds_into_gear", "first_engagement_bang"},
	"hard_shift":      {"shifts_hard", "neutral_hard_at_rest", "grinds_into_gear", "first_engagement_bang"},
	"judders":         {"judders_moving_off", "grabs"},
	"noise_lever_out": {"rattle_idle_lever_out", "rattle_fades_with_revs", "knock_at_idle", "whine"},
	"noise_lever_in":  {"rattle_lever_in", "scrape_lever_in", "noise_changes_with_lever"},
	"heavy_lever":     {"lever_heavy", "lever_gritty"},
	"late_takeup":     {"slow_takeup", "lost_motion"},
	"lever_slack":     {"lever_slack_suddenly"},
	"vibration":       {"vibration_with_revs", "vibration_only_moving", "judders_moving_off", "vibration_neutral_standing"},
	"overheats":       {"burnt_smell"},
}

// meaning says which of our causes a published one is; one of them is enough.
var meaning = map[string][]string{
	"friction_worn": {"frictions_worn"}, "rider_partial": {"rider_slips_clutch"}, "spring_weak": {"springs_weak"},
	"play_too_small": {"free_play_small"}, "friction_glazed": {"frictions_glazed"}, "oil_degraded": {"oil_worn_out"},
	"overload": {"hard_use", "torque_beyond_clutch"}, "oil_wrong_friction": {"oil_friction_modified"},
	"steel_worn": {"steels_smooth"}, "stack_mixed": {"parts_mixed"}, "play_too_large": {"free_play_large"},
	"steel_warped": {"steels_warped"}, "lift_uneven": {"spring_screws_loose", "spring_broken"}, "oil_thick_cold": {"oil_too_thick"},
	"release_worn": {"release_bearing_worn", "pushrod_worn", "arm_shaft_worn"}, "clearance_small": {"pack_too_tall", "frictions_swollen", "plate_count_wrong"},
	"basket_hub_notched": {"fingers_notched", "hub_notched"}, "plates_stuck": {"plates_stuck"}, "plates_seized_heat": {"frictions_burnt", "steels_blued"},
	"oil_level_high": {"oil_level_high"}, "control_dry": {"cable_sticking"}, "gearbox_fault": {"selector_fault", "dogs_worn"},
	"friction_speed_slope": {"frictions_glazed", "oil_friction_modified", "oil_worn_out"}, "release_binding": {"cable_sticking"},
	"water_in_oil": {"oil_contaminated"}, "mounts_loose": {"mounts_loose"}, "uneven_idle": {"uneven_idle"}, "basket_bearing": {"basket_bearing_worn"},
	"basket_damper": {"cush_springs_worn"}, "backlash": {"primary_gear_worn"}, "release_bearing": {"release_bearing_worn"},
	"cable_friction": {"cable_sticking"}, "release_damaged": {"arm_shaft_worn", "cable_frayed"}, "oil_film_slow": {"oil_too_thick"},
	"cable_broken": {"cable_frayed"}, "engine_fault": {"engine_noise"}, "driveline_fault": {"bearing_noise", "chain_slack"},
	"oil_starved": {"oil_level_low"}, "plates_dry_fitted": {"steels_dry", "frictions_not_soaked"},
}

// alone diagnoses a machine of which only some signs are known.
func alone(t *testing.T, e *engine.Engine, signs map[string]bool) map[string]float64 {
	t.Helper()
	c := &intake.Case{}
	for _, s := range e.Catalog.Signs {
		if there, ok := signs[s.ID]; ok {
			o := intake.Observation{Sign: s.ID, Answer: "yes", Present: 1}
			if !there {
				o = intake.Observation{Sign: s.ID, Answer: "no", Absent: 1}
			}
			c.Observations = append(c.Observations, o)
		}
	}
	d, err := e.Diagnose(c, engine.Bench{})
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]float64{}
	for _, x := range d.Explanation.Causes {
		out[x.ID] = x.Probability
	}
	return out
}

// A candidate that is listed: likelier than before the complaint, and likely
// enough to be read out.
const listedAt = 0.005

func TestPublishedPairs(t *testing.T) {
	e := open(t, "..")
	before := alone(t, e, nil)
	after := map[string]map[string]float64{}
	for _, signs := range complaints {
		for _, s := range signs {
			if after[s] == nil {
				after[s] = alone(t, e, map[string]bool{s: true})
			}
		}
	}
	for _, p := range published {
		found := false
		for _, s := range complaints[p.complaint] {
			for _, c := range meaning[p.cause] {
				if _, ok := before[c]; !ok {
					t.Errorf("cause %s (published %s) does not exist", c, p.cause)
				}
				found = found || after[s][c] > before[c]*1.02 && after[s][c] >= listedAt
			}
		}
		if !found {
			t.Errorf("tier %s: %s by %v is not among the candidates (%s)", p.tier, p.complaint, meaning[p.cause], p.families)
		}
	}
}

// Causes of dry clutches that must not carry over: the clutch is built to run in
// oil and has no pilot bearing, flywheel or bell housing (the same sources name
// them for dry clutches).
func TestDryClutchCausesStayOut(t *testing.T) {
	dry := regexp.MustCompile(`(?i)pilot bearing|fly ?wheel|bell ?housing|over-?cent|shackle|oil (or grease )?on the (facing|lining|plate|friction)s?|rear main seal|leather`)
	e := open(t, "..")
	for _, c := range e.Catalog.Causes {
		for _, text := range []string{c.ID, c.Name, c.What, c.Remedy.Do, c.Remedy.Afterwards} {
			if m := dry.FindString(text); m != "" {
				t.Errorf("%s speaks of %q", c.ID, m)
			}
		}
	}
}

// Published progressions: what leads to what.
func TestPublishedProgressions(t *testing.T) {
	e := open(t, "..")
	next := map[string][]string{}
	for _, r := range e.Rules.Rules {
		if r.Action == rule.Brings {
			next[r.From] = append(next[r.From], r.To)
		}
	}
	for _, p := range []struct{ from, to, source string }{
		{"frictions_worn", "free_play_small", "SOV: facings wear, free play shrinks"},
		{"free_play_small", "torque_short", "NCM: no free play, clamp reduced, slip"},
		{"free_play_small", "frictions_burnt", "NCM, GWT: slip, heat"},
		{"slips_badly", "overheats", "NCM, GWT, ATT: slip makes heat"},
		{"frictions_burnt", "steels_warped", "NSS, PPH: long slipping warps plates; FZG: overload buckles steels"},
		{"hard_use", "frictions_burnt", "GWT, NSS: engagement at speed, dropped clutch"},
		{"rider_slips_clutch", "frictions_worn", "PPH, NCM: riding the control wears the faces"},
		{"oil_contaminated", "shudders", "FZG: water brings shudder"},
		{"oil_level_low", "frictions_burnt", "PPS: no oil on the plates, they heat and stick"},
		{"steels_warped", "plates_bind", "SOV, NCM: warped plates drag"},
	} {
		if !reaches(next, p.from, p.to, 4) {
			t.Errorf("%s does not lead to %s (%s)", p.from, p.to, p.source)
		}
	}
}

func reaches(next map[string][]string, from, to string, steps int) bool {
	if from == to {
		return true
	}
	for _, n := range next[from] {
		if steps > 0 && reaches(next, n, to, steps-1) {
			return true
		}
	}
	return false
}

// Published tests that separate causes: each result moves the named causes the
// right way against the complaint alone.
func TestPublishedSeparatingTests(t *testing.T) {
	e := open(t, "..")
	for _, p := range []struct {
		complaint, result string
		up, down          []string
		source            string
	}{
		{"creeps_hot", "play_reset_cures", []string{"free_play_large"}, []string{"steels_warped", "fingers_notched"}, "NCM, ABD: a reset of the free play cures it"},
		{"judders_moving_off", "lever_slow_return", []string{"cable_sticking"}, []string{"frictions_glazed"}, "NCM: control slow to return"},
		{"slips_top_gear", "linings_glazed_seen", []string{"frictions_glazed"}, []string{"free_play_small"}, "GWT: play right, face glazed"},
		{"slips_top_gear", "linings_thin_found", []string{"frictions_worn"}, []string{"oil_friction_modified"}, "GWT: face thin"},
		{"rattle_idle_lever_out", "rattle_fades_with_revs", []string{"cush_springs_worn", "uneven_idle"}, nil, "BUB, S84: idle rumble fades with more idle speed"},
		{"whine", "noise_changes_with_lever", []string{"release_bearing_worn"}, []string{"primary_gear_worn"}, "BUB: noise changes as the lever moves"},
		{"lurches_into_first", "first_engagement_bang", []string{"plates_stuck"}, []string{"steels_warped"}, "BUB: only the first time"},
		{"creeps_cold", "frees_when_warm", []string{"oil_too_thick"}, []string{"free_play_large"}, "BUB, FZG, IDN: drags cold, fine warm"},
		{"slips_top_gear", "burnt_smell", []string{"frictions_burnt"}, nil, "ATT, SOV: burnt smell with the clutch engaged"},
		{"creeps_hot", "steels_warped_found", []string{"steels_warped"}, []string{"free_play_large"}, "AWP, ATT: steel not flat"},
		{"no_release", "lever_slack_suddenly", []string{"cable_frayed"}, []string{"plates_stuck"}, "MAP: lever suddenly slack"},
	} {
		before := alone(t, e, map[string]bool{p.complaint: true})
		after := alone(t, e, map[string]bool{p.complaint: true, p.result: true})
		for _, c := range p.up {
			if after[c] <= before[c] {
				t.Errorf("%s then %s: %s goes from %.4f to %.4f, expected up (%s)", p.complaint, p.result, c, before[c], after[c], p.source)
			}
		}
		for _, c := range p.down {
			if after[c] >= before[c] {
				t.Errorf("%s then %s: %s goes from %.4f to %.4f, expected down (%s)", p.complaint, p.result, c, before[c], after[c], p.source)
			}
		}
	}
}

// Shaking that needs the road points to wheels and gearbox, shaking that stays
// with the machine stopped in neutral to clutch or engine (GWT).
func TestWhereItShakes(t *testing.T) {
	e := open(t, "..")
	moving := alone(t, e, map[string]bool{"vibration_only_moving": true})
	standing := alone(t, e, map[string]bool{"vibration_neutral_standing": true})
	for cause, road := range map[string]bool{"bearing_noise": true, "finger_broken": false, "engine_noise": false} {
		if (moving[cause] > standing[cause]) != road {
			t.Errorf("%s: %.4f moving, %.4f standing", cause, moving[cause], standing[cause])
		}
	}
}

// Adjustment comes before removal (NCM, GWT, ABD, BUB, and the Red Seal
// standard: sensory inspection before tools): whatever the single complaint,
// the first advice opens nothing.
func TestNothingIsOpenedFirst(t *testing.T) {
	e := open(t, "..")
	for _, s := range e.Catalog.Signs {
		if s.Kind != "complaint" {
			continue
		}
		c := &intake.Case{Observations: []intake.Observation{{Sign: s.ID, Answer: "yes", Present: 1}}}
		d, err := e.Diagnose(c, engine.Bench{})
		if err != nil {
			t.Fatal(err)
		}
		if n := d.Course.Next; n.Stage != "ride" && n.Stage != "outside" {
			t.Errorf("%s: first advice is %s %s%s at %q", s.ID, n.Kind, n.Check, n.Cause, n.Stage)
		}
	}
}

// The complaint list covers the motorcycle clutch faults that the UK unit
// MC12K (Institute of the Motor Industry, draft July 2010) asks for.
func TestComplaintListIsComplete(t *testing.T) {
	e := open(t, "..")
	for fault, sign := range map[string]string{
		"abnormal noise": "rattle_idle_lever_out", "vibration": "vibration_with_revs", "fluid leak": "fluid_leak_outside",
		"slip": "slips_top_gear", "judder": "judders_moving_off", "grab": "grabs", "failure to release": "no_release",
	} {
		if _, ok := e.Catalog.Sign(sign); !ok {
			t.Errorf("%s: no sign %s", fault, sign)
		}
	}
}

// The shipped text names no maker and carries no address.
func TestNoAddresses(t *testing.T) {
	address := regexp.MustCompile(`(?i)https?://|www\.`)
	for _, root := range []string{"../knowledge", "../rules", "../testdata/cases", "../testdata/machines"} {
		err := fs.WalkDir(os.DirFS(root), ".", func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(p, ".yaml") {
				return err
			}
			text, err := os.ReadFile(root + "/" + p)
			if m := address.Find(text); m != nil {
				t.Errorf("%s/%s holds %q", root, p, m)
			}
			return err
		})
		if err != nil {
			t.Error(err)
		}
	}
}

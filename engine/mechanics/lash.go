package mechanics

import "math"

// AngleFromPlay returns the turn in radians that a play along the circumference
// allows, a = j/r, for play j (gear backlash, hub rubbers, cush springs at their
// radius) and radius r in metres. It holds for play small against the radius.
func AngleFromPlay(playM, radiusM float64) (float64, error) {
	err := firstOf(notNegative("play", playM), positive("radius", radiusM))
	if err != nil {
		return 0, err
	}
	return result("play angle", playM/radiusM)
}

// AngleAtWheel returns the turn in radians that a play leaves at the rear wheel,
// a/i, for a play a in radians on a shaft that makes i turns per turn of the wheel.
// The basket and the hub stand before the gearbox, so their ratio is gear times final.
func AngleAtWheel(playRad, turnsPerWheelTurn float64) (float64, error) {
	err := firstOf(notNegative("play angle", playRad), positive("turns per wheel turn", turnsPerWheelTurn))
	if err != nil {
		return 0, err
	}
	return result("angle at the wheel", playRad/turnsPerWheelTurn)
}

// ChainLash returns the turn in radians of the rear sprocket, with the front one
// held, until the other run is tight. A free run of length L whose middle moves up and
// down by s in all is longer than the straight line by e = 2 sqrt((L/2)^2 + (s/2)^2) - L,
// and the sprocket turns by e/R. All lengths in metres; s below L.
// Geometry: the run taken as two straight halves, which is close for the usual slack.
func ChainLash(slackM, runM, rearSprocketRadiusM float64) (float64, error) {
	err := firstOf(notNegative("chain slack", slackM), above("chain run", runM, "chain slack", slackM),
		positive("rear sprocket radius", rearSprocketRadiusM))
	if err != nil {
		return 0, err
	}
	// s^2/(hypot + L) is the same excess without the cancellation of two near equals.
	excessM := slackM * (slackM / (math.Hypot(runM, slackM) + runM))
	return result("chain lash", excessM/rearSprocketRadiusM)
}

// SprocketRadius returns the pitch radius in metres of a chain sprocket,
// R = p/(2 sin(pi/z)), for chain pitch p in metres and z teeth, at least 3.
// Source: the geometry of a regular polygon; the form used by ISO 606 (from memory).
func SprocketRadius(pitchM float64, teeth int) (float64, error) {
	err := firstOf(positive("chain pitch", pitchM), atLeast("sprocket teeth", teeth, 3))
	if err != nil {
		return 0, err
	}
	return result("sprocket radius", pitchM/(2*math.Sin(math.Pi/float64(teeth))))
}

// LashPart is the play of one place in the drive, as an angle on its own shaft.
type LashPart struct {
	Name              string  `json:"name"`
	PlayRad           float64 `json:"play_rad"`
	TurnsPerWheelTurn float64 `json:"turns_per_wheel_turn"` // 1 at the wheel itself
}

// LashShare is what one part adds to the play felt at the rear wheel.
type LashShare struct {
	Name     string  `json:"name"`
	WheelRad float64 `json:"wheel_rad"`
	Share    float64 `json:"share"` // of the sum, 0 to 1; 0 when there is no play at all
}

// Lash is the play of a whole drive at the rear wheel, parts in the order given.
type Lash struct {
	WheelRad float64     `json:"wheel_rad"`
	Parts    []LashShare `json:"parts"`
}

// LashAtWheel adds up the plays of a drive in radians at the rear wheel and gives
// each part's share. Plays in series add; the sum is the most that can be felt.
func LashAtWheel(parts []LashPart) (Lash, error) {
	lash := Lash{Parts: make([]LashShare, len(parts))}
	for i, p := range parts {
		wheelRad, err := AngleAtWheel(p.PlayRad, p.TurnsPerWheelTurn)
		if err != nil {
			return Lash{}, err
		}
		lash.Parts[i] = LashShare{Name: p.Name, WheelRad: wheelRad}
		lash.WheelRad += wheelRad
	}
	if _, err := result("angle at the wheel", lash.WheelRad); err != nil || lash.WheelRad == 0 {
		return lash, err
	}
	for i := range lash.Parts {
		lash.Parts[i].Share = lash.Parts[i].WheelRad / lash.WheelRad
	}
	return lash, nil
}

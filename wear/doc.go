// Package wear answers what a worn slideway looks like, what it does to the
// motion of the table that runs on it and to the work on that table, and how
// the wear is growing: from a level, an indicator, a ground bar rolled over, a
// skimmed bar or the oil pockets that are left.
//
// # Frame and signs
//
// The frame is that of ISO 841 for a vertical mill: x along the table, positive
// to the operator's right; y away from the operator, toward the column; z up.
// Slopes are dz/dx and dz/dy, positive when the right, or the back, is high.
// Wear is a depth, positive downward from the surface as new.
//
// Travel X is positive when the table has moved right, so the place on the
// table that is under the spindle, and over the middle of the saddle, is
// u = -X. A level that stands on the table and travels with it therefore
// explores the ways at u = -X, and a profile must be cumulated along u. Along X
// the sign is the other way about: a table that leans up to the right sinks as
// it moves right.
//
// # Limits of the models
//
// Deviations are measured upright, not square to the reference line: at a slope
// of 0.001 the two differ by five parts in ten million. Parts are rigid, unless
// a function says that it bends them. Temperature is constant. A level tells
// slopes and nothing else; the height of a table's motion follows from them only
// through a statement of where the table bears (see [MotionFromSlopes]).
//
// Every uncertainty is a standard uncertainty in the sense of JCGM 100:2008 and
// stands in a field beside its value. All values are in SI.
//
// # Where to begin
//
// Readings to profiles: [ReadLevel] turns level readings into slopes;
// [ProfileFromSlopes] and [ProfileFromSteps] cumulate slopes into heights with
// their covariance; [ProfileFromReadings] and [MotionFromSkimmedBar] take heights
// from a dial and from a cut; [ReverseBar], [ReverseStraightedge], [ThreePlates],
// [TwoProbes] and [ThreeProbes] tell the reference from the thing; [ReadPockets]
// reads depths of wear from the flaking that is left.
//
// Profiles to figures: [StraightnessOf], [LocalStraightness] and
// [Profile.Straightness] judge a profile by its end points, by least squares or
// by the exact minimum zone; [FlatnessOf], [SurveyPlate] and [SurveyGrid] do so for
// a surface; [Profile.StraightnessTrials] tells how far chance goes.
//
// Wear to motion and work: [MotionFromSlopes] finds the motion of a travelling
// table from a level on it; [TwoPointMotion] and [PressedMotion] say how a table
// rides on ways of known wear, and [FitWays] goes back from motion and flaking to
// the wear of both ways; [BowOfCut] says what a cut leaves on a part.
//
// Change and growth: [CompareSlopes] sets two surveys side by side and takes the
// settling of the floor out of the difference; [FitEvent] and [FindEvent] say what
// a date did to a rate; [ForecastLine], [ForecastSaturating] and, for readings of
// which some are only bounds, [FitBoundedTrend] and [ReachBounded] fit a rate and carry it forward;
// [Simulate] follows the wear of a way through its use, [FitFactor] fits that to
// two surveys, and [FactorFit.Over] sets two ways side by side; [Surviving] says how
// many parts last how long when some are still good.
//
// Screw and gib: [ReadPositioning] finds lost motion from both sides, [SetGib] the
// one setting of a gib.
//
// Putting it right: [PlanScraping] and [PlanGrinding] say what to take off,
// [Lining] what makes it good, [BeamSag] and [Beam.Overhang] what bends by its own
// weight, [WorthOfRebuild] what it is worth.
package wear

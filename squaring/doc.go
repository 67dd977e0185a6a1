// Package squaring turns readings taken on a knee mill into what the machine
// is doing, what to turn on it, and what it will leave on the work.
//
// It answers: what slope is a reading over a span; how far an indicator is to
// be believed; which way, and how surely, the spindle leans to the table; which
// reading was misread; which way and how far to turn the head, and what the
// dial will read when it is there; what the rest will leave on a face and in a
// hole.
//
// # Frame and signs
//
// The frame is that of ISO 841 for a vertical mill, fixed to the machine:
//
//	      column                     z up
//	   +----------+                  |   y to the column
//	   |          |   90 deg         |  /
//	   +----------+     |            | /
//	        rear        | azimuth    |/______ x to the right
//	          *         |  grows
//	      *   |   *     v  anticlockwise, seen from above
//	     *    |    *
//	180 *-----+-----* 0 deg          a dial reads positive when
//	     *    |    *                 its stem is pushed in: the
//	      *   |   *                  surface is higher there
//	          *
//	        front 270 deg
//	       operator
//
// Slopes are dz/dx and dz/dy: positive when the right, or the back, is high.
// The spindle's tilt (a, b) is the slope of the plane square to its axis. A
// dial carried round by the spindle sees the table against that plane, so
//
//	a sweep sees table slope minus spindle tilt.
//
// The tilt about y, seen from the front, is the side tilt; the tilt about x,
// seen from the side, is the nod. Table travel X is positive when the table has
// moved right, so that the point of the table under the spindle is u = -X.
//
// # Quantities
//
// Lengths and angles are the types of gonum.org/v1/gonum/unit, in metres and
// radians; [Slope] is rise over run. Uncertainties are standard uncertainties
// in the sense of JCGM 100:2008 (GUM), in a field beside the value.
//
// # Limits
//
// Slopes are those of a machine that is nearly square: a few milliradians.
// Where the exact form matters it is used and said. Parts are rigid, readings
// are taken with the locks as they will be in the cut, and temperature is
// constant unless a [Warming] says otherwise. A figure here never replaces the
// caution at the machine: isolate the spindle before a hand or a dial goes near
// it, support the head before its bolts are slackened, and never leave them
// short of tight to keep a reading.
//
// # Where to begin
//
// [FitSweep] for a dial swung round by the spindle, [ReadTwoDials] for a bar with
// two; [TurnHead] for what to do about the tilt, [SummariseShift] for what
// tightening does to it, [NextTry] for whether to try again; [Facing] and [Hole]
// for what it leaves on the work; [ReverseSquare] for the knee and the square;
// [FitJawRun] and [SquareBlock] for the vise and what comes out of it;
// [CalibrateIndicator] for the dial itself; [Machine] for the whole machine as a
// rigid body, and [Survey] for adjusting everything that was read together.
package squaring

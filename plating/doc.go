// Package plating answers a small plating shop's questions with numbers and
// their uncertainties: how many amps and minutes a thickness needs, how much
// metal that is and whether the scale can prove it, how large an odd part's
// surface is, what a coat does to a diameter, a bore and a thread, what the
// bath gains and loses, which steel must be baked, and what a defect points to.
//
// # Units and signs
//
// Everything inside is SI. A scalar with a dimension has a static type of
// gonum.org/v1/gonum/unit where that package has one; current density,
// density, molar mass, concentration and the electrochemical equivalent have
// their own float64 types here with constants for the shop's units. Cathode
// current, current density, charge and deposited thickness are positive when
// metal is laid down. Efficiencies and shares are fractions, not percent. A
// field or result named U, or ending in U, is a standard uncertainty (GUM, JCGM 100:2008)
// in the unit of the value beside it.
//
// # The model and its limits
//
// The mass laid down follows Faraday's law with a cathode efficiency that the
// caller states or measures by weighing. The thickness found from it is the
// mean over the stated area: corners are thicker and recesses thinner, and
// what that does is described by shares of local to mean thickness or computed
// by the field solvers of this package: [NewField] for a section of the tank,
// plane or turned, and [NewSpaceField] for the whole of it, on meshes of
// triangles. Areas are those of the bare part, so a coat that is not thin beside
// the part's radius is outside the model. Uncertainties are first order and take
// their inputs as independent unless a comment says otherwise.
//
// # Where to begin
//
// [Coat.Solve] finds any of thickness, time, current, charge and mass from the
// others. [Plan.Setting] gives amps and minutes for a wanted thickness with the
// uncertainty to expect. The shapes ([Plate], [Rod], [Tube], [Turned],
// [Hexagon], [Thread], [Spring] and others) give areas. [Run.Efficiency] weighs
// the bath's efficiency. Metals are functions ([Nickel], [Copper] and others);
// an alloy is made by [AlloyByMass] or [AlloyByMole].
//
// [PlatedSize], [CutSize] and [ThreadFit] say what a coat does to fits;
// [EfficiencyTrend] and [CompareStates] read a whole log; [Recipe] and [Bath]
// keep a bath's book; [BakeForHardness] gives the bake of hard steel and
// [Causes] ranks what may have gone wrong. [Section] describes a tank in which
// the current distribution is computed, [Panel] a test panel.
//
// # Where things are
//
//   - units.go: types and constants of units, and the checks of arguments.
//   - metal.go, faraday.go, layers.go, schedule.go, setting.go: metals, alloys
//     and Faraday's law; layers, ramps and pauses; what to set for a thickness.
//   - area.go, shapes.go, turned.go: areas of shapes and of turned profiles.
//   - mesh.go, mesh_solids.go, mesh_stl.go, mesh_check.go: triangle meshes, the
//     solids drawn as meshes, STL files, and what a mesh must be for a solve.
//   - bath.go, balance.go, titrate.go: recipes, additions, losses, analyses.
//   - kinetics.go, throwing.go, panel.go: the electrode, cells and test panels.
//   - field.go and field_*.go: current distributions on sections; boundary_*.go
//     holds their elements, integrals and equations.
//   - space.go and space_*.go: the same in three dimensions.
//   - field_linear.go: the equations of a step of Newton's method, for both.
//   - efficiency.go, weighing.go, trend.go: efficiency by weighing and over a log.
//   - growth.go, fits.go, thread_tolerance.go, service.go: growth, fits, threads
//     and the thickness that service asks for.
//   - process.go, defects.go, defect_rules.go, hydrogen.go, baking.go, safety.go:
//     order of work, causes of defects, hydrogen, bakes and limits.
//
// # Left out on purpose
//
// There is no recipe with cyanide and none with hexavalent chromium, and none
// is wanted: both kill, and both are work for licensed plants. Chromium and the
// cyanide metals stand here only as numbers where a published table needs them.
// Nothing here replaces local law, the safety data sheet or licensed practice.
package plating

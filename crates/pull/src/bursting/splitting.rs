use quantity::{Force, Length, Pressure, unit};
use working::{Evidence, Source};

use super::{Figure, whole};
use crate::published::{Method, PublishedError, range};

/// Splitting a ductile host.
pub const SPLITTING: Method = Method {
    name: "wedge that tears a plate",
    document: "Wierzbicki and Thomas, closed-form solution for wedge cutting force through thin metal sheets, 1993",
    evidence: Evidence::FromMemory,
    validity: "order of magnitude for a blade in a steel or ductile iron pipe; rolling cutters need less, couplings \
               and clamps more",
};

/// Opening of the tear's tip over the wall.
// Judgement: about 1 for ductile metal; the force goes with its fifth root.
pub const SPLITTING_TEAR: f64 = 1.0;

/// Force at a coupling or a clamp over that in plain pipe.
pub const COUPLING_FACTORS: Figure = Figure::range(
    "force at a coupling or clamp over force in plain pipe",
    (1.5, 3.0),
    unit::ONE,
    Source::new("spikes where a cutter meets a coupling", Evidence::FromMemory),
);

/// Cutting a ductile host, for [`splitting_force`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Splitting {
    /// Wall of the host.
    pub wall: Length,
    /// Flow stress of the host's metal: between yield and ultimate strength.
    pub flow_stress: Pressure,
    /// Length of the cut that one blade keeps open.
    pub cut_length: Length,
    /// Friction of blade on metal.
    pub friction: f64,
    /// Opening of the tear's tip over the wall ([`SPLITTING_TEAR`]).
    pub tear: f64,
    /// Number of blades that cut at the same time.
    pub cutters: f64,
}

/// Axial force of blades that split a ductile pipe.
///
/// ```text
/// F = n·3.28·σ₀·δ_t^0.2·l^0.4·t^1.6·μ^0.4
/// ```
/// | symbol | meaning                                   | unit | argument      |
/// |--------|-------------------------------------------|------|---------------|
/// | n      | blades that cut at the same time          | –    | `cutters`     |
/// | σ₀     | flow stress                               | Pa   | `flow_stress` |
/// | δ_t    | opening of the tear's tip over the wall   | –    | `tear`        |
/// | l      | length of the cut                         | m    | `cut_length`  |
/// | t      | wall                                      | m    | `wall`        |
/// | μ      | friction                                  | –    | `friction`    |
///
/// Valid for all greater than zero, μ up to 1, whole n. A fit to plates cut by wedges: an order of magnitude here. It
/// vanishes with the friction, which no cut does: do not put in less than about 0.1.
///
/// # Source
/// [`SPLITTING`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/splitting.toml` (computed).
pub fn splitting_force(cut: &Splitting) -> Result<Force, PublishedError> {
    let t = range::positive("wall", cut.wall.si(), unit::MM)?;
    let stress = range::positive("flow stress", cut.flow_stress.si(), unit::MPA)?;
    let l = range::positive("cut length", cut.cut_length.si(), unit::MM)?;
    let mu = range::friction("friction", cut.friction)?;
    range::positive("friction", mu, unit::ONE)?;
    let tear = range::positive("tear", cut.tear, unit::ONE)?;
    let cutters = whole("cutters", cut.cutters, 1.0)?;
    let one = 3.28 * stress * tear.powf(0.2) * l.powf(0.4) * t.powf(1.6) * mu.powf(0.4);
    range::result("splitting force", cutters * one).map(Force::newtons)
}

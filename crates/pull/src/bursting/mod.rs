//! Single formulas of pipe bursting: a new string of socketed pipes takes the place of an old pipe in its own line.
//!
//! A head with an expander is pulled through the old pipe, breaks or splits it, pushes the fragments aside and draws
//! the new string behind it. No method for the whole pull is generally accepted; the parts are given singly, so that
//! a band can be made of them. Two sums count: the rig and its wall carry everything, the joints of the string carry
//! drag and weight alone ([`burst_pull`]).
//!
//! Every part has a [`Method`](crate::published::Method) record with its source and for what it is good. Figures of
//! the trade that are no formulas are [`Figure`]s. Movement of the ground is not computed here.

pub use self::breaking::{
    BREAKING, CONTACT_LENGTH, CONTACT_LENGTHS, HOST_STRENGTHS, breaking_force,
};
pub use self::cavity::{
    CAVITY_CLAY, CAVITY_SAND, ExpansionGoverns, ExpansionPressure, SHALLOW_CAP, UPLIFT_DENSE,
    UPLIFT_LOOSE, cavity_clay, cavity_sand, expansion_pressure, shallow_cap,
};
pub use self::clearance::{
    BurstClearance, CLEARANCE_PRACTICE, DISTANCES, TEN_TIMES, burst_clearance, ten_times_rule,
};
pub use self::cone::{CONE, cone_force};
pub use self::difficulty::{
    DEPTH_LIMITS, DIFFICULTY, Difficulty, DifficultyClass, DifficultyClasses, DifficultyEdition,
    HOST_LIMITS, Soil, difficulty,
};
pub use self::drag::{
    DRAG_PRISM, DRAG_SOCKETS, DragModel, FRICTIONS, SocketDrag, SocketedString, barrel_drag,
    drag_prism, drag_sockets, mean_radial_stress, prism_stress,
};
pub use self::figure::Figure;
pub use self::guide::{DRAG_GUIDE, GuideDrag, NearStep, drag_guide, drag_guide_rounded};
pub use self::lubricant::{LOSS_RATIOS, LUBRICANT, Lubricant, lubricant};
pub use self::pit::{
    MACHINE_PITS, PIPE_PIT, PIT_ALLOWANCES, PLASTIC_PIT, PlasticPit, RAMP_PIT, RampPit, pipe_pit,
    pit_width, plastic_pit, ramp_pit,
};
pub use self::practice::{
    EXPANSIONS, PLASTIC_PULL_LIMITS, RATES, RIG_PULLS, RUN_LENGTHS, VIBRATION_LIMITS,
};
pub use self::pull::{
    BURST_PULL, BurstFactors, BurstParts, BurstPull, CURVE, RESTART_FACTORS, StringWeight,
    burst_pull, curve_factor, string_weight,
};
pub use self::silo::{DRAG_SILO, SiloDrag, SiloGround, drag_silo, silo_stress};
pub use self::size::{
    EXPANDER, GROUND_VOLUME, closing_volume, displaced_volume, expander_diameter,
    expansion_measure, overcut, residual_volume, usual_clearance,
};
pub use self::splitting::{
    COUPLING_FACTORS, SPLITTING, SPLITTING_TEAR, Splitting, splitting_force,
};
pub use self::time::{PIPE_BY_PIPE, PipeByPipe, PullingTime, pulling_time};
pub use self::upsize::{
    EQUIVALENT_SIZE, PlasticSeries, PlasticSize, equivalent_plastic_size, sizes_up, upsize_class,
};
pub use self::wall::{
    MOBILISATION, Plate, REACTION_WALL, SPREAD_FACTORS, WALL_SAFETY, WALL_SAFETY_WET, WallOpening,
    WallResistance, WallSoil, passive_wedge, reaction_wall, reaction_wall_with_opening,
};

mod breaking;
mod cavity;
mod clearance;
mod cone;
mod difficulty;
mod drag;
mod figure;
mod guide;
mod lubricant;
mod pit;
mod practice;
mod pull;
mod silo;
mod size;
mod splitting;
#[cfg(test)]
mod tests;
mod time;
mod upsize;
mod wall;

use std::f64::consts::FRAC_PI_2;

use quantity::{Angle, Length, unit};

use crate::published::{PublishedError, range};

/// An angle between 0 and 90°, neither included, in radians.
fn acute(quantity: &'static str, angle: Angle) -> Result<f64, PublishedError> {
    range::between(quantity, angle.si(), (0.0, FRAC_PI_2), unit::DEG)
}

/// Diameters of expander and host, m: the expander is not smaller than the host's bore.
fn expander_and_host(expander: Length, host_inside: Length) -> Result<(f64, f64), PublishedError> {
    let host = range::positive("host inside diameter", host_inside.si(), unit::MM)?;
    let expander = range::at_least("expander diameter", expander.si(), host, unit::MM)?;
    Ok((expander, host))
}

/// A count: a whole number from `least` to a million.
fn whole(quantity: &'static str, count: f64, least: f64) -> Result<f64, PublishedError> {
    let count = range::within(quantity, count, (least, 1e6), unit::ONE)?;
    if count.fract() == 0.0 {
        Ok(count)
    } else {
        Err(PublishedError::OutOfRange {
            quantity,
            found: count.to_string(),
            allowed: "a whole number".to_owned(),
        })
    }
}

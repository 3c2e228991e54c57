//! Strength, stiffness, stress and movement of the ground.

use std::f64::consts::FRAC_PI_3;

use quantity::unit;
use working::{Evidence, Source};

use crate::definition::{Input, Range, Worksheet};
use crate::run::{Failure, Values};

mod cpt;
mod heave;
mod modulus;
mod movement;
mod spt;
mod stress;

/// Worksheets of this topic.
pub(crate) static SHEETS: &[&Worksheet] = &[
    &spt::SPT_N60,
    &spt::SPT_OVERBURDEN,
    &spt::SPT_RELATIVE_DENSITY,
    &spt::SPT_FRICTION_ANGLE,
    &spt::SPT_UNDRAINED_STRENGTH,
    &modulus::SPT_MODULUS,
    &cpt::CPT_FRICTION_ANGLE,
    &cpt::CPT_UNDRAINED_STRENGTH,
    &cpt::CPT_WAVE_SPEED,
    &modulus::SMALL_STRAIN_MODULUS,
    &modulus::SHEAR_MODULUS,
    &stress::K0,
    &stress::K0_CPT,
    &stress::MEAN_STRESS,
    &heave::GROUND_HEAVE,
    &heave::BURIED_DISPLACEMENT,
    &movement::NEAR_DISPLACEMENT,
    &movement::DISPLACEMENT_ALONG_PULL,
    &movement::TRENCH_HEAVE,
    &movement::ANNULUS_CLOSURE,
    &movement::SETTLEMENT_TROUGH,
];

const KULHAWY: Source =
    Source::new("Kulhawy & Mayne 1990, through an open geotechnical library", Evidence::Published);
/// p_a is part of every formula that uses it.
const REFERENCE: Source =
    Source::new("reference pressure of the open geotechnical library", Evidence::Published);

/// A stress in a formula that has no value at the surface. 1 kPa is 5 cm of ground: a bare number meant in kPa is told.
const STRESS: Range = Range::Within(1e3, 1e8);
/// A stress that is zero at the surface.
const STRESS_OR_NONE: Range = Range::Within(0.0, 1e8);
/// A resistance of a cone: a bare number meant in MPa is told.
const RESISTANCE: Range = Range::Within(1e3, 200e6);
/// A modulus: a bare number meant in MPa is told.
const MODULUS: Range = Range::Within(1e4, 1e11);
/// A depth of an axis: deeper than a centimetre, less deep than a kilometre.
const DEPTH: Range = Range::Within(0.01, 1000.0);
/// A distance to either side or along the bore.
const ASIDE: Range = Range::Within(-1e6, 1e6);
/// A volume per length gained, or lost.
const VOLUME: Range = Range::Within(-100.0, 100.0);
/// A volume per length without sign.
const VOLUME_OR_NONE: Range = Range::Within(0.0, 100.0);

const TIP: Input = Input::quantity(
    "tip_resistance",
    "q_t",
    "tip resistance, corrected for pore pressure",
    unit::MPA,
    RESISTANCE,
);
const EFFECTIVE: Input =
    Input::quantity("effective_vertical", "s_v", "effective vertical stress", unit::KPA, STRESS);
const TOTAL: Input =
    Input::quantity("total_vertical", "s_t", "total vertical stress", unit::KPA, STRESS_OR_NONE);
const FRICTION_ANGLE: Input = Input::quantity(
    "friction_angle",
    "phi",
    "effective friction angle, at the critical state",
    unit::DEG,
    Range::Within(0.0, FRAC_PI_3),
);
const AXIS_DEPTH: Input =
    Input::quantity("axis_depth", "h", "depth of the axis below the surface", unit::M, DEPTH);
const OFFSET: Input =
    Input::quantity("offset", "x", "offset from the axis to either side", unit::M, ASIDE);

/// A volume per length, with a meaning of its own.
const fn volume(meaning: &'static str, range: Range) -> Input {
    Input::quantity("volume_per_length", "V", meaning, unit::M3_PER_M, range)
}

/// Refuses inputs that the chosen combination does not use: a reader would take them to count.
fn unused(v: &Values, keys: &[&'static str], by: &str) -> Result<(), Failure> {
    match keys.iter().find(|key| v.optional(key).is_some()) {
        Some(key) => Err(Failure::at(key, format!("is not used by {by}: leave it out"))),
        None => Ok(()),
    }
}

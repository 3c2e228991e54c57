//! Refusal of arguments out of range. Every range has an end, so that no result overflows.

use quantity::{Unit, show, unit};

use crate::GroundError;

/// Refuses a value that is not finite or for which `holds` is false.
pub(crate) fn within(
    quantity: &'static str,
    si: f64,
    unit: Unit,
    holds: bool,
    allowed: &'static str,
) -> Result<f64, GroundError> {
    if si.is_finite() && holds {
        Ok(si)
    } else {
        Err(GroundError::OutOfRange { quantity, found: show(si, unit), allowed })
    }
}

/// A stress, strength or modulus.
///
/// Judgement: 1 Pa is the weight of a tenth of a millimetre of ground and 1000 GPa beyond any ground;
/// the ends catch a slip of the unit and keep powers of the value finite.
pub(crate) fn stress(quantity: &'static str, si: f64) -> Result<f64, GroundError> {
    within(quantity, si, unit::KPA, (1.0..=1e12).contains(&si), "1 Pa to 1000 GPa")
}

/// A stress that is zero at the ground surface.
pub(crate) fn overburden(quantity: &'static str, si: f64) -> Result<f64, GroundError> {
    within(quantity, si, unit::KPA, (0.0..=1e12).contains(&si), "0 to 1000 GPa")
}

/// Poisson's ratio of ground that may keep its volume.
pub(crate) fn poisson(si: f64) -> Result<f64, GroundError> {
    within("Poisson's ratio", si, unit::ONE, (0.0..=0.5).contains(&si), "0 to 0.5")
}

/// Effective angle of friction.
///
/// Judgement: no soil is steeper than 60 deg, and `1 - sin` stays well away from zero.
pub(crate) fn friction_angle(si: f64) -> Result<f64, GroundError> {
    let holds = si >= 0.0 && si <= 60f64.to_radians() * (1.0 + f64::EPSILON);
    within("friction angle", si, unit::DEG, holds, "0 deg to 60 deg")
}

/// Overconsolidation ratio.
///
/// Judgement: more than 100 is a slip of the unit.
pub(crate) fn overconsolidation(ratio: f64) -> Result<f64, GroundError> {
    let holds = (1.0..=100.0).contains(&ratio);
    within("overconsolidation ratio", ratio, unit::ONE, holds, "1 to 100")
}

/// Depth of an axis below the surface.
///
/// Judgement: a bore lies deeper than a centimetre and less deep than a kilometre.
pub(crate) fn axis_depth(si: f64) -> Result<f64, GroundError> {
    within("axis depth", si, unit::M, (0.01..=1000.0).contains(&si), "0.01 m to 1000 m")
}

/// A distance to either side, or along the bore.
///
/// Judgement: more than 1000 km is a slip; squares of it stay finite.
pub(crate) fn distance(quantity: &'static str, si: f64) -> Result<f64, GroundError> {
    within(quantity, si, unit::M, si.abs() <= 1e6, "-1000 km to 1000 km")
}

/// A volume per length that ground gains (positive) or loses.
///
/// Judgement: 100 m3/m is a cavity 11 m wide.
pub(crate) fn volume(si: f64) -> Result<f64, GroundError> {
    let holds = si.abs() <= 100.0;
    within("volume per length", si, unit::M3_PER_M, holds, "-100 m3/m to 100 m3/m")
}

/// A volume per length that has no sign.
pub(crate) fn unsigned_volume(si: f64) -> Result<f64, GroundError> {
    let holds = (0.0..=100.0).contains(&si);
    within("volume per length", si, unit::M3_PER_M, holds, "0 to 100 m3/m")
}

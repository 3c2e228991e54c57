//! The one place where inputs are held against their range; nothing is clamped.

use quantity::{Unit, show, unit};

use super::PublishedError;

/// Largest friction coefficient that the methods accept.
// Judgement: soil on iron stays below 0.7 in every source; above 1 a value is a misprint or in percent.
pub(super) const FRICTION_MAX: f64 = 1.0;

fn refuse(quantity: &'static str, si: f64, unit: Unit, allowed: String) -> PublishedError {
    PublishedError::OutOfRange { quantity, found: show(si, unit), allowed }
}

pub(crate) fn any(quantity: &'static str, si: f64, unit: Unit) -> Result<f64, PublishedError> {
    if si.is_finite() { Ok(si) } else { Err(refuse(quantity, si, unit, "finite".to_owned())) }
}

pub(crate) fn positive(quantity: &'static str, si: f64, unit: Unit) -> Result<f64, PublishedError> {
    if si > 0.0 && si.is_finite() {
        Ok(si)
    } else {
        Err(refuse(quantity, si, unit, "greater than 0 and finite".to_owned()))
    }
}

pub(crate) fn not_negative(
    quantity: &'static str,
    si: f64,
    unit: Unit,
) -> Result<f64, PublishedError> {
    if si >= 0.0 && si.is_finite() {
        Ok(si)
    } else {
        Err(refuse(quantity, si, unit, "0 or greater and finite".to_owned()))
    }
}

/// Both ends allowed.
pub(crate) fn within(
    quantity: &'static str,
    si: f64,
    (low, high): (f64, f64),
    unit: Unit,
) -> Result<f64, PublishedError> {
    if (low..=high).contains(&si) {
        Ok(si)
    } else {
        Err(refuse(quantity, si, unit, format!("{} to {}", show(low, unit), show(high, unit))))
    }
}

/// The end allowed, open upwards.
pub(crate) fn at_least(
    quantity: &'static str,
    si: f64,
    low: f64,
    unit: Unit,
) -> Result<f64, PublishedError> {
    if si >= low && si.is_finite() {
        Ok(si)
    } else {
        Err(refuse(quantity, si, unit, format!("at least {}", show(low, unit))))
    }
}

/// The end not allowed, open upwards.
pub(crate) fn above(
    quantity: &'static str,
    si: f64,
    low: f64,
    unit: Unit,
) -> Result<f64, PublishedError> {
    if si > low && si.is_finite() {
        Ok(si)
    } else {
        Err(refuse(quantity, si, unit, format!("greater than {}", show(low, unit))))
    }
}

/// Neither end allowed.
pub(crate) fn between(
    quantity: &'static str,
    si: f64,
    (low, high): (f64, f64),
    unit: Unit,
) -> Result<f64, PublishedError> {
    if si > low && si < high {
        Ok(si)
    } else {
        let allowed =
            format!("greater than {} and less than {}", show(low, unit), show(high, unit));
        Err(refuse(quantity, si, unit, allowed))
    }
}

pub(crate) fn friction(quantity: &'static str, value: f64) -> Result<f64, PublishedError> {
    within(quantity, value, (0.0, FRICTION_MAX), unit::ONE)
}

/// Wall of a pipe: more than nothing and less than half the diameter.
pub(crate) fn wall(wall: f64, outside_diameter: f64) -> Result<f64, PublishedError> {
    between("wall", wall, (0.0, outside_diameter / 2.0), unit::MM)
}

/// A result, which must be finite before it leaves.
pub(crate) fn result(quantity: &'static str, si: f64) -> Result<f64, PublishedError> {
    if si.is_finite() { Ok(si) } else { Err(PublishedError::NotFinite { quantity }) }
}

use quantity::{Length, Unit, show, unit};

/// Why a calculation of this crate refuses its inputs.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FluidError {
    /// A value lies outside what is possible or outside the range of the formula.
    #[error("{quantity} must be {allowed}, but was {found}")]
    OutOfRange {
        /// Name of the quantity.
        quantity: &'static str,
        /// What was found, with its unit.
        found: String,
        /// What is allowed.
        allowed: String,
    },
    /// A search found no solution, or a result has no finite value.
    #[error("{what} did not converge: {why}")]
    NotConverged {
        /// What was sought.
        what: &'static str,
        /// Why it was not found.
        why: String,
    },
    /// Dial readings from which a model of the fluid cannot be made.
    #[error("the readings give no {model} fluid: {why}")]
    Unreadable {
        /// Word of the model.
        model: &'static str,
        /// Which reading is missing or impossible.
        why: String,
    },
}

impl FluidError {
    /// Stable code of the error.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            FluidError::OutOfRange { .. } => "out_of_range",
            FluidError::NotConverged { .. } => "not_converged",
            FluidError::Unreadable { .. } => "unreadable_readings",
        }
    }

    /// Name of the quantity at fault, where one is.
    #[must_use]
    pub const fn quantity(&self) -> Option<&'static str> {
        match self {
            FluidError::OutOfRange { quantity, .. } => Some(quantity),
            FluidError::NotConverged { .. } | FluidError::Unreadable { .. } => None,
        }
    }
}

/// Refuses a value that is not finite or for which `holds` is false.
pub(crate) fn within(
    quantity: &'static str,
    si: f64,
    unit: Unit,
    holds: bool,
    allowed: impl FnOnce() -> String,
) -> Result<f64, FluidError> {
    if si.is_finite() && holds {
        Ok(si)
    } else {
        Err(FluidError::OutOfRange { quantity, found: show(si, unit), allowed: allowed() })
    }
}

/// Refuses a value that is not a finite number greater than zero.
pub(crate) fn positive(quantity: &'static str, si: f64, unit: Unit) -> Result<f64, FluidError> {
    within(quantity, si, unit, si > 0.0, || "greater than 0".to_owned())
}

/// Refuses a value that is not a finite number of at least zero.
pub(crate) fn not_negative(quantity: &'static str, si: f64, unit: Unit) -> Result<f64, FluidError> {
    within(quantity, si, unit, si >= 0.0, || "0 or greater".to_owned())
}

/// Refuses a value that is not a finite number.
pub(crate) fn any(quantity: &'static str, si: f64, unit: Unit) -> Result<f64, FluidError> {
    within(quantity, si, unit, true, || "a finite number".to_owned())
}

/// Refuses a value outside `from` to `to`.
pub(crate) fn between(
    quantity: &'static str,
    si: f64,
    unit: Unit,
    from: f64,
    to: f64,
) -> Result<f64, FluidError> {
    within(quantity, si, unit, (from..=to).contains(&si), || {
        format!("{} to {}", show(from, unit), show(to, unit))
    })
}

/// Refuses diameters that leave no annulus; returns hole and string in metres.
pub(crate) fn annulus(hole: Length, string: Length) -> Result<(f64, f64), FluidError> {
    let inner = positive("string diameter", string.si(), unit::MM)?;
    let outer = within("hole diameter", hole.si(), unit::MM, hole.si() > inner, || {
        format!("greater than the string diameter ({})", show(inner, unit::MM))
    })?;
    Ok((outer, inner))
}

/// A result that must be finite: inputs near the ends of the number range can overflow.
pub(crate) fn finite(what: &'static str, si: f64) -> Result<f64, FluidError> {
    if si.is_finite() {
        Ok(si)
    } else {
        let why = "the result has no finite value for these inputs".to_owned();
        Err(FluidError::NotConverged { what, why })
    }
}

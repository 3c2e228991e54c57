use quantity::{Unit, show};

/// Why a calculation of this crate refuses its inputs.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ServiceError {
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
    /// The pipe bears less than the load at any cover.
    #[error(
        "no cover possible: the pipe bears {bears}, the least load of earth and truck is {least} ({at})"
    )]
    NoCover {
        /// What the pipe bears.
        bears: String,
        /// Least load at any cover of the method's range.
        least: String,
        /// Cover of the least load.
        at: String,
    },
    /// A size, class or wall that the pipe crate refuses.
    #[error(transparent)]
    Pipe(#[from] pipe::PipeError),
    /// An iteration found no solution.
    #[error("{what} did not converge: {why}")]
    NotConverged {
        /// What was sought.
        what: &'static str,
        /// Why it was not found.
        why: String,
    },
}

impl ServiceError {
    /// Stable code of the error.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            ServiceError::OutOfRange { .. } => "out_of_range",
            ServiceError::NoCover { .. } => "no_cover",
            ServiceError::Pipe(e) => e.code(),
            ServiceError::NotConverged { .. } => "not_converged",
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
) -> Result<f64, ServiceError> {
    if si.is_finite() && holds {
        Ok(si)
    } else {
        Err(ServiceError::OutOfRange { quantity, found: show(si, unit), allowed: allowed() })
    }
}

/// Refuses a value that is not a finite number greater than zero.
pub(crate) fn positive(quantity: &'static str, si: f64, unit: Unit) -> Result<f64, ServiceError> {
    within(quantity, si, unit, si > 0.0, || "greater than 0".to_owned())
}

/// Refuses a value that is not a finite number of at least zero.
pub(crate) fn not_negative(
    quantity: &'static str,
    si: f64,
    unit: Unit,
) -> Result<f64, ServiceError> {
    within(quantity, si, unit, si >= 0.0, || "0 or greater".to_owned())
}

/// Refuses a value outside `from` to `to`.
pub(crate) fn between(
    quantity: &'static str,
    si: f64,
    unit: Unit,
    from: f64,
    to: f64,
) -> Result<f64, ServiceError> {
    within(quantity, si, unit, (from..=to).contains(&si), || {
        format!("{} to {}", show(from, unit), show(to, unit))
    })
}

/// Refuses a diameter and wall that make no ring; returns both in metres.
pub(crate) fn ring(
    diameter_name: &'static str,
    diameter: f64,
    wall: f64,
) -> Result<(f64, f64), ServiceError> {
    let d = positive(diameter_name, diameter, quantity::unit::MM)?;
    let e = positive("wall", wall, quantity::unit::MM)?;
    within("wall", e, quantity::unit::MM, e < d / 2.0, || {
        format!("less than half the {diameter_name} ({})", show(d / 2.0, quantity::unit::MM))
    })?;
    Ok((d, e))
}

/// A result that must be finite: inputs near the ends of the number range can overflow.
pub(crate) fn finite(what: &'static str, si: f64) -> Result<f64, ServiceError> {
    if si.is_finite() {
        Ok(si)
    } else {
        let why = "the result has no finite value for these inputs".to_owned();
        Err(ServiceError::NotConverged { what, why })
    }
}

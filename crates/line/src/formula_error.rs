use quantity::{Unit, show};

/// Why a single formula has no value for its inputs.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FormulaError {
    /// An input lies outside the range of the formula.
    #[error("{quantity} must be {allowed}, but was {found}")]
    OutOfRange {
        /// The input.
        quantity: &'static str,
        /// Its value, with its unit.
        found: String,
        /// The range.
        allowed: String,
    },
}

impl FormulaError {
    /// Stable code of the error.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            FormulaError::OutOfRange { .. } => "out_of_range",
        }
    }

    /// The input at fault.
    #[must_use]
    pub const fn quantity(&self) -> &'static str {
        match self {
            FormulaError::OutOfRange { quantity, .. } => quantity,
        }
    }
}

/// An error unless `holds`; NaN never holds because every range is a comparison.
pub(crate) fn require(
    holds: bool,
    quantity: &'static str,
    si: f64,
    unit: Unit,
    allowed: impl Into<String>,
) -> Result<(), FormulaError> {
    if holds {
        return Ok(());
    }
    let (found, allowed) = (show(si, unit), allowed.into());
    Err(FormulaError::OutOfRange { quantity, found, allowed })
}

/// A finite value greater than zero.
pub(crate) fn positive(quantity: &'static str, si: f64, unit: Unit) -> Result<f64, FormulaError> {
    require(si > 0.0 && si.is_finite(), quantity, si, unit, "greater than 0")?;
    Ok(si)
}

/// A finite value of zero or more.
pub(crate) fn not_negative(
    quantity: &'static str,
    si: f64,
    unit: Unit,
) -> Result<f64, FormulaError> {
    require(si >= 0.0 && si.is_finite(), quantity, si, unit, "0 or greater")?;
    Ok(si)
}

/// Why a pipe, a joint or a rating cannot be had from what was asked.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PipeError {
    /// The standard has no such size.
    #[error("{standard} has no size {found}; allowed: {allowed}")]
    UnknownSize {
        /// The standard.
        standard: &'static str,
        /// What was asked for.
        found: String,
        /// The sizes there are.
        allowed: String,
    },
    /// The standard has no such class for the size.
    #[error("{standard} {size} has no class \"{found}\"; allowed: {allowed}")]
    UnknownClass {
        /// The standard.
        standard: &'static str,
        /// The size.
        size: String,
        /// What was asked for.
        found: String,
        /// The classes there are.
        allowed: String,
    },
    /// A value lies outside what is physically or geometrically possible.
    #[error("{quantity} must be {allowed}, but was {found}")]
    OutOfRange {
        /// Name of the quantity.
        quantity: &'static str,
        /// What was found, with its unit.
        found: String,
        /// What is allowed.
        allowed: String,
    },
    /// An embedded table cannot be read; a test of this crate reads them all, so a release never
    /// returns it.
    #[error("embedded table {table}, line {line}: {what}")]
    Table {
        /// File name of the table.
        table: &'static str,
        /// Line of the file.
        line: u64,
        /// What is wrong.
        what: String,
    },
}

impl PipeError {
    /// Stable code of the error.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            PipeError::UnknownSize { .. } => "unknown_size",
            PipeError::UnknownClass { .. } => "unknown_class",
            PipeError::OutOfRange { .. } => "out_of_range",
            PipeError::Table { .. } => "embedded_table",
        }
    }
}

/// Refuses a value that is not a finite number greater than zero.
pub(crate) fn positive(
    quantity: &'static str,
    si: f64,
    unit: quantity::Unit,
) -> Result<f64, PipeError> {
    within(quantity, si, unit, si.is_finite() && si > 0.0, || "greater than 0".to_owned())
}

/// Refuses a value that is not a finite number of at least zero.
pub(crate) fn not_negative(
    quantity: &'static str,
    si: f64,
    unit: quantity::Unit,
) -> Result<f64, PipeError> {
    within(quantity, si, unit, si.is_finite() && si >= 0.0, || "0 or greater".to_owned())
}

/// Refuses a value for which `holds` is false, naming what is allowed.
pub(crate) fn within(
    quantity: &'static str,
    si: f64,
    unit: quantity::Unit,
    holds: bool,
    allowed: impl FnOnce() -> String,
) -> Result<f64, PipeError> {
    if holds && si.is_finite() {
        Ok(si)
    } else {
        let found = quantity::show(si, unit);
        Err(PipeError::OutOfRange { quantity, found, allowed: allowed() })
    }
}

/// A result that must be finite: inputs near the ends of the number range can overflow.
pub(crate) fn finite(
    quantity: &'static str,
    si: f64,
    unit: quantity::Unit,
) -> Result<f64, PipeError> {
    within(quantity, si, unit, true, || "finite".to_owned())
}

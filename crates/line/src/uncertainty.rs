use quantity::{Angle, Length, unit};

use crate::FormulaError;
use crate::formula_error::not_negative;

/// Standard deviations of a survey's parts.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SurveyAccuracy {
    /// Lateral position of the entry point.
    pub entry_lateral: Length,
    /// Level of the entry point.
    pub entry_vertical: Length,
    /// Azimuth, the same error all along the bore.
    pub azimuth: Angle,
    /// Inclination, the same error all along the bore.
    pub inclination: Angle,
    /// Direction of a single reading, by chance and new at every station.
    pub reading: Angle,
    /// Distance between stations.
    pub spacing: Length,
}

/// Standard deviation of a bore's position.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PositionUncertainty {
    /// Sideways.
    pub lateral: Length,
    /// Up and down.
    pub vertical: Length,
}

/// Standard deviation of the bore's position at a measured distance, a minimum model.
///
/// ```text
/// σ_L² = σ_entry² + (s σ_A)² + s Δ σ_r²,      σ_V² likewise with the entry level and σ_P
/// ```
/// | symbol | meaning                                             | unit | argument   |
/// |--------|-----------------------------------------------------|------|------------|
/// | s      | measured distance                                   | m    | `md`       |
/// | σ_A, σ_P | systematic errors of azimuth and inclination      | rad  | `accuracy` |
/// | σ_r, Δ | error of a single reading, distance between readings | rad, m | `accuracy` |
///
/// The systematic part grows with the distance and does not average out: sensor bias, misalignment
/// and declination are the same at every station. Readings by chance add s/Δ independent offsets of
/// Δ σ_r each. Valid for small angles and for a bore whose plan is nearly straight.
///
/// # Source
/// Propagation of errors, derived. Deviation: none; a survey tool's full model has more terms.
/// # Errors
/// [`FormulaError::OutOfRange`] for a negative value.
/// # Checked by
/// `cases/survey/position-uncertainty.toml`.
pub fn position_uncertainty(
    md: Length,
    accuracy: &SurveyAccuracy,
) -> Result<PositionUncertainty, FormulaError> {
    let s = not_negative("measured distance", md.si(), unit::M)?;
    let lateral = not_negative("entry, lateral", accuracy.entry_lateral.si(), unit::M)?;
    let vertical = not_negative("entry, vertical", accuracy.entry_vertical.si(), unit::M)?;
    let azimuth = not_negative("azimuth error", accuracy.azimuth.si(), unit::DEG)?;
    let inclination = not_negative("inclination error", accuracy.inclination.si(), unit::DEG)?;
    let reading = not_negative("error of a reading", accuracy.reading.si(), unit::DEG)?;
    let spacing = not_negative("distance between stations", accuracy.spacing.si(), unit::M)?;
    let chance = reading * (s * spacing).sqrt();
    let sigma =
        |entry: f64, systematic: f64| Length::from_si(entry.hypot(s * systematic).hypot(chance));
    Ok(PositionUncertainty {
        lateral: sigma(lateral, azimuth),
        vertical: sigma(vertical, inclination),
    })
}

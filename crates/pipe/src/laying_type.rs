use quantity::{Angle, Pressure};
use working::{Evidence, Source};

use crate::PipeError;
use crate::data::data;

/// A laying condition of AWWA C150: how the trench supports the pipe.
#[derive(Debug, Clone, PartialEq)]
pub struct LayingType {
    /// Number, 1 to 5.
    pub number: u32,
    /// Modulus of soil reaction E′.
    pub soil_modulus: Pressure,
    /// Width of the bedding as an angle at the pipe's axis.
    pub bedding_angle: Angle,
    /// Coefficient of the bending moment, K_b.
    pub moment_coefficient: f64,
    /// Coefficient of the deflection, K_x.
    pub deflection_coefficient: f64,
    /// The trench in words.
    pub trench: &'static str,
    /// Where the numbers come from.
    pub source: Source,
}

/// Laying condition 1 to 5 of AWWA C150.
///
/// # Source
/// From memory, confirmed by reproducing the published table of maximum cover
/// (`cases/service/c150-maximum-cover.toml`).
/// # Errors
/// [`PipeError::OutOfRange`] for another number.
pub fn laying_type(number: u32) -> Result<LayingType, PipeError> {
    let row = data()?.laying.iter().find(|r| r.number == number).ok_or_else(|| {
        PipeError::OutOfRange {
            quantity: "laying type",
            found: number.to_string(),
            allowed: "1, 2, 3, 4 or 5".to_owned(),
        }
    })?;
    Ok(LayingType {
        number,
        soil_modulus: Pressure::psi(row.soil_modulus_psi),
        bedding_angle: Angle::degrees(row.bedding_angle_deg),
        moment_coefficient: row.moment,
        deflection_coefficient: row.deflection,
        trench: &row.trench,
        source: Source::new(
            "AWWA C150 laying conditions, confirmed by reproducing the published cover table",
            Evidence::FromMemory,
        ),
    })
}

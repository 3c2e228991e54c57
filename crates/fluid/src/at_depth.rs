use quantity::{Density, GRAVITY, Length, Pressure, UnitWeight, unit};

use crate::FluidError;
use crate::error::{finite, not_negative, positive};

/// Pressure of the fluid in the bore at a place: column to the outlet and friction on the way.
///
/// ```text
/// p = ρ g h + (dp/dL) s
/// ```
/// | symbol | meaning                                                  | unit  | argument   |
/// |--------|----------------------------------------------------------|-------|------------|
/// | ρ      | density of the returns, with cuttings                    | kg/m³ | `density`  |
/// | h      | depth of the place below the pit where returns flow out  | m     | `depth`    |
/// | dp/dL  | loss per length on the way to that pit                   | Pa/m  | `gradient` |
/// | s      | length along the bore to that pit                        | m     | `distance` |
///
/// Gauge pressure. The pit that counts is the one where returns come out; with pits at two levels
/// it is the lower one.
///
/// # Source
/// Hydrostatics and the definition of the loss, exact.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/pressure-at-depth.toml` (derived).
pub fn pressure_at_depth(
    density: Density,
    depth: Length,
    gradient: UnitWeight,
    distance: Length,
) -> Result<Pressure, FluidError> {
    let rho = positive("density", density.si(), unit::KG_PER_M3)?;
    let h = not_negative("depth", depth.si(), unit::M)?;
    let loss = not_negative("pressure gradient", gradient.si(), unit::PA_PER_M)?;
    let s = not_negative("distance", distance.si(), unit::M)?;
    finite("pressure", rho * GRAVITY * h + loss * s).map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_metres_of_water_and_no_flow_are_about_one_bar() {
        let depth = Length::metres(10.0);
        let p = pressure_at_depth(Density::from_si(1000.0), depth, UnitWeight::ZERO, depth);
        assert!((p.unwrap().si() - 98_066.5).abs() < 1e-6);
        let loss = UnitWeight::from_si(-1.0);
        assert!(pressure_at_depth(Density::from_si(1000.0), depth, loss, depth).is_err());
    }
}

use quantity::{Density, GRAVITY, Length, Pressure, unit};

use crate::ServiceError;
use crate::error::{finite, not_negative, positive};

/// Pressure at the foot of a column of fluid at rest, `p = ρ g h`.
///
/// Drilling fluid outside an empty string, the ballast head inside it, the siphon of a deep crossing
/// in the pressure test: 15 m of sag add about 1.5 bar at the bottom.
///
/// | symbol | meaning                    | unit  | argument  |
/// |--------|----------------------------|-------|-----------|
/// | ρ      | density of the fluid       | kg/m³ | `density` |
/// | h      | height of the column       | m     | `height`  |
///
/// # Source
/// Hydrostatics, exact.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/fluid-column.toml` (computed).
pub fn column_pressure(density: Density, height: Length) -> Result<Pressure, ServiceError> {
    let rho = positive("density", density.si(), unit::KG_PER_M3)?;
    let h = not_negative("height", height.si(), unit::M)?;
    finite("pressure", rho * GRAVITY * h).map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_metres_of_water_are_about_one_bar() {
        let p = column_pressure(Density::from_si(1000.0), Length::metres(10.0)).expect("valid");
        assert!((p.si() - 98_066.5).abs() < 1e-6);
        assert!(column_pressure(Density::from_si(0.0), Length::metres(10.0)).is_err());
    }
}

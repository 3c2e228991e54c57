use quantity::{Length, Pressure, UnitWeight, unit};

use crate::FluidError;
use crate::error::{annulus, finite, not_negative, positive};

/// Pressure per length that breaks the gel in an annulus, `4 τ_g / (D₂ − D₁)`.
///
/// | symbol | meaning                            | unit | argument          |
/// |--------|------------------------------------|------|-------------------|
/// | τ_g    | gel strength after the stop        | Pa   | `gel_strength`    |
/// | D₂     | diameter of the hole               | m    | `hole_diameter`   |
/// | D₁     | outside diameter of rods or string | m    | `string_diameter` |
///
/// The whole gel must yield at once; pumps started slowly while the rods turn need less.
///
/// # Source
/// Balance of forces, exact; a drilling-calculation page on break-circulation pressure prints it
/// in field units.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/restart-pressure-page.toml` (published), `restart-pressure.toml` (derived).
pub fn restart_gradient(
    gel_strength: Pressure,
    hole_diameter: Length,
    string_diameter: Length,
) -> Result<UnitWeight, FluidError> {
    let tau = not_negative("gel strength", gel_strength.si(), unit::PA)?;
    let (outer, inner) = annulus(hole_diameter, string_diameter)?;
    finite("restart gradient", 4.0 * tau / (outer - inner)).map(UnitWeight::from_si)
}

/// Pressure per length that breaks the gel inside rods, `4 τ_g / d`.
///
/// Symbols as in [`restart_gradient`]; d is the bore of the rods.
///
/// # Source
/// Balance of forces, exact.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/restart-pressure-rods.toml` (derived).
pub fn restart_gradient_in_pipe(
    gel_strength: Pressure,
    inside_diameter: Length,
) -> Result<UnitWeight, FluidError> {
    let tau = not_negative("gel strength", gel_strength.si(), unit::PA)?;
    let d = positive("inside diameter", inside_diameter.si(), unit::MM)?;
    finite("restart gradient", 4.0 * tau / d).map(UnitWeight::from_si)
}

#[cfg(test)]
mod tests {
    use quantity::Flow;

    use super::*;
    use crate::{Rheology, annulus_loss};

    #[test]
    fn a_gel_as_strong_as_the_yield_stress_breaks_where_flow_begins() {
        let (hole, string) = (Length::millimetres(165.0), Length::millimetres(89.0));
        let tau = Pressure::pascals(9.58);
        let fluid = Rheology::new(tau, 0.3, 0.6).unwrap();
        let start = annulus_loss(&fluid, hole, string, Flow::ZERO).unwrap();
        assert_eq!(restart_gradient(tau, hole, string).unwrap(), start.gradient);
        assert!(restart_gradient(tau, string, hole).is_err());
        assert!(restart_gradient_in_pipe(tau, Length::ZERO).is_err());
    }
}

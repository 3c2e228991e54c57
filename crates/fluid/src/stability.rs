use quantity::{Angle, Length, Pressure, unit};

use crate::FluidError;
use crate::error::{any, between, finite, not_negative, positive};
use crate::limit::MOST_FRICTION_DEGREES;

/// Overload of a bore in clay, `N = (σ₀ − p)/s_u`.
///
/// | symbol | meaning                                     | unit | argument             |
/// |--------|---------------------------------------------|------|----------------------|
/// | σ₀     | mean total stress across the bore           | Pa   | `total_stress`       |
/// | p      | total pressure of the fluid in the bore     | Pa   | `pressure`           |
/// | s_u    | undrained shear strength                    | Pa   | `undrained_strength` |
///
/// The wall yields inward from N = 1; tunnelling practice calls more than 4 to 6 prone to collapse
/// (from memory). Negative where the fluid presses harder than the ground.
///
/// # Source
/// Definition.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/overload-number.toml` (derived).
pub fn overload_number(
    total_stress: Pressure,
    pressure: Pressure,
    undrained_strength: Pressure,
) -> Result<f64, FluidError> {
    let stress = not_negative("total stress", total_stress.si(), unit::KPA)?;
    let p = not_negative("pressure", pressure.si(), unit::KPA)?;
    let su = positive("undrained strength", undrained_strength.si(), unit::KPA)?;
    finite("overload number", (stress - p) / su)
}

/// Radius of the zone that yields inward, `R_p = R₀ exp((N − 1)/2)`; `None` where nothing yields.
///
/// R₀ is `bore_radius`, N the `overload` of [`overload_number`]; nothing yields below N = 1. Keep the
/// zone well below the cover.
///
/// # Source
/// Equilibrium of a cylinder with Tresca's criterion, derived.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/overload-number.toml` (derived).
pub fn unloading_radius(bore_radius: Length, overload: f64) -> Result<Option<Length>, FluidError> {
    let radius = positive("bore radius", bore_radius.si(), unit::MM)?;
    let n = any("overload number", overload, unit::ONE)?;
    if n < 1.0 {
        return Ok(None);
    }
    finite("plastic radius", radius * ((n - 1.0) / 2.0).exp()).map(|r| Some(Length::from_si(r)))
}

/// Effective pressure below which the wall of a drained bore yields inward.
///
/// ```text
/// p' = σ'₀ (1 − sin φ) − c cos φ
/// ```
/// | symbol | meaning                               | unit | argument           |
/// |--------|---------------------------------------|------|--------------------|
/// | σ'₀    | mean effective stress across the bore | Pa   | `effective_stress` |
/// | φ      | friction angle, 0 to 60°              | rad  | `friction_angle`   |
/// | c      | cohesion                              | Pa   | `cohesion`         |
///
/// Negative where the ground stands without support. It acts on the wall only through a filter
/// cake. Yield is not collapse: sand with a cake stands with any pressure above the pore pressure.
///
/// # Source
/// Elastic stresses around a hole with Mohr and Coulomb's criterion, derived.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/bore-support.toml` (derived); property: mirror image of first yield outward.
pub fn support_pressure(
    effective_stress: Pressure,
    friction_angle: Angle,
    cohesion: Pressure,
) -> Result<Pressure, FluidError> {
    let stress = not_negative("effective stress", effective_stress.si(), unit::KPA)?;
    let most = MOST_FRICTION_DEGREES.to_radians();
    let phi = between("friction angle", friction_angle.si(), unit::DEG, 0.0, most)?;
    let c = not_negative("cohesion", cohesion.si(), unit::KPA)?;
    finite("support pressure", stress * (1.0 - phi.sin()) - c * phi.cos()).map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::Cavity;

    proptest! {
        #[test]
        fn support_is_the_mirror_image_of_first_yield(
            stress in 0.0f64..500.0, phi in 0.0f64..60.0, c in 0.0f64..50.0,
        ) {
            let (stress, phi) = (Pressure::kilopascals(stress), Angle::degrees(phi));
            let c = Pressure::kilopascals(c);
            let outward = Cavity {
                effective_stress: stress, friction_angle: phi, cohesion: c,
                shear_modulus: Pressure::megapascals(10.0), bore_radius: Length::metres(0.1),
            };
            let mean = (outward.first_yield().unwrap() + support_pressure(stress, phi, c).unwrap()) / 2.0;
            prop_assert!((mean.si() - stress.si()).abs() < 1e-6);
        }
    }

    #[test]
    fn nothing_yields_below_an_overload_of_one() {
        let r = Length::metres(0.3);
        assert_eq!(unloading_radius(r, 0.999).unwrap(), None);
        assert_eq!(unloading_radius(r, 1.0).unwrap(), Some(r));
        let three = unloading_radius(r, 3.0).unwrap().unwrap();
        assert!((three.si() - 0.3 * std::f64::consts::E).abs() < 1e-12);
        assert!(unloading_radius(r, 1e6).is_err() && unloading_radius(r, f64::NAN).is_err());
        assert!(overload_number(Pressure::ZERO, Pressure::ZERO, Pressure::ZERO).is_err());
    }
}

use quantity::{Length, Velocity, unit};

use crate::FluidError;
use crate::error::{annulus, between, finite, not_negative, within};

/// Below this the exact clinging factor loses digits and its series is as good.
const SMALL: f64 = 1e-3;

/// Share of a string's speed that the fluid it drags along adds, laminar: `κ = 0.275 k + 0.25`.
///
/// | symbol | meaning                                           | unit | argument         |
/// |--------|---------------------------------------------------|------|------------------|
/// | k      | string diameter over hole diameter, between 0 and 1 | –  | `diameter_ratio` |
/// | κ      | clinging factor                                   | –    | returned         |
///
/// # Source
/// Guo & Liu, Applied Drilling Circulation Systems, eq. 2.80 to 2.83. Agrees with
/// [`clinging_newtonian_exact`] to 0.03 from k = 0.3 to 1.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/surge-velocity.toml` (computed).
pub fn clinging_laminar(diameter_ratio: f64) -> Result<f64, FluidError> {
    Ok(0.275 * ratio(diameter_ratio)? + 0.25)
}

/// As [`clinging_laminar`], turbulent: `κ = 0.1 k + 0.41`.
///
/// # Source
/// Guo & Liu, Applied Drilling Circulation Systems, eq. 2.80 to 2.83.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/surge-velocity.toml` (computed).
pub fn clinging_turbulent(diameter_ratio: f64) -> Result<f64, FluidError> {
    Ok(0.1 * ratio(diameter_ratio)? + 0.41)
}

/// Clinging factor of a Newtonian fluid in a concentric annulus, laminar.
///
/// ```text
/// κ = (k² − 2k² ln k − 1) / (2 (1 − k²) ln k) = 1/x − 1/(eˣ − 1),   x = −2 ln k
/// ```
/// Symbol as in [`clinging_laminar`]. The flow that a moving string drags along, over its speed.
///
/// # Source
/// Couette flow in an annulus, derived.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/surge-velocity.toml` (computed).
pub fn clinging_newtonian_exact(diameter_ratio: f64) -> Result<f64, FluidError> {
    let x = -2.0 * ratio(diameter_ratio)?.ln();
    let kappa = if x < SMALL { 0.5 - x / 12.0 } else { 1.0 / x - 1.0 / x.exp_m1() };
    finite("clinging factor", kappa)
}

fn ratio(k: f64) -> Result<f64, FluidError> {
    within("diameter ratio", k, unit::ONE, k > 0.0 && k < 1.0, || "between 0 and 1".to_owned())
}

/// Mean velocity of the fluid that a closed string displaces, `v_a = v_p D₁²/(D₂² − D₁²)`.
///
/// | symbol | meaning                        | unit | argument          |
/// |--------|--------------------------------|------|-------------------|
/// | v_p    | speed of the string            | m/s  | `string_velocity` |
/// | D₂     | diameter of the hole           | m    | `hole_diameter`   |
/// | D₁     | outside diameter of the string | m    | `string_diameter` |
///
/// In a crossing the pipe enters at the exit pit and pushes fluid ahead of itself and around: the
/// pressure rises. A reamer that is withdrawn sucks: the pressure falls.
///
/// # Source
/// Balance of volumes, exact.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/surge-velocity.toml` (computed).
pub fn piston_velocity(
    hole_diameter: Length,
    string_diameter: Length,
    string_velocity: Velocity,
) -> Result<Velocity, FluidError> {
    let (outer, inner) = annulus(hole_diameter, string_diameter)?;
    let v = not_negative("string velocity", string_velocity.si(), unit::M_PER_MIN)?;
    let displaced = inner / (outer - inner) * (inner / (outer + inner)) * v;
    finite("velocity", displaced).map(Velocity::from_si)
}

/// Velocity of the fluid with which the loss around a moving closed string is computed.
///
/// ```text
/// v = v_a + κ v_p
/// ```
/// v_a and v_p as in [`piston_velocity`]; κ, 0 to 1, is one of [`clinging_laminar`],
/// [`clinging_turbulent`], [`clinging_newtonian_exact`].
///
/// # Source
/// Guo & Liu, Applied Drilling Circulation Systems, eq. 2.80 to 2.83.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/surge-velocity.toml` (computed).
pub fn surge_velocity(
    hole_diameter: Length,
    string_diameter: Length,
    string_velocity: Velocity,
    clinging: f64,
) -> Result<Velocity, FluidError> {
    let displaced = piston_velocity(hole_diameter, string_diameter, string_velocity)?;
    let kappa = between("clinging factor", clinging, unit::ONE, 0.0, 1.0)?;
    finite("velocity", (displaced + string_velocity * kappa).si()).map(Velocity::from_si)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Share of a moving core's speed that Newtonian fluid in an annulus has on average, by
    /// integrating its velocity profile v(r) = ln(1/r)/ln(1/k) with Simpson's rule.
    fn dragged(k: f64) -> f64 {
        let steps = 2000;
        let h = (1.0 - k) / f64::from(steps);
        let f = |r: f64| r * (-r.ln()) / (-k.ln());
        let sum: f64 = (0..steps)
            .map(|i| {
                let r = k + h * f64::from(i);
                (f(r) + 4.0 * f(r + h / 2.0) + f(r + h)) * h / 6.0
            })
            .sum();
        2.0 * sum / (1.0 - k * k)
    }

    #[test]
    fn the_exact_factor_is_the_integral_of_the_velocity_profile() {
        for k in [0.01, 0.1, 0.3, 0.652, 0.9, 0.999, 0.999_9] {
            let exact = clinging_newtonian_exact(k).unwrap();
            assert!((dragged(k) / exact - 1.0).abs() < 1e-8, "{k}: {} {exact}", dragged(k));
        }
        assert!((clinging_newtonian_exact(1.0 - 1e-15).unwrap() - 0.5).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn the_fit_stays_near_the_exact_factor(k in 0.3f64..0.999) {
            let difference = clinging_laminar(k).unwrap() - clinging_newtonian_exact(k).unwrap();
            prop_assert!(difference.abs() < 0.03, "{}", difference);
        }

        #[test]
        fn a_string_displaces_its_volume(d1 in 0.05f64..0.5, gap in 0.01f64..0.5, v in 0.0f64..1.0) {
            let d2 = d1 + gap;
            let a = piston_velocity(Length::metres(d2), Length::metres(d1), Velocity::from_si(v));
            let out = a.unwrap().si() * (d2 * d2 - d1 * d1);
            prop_assert!((out - v * d1 * d1).abs() <= 1e-12 * (1.0 + out));
        }
    }

    #[test]
    fn ratios_and_factors_out_of_range_are_refused() {
        for k in [0.0, 1.0, -0.5, f64::NAN] {
            assert!(clinging_laminar(k).is_err() && clinging_turbulent(k).is_err());
            assert!(clinging_newtonian_exact(k).is_err());
        }
        let (hole, string) = (Length::metres(0.5), Length::metres(0.326));
        assert!(surge_velocity(hole, string, Velocity::from_si(0.05), 1.1).is_err());
        assert!(surge_velocity(string, hole, Velocity::from_si(0.05), 0.4).is_err());
        assert!(surge_velocity(hole, string, Velocity::from_si(-0.05), 0.4).is_err());
    }
}

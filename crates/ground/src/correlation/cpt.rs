use quantity::{Angle, Pressure, Velocity, show, unit};

use super::P_A;
use crate::GroundError;
use crate::argument::{overburden, stress, within};

/// Cone factors N_k of published calibrations, least and greatest.
pub const CONE_FACTOR: (f64, f64) = (10.0, 20.0);

/// Friction angle of sand by the resistance of a cone.
///
/// ```text
/// φ' = 17.6 + 11 log10( (q_t / p_a) / √(σ'_v / p_a) )        degrees
/// ```
/// | symbol | meaning                                   | unit | argument             |
/// |--------|-------------------------------------------|------|----------------------|
/// | q_t    | tip resistance, corrected for pore pressure | Pa | `tip`                |
/// | σ'_v   | effective vertical stress                 | Pa   | `effective_vertical` |
/// | p_a    | 100 kPa                                   | Pa   | –                    |
///
/// Judgement: the normalised resistance in the logarithm must be 1 to 1000 (17.6° to 50.6°);
/// outside it the ground is no sand. Spread not stated in the source read.
///
/// # Source
/// Kulhawy & Mayne 1990, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/cpt-friction-angle-open-library.toml`.
pub fn friction_angle_cpt(
    tip: Pressure,
    effective_vertical: Pressure,
) -> Result<Angle, GroundError> {
    let tip = stress("tip resistance", tip.si())?;
    let stress = stress("effective vertical stress", effective_vertical.si())?;
    let normalised = (tip / P_A) / (stress / P_A).sqrt();
    let holds = (1.0..=1000.0).contains(&normalised);
    within("normalised tip resistance", normalised, unit::ONE, holds, "1 to 1000")?;
    Ok(Angle::degrees(17.6 + 11.0 * normalised.log10()))
}

/// Undrained strength of clay by the resistance of a cone.
///
/// ```text
/// s_u = (q_t − σ_v) / N_k
/// ```
/// | symbol | meaning                                       | unit | argument         |
/// |--------|-----------------------------------------------|------|------------------|
/// | q_t    | tip resistance, corrected for pore pressure; above σ_v | Pa | `tip`     |
/// | σ_v    | total vertical stress                         | Pa   | `total_vertical` |
/// | N_k    | cone factor, 5 to 30                          | –    | `cone_factor`    |
///
/// Spread: published factors run from 10 to 20, [`CONE_FACTOR`], so that the strength is known to a
/// factor of two without a calibration on site. Judgement: a calibration may lie outside, hence 5
/// to 30.
///
/// # Source
/// Rad & Lunne 1988, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/cpt-undrained-strength.toml` (computed).
pub fn undrained_strength_cpt(
    tip: Pressure,
    total_vertical: Pressure,
    cone_factor: f64,
) -> Result<Pressure, GroundError> {
    let net = net_resistance(tip, total_vertical)?;
    let holds = (5.0..=30.0).contains(&cone_factor);
    let factor = within("cone factor", cone_factor, unit::ONE, holds, "5 to 30")?;
    Ok(Pressure::from_si(net / factor))
}

/// Speed of shear waves by the resistance of a cone and the type of soil.
///
/// ```text
/// V_s = √( 10^(0.55 I_c + 1.68) (q_t − σ_v) / p_a )        m/s
/// ```
/// | symbol | meaning                                     | unit | argument          |
/// |--------|---------------------------------------------|------|-------------------|
/// | I_c    | soil behaviour type index, 1 to 4           | –    | `behaviour_index` |
/// | q_t    | tip resistance, corrected for pore pressure; above σ_v | Pa | `tip`    |
/// | σ_v    | total vertical stress                       | Pa   | `total_vertical`  |
/// | p_a    | 100 kPa                                     | Pa   | –                 |
///
/// The shear modulus at small strain is `ρ V_s²`. Spread not stated in the source read.
///
/// # Source
/// Robertson & Cabal 2015, through a general-purpose open geotechnical library (read); the range of
/// the index is a judgement.
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/cpt-wave-speed.toml` (computed).
pub fn shear_wave_velocity_cpt(
    tip: Pressure,
    total_vertical: Pressure,
    behaviour_index: f64,
) -> Result<Velocity, GroundError> {
    let net = net_resistance(tip, total_vertical)?;
    let holds = (1.0..=4.0).contains(&behaviour_index);
    within("soil behaviour type index", behaviour_index, unit::ONE, holds, "1 to 4")?;
    let square = 10f64.powf(0.55 * behaviour_index + 1.68) * net / P_A;
    Ok(Velocity::from_si(square.sqrt()))
}

/// What the cone meets beyond the weight of the ground above it, q_t − σ_v.
fn net_resistance(tip: Pressure, total_vertical: Pressure) -> Result<f64, GroundError> {
    let tip = stress("tip resistance", tip.si())?;
    let total = overburden("total vertical stress", total_vertical.si())?;
    if tip > total {
        return Ok(tip - total);
    }
    Err(GroundError::OutOfRange {
        quantity: "tip resistance",
        found: show(tip, unit::KPA),
        allowed: "greater than the total vertical stress",
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn a_friction_angle_rises_with_the_tip_and_falls_with_the_stress(
            tip in 1e6f64..2e7, stress in 3e4f64..3e5,
        ) {
            let angle = |tip, stress| {
                friction_angle_cpt(Pressure::from_si(tip), Pressure::from_si(stress)).unwrap().si()
            };
            prop_assert!(angle(1.1 * tip, stress) > angle(tip, stress));
            prop_assert!(angle(tip, 1.1 * stress) < angle(tip, stress));
            // Four times the stress needs twice the resistance.
            prop_assert!((angle(2.0 * tip, 4.0 * stress) - angle(tip, stress)).abs() < 1e-12);
        }

        #[test]
        fn strength_of_a_cone_factor_gives_back_the_tip(
            total in 0f64..5e5, above in 1e3f64..1e7, factor in 10f64..20.0,
        ) {
            let (tip, total) = (Pressure::from_si(total + above), Pressure::from_si(total));
            let strength = undrained_strength_cpt(tip, total, factor).unwrap();
            prop_assert!((strength.si() * factor + total.si() - tip.si()).abs() < 1e-9 * tip.si());
            prop_assert!(undrained_strength_cpt(total, tip, factor).is_err());
        }

        #[test]
        fn nothing_but_numbers_leaves(
            a in prop::num::f64::ANY, b in prop::num::f64::ANY, c in prop::num::f64::ANY,
        ) {
            let (tip, stress) = (Pressure::from_si(a), Pressure::from_si(b));
            let angle = friction_angle_cpt(tip, stress);
            prop_assert!(angle.is_err() || angle.is_ok_and(Angle::is_finite));
            let strength = undrained_strength_cpt(tip, stress, c);
            prop_assert!(strength.is_err() || strength.is_ok_and(Pressure::is_finite));
            let speed = shear_wave_velocity_cpt(tip, stress, c);
            prop_assert!(speed.is_err() || speed.is_ok_and(Velocity::is_finite));
        }
    }
}

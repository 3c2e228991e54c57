use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

use quantity::{Angle, Length, Pressure, UnitWeight, show, unit};

use crate::ServiceError;
use crate::error::{finite, not_negative, positive, within};

fn friction_angle(angle: Angle) -> Result<f64, ServiceError> {
    let phi = angle.si();
    within("friction angle", phi, unit::DEG, phi > 0.0 && phi < FRAC_PI_2, || {
        format!("greater than 0 and less than {}", show(FRAC_PI_2, unit::DEG))
    })
}

/// Pressure of the whole prism of soil above the pipe, `γ H`.
///
/// The load to take in soft or loose ground, under vibration, and for a cover below two to three
/// silo widths.
///
/// # Source
/// Statics; AWWA C150 uses it at every depth, read.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
pub fn prism_load(unit_weight: UnitWeight, cover: Length) -> Result<Pressure, ServiceError> {
    let gamma = positive("unit weight", unit_weight.si(), unit::KN_PER_M3)?;
    let h = not_negative("cover", cover.si(), unit::M)?;
    finite("prism load", gamma * h).map(Pressure::from_si)
}

/// Share of the prism that presses on a pipe in a bore, by arching in a silo (form of ASTM F1962).
///
/// ```text
/// κ = [1 − exp(−x)] / x,    x = 2 K (H/B) tan(φ/2),    K = tan²(45° − φ/2)
/// ```
/// | symbol | meaning               | unit | argument         |
/// |--------|-----------------------|------|------------------|
/// | H      | cover                 | m    | `cover`          |
/// | B      | silo width: 1.5 × bore diameter, in older text the bore diameter | m | `silo_width` |
/// | φ      | friction angle        | rad  | `friction_angle` |
///
/// # Source
/// ASTM F1962; K read in a public summary, κ from memory. Ignores cohesion; measured pressures
/// deviate (Shao, Zhou, Zeng 2016, abstract read): show it beside [`terzaghi_load`] and
/// [`prism_load`].
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/silo-load.toml` (computed); property: between 0 and 1, falls with the cover.
pub fn silo_ratio(
    cover: Length,
    silo_width: Length,
    friction_angle_of_soil: Angle,
) -> Result<f64, ServiceError> {
    let h = not_negative("cover", cover.si(), unit::M)?;
    let b = positive("silo width", silo_width.si(), unit::M)?;
    let phi = friction_angle(friction_angle_of_soil)?;
    let k = (FRAC_PI_4 - phi / 2.0).tan().powi(2);
    let x = 2.0 * k * h / b * (phi / 2.0).tan();
    finite("silo ratio", if x == 0.0 { 1.0 } else { -(-x).exp_m1() / x })
}

/// Pressure on a pipe in a bore by arching in a silo, `κ γ H`; see [`silo_ratio`].
///
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
pub fn silo_load(
    unit_weight: UnitWeight,
    cover: Length,
    silo_width: Length,
    friction_angle_of_soil: Angle,
) -> Result<Pressure, ServiceError> {
    let prism = prism_load(unit_weight, cover)?;
    Ok(prism * silo_ratio(cover, silo_width, friction_angle_of_soil)?)
}

/// Pressure on a pipe in a bore by Terzaghi's tunnel form.
///
/// ```text
/// p = (γ − 2c/B) / s · [1 − exp(−s H)],   s = 2 K tan φ / B
/// B = D_b (1 + 2 tan(45° − φ/2))
/// ```
/// | symbol | meaning                 | unit | argument         |
/// |--------|-------------------------|------|------------------|
/// | γ      | unit weight             | N/m³ | `unit_weight`    |
/// | H      | cover                   | m    | `cover`          |
/// | D_b    | bore diameter           | m    | `bore_diameter`  |
/// | φ, c   | friction angle, cohesion | rad, Pa | `friction_angle`, `cohesion` |
/// | K      | pressure ratio, 1       | –    | –                |
///
/// Zero where cohesion carries the ground over the bore (2c ≥ γ B): the formula would turn
/// negative.
///
/// # Source
/// Terzaghi's arching theory, from memory; four times below the F1962 form at usual depths.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/terzaghi-load.toml` (computed).
pub fn terzaghi_load(
    unit_weight: UnitWeight,
    cover: Length,
    bore_diameter: Length,
    friction_angle_of_soil: Angle,
    cohesion: Pressure,
) -> Result<Pressure, ServiceError> {
    let gamma = positive("unit weight", unit_weight.si(), unit::KN_PER_M3)?;
    let h = not_negative("cover", cover.si(), unit::M)?;
    let bore = positive("bore diameter", bore_diameter.si(), unit::M)?;
    let phi = friction_angle(friction_angle_of_soil)?;
    let c = not_negative("cohesion", cohesion.si(), unit::KPA)?;
    let width = bore * (1.0 + 2.0 * (FRAC_PI_4 - phi / 2.0).tan());
    let slope = 2.0 * phi.tan() / width;
    let share = -(-slope * h).exp_m1();
    finite("tunnel load", ((gamma - 2.0 * c / width) / slope * share).max(0.0))
        .map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn cohesion_that_carries_the_ground_leaves_no_load() {
        let load = |c: f64| {
            terzaghi_load(
                UnitWeight::kilonewtons_per_cubic_metre(18.0),
                Length::metres(10.0),
                Length::metres(0.45),
                Angle::degrees(30.0),
                Pressure::kilopascals(c),
            )
            .expect("valid")
            .to_kilopascals()
        };
        assert!((load(5.0) - 6.4).abs() < 0.1, "{}", load(5.0));
        assert_eq!(load(20.0), 0.0);
    }

    proptest! {
        #[test]
        fn arching_never_adds_load_and_grows_with_depth(h in 0.0f64..60.0, phi in 1.0f64..50.0) {
            let width = Length::metres(0.7);
            let at = |h: f64| silo_ratio(Length::metres(h), width, Angle::degrees(phi));
            let (here, deeper) = (at(h).unwrap(), at(h + 1.0).unwrap());
            prop_assert!(deeper < here && here <= 1.0 && deeper > 0.0);
        }
    }
}

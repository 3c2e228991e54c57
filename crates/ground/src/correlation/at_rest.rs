use quantity::{Angle, Pressure, show, unit};

use super::P_A;
use crate::GroundError;
use crate::argument::{friction_angle, overburden, overconsolidation, stress, within};

/// Ratio of horizontal to vertical effective stress of ground that was never loaded more than today.
///
/// ```text
/// K0 = 1 − sin φ'
/// ```
/// φ' is `angle`, the effective friction angle, 0° to 60°. Spread not stated in the source read.
///
/// # Source
/// Mesri & Hayat 1993, with the critical-state angle, through a general-purpose open geotechnical
/// library (read).
/// # Errors
/// [`GroundError::OutOfRange`] outside the range.
/// # Checked by
/// `cases/ground/k0.toml` (computed).
pub fn k0_normally_consolidated(angle: Angle) -> Result<f64, GroundError> {
    Ok(1.0 - friction_angle(angle.si())?.sin())
}

/// Ratio of horizontal to vertical effective stress of ground that once bore more.
///
/// ```text
/// K0 = (1 − sin φ') OCR^(sin φ')
/// ```
/// | symbol | meaning                                              | unit | argument |
/// |--------|------------------------------------------------------|------|----------|
/// | φ'     | effective friction angle at the critical state, 0° to 60° | rad | `angle` |
/// | OCR    | greatest effective vertical stress ever over today's, 1 to 100 | – | `ocr` |
///
/// Ground yields sideways at `K_p = (1 + sin φ')/(1 − sin φ')`; a pair that would need more is
/// refused. Spread not stated in the source read.
///
/// # Source
/// Mesri & Hayat 1993, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/k0.toml` (computed).
pub fn k0_overconsolidated(angle: Angle, ocr: f64) -> Result<f64, GroundError> {
    let normal = k0_normally_consolidated(angle)?;
    let ratio = normal * overconsolidation(ocr)?.powf(angle.si().sin());
    // The slack lets friction of zero, where both are 1, pass.
    if ratio <= passive(angle) * (1.0 + 1e-12) {
        return Ok(ratio);
    }
    Err(GroundError::OutOfRange {
        quantity: "overconsolidation ratio",
        found: show(ocr, unit::ONE),
        allowed: "small enough that the ground does not yield sideways (K0 up to K_p)",
    })
}

/// Ratio of horizontal to vertical effective stress of sand by the resistance of a cone.
///
/// ```text
/// K0 = min( 0.192 (q_t/p_a)^0.22 (p_a/σ'_v)^0.31 OCR^0.27, K_p )
/// K_p = (1 + sin φ')/(1 − sin φ')
/// ```
/// | symbol | meaning                                   | unit | argument             |
/// |--------|-------------------------------------------|------|----------------------|
/// | q_t    | tip resistance, corrected for pore pressure | Pa | `tip`                |
/// | σ'_v   | effective vertical stress                 | Pa   | `effective_vertical` |
/// | OCR    | overconsolidation ratio, 1 to 100         | –    | `ocr`                |
/// | φ'     | effective friction angle, 0° to 60°       | rad  | `angle`              |
/// | p_a    | 100 kPa                                   | Pa   | –                    |
///
/// The cap at the passive ratio is part of the rule. Spread not stated in the source read.
///
/// # Source
/// Mayne 2007, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/k0-cpt.toml` (computed).
pub fn k0_cpt(
    tip: Pressure,
    effective_vertical: Pressure,
    ocr: f64,
    angle: Angle,
) -> Result<f64, GroundError> {
    let tip = stress("tip resistance", tip.si())? / P_A;
    let stress = stress("effective vertical stress", effective_vertical.si())?;
    let ocr = overconsolidation(ocr)?;
    friction_angle(angle.si())?;
    let relief = P_A / stress;
    let ratio = 0.192 * tip.powf(0.22) * relief.powf(0.31) * ocr.powf(0.27);
    Ok(ratio.min(passive(angle)))
}

/// Ratio of horizontal to vertical effective stress at which ground yields sideways.
fn passive(angle: Angle) -> f64 {
    (1.0 + angle.si().sin()) / (1.0 - angle.si().sin())
}

/// Mean effective stress in the plane across the bore, `σ'_0 = (1 + K0)/2 σ'_v`.
///
/// | symbol | meaning                                          | unit | argument             |
/// |--------|--------------------------------------------------|------|----------------------|
/// | σ'_v   | effective vertical stress, 0 or greater          | Pa   | `effective_vertical` |
/// | K0     | horizontal over vertical effective stress, 0 to 20 | –  | `k0`                 |
///
/// Taking σ'_v itself is the same as K0 = 1 and flatters ground whose K0 is less.
///
/// # Source
/// Mean of two principal stresses, exact (derived).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/mean-stress.toml` (derived).
pub fn mean_stress(effective_vertical: Pressure, k0: f64) -> Result<Pressure, GroundError> {
    let vertical = overburden("effective vertical stress", effective_vertical.si())?;
    // Judgement: K_p of the steepest friction angle allowed here is 14.
    let holds = (0.0..=20.0).contains(&k0);
    let k0 = within("K0", k0, unit::ONE, holds, "0 to 20")?;
    Ok(Pressure::from_si((1.0 + k0) / 2.0 * vertical))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_cone_in_hard_ground_meets_the_passive_cap() {
        let (tip, stress) = (Pressure::megapascals(40.0), Pressure::kilopascals(10.0));
        let ratio = k0_cpt(tip, stress, 10.0, Angle::degrees(20.0)).unwrap();
        approx::assert_relative_eq!(ratio, 2.039_606, max_relative = 1e-6);
    }

    #[test]
    fn ground_that_would_yield_sideways_is_refused() {
        let text = k0_overconsolidated(Angle::degrees(32.0), 100.0).unwrap_err().to_string();
        assert!(text.starts_with("overconsolidation ratio must be small enough"), "{text}");
        assert_eq!(k0_overconsolidated(Angle::ZERO, 100.0), Ok(1.0));
    }

    proptest! {
        #[test]
        fn without_earlier_load_both_forms_agree_and_load_raises_the_ratio(
            degrees in 1f64..45.0, ocr in 1f64..4.0,
        ) {
            let angle = Angle::degrees(degrees);
            let normal = k0_normally_consolidated(angle).unwrap();
            prop_assert_eq!(k0_overconsolidated(angle, 1.0).unwrap(), normal);
            let more = k0_overconsolidated(angle, ocr).unwrap();
            prop_assert!(normal <= more && more <= passive(angle) * (1.0 + 1e-9));
        }

        #[test]
        fn equal_stresses_all_around_are_their_own_mean(kpa in 0f64..1e4) {
            let stress = Pressure::kilopascals(kpa);
            prop_assert_eq!(mean_stress(stress, 1.0).unwrap(), stress);
        }

        #[test]
        fn nothing_but_numbers_leaves(
            a in prop::num::f64::ANY, b in prop::num::f64::ANY, c in prop::num::f64::ANY,
            radians in prop_oneof![0f64..1.1, prop::num::f64::ANY],
        ) {
            let angle = Angle::from_si(radians);
            let (p, q) = (Pressure::from_si(a), Pressure::from_si(b));
            for ratio in [
                k0_normally_consolidated(angle),
                k0_overconsolidated(angle, c),
                k0_cpt(p, q, c, angle),
                mean_stress(p, c).map(Pressure::si),
            ] {
                prop_assert!(ratio.is_err() || ratio.is_ok_and(f64::is_finite));
            }
        }
    }
}

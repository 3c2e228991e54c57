use quantity::{Pressure, unit};

use super::KILOPASCAL;
use crate::GroundError;
use crate::argument::{poisson, stress, within};

/// Share of the small-strain shear modulus that is left at shear strains of 0.5 % to 2 %, least and
/// greatest; from memory.
pub const OPERATIONAL_SHARE: (f64, f64) = (0.05, 0.2);

/// Shear modulus of sand at very small strain by the resistance of a cone.
///
/// ```text
/// G_max = 1634 q_c^0.25 σ'_v^0.375        all in kPa
/// ```
/// | symbol | meaning                   | unit | argument             |
/// |--------|---------------------------|------|----------------------|
/// | q_c    | tip resistance            | Pa   | `tip`                |
/// | σ'_v   | effective vertical stress | Pa   | `effective_vertical` |
///
/// Ten times and more the modulus that the ground around a bore shows; see
/// [`operational_shear_modulus`]. Spread not stated in the source read.
///
/// # Source
/// Rix & Stokoe 1991, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/small-strain-modulus-open-library.toml`.
pub fn shear_modulus_small_sand(
    tip: Pressure,
    effective_vertical: Pressure,
) -> Result<Pressure, GroundError> {
    let tip = stress("tip resistance", tip.si())? / KILOPASCAL;
    let stress = stress("effective vertical stress", effective_vertical.si())? / KILOPASCAL;
    Ok(Pressure::from_si(1634.0 * tip.powf(0.25) * stress.powf(0.375) * KILOPASCAL))
}

/// Shear modulus of clay at very small strain by the resistance of a cone.
///
/// ```text
/// G_max = 2.78 q_c^1.335        both in kPa
/// ```
/// q_c is `tip`, Pa. Spread not stated in the source read.
///
/// # Source
/// Mayne & Rix 1993, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] unless the resistance is 1 Pa or more.
/// # Checked by
/// `cases/ground/small-strain-modulus-open-library.toml`.
pub fn shear_modulus_small_clay(tip: Pressure) -> Result<Pressure, GroundError> {
    let tip = stress("tip resistance", tip.si())? / KILOPASCAL;
    Ok(Pressure::from_si(2.78 * tip.powf(1.335) * KILOPASCAL))
}

/// Shear modulus at the strains around a bore under pressure, least and greatest.
///
/// ```text
/// G = 0.05 G_max … 0.2 G_max
/// ```
/// G_max is `small_strain`, Pa; the shares, [`OPERATIONAL_SHARE`], hold for shear strains of 0.5 %
/// to 2 %.
///
/// # Source
/// Practice of ground engineering, from memory.
/// # Errors
/// [`GroundError::OutOfRange`] unless the modulus is 1 Pa or more.
/// # Checked by
/// `cases/ground/small-strain-modulus.toml` (computed).
pub fn operational_shear_modulus(
    small_strain: Pressure,
) -> Result<(Pressure, Pressure), GroundError> {
    let modulus = Pressure::from_si(stress("small-strain shear modulus", small_strain.si())?);
    Ok((modulus * OPERATIONAL_SHARE.0, modulus * OPERATIONAL_SHARE.1))
}

/// Shear modulus of an elastic body, `G = E / (2 (1 + ν))`.
///
/// | symbol | meaning                  | unit | argument  |
/// |--------|--------------------------|------|-----------|
/// | E      | Young's modulus          | Pa   | `youngs`  |
/// | ν      | Poisson's ratio, 0 to 0.5 | –   | `ratio`   |
///
/// # Source
/// Theory of elasticity, exact (derived).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/shear-modulus.toml` (derived).
pub fn shear_modulus_from_youngs(youngs: Pressure, ratio: f64) -> Result<Pressure, GroundError> {
    let modulus = stress("Young's modulus", youngs.si())?;
    let ratio = poisson(ratio)?;
    Ok(Pressure::from_si(modulus / (2.0 * (1.0 + ratio))))
}

/// Young's modulus from the modulus of a compression without sideways strain.
///
/// ```text
/// E = E_oed (1 + ν)(1 − 2 ν) / (1 − ν)
/// ```
/// | symbol | meaning                                             | unit | argument      |
/// |--------|-----------------------------------------------------|------|---------------|
/// | E_oed  | oedometric modulus                                  | Pa   | `oedometric`  |
/// | ν      | Poisson's ratio, 0 to 0.49: at 0.5 nothing compresses | –  | `ratio`       |
///
/// # Source
/// Theory of elasticity, exact (derived).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/shear-modulus.toml` (derived).
pub fn youngs_from_oedometric(oedometric: Pressure, ratio: f64) -> Result<Pressure, GroundError> {
    let modulus = stress("oedometric modulus", oedometric.si())?;
    let holds = (0.0..=0.49).contains(&ratio);
    let ratio = within("Poisson's ratio", ratio, unit::ONE, holds, "0 to 0.49")?;
    Ok(Pressure::from_si(modulus * (1.0 + ratio) * (1.0 - 2.0 * ratio) / (1.0 - ratio)))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn the_moduli_of_one_body_agree(e in 1e5f64..1e10, nu in 0f64..0.49) {
            // By Hooke's law the oedometric modulus is λ + 2 G.
            let youngs = Pressure::from_si(e);
            let shear = shear_modulus_from_youngs(youngs, nu).unwrap().si();
            let lambda = 2.0 * shear * nu / (1.0 - 2.0 * nu);
            let back = youngs_from_oedometric(Pressure::from_si(lambda + 2.0 * shear), nu).unwrap();
            prop_assert!((back.si() / e - 1.0).abs() < 1e-9);
        }

        #[test]
        fn without_sideways_strain_by_itself_all_moduli_are_one(e in 1e5f64..1e10) {
            let modulus = Pressure::from_si(e);
            prop_assert_eq!(youngs_from_oedometric(modulus, 0.0).unwrap(), modulus);
            prop_assert_eq!(shear_modulus_from_youngs(modulus, 0.0).unwrap(), modulus / 2.0);
        }

        #[test]
        fn nothing_but_numbers_leaves(a in prop::num::f64::ANY, b in prop::num::f64::ANY) {
            let (p, q) = (Pressure::from_si(a), Pressure::from_si(b));
            for modulus in [
                shear_modulus_small_sand(p, q),
                shear_modulus_small_clay(p),
                shear_modulus_from_youngs(p, b),
                youngs_from_oedometric(p, b),
                operational_shear_modulus(p).map(|(_, greatest)| greatest),
            ] {
                prop_assert!(modulus.is_err() || modulus.is_ok_and(Pressure::is_finite));
            }
        }
    }
}

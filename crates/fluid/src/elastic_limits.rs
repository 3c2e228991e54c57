use quantity::{Pressure, unit};

use crate::FluidError;
use crate::error::{any, finite, not_negative};

/// Total pressure at which the hoop stress of an elastic wall falls to the tensile strength.
///
/// ```text
/// K₀ ≤ 1:  p = u + (3 K₀ − 1) σ'_v + σ_t     at the crown
/// K₀ > 1:  p = u + (3 − K₀) σ'_v + σ_t       at the springline
/// ```
/// | symbol | meaning                                | unit | argument             |
/// |--------|----------------------------------------|------|----------------------|
/// | σ'_v   | vertical effective stress              | Pa   | `effective_vertical` |
/// | K₀     | horizontal over vertical effective stress | – | `k0`                 |
/// | u      | pore pressure                          | Pa   | `pore_pressure`      |
/// | σ_t    | tensile strength, 0 for soil           | Pa   | `tensile_strength`   |
///
/// The fluid does not enter the ground before it cracks. Below the pore pressure for K₀ < 1/3 and
/// K₀ > 3: then the wall of an elastic bore is in tension at any pressure.
///
/// # Source
/// Elastic stresses around a hole (Kirsch), derived; the criterion of Kennedy, Skinner & Moore 2004,
/// of which the abstract was read.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/tensile-limit.toml` (derived); property: both branches meet at K₀ = 1.
pub fn tensile_limit(
    effective_vertical: Pressure,
    k0: f64,
    pore_pressure: Pressure,
    tensile_strength: Pressure,
) -> Result<Pressure, FluidError> {
    let sigma = not_negative("effective vertical", effective_vertical.si(), unit::KPA)?;
    let k = not_negative("k0", k0, unit::ONE)?;
    let u = not_negative("pore pressure", pore_pressure.si(), unit::KPA)?;
    let t = not_negative("tensile strength", tensile_strength.si(), unit::KPA)?;
    let share = if k <= 1.0 { 3.0 * k - 1.0 } else { 3.0 - k };
    finite("tensile limit", u + share * sigma + t).map(Pressure::from_si)
}

/// Total pressure that cracks intact rock around a bore, `p = 3 σ_min − σ_max − u + T₀`.
///
/// | symbol       | meaning                                          | unit | argument           |
/// |--------------|--------------------------------------------------|------|--------------------|
/// | σ_min, σ_max | lesser and greater *total* stress across the bore | Pa  | `sigma_min_total`, `sigma_max_total` |
/// | u            | pore pressure                                    | Pa   | `pore_pressure`    |
/// | T₀           | tensile strength of the rock                     | Pa   | `tensile_strength` |
///
/// For a fluid that does not enter the rock. With u = T₀ = 0 it is the pressure at which the total
/// hoop stress vanishes.
///
/// # Source
/// Hubbert & Willis, from memory; elastic stresses around a hole, derived.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument, or the greater stress that is less.
/// # Checked by
/// `cases/fluid/rock-limit.toml` (derived); property: with u taken twice from it, the tensile limit.
pub fn rock_fracture_limit(
    sigma_min_total: Pressure,
    sigma_max_total: Pressure,
    pore_pressure: Pressure,
    tensile_strength: Pressure,
) -> Result<Pressure, FluidError> {
    let min = not_negative("least stress", sigma_min_total.si(), unit::KPA)?;
    let max = any("greatest stress", sigma_max_total.si(), unit::KPA)?;
    crate::error::within("greatest stress", max, unit::KPA, max >= min, || {
        format!("at least the least stress ({})", quantity::show(min, unit::KPA))
    })?;
    let u = not_negative("pore pressure", pore_pressure.si(), unit::KPA)?;
    let t = not_negative("tensile strength", tensile_strength.si(), unit::KPA)?;
    finite("fracture limit", 3.0 * min - max - u + t).map(Pressure::from_si)
}

/// Total pressure that opens a joint of rock: the least principal total stress.
///
/// Often less where the joint is filled or the cover is broken; then the weight of the cover alone.
///
/// # Source
/// Balance of forces on an open joint; as a limit for bores from memory.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/rock-limit.toml` (derived).
pub fn rock_joint_limit(sigma_min_total: Pressure) -> Result<Pressure, FluidError> {
    not_negative("least stress", sigma_min_total.si(), unit::KPA).map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn kpa(value: f64) -> Pressure {
        Pressure::kilopascals(value)
    }

    proptest! {
        #[test]
        fn rock_without_strength_is_soil_with_the_same_total_stresses(
            sigma in 1.0f64..500.0, k in 0.4f64..2.5, u in 0.0f64..200.0,
        ) {
            let (v, h) = (sigma + u, k * sigma + u);
            let rock = rock_fracture_limit(kpa(v.min(h)), kpa(v.max(h)), kpa(u), kpa(0.0)).unwrap();
            let soil = tensile_limit(kpa(sigma), k, kpa(u), kpa(0.0)).unwrap();
            prop_assert!((rock.si() - soil.si()).abs() < 1e-6, "{} {}", rock, soil);
        }

        #[test]
        fn the_tensile_limit_peaks_where_both_stresses_are_equal(
            sigma in 1.0f64..500.0, k in 0.0f64..3.0,
        ) {
            let at = |k: f64| tensile_limit(kpa(sigma), k, kpa(0.0), kpa(0.0)).unwrap().si();
            prop_assert!(at(k) <= at(1.0) + 1e-9);
            prop_assert!((at(1.0) - 2e3 * sigma).abs() < 1e-6);
            prop_assert!((at(1.0 + 1e-12) / at(1.0) - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn impossible_stresses_are_refused() {
        assert!(rock_fracture_limit(kpa(100.0), kpa(90.0), kpa(0.0), kpa(0.0)).is_err());
        assert!(rock_joint_limit(kpa(-1.0)).is_err());
        assert!(tensile_limit(kpa(-1.0), 1.0, kpa(0.0), kpa(0.0)).is_err());
        assert!(tensile_limit(kpa(1.0), f64::NAN, kpa(0.0), kpa(0.0)).is_err());
    }
}

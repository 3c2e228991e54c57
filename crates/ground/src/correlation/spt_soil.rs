use quantity::{Angle, Length, Pressure, show, unit};

use super::P_A;
use super::spt::blow_count;
use crate::GroundError;
use crate::argument::{stress, within};

/// Soils for which the stiffness by the blow count is tabulated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SptSoil {
    /// Silt, sandy or slightly cohesive.
    Silt,
    /// Clean fine to medium sand.
    FineSand,
    /// Coarse sand.
    CoarseSand,
    /// Gravel.
    Gravel,
}

impl SptSoil {
    /// Young's modulus for one blow of N1,60.
    #[must_use]
    pub fn modulus_per_blow(self) -> Pressure {
        Pressure::megapascals(match self {
            SptSoil::Silt => 0.4,
            SptSoil::FineSand => 0.7,
            SptSoil::CoarseSand => 1.0,
            SptSoil::Gravel => 1.1,
        })
    }
}

/// Plasticity index as a ratio, with strength over p_a N60.
const STRENGTH_FACTORS: [(f64, f64); 6] =
    [(0.15, 0.068), (0.20, 0.055), (0.25, 0.048), (0.30, 0.045), (0.40, 0.044), (0.60, 0.043)];

/// Density of a sand between loosest (0) and densest (1) by its blow count.
///
/// ```text
/// D_r = √( N1,60 / (60 + 25 log10(d50 / 1 mm)) )
/// ```
/// | symbol | meaning                                   | unit | argument |
/// |--------|-------------------------------------------|------|----------|
/// | N1,60  | blow count at 60 % energy and 100 kPa     | –    | `n1_60`  |
/// | d50    | size that half of the grains pass, 0.06 mm to 2 mm: sand | m | `d50` |
///
/// For normally consolidated sand that was not aged. Spread not stated in the source read.
///
/// # Source
/// Kulhawy & Mayne 1990, through a general-purpose open geotechnical library (read); the range of
/// d50 is that of sand.
/// # Errors
/// [`GroundError::OutOfRange`] names the argument; a blow count that would need a density above
/// 100 % is refused.
/// # Checked by
/// `cases/ground/spt-relative-density-open-library.toml`.
pub fn relative_density(n1_60: f64, d50: Length) -> Result<f64, GroundError> {
    let n = blow_count("normalised blow count", n1_60)?;
    // A size typed in another unit may miss the border by rounding.
    let size = (d50.to_millimetres() * 1e9).round() / 1e9;
    let holds = (0.06..=2.0).contains(&size);
    within("median grain size", d50.si(), unit::MM, holds, "0.06 mm to 2 mm")?;
    let density = (n / (60.0 + 25.0 * size.log10())).sqrt();
    if density <= 1.0 {
        return Ok(density);
    }
    Err(GroundError::OutOfRange {
        quantity: "normalised blow count",
        found: show(n, unit::ONE),
        allowed: "small enough for a relative density of at most 100 %",
    })
}

/// Friction angle of sand by the blow count, by a parabola through a published chart.
///
/// ```text
/// φ' = 27.1 + 0.3 N1,60 − 0.00054 N1,60²        degrees
/// ```
/// N1,60 is `n1_60`, 0 to 60: Judgement, beyond the chart the parabola is an extrapolation. Spread
/// not stated in the source read.
///
/// # Source
/// Peck, Hanson & Thornburn 1974, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] outside the range.
/// # Checked by
/// `cases/ground/spt-friction-angle-peck.toml`.
pub fn friction_angle_peck(n1_60: f64) -> Result<Angle, GroundError> {
    let holds = (0.0..=60.0).contains(&n1_60);
    let n = within("normalised blow count", n1_60, unit::ONE, holds, "0 to 60")?;
    Ok(Angle::degrees(27.1 + 0.3 * n - 0.000_54 * n * n))
}

/// Friction angle of sand by the blow count and the overburden.
///
/// ```text
/// φ' = atan( [ N / (12.2 + 20.3 σ'_v / p_a) ]^0.34 )
/// ```
/// | symbol | meaning                                                  | unit | argument |
/// |--------|----------------------------------------------------------|------|----------|
/// | N      | blow count, not normalised: the formula holds the stress | –    | `n`      |
/// | σ'_v   | effective vertical stress                                | Pa   | `effective_vertical` |
/// | p_a    | 100 kPa                                                  | Pa   | – |
///
/// Blow counts greater than 0 and up to 100. Near the surface the formula gives angles that only
/// dense sand has. Spread not stated in the source read.
///
/// # Source
/// Kulhawy & Mayne 1990, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/spt-friction-angle-kulhawy.toml`.
pub fn friction_angle_kulhawy(n: f64, effective_vertical: Pressure) -> Result<Angle, GroundError> {
    let n = positive_blow_count("blow count", n)?;
    let stress = stress("effective vertical stress", effective_vertical.si())?;
    let ratio = n / (12.2 + 20.3 * stress / P_A);
    Ok(Angle::from_si(ratio.powf(0.34).atan()))
}

/// Undrained strength over p_a N60 of a clay of a plasticity index, α.
///
/// | plasticity index | 15 %  | 20 %  | 25 %  | 30 %  | 40 %  | 60 %  |
/// |------------------|-------|-------|-------|-------|-------|-------|
/// | α                | 0.068 | 0.055 | 0.048 | 0.045 | 0.044 | 0.043 |
///
/// Between the rows straight lines.
///
/// # Source
/// Salgado 2008, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] outside the table.
pub fn strength_factor_spt(plasticity_index: f64) -> Result<f64, GroundError> {
    // A percentage may miss its row by rounding.
    let index = (plasticity_index * 1e12).round() / 1e12;
    let factor = STRENGTH_FACTORS.windows(2).find_map(|pair| match pair {
        [(a, f), (b, g)] if (*a..=*b).contains(&index) => Some(f + (g - f) * (index - a) / (b - a)),
        _ => None,
    });
    factor.ok_or_else(|| GroundError::OutOfRange {
        quantity: "plasticity index",
        found: show(plasticity_index, unit::PERCENT),
        allowed: "15 % to 60 %",
    })
}

/// Undrained strength of clay by the blow count.
///
/// ```text
/// s_u = α p_a N60
/// ```
/// | symbol | meaning                                   | unit | argument |
/// |--------|-------------------------------------------|------|----------|
/// | α      | of the plasticity index, see [`strength_factor_spt`] | – | `plasticity_index`, a ratio: 0.30 |
/// | p_a    | 100 kPa                                   | Pa   | –        |
/// | N60    | blow count at 60 % energy, above 0 to 100 | –    | `n60`    |
///
/// Spread not stated in the source read; the blow count is a poor measure of clay.
///
/// # Source
/// Salgado 2008, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/spt-undrained-strength-open-library.toml`.
pub fn undrained_strength_spt(n60: f64, plasticity_index: f64) -> Result<Pressure, GroundError> {
    let n = positive_blow_count("blow count N60", n60)?;
    let factor = strength_factor_spt(plasticity_index)?;
    Ok(Pressure::from_si(factor * P_A * n))
}

/// Young's modulus of granular ground by the blow count.
///
/// ```text
/// E = e N1,60
/// ```
/// | symbol | meaning                                       | unit | argument |
/// |--------|-----------------------------------------------|------|----------|
/// | e      | 0.4 MPa for silt, 0.7 for clean fine to medium sand, 1.0 for coarse sand, 1.1 for gravel | Pa | `soil` |
/// | N1,60  | blow count at 60 % energy and 100 kPa, above 0 to 100 | – | `n1_60` |
///
/// Spread not stated in the source read.
///
/// # Source
/// AASHTO 1997, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/spt-modulus-open-library.toml`.
pub fn youngs_modulus_spt(n1_60: f64, soil: SptSoil) -> Result<Pressure, GroundError> {
    let n = positive_blow_count("normalised blow count", n1_60)?;
    Ok(soil.modulus_per_blow() * n)
}

fn positive_blow_count(quantity: &'static str, n: f64) -> Result<f64, GroundError> {
    // Without a blow the rods sank by themselves: no strength or stiffness follows from that.
    let holds = n > 0.0 && n <= 100.0;
    within(quantity, n, unit::ONE, holds, "greater than 0 and at most 100")
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn rows_of_the_strength_table_and_their_middles() {
        for (index, factor) in STRENGTH_FACTORS {
            assert!((strength_factor_spt(index).unwrap() - factor).abs() < 1e-12);
        }
        let middle = strength_factor_spt(0.5).unwrap();
        approx::assert_relative_eq!(middle, 0.0435, max_relative = 1e-12);
        for outside in [0.1499, 0.601, 30.0, f64::NAN] {
            assert!(strength_factor_spt(outside).is_err(), "{outside}");
        }
    }

    #[test]
    fn a_density_above_the_densest_is_refused_not_cut() {
        let size = Length::millimetres(0.2);
        assert!((relative_density(42.5, size).unwrap() - 1.0).abs() < 1e-3);
        let text = relative_density(60.0, size).unwrap_err().to_string();
        assert!(text.ends_with("at most 100 %, but was 60"), "{text}");
        assert!(relative_density(10.0, Length::millimetres(4.0)).is_err());
    }

    proptest! {
        #[test]
        fn more_blows_never_mean_weaker_or_softer_ground(
            n in 0.1f64..59.0, more in 0.01f64..1.0, kpa in 1f64..1000.0, index in 0.15f64..0.6,
        ) {
            let stress = Pressure::kilopascals(kpa);
            prop_assert!(friction_angle_peck(n + more).unwrap() > friction_angle_peck(n).unwrap());
            let angle = |n| friction_angle_kulhawy(n, stress).unwrap().si();
            prop_assert!(angle(n + more) > angle(n));
            let deeper = friction_angle_kulhawy(n, stress * 1.1).unwrap().si();
            prop_assert!(deeper < angle(n));
            let strength = |n| undrained_strength_spt(n, index).unwrap();
            prop_assert!(strength(n + more) > strength(n));
            let modulus = |soil| youngs_modulus_spt(n, soil).unwrap();
            prop_assert!(modulus(SptSoil::Silt) < modulus(SptSoil::FineSand));
            prop_assert!(modulus(SptSoil::CoarseSand) < modulus(SptSoil::Gravel));
        }

        #[test]
        fn nothing_but_numbers_leaves(n in prop::num::f64::ANY, x in prop::num::f64::ANY) {
            let stress = Pressure::from_si(x);
            for angle in [friction_angle_peck(n), friction_angle_kulhawy(n, stress)] {
                prop_assert!(angle.is_err() || angle.is_ok_and(Angle::is_finite));
            }
            let strength = undrained_strength_spt(n, x);
            prop_assert!(strength.is_err() || strength.is_ok_and(Pressure::is_finite));
            let density = relative_density(n, Length::from_si(x));
            prop_assert!(density.is_err() || density.is_ok_and(|d| (0.0..=1.0).contains(&d)));
        }
    }
}

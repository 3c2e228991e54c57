use quantity::{Length, Pressure, unit};

use super::P_A;
use crate::GroundError;
use crate::argument::{stress, within};

/// Share of the free-fall energy to which N60 refers, 60 %.
const REFERENCE_EFFICIENCY: f64 = 0.6;

/// Stress to which EN ISO 22476-3 normalises.
pub const ISO_STRESS: Pressure = Pressure::from_si(98.0e3);

/// Largest overburden factor that is applied; 1.5 is the better limit by the same source.
pub const OVERBURDEN_CAP: f64 = 2.0;

/// Bore diameters, m, with their factors; 1.0 from the first to the second is from memory.
const BORE_FACTORS: [(f64, f64); 4] = [(0.065, 1.0), (0.115, 1.0), (0.150, 1.05), (0.200, 1.15)];

/// Blow counts that a sounding gives.
///
/// Judgement: driving stops at 100 blows at the latest; more is an extrapolation.
pub(super) fn blow_count(quantity: &'static str, n: f64) -> Result<f64, GroundError> {
    within(quantity, n, unit::ONE, (0.0..=100.0).contains(&n), "0 to 100")
}

/// Factor of a sounding for the diameter of its bore, η_B.
///
/// 1.0 from 65 mm to 115 mm, 1.05 at 150 mm, 1.15 at 200 mm.
///
/// Judgement: straight lines join the printed diameters, where the source gives no value.
///
/// # Source
/// Skempton 1986 after Ameratunga and others 2016, through a general-purpose open geotechnical
/// library (read); the range of 1.0 from memory.
/// # Errors
/// [`GroundError::OutOfRange`] outside 65 mm to 200 mm.
pub fn bore_factor(bore_diameter: Length) -> Result<f64, GroundError> {
    // A diameter typed in inches may miss its millimetre by rounding.
    let d = (bore_diameter.si() * 1e9).round() / 1e9;
    let factor = BORE_FACTORS.windows(2).find_map(|pair| match pair {
        [(a, f), (b, g)] if (*a..=*b).contains(&d) => Some(f + (g - f) * (d - a) / (b - a)),
        _ => None,
    });
    factor.ok_or_else(|| GroundError::OutOfRange {
        quantity: "bore diameter",
        found: quantity::show(bore_diameter.si(), unit::MM),
        allowed: "65 mm to 200 mm",
    })
}

/// Factor of a sounding for the length of its rods, η_R.
///
/// | rods             | factor |
/// |------------------|--------|
/// | up to 4 m        | 0.75   |
/// | above 4 m to 6 m | 0.85   |
/// | above 6 m to 10 m | 0.95  |
/// | above 10 m       | 1.0    |
///
/// A length on a border takes the shorter rods' factor, which gives the smaller blow count.
///
/// # Source
/// As [`bore_factor`].
/// # Errors
/// [`GroundError::OutOfRange`] unless the length is greater than 0 and at most 200 m.
pub fn rod_factor(rod_length: Length) -> Result<f64, GroundError> {
    let length = rod_length.si();
    // Judgement: a sounding deeper than 200 m is a slip of the unit.
    let holds = length > 0.0 && length <= 200.0;
    within("rod length", length, unit::M, holds, "greater than 0 and at most 200 m")?;
    // A length typed in feet may miss its border by rounding.
    let length = (length * 1e9).round() / 1e9;
    Ok(if length <= 4.0 {
        0.75
    } else if length <= 6.0 {
        0.85
    } else if length <= 10.0 {
        0.95
    } else {
        1.0
    })
}

/// Blow count of a standard penetration test at 60 % of the free-fall energy, N60.
///
/// ```text
/// N60 = N (η_H / 0.6) η_B η_S η_R
/// ```
/// | symbol | meaning                                              | unit | argument            |
/// |--------|------------------------------------------------------|------|---------------------|
/// | N      | blows for the last 300 mm, 0 to 100                  | –    | `blows`             |
/// | η_H    | share of the free-fall energy in the rods, 0.3 to 1  | –    | `hammer_efficiency` |
/// | η_B    | factor of the bore, see [`bore_factor`]              | –    | `bore_diameter`     |
/// | η_R    | factor of the rods, see [`rod_factor`]               | –    | `rod_length`        |
/// | η_S    | factor of the sampler, 1 for the standard one, 0.8 to 1.3 | – | `sampler_factor`  |
///
/// The ends of η_H and η_S are a judgement. Spread not stated in the source read.
///
/// # Source
/// Skempton 1986 after Ameratunga and others 2016, through a general-purpose open geotechnical
/// library (read).
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/spt-n60-open-library.toml`.
pub fn spt_energy_corrected(
    blows: f64,
    hammer_efficiency: f64,
    bore_diameter: Length,
    rod_length: Length,
    sampler_factor: f64,
) -> Result<f64, GroundError> {
    let n = blow_count("blow count", blows)?;
    // Judgement: below 0.3 no hammer works, and 45 typed for 45 % is a slip.
    let holds = (0.3..=1.0).contains(&hammer_efficiency);
    within("hammer efficiency", hammer_efficiency, unit::PERCENT, holds, "30 % to 100 %")?;
    // Judgement: published factors of samplers lie between these.
    let holds = (0.8..=1.3).contains(&sampler_factor);
    within("sampler factor", sampler_factor, unit::ONE, holds, "0.8 to 1.3")?;
    let bore = bore_factor(bore_diameter)?;
    let rods = rod_factor(rod_length)?;
    Ok(n * hammer_efficiency / REFERENCE_EFFICIENCY * bore * sampler_factor * rods)
}

/// Factor that brings N60 to an effective overburden stress of 100 kPa, C_N; `N1,60 = C_N N60`.
///
/// ```text
/// C_N = min( √(100 kPa / σ'_v), 2 )
/// ```
/// σ'_v is `effective_vertical`, Pa. The cap of 2, [`OVERBURDEN_CAP`], is part of the rule; the
/// source thinks 1.5 the better one. Spread not stated in the source read.
///
/// # Source
/// Liao & Whitman 1986, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] unless the stress is 1 Pa or more.
/// # Checked by
/// `cases/ground/spt-overburden-open-library.toml`.
pub fn overburden_factor(effective_vertical: Pressure) -> Result<f64, GroundError> {
    capped_root(P_A, effective_vertical)
}

/// Factor that brings N60 to an effective overburden stress of 98 kPa, C_N by EN ISO 22476-3.
///
/// ```text
/// C_N = min( √(98 kPa / σ'_v), 2 )
/// ```
/// As [`overburden_factor`], with the same cap.
///
/// # Source
/// EN ISO 22476-3, through a general-purpose open geotechnical library (read).
/// # Errors
/// [`GroundError::OutOfRange`] unless the stress is 1 Pa or more.
/// # Checked by
/// `cases/ground/spt-overburden.toml` (computed).
pub fn overburden_factor_iso(effective_vertical: Pressure) -> Result<f64, GroundError> {
    capped_root(ISO_STRESS.si(), effective_vertical)
}

fn capped_root(reference: f64, effective_vertical: Pressure) -> Result<f64, GroundError> {
    let stress = stress("effective vertical stress", effective_vertical.si())?;
    Ok((reference / stress).sqrt().min(OVERBURDEN_CAP))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factors_of_the_bore_join_the_printed_diameters() {
        let at = |mm| bore_factor(Length::millimetres(mm)).unwrap();
        for (mm, factor) in
            [(65.0, 1.0), (115.0, 1.0), (132.5, 1.025), (150.0, 1.05), (200.0, 1.15)]
        {
            approx::assert_relative_eq!(at(mm), factor, max_relative = 1e-12);
        }
        for mm in [64.9, 200.1, f64::NAN, f64::INFINITY, -100.0] {
            assert!(bore_factor(Length::millimetres(mm)).is_err(), "{mm}");
        }
    }

    #[test]
    fn a_length_on_a_border_takes_the_shorter_rods() {
        let at = |m| rod_factor(Length::metres(m)).unwrap();
        let rows = [(3.0, 0.75), (4.0, 0.75), (4.01, 0.85), (6.0, 0.85), (10.0, 0.95), (10.1, 1.0)];
        for (m, factor) in rows {
            assert_eq!(at(m), factor, "{m}");
        }
        assert!(rod_factor(Length::ZERO).is_err());
    }

    #[test]
    fn both_overburden_factors_are_one_at_their_stress_and_never_above_two() {
        let at = |kpa: f64| Pressure::kilopascals(kpa);
        approx::assert_relative_eq!(overburden_factor(at(100.0)).unwrap(), 1.0);
        approx::assert_relative_eq!(overburden_factor_iso(at(98.0)).unwrap(), 1.0);
        assert_eq!(overburden_factor(at(1.0)).unwrap(), OVERBURDEN_CAP);
        assert!(overburden_factor(Pressure::ZERO).is_err());
    }
}

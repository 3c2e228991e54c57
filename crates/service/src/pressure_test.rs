use pipe::EN545_MODULUS;
use quantity::{Length, Pressure, Volume, unit};

use crate::ServiceError;
use crate::error::{finite, not_negative, positive, ring, within};
use crate::surge::WATER_MODULUS;

/// Allowance for residual air in the main test of EN 805; from memory.
pub const MAIN_TEST_FACTOR: f64 = 1.2;

/// Allowance for residual air in the air check (pressure drop test) of EN 805; from memory.
pub const AIR_CHECK_FACTOR: f64 = 1.5;

/// How the maximum design pressure takes surge into account.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surge {
    /// Surge was calculated: MDPc.
    Calculated,
    /// An allowance was made for it: MDPa.
    Allowance,
}

/// System test pressure of a water main (EN 805).
///
/// ```text
/// surge calculated:  STP = MDP + 100 kPa
/// surge allowed for: STP = min( 1.5 MDP, MDP + 500 kPa )
/// ```
/// Holds at the lowest point of the section; elsewhere less by the head. Every component's PEA must
/// bear it.
///
/// # Source
/// EN 805:2000 clause 11; rule read in a network standard (a newer edition, EN 805:2025, exists and
/// was not read).
/// # Errors
/// [`ServiceError::OutOfRange`] for a pressure that is not positive.
/// # Checked by
/// `cases/service/en805-test-pressure.toml`.
pub fn system_test_pressure(mdp: Pressure, surge: Surge) -> Result<Pressure, ServiceError> {
    let p = positive("maximum design pressure", mdp.si(), unit::BAR)?;
    let stp = match surge {
        Surge::Calculated => p + 100.0e3,
        Surge::Allowance => (1.5 * p).min(p + 500.0e3),
    };
    finite("test pressure", stp).map(Pressure::from_si)
}

/// Compressibility of water in an elastic pipe, `1/E_w + D/(e E_R)`, 1/Pa.
fn compliance(inside_diameter: f64, wall: f64) -> f64 {
    1.0 / WATER_MODULUS.si() + inside_diameter / (wall * EN545_MODULUS.si())
}

/// Volume of water that a change of pressure moves in or out of a full pipe, times an allowance for
/// air (EN 805).
///
/// ```text
/// ΔV = a V Δp ( 1/E_w + D/(e E_R) ),    V = π/4 D² L
/// ```
/// | symbol | meaning                                        | unit | argument          |
/// |--------|------------------------------------------------|------|-------------------|
/// | a      | allowance: [`MAIN_TEST_FACTOR`], [`AIR_CHECK_FACTOR`], 1 without air | – | `factor` |
/// | D      | *inside* diameter                              | m    | `inside_diameter` |
/// | e      | wall                                           | m    | `wall`            |
/// | L      | length                                         | m    | `length`          |
/// | Δp     | change of pressure                             | Pa   | `pressure_change` |
/// | E_w, E_R | moduli of water, 2.1 GPa, and iron, 170 GPa  | Pa   | –                 |
///
/// # Source
/// EN 805:2000, 11.3.3.3 and 11.3.3.4, structure from memory; physics exact for a thin wall that is
/// free to stretch.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/en805-water-loss.toml` (computed).
pub fn elastic_volume(
    inside_diameter: Length,
    wall: Length,
    length: Length,
    pressure_change: Pressure,
    factor: f64,
) -> Result<Volume, ServiceError> {
    let d = positive("inside diameter", inside_diameter.si(), unit::MM)?;
    let e = positive("wall", wall.si(), unit::MM)?;
    let l = positive("length", length.si(), unit::M)?;
    let dp = not_negative("pressure change", pressure_change.si(), unit::KPA)?;
    let a = positive("allowance for air", factor, unit::ONE)?;
    let volume = std::f64::consts::PI / 4.0 * d * d * l;
    finite("volume", a * volume * dp * compliance(d, e)).map(Volume::from_si)
}

/// Free air, as a share of the pipe's volume at atmospheric pressure, that the air check of EN 805
/// just tolerates.
///
/// ```text
/// x = (1.5 − 1) Δp (1/E_w + D/(e E_R)) / ( p₀ (1/p₂ − 1/p₁) ),   Δp = p₁ − p₂
/// ```
/// The air gives off what Boyle's law says; the check allows 1.5 times the elastic volume, so that
/// half of it is left for air. The result depends on the test pressure: no single percentage is the
/// limit.
///
/// # Source
/// Derived from EN 805:2000, 11.3.3.3 (factor from memory) and Boyle's law.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/free-air.toml` (computed).
pub fn tolerated_free_air(
    inside_diameter: Length,
    wall: Length,
    absolute_from: Pressure,
    absolute_to: Pressure,
    atmosphere: Pressure,
) -> Result<f64, ServiceError> {
    let (d, e) = ring("inside diameter", inside_diameter.si(), wall.si())?;
    let p0 = positive("atmospheric pressure", atmosphere.si(), unit::BAR)?;
    let p1 = positive("absolute pressure before", absolute_from.si(), unit::BAR)?;
    let p2 = positive("absolute pressure after", absolute_to.si(), unit::BAR)?;
    within("absolute pressure after", p2, unit::BAR, p2 < p1, || {
        format!("less than before ({})", quantity::show(p1, unit::BAR))
    })?;
    let elastic = (p1 - p2) * compliance(d, e);
    finite("tolerated air", (AIR_CHECK_FACTOR - 1.0) * elastic / (p0 * (1.0 / p2 - 1.0 / p1)))
}

/// Volume by which free air gives way between two absolute pressures, `V_a p₀ (1/p₂ − 1/p₁)`.
///
/// V_a is the volume of the air at the pressure p₀ of the atmosphere. Water has to take its place
/// when the pressure rises, and it pushes water out when the pressure falls.
///
/// # Source
/// Boyle's law.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/air-volume.toml` (computed).
pub fn air_volume_change(
    free_air: Volume,
    absolute_from: Pressure,
    absolute_to: Pressure,
    atmosphere: Pressure,
) -> Result<Volume, ServiceError> {
    let v = not_negative("free air", free_air.si(), unit::L)?;
    let p0 = positive("atmospheric pressure", atmosphere.si(), unit::BAR)?;
    let p1 = positive("absolute pressure before", absolute_from.si(), unit::BAR)?;
    let p2 = positive("absolute pressure after", absolute_to.si(), unit::BAR)?;
    finite("volume", v * p0 * (1.0 / p2 - 1.0 / p1)).map(Volume::from_si)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn raising_a_full_main_to_test_pressure_takes_the_elastic_volume_only() {
        let v = elastic_volume(
            Length::millimetres(615.2),
            Length::millimetres(9.9),
            Length::metres(1000.0),
            Pressure::bar(15.0),
            1.0,
        );
        assert!((v.expect("valid").to_litres() - 375.0).abs() < 0.5);
    }

    #[test]
    fn the_check_tolerates_less_air_at_a_higher_pressure_drop_point() {
        let at = |p: f64| {
            tolerated_free_air(
                Length::millimetres(311.6),
                Length::millimetres(7.2),
                Pressure::bar(p),
                Pressure::bar(p - 1.0),
                Pressure::bar(1.0),
            )
        };
        assert!(at(11.0).expect("valid") < at(16.0).expect("valid"));
        assert!(at(1.0).is_err());
    }
}

//! Stress in one barrel of the string while it is pulled.

use std::f64::consts::PI;

use quantity::{Force, ForcePerLength, Length, Pressure, unit};

use crate::published::{PublishedError, barrel_bending_stress, range};

/// What acts on one barrel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarrelLoad {
    /// Tension.
    pub tension: Force,
    /// Force of a joint on the wall, taken to act at mid-barrel.
    pub side_force: Force,
    /// Net weight in the fluid; its magnitude counts.
    pub net_weight: ForcePerLength,
    /// Deflection at mid-barrel that the wall of the bore forces; zero where the barrel does not touch it.
    pub forced_deflection: Length,
}

/// The barrel that carries it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Barrel {
    /// Laying length.
    pub laying_length: Length,
    /// Outside diameter of the iron.
    pub outside_diameter: Length,
    /// Wall of the iron that counts.
    pub wall: Length,
    /// Modulus of elasticity.
    pub modulus: Pressure,
}

/// Stresses on one barrel; their sum is the most that can act at one fibre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarrelStress {
    /// From the tension.
    pub axial: Pressure,
    /// Bending by side force and weight.
    pub bending: Pressure,
    /// Bending that the wall of the bore forces.
    pub forced: Pressure,
}

/// Stresses on a barrel under tension, side force, weight and a forced deflection.
///
/// ```text
/// σ_a = T / (π (DE − e) e)
/// σ_b = (N·a/4 + |w|·a²/8)·DE / (2 I),   I = π (DE − e)³ e / 8
/// σ_f = 6 E·DE·m / a²
/// ```
/// | symbol | meaning                          | unit |
/// |--------|----------------------------------|------|
/// | T, N   | tension, side force              | N    |
/// | w      | net weight                       | N/m  |
/// | a      | laying length                    | m    |
/// | DE, e  | outside diameter, wall           | m    |
/// | E      | modulus of elasticity            | Pa   |
/// | m      | forced deflection at mid-barrel  | m    |
///
/// σ_f is that of a beam on two supports bent by a central force: m = F a³/(48 E I), M = F a/4, so M = 12 E I m/a².
///
/// # Source
/// Beam theory, derived; σ_b is [`barrel_bending_stress`].
/// # Errors
/// [`PublishedError::OutOfRange`] for a wall, length or modulus that is not positive and for negative loads.
/// # Checked by
/// `cases/pull/barrel-bending.toml` for σ_b; σ_f against the deflection of the same beam in the tests.
pub fn barrel_stress(barrel: &Barrel, load: &BarrelLoad) -> Result<BarrelStress, PublishedError> {
    let a = range::positive("laying length", barrel.laying_length.si(), unit::M)?;
    let d = range::positive("outside diameter", barrel.outside_diameter.si(), unit::MM)?;
    let e = range::wall(barrel.wall.si(), d)?;
    let modulus = range::positive("modulus", barrel.modulus.si(), unit::GPA)?;
    let tension = range::not_negative("tension", load.tension.si(), unit::KN)?;
    let m = range::not_negative("forced deflection", load.forced_deflection.si(), unit::MM)?;
    let bending = barrel_bending_stress(
        load.side_force,
        load.net_weight,
        barrel.laying_length,
        barrel.outside_diameter,
        barrel.wall,
    )?;
    let stress = |value| range::result("stress", value).map(Pressure::pascals);
    Ok(BarrelStress {
        axial: stress(tension / (PI * (d - e) * e))?,
        bending,
        forced: stress(6.0 * modulus * d * m / (a * a))?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const BARREL: Barrel = Barrel {
        laying_length: Length::from_si(6.0),
        outside_diameter: Length::from_si(0.635),
        wall: Length::from_si(0.0099),
        modulus: Pressure::from_si(170e9),
    };

    #[test]
    fn the_forced_bending_is_that_of_the_force_that_bends_as_much() {
        let (a, d, e) = (6.0, 0.635, 0.0099);
        let second_moment = PI * f64::powi(d - e, 3) * e / 8.0;
        let force = 12e3;
        let deflection = force * f64::powi(a, 3) / (48.0 * 170e9 * second_moment);
        let none = BarrelLoad {
            tension: Force::ZERO,
            side_force: Force::ZERO,
            net_weight: ForcePerLength::ZERO,
            forced_deflection: Length::metres(deflection),
        };
        let forced = barrel_stress(&BARREL, &none).unwrap().forced;
        let loaded = BarrelLoad {
            side_force: Force::newtons(force),
            forced_deflection: Length::ZERO,
            ..none
        };
        let bending = barrel_stress(&BARREL, &loaded).unwrap().bending;
        approx::assert_relative_eq!(forced.si(), bending.si(), max_relative = 1e-12);
    }

    #[test]
    fn the_tension_is_carried_by_the_ring_of_iron() {
        // 1525 kN on DN 600 with 9.9 mm: 78 MPa.
        let load = BarrelLoad {
            tension: Force::kilonewtons(1525.0),
            side_force: Force::ZERO,
            net_weight: ForcePerLength::ZERO,
            forced_deflection: Length::ZERO,
        };
        let axial = barrel_stress(&BARREL, &load).unwrap().axial;
        approx::assert_abs_diff_eq!(axial.to_megapascals(), 78.0, epsilon = 0.5);
    }
}

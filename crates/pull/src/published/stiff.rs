//! Pipe and contact of the stiff-pipe method, and its straights.

use std::f64::consts::{FRAC_PI_2, PI};

use quantity::{Angle, Force, ForcePerLength, Length, Pressure, unit};
use working::Evidence;

use super::{Method, PublishedError, range};

/// The stiff-pipe method.
pub const STIFF_PIPE: Method = Method {
    name: "stiff pipe, straights and arcs",
    document: "engineering design guide for steel pipelines in drilled crossings, 1995; the arc is \
         derived again from beam theory",
    evidence: Evidence::FromMemory,
    validity: "made for welded steel: with its usual fluid stress of 345 Pa it over-predicted two \
               measured crossings by 85 % and 238 %; without stiffness it is the capstan law",
};

/// Pipe of the stiff-pipe method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StiffPipe {
    /// Outside diameter.
    pub outside_diameter: Length,
    /// Wall that carries bending.
    pub wall: Length,
    /// Modulus of elasticity; zero for a string of free hinges.
    pub modulus: Pressure,
    /// Net weight in the fluid, positive where the pipe sinks.
    pub net_weight: ForcePerLength,
}

impl StiffPipe {
    /// Bending stiffness of a thin-walled tube, in N·m².
    ///
    /// ```text
    /// EI = E·π·(D − t)³·t / 8
    /// ```
    /// # Errors
    /// [`PublishedError::OutOfRange`] for a wall of half the diameter or more, and a negative modulus.
    pub fn bending_stiffness(&self) -> Result<f64, PublishedError> {
        let d = self.diameter()?;
        let t = range::wall(self.wall.si(), d)?;
        let e = range::not_negative("modulus", self.modulus.si(), unit::GPA)?;
        range::result("bending stiffness", e * PI * (d - t).powi(3) * t / 8.0)
    }

    pub(super) fn diameter(&self) -> Result<f64, PublishedError> {
        range::positive("outside diameter", self.outside_diameter.si(), unit::MM)
    }

    pub(super) fn weight(&self) -> Result<f64, PublishedError> {
        range::any("net weight", self.net_weight.si(), unit::N_PER_M)
    }
}

/// What resists the pipe in the bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// Friction of pipe on the wall of the bore, μ.
    pub friction: f64,
    /// Shear stress of the fluid on the pipe's outside, τ.
    pub fluid_stress: Pressure,
}

impl Contact {
    pub(super) fn checked(&self) -> Result<(f64, f64), PublishedError> {
        Ok((
            range::friction("friction", self.friction)?,
            range::not_negative("fluid stress", self.fluid_stress.si(), unit::PA)?,
        ))
    }
}

/// Pull over a straight and its shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StraightForces {
    /// Friction of the net weight.
    pub weight_friction: Force,
    /// Drag of the fluid.
    pub drag: Force,
    /// Component of the net weight along the pipe; negative where it helps.
    pub weight_along: Force,
    /// Pull at the front end.
    pub force_out: Force,
}

/// Pull over a straight.
///
/// ```text
/// T₂ = T₁ + μ·|w|·L·cos θ + π·D·L·τ + w·L·sin θ
/// ```
/// | symbol | meaning                                    | unit | argument           |
/// |--------|--------------------------------------------|------|--------------------|
/// | T₁, T₂ | pull behind and ahead                      | N    | `force_in`, returned |
/// | μ, τ   | friction; fluid stress                     | –, Pa | `contact`         |
/// | w, D   | net weight, positive sinks; outside diameter | N/m, m | `pipe`         |
/// | L, θ   | length; inclination, positive climbs       | m, rad | `length`, `inclination` |
///
/// Valid for |θ| < 90°, L ≥ 0, μ from 0 to 1, τ ≥ 0. A negative result is returned as it is: the pipe then has to be
/// held back.
///
/// # Source
/// [`STIFF_PIPE`]; statics of a body on a slope. Deviation: the sign of the last term comes with θ.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/straight-slope.toml`, `cases/pull/stiff-path.toml`.
pub fn straight(
    pipe: &StiffPipe,
    contact: &Contact,
    force_in: Force,
    length: Length,
    inclination: Angle,
) -> Result<StraightForces, PublishedError> {
    let (w, d) = (pipe.weight()?, pipe.diameter()?);
    let (mu, tau) = contact.checked()?;
    let t1 = range::any("force in", force_in.si(), unit::KN)?;
    let l = range::not_negative("length", length.si(), unit::M)?;
    let theta =
        range::between("inclination", inclination.si(), (-FRAC_PI_2, FRAC_PI_2), unit::DEG)?;
    let (weight_friction, weight_along) = weight_on_slope(w, mu, l, theta);
    let drag = PI * d * l * tau;
    let t2 = range::result("force out", t1 + weight_friction + drag + weight_along)?;
    Ok(StraightForces {
        weight_friction: Force::newtons(weight_friction),
        drag: Force::newtons(drag),
        weight_along: Force::newtons(weight_along),
        force_out: Force::newtons(t2),
    })
}

/// Friction of a weight on a slope and its component along it, N; arguments in SI and checked.
pub(crate) fn weight_on_slope(weight: f64, friction: f64, length: f64, slope: f64) -> (f64, f64) {
    (friction * weight.abs() * length * slope.cos(), weight * length * slope.sin())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wall_of_half_the_diameter_has_no_stiffness() {
        let pipe = StiffPipe {
            outside_diameter: Length::metres(0.61),
            wall: Length::metres(0.4),
            modulus: Pressure::megapascals(207e3),
            net_weight: ForcePerLength::ZERO,
        };
        assert_eq!(pipe.bending_stiffness().unwrap_err().quantity(), Some("wall"));
        let thin = StiffPipe { wall: Length::metres(0.0127), ..pipe };
        // 207 GPa on the thin-ring second moment of 610 x 12.7 mm.
        assert!((thin.bending_stiffness().unwrap() / 2.2000e8 - 1.0).abs() < 1e-2);
    }

    #[test]
    fn slope_and_its_mirror_differ_by_twice_the_weight_along_them() {
        let pipe = StiffPipe {
            outside_diameter: Length::metres(0.61),
            wall: Length::ZERO,
            modulus: Pressure::ZERO,
            net_weight: ForcePerLength::from_si(1000.0),
        };
        let contact = Contact { friction: 0.3, fluid_stress: Pressure::pascals(50.0) };
        let at = |degrees: f64| {
            let angle = Angle::degrees(degrees);
            straight(&pipe, &contact, Force::ZERO, Length::metres(60.0), angle).unwrap()
        };
        let (up, down) = (at(10.0), at(-10.0));
        let difference = (up.force_out - down.force_out).si();
        approx::assert_relative_eq!(difference, 2.0 * up.weight_along.si(), max_relative = 1e-12);
        assert_eq!(up.weight_friction, down.weight_friction);
        let upright =
            straight(&pipe, &contact, Force::ZERO, Length::metres(60.0), Angle::degrees(90.0));
        assert_eq!(upright.unwrap_err().quantity(), Some("inclination"));
    }
}

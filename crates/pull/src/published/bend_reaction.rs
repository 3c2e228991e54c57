//! The soil's reaction to a stiff pipe that enters a bend.

use std::f64::consts::{FRAC_PI_4, PI};

use quantity::{Force, Length, Pressure, UnitWeight, unit};
use working::Evidence;

use super::{Method, PublishedError, StiffPipe, range};

/// The soil's reaction at a bend.
pub const BEND_REACTION: Method = Method {
    name: "bend reaction on elastic soil",
    document: "beam on elastic soil that follows a step of curvature, derived; agrees with the \
         remembered form of NEN 3650",
    evidence: Evidence::Derived,
    validity: "pipe that bends as a beam and touches soil all along; nothing for free joints",
};

/// What [`bend_reaction`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BendReaction {
    /// Reciprocal length of the beam on its bed, λ, in 1/m.
    pub reciprocal_length: f64,
    /// Greatest deflection into the soil, y.
    pub deflection: Length,
    /// Greatest pressure on the soil, k·y.
    pub pressure: Pressure,
    /// Sum of the magnitudes of the soil's reaction at one step of curvature, Q; a bend has two steps.
    pub step_force: Force,
}

/// Reaction of elastic soil where a straight pipe enters a bend.
///
/// ```text
/// λ = (k·D / (4·E·I))^(1/4)        I = π·(D − t)³·t/8
/// y = e^(−π/4)·sin(π/4) / (4·λ²·R) = 0.3224·λ²·E·I / (D·k·R)
/// Q = k·D / (4·λ³·R) · (1 + e^(−π)) / (1 − e^(−π))
/// ```
/// | symbol  | meaning                          | unit | argument           |
/// |---------|----------------------------------|------|--------------------|
/// | λ       | reciprocal length                | 1/m  | `reciprocal_length` |
/// | y       | greatest deflection              | m    | `deflection`       |
/// | Q       | sum of magnitudes at one step    | N    | `step_force`       |
/// | D, t, E | diameter, wall, modulus          | m, Pa | `pipe`            |
/// | R       | radius of the bend               | m    | `radius`           |
/// | k       | subgrade modulus of the soil     | N/m³ | `subgrade_modulus` |
///
/// Valid for E, R, k > 0 and a bend longer than π/λ.
///
/// # Source
/// [`BEND_REACTION`]. The shortcut k·y·D·π/λ of the remembered form is 7 % lower than Q.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/bend-reaction.toml`; the integral of the deflected line in the tests.
pub fn bend_reaction(
    pipe: &StiffPipe,
    radius: Length,
    subgrade_modulus: UnitWeight,
) -> Result<BendReaction, PublishedError> {
    range::positive("modulus", pipe.modulus.si(), unit::GPA)?;
    let ei = pipe.bending_stiffness()?;
    let d = pipe.outside_diameter.si();
    let r = range::positive("radius", radius.si(), unit::M)?;
    let k = range::positive("subgrade modulus", subgrade_modulus.si(), unit::MN_PER_M3)?;
    let lambda = (k * d / (4.0 * ei)).powf(0.25);
    let amplitude = 1.0 / (4.0 * lambda * lambda * r);
    let y = (-FRAC_PI_4).exp() * FRAC_PI_4.sin() * amplitude;
    let decay = (-PI).exp();
    let step = k * d * amplitude / lambda * (1.0 + decay) / (1.0 - decay);
    Ok(BendReaction {
        reciprocal_length: range::result("reciprocal length", lambda)?,
        deflection: Length::metres(range::result("deflection", y)?),
        pressure: Pressure::pascals(range::result("pressure", k * y)?),
        step_force: Force::newtons(range::result("step force", step)?),
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::ForcePerLength;

    use super::*;

    fn steel() -> StiffPipe {
        StiffPipe {
            outside_diameter: Length::millimetres(609.6),
            wall: Length::millimetres(12.7),
            modulus: Pressure::megapascals(207e3),
            net_weight: ForcePerLength::ZERO,
        }
    }

    #[test]
    fn step_force_is_the_integral_of_the_deflected_line() {
        let (radius, k) = (732.0, 10e6);
        let found =
            bend_reaction(&steel(), Length::metres(radius), UnitWeight::newtons_per_cubic_metre(k))
                .unwrap();
        let lambda = found.reciprocal_length;
        let line =
            |x: f64| (-lambda * x).exp() * (lambda * x).sin() / (4.0 * lambda * lambda * radius);
        let dx = 1e-3;
        let (mut sum, mut greatest) = (0.0f64, 0.0f64);
        for i in 0..200_000 {
            let y = line((f64::from(i) + 0.5) * dx);
            sum += y.abs() * dx;
            greatest = greatest.max(y);
        }
        let by_integral = 2.0 * k * 0.6096 * sum;
        assert!((found.step_force.si() / by_integral - 1.0).abs() < 1e-6, "{by_integral}");
        assert!((found.deflection.si() / greatest - 1.0).abs() < 1e-6, "{greatest}");
        let shortcut = found.pressure.si() * 0.6096 * PI / lambda;
        assert!((shortcut - 87_690.0).abs() < 5.0, "{shortcut}");
    }

    #[test]
    fn pipe_without_stiffness_is_refused() {
        let limp = StiffPipe { modulus: Pressure::ZERO, ..steel() };
        let k = UnitWeight::newtons_per_cubic_metre(1e7);
        let error = bend_reaction(&limp, Length::metres(732.0), k).unwrap_err();
        assert_eq!(error.quantity(), Some("modulus"));
    }

    proptest! {
        #[test]
        fn two_ways_of_writing_the_deflection_agree(
            e in 1e9f64..2.2e11, r in 50.0f64..3e3, k in 1e5f64..1e9,
        ) {
            let pipe = StiffPipe { modulus: Pressure::pascals(e), ..steel() };
            let ei = pipe.bending_stiffness().unwrap();
            let found = bend_reaction(&pipe, Length::metres(r), UnitWeight::from_si(k)).unwrap();
            let lambda = found.reciprocal_length;
            let other = (-FRAC_PI_4).exp() * FRAC_PI_4.sin() * lambda * lambda * ei
                / (0.6096 * k * r);
            prop_assert!((found.deflection.si() / other - 1.0).abs() < 1e-10);
        }
    }
}

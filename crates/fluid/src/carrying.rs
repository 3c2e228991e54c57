use quantity::{Density, GRAVITY, Length, Velocity, Viscosity, show, unit};

use crate::FluidError;
use crate::error::{annulus, between, finite, not_negative, positive, within};

/// Reynolds numbers between which the drag fit is used.
// Judgement: for a sphere the fit leaves the textbook drag by a seventh at 1 and by a tenth at
// 10 000, and soon by much more outside.
const LEAST_REYNOLDS: f64 = 1.0;
const MOST_REYNOLDS: f64 = 10_000.0;

/// Sphericity of the flattest grain: a thin flake.
// Judgement: flatter cuttings than this are not grains.
const LEAST_SPHERICITY: f64 = 0.2;

/// How a grain sinks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slip {
    /// Velocity of the grain through the fluid.
    pub velocity: Velocity,
    /// Reynolds number of the grain.
    pub reynolds: f64,
    /// Drag factor of the grain.
    pub drag: f64,
}

/// Coefficients A, B, C of `log₁₀ f = A + B log₁₀ Re + C (log₁₀ Re)²` for a sphericity.
fn drag_coefficients(sphericity: f64) -> (f64, f64, f64) {
    let cubic = |c: [f64; 4]| c[0] + sphericity * (c[1] + sphericity * (c[2] + sphericity * c[3]));
    (
        cubic([2.2954, -2.2626, 4.4395, -2.9825]),
        cubic([-0.4193, -1.9014, 3.3416, -2.0409]),
        cubic([0.1117, 0.0553, -0.1468, 0.1145]),
    )
}

/// Velocity at which a grain sinks through a fluid at rest.
///
/// ```text
/// v = √( 4 g d (ρ_s − ρ) / (3 f ρ) ),   Re = ρ v d/μ
/// log₁₀ f = A + B log₁₀ Re + C (log₁₀ Re)²
/// A = 2.2954 − 2.2626 ψ + 4.4395 ψ² − 2.9825 ψ³
/// B = −0.4193 − 1.9014 ψ + 3.3416 ψ² − 2.0409 ψ³
/// C = 0.1117 + 0.0553 ψ − 0.1468 ψ² + 0.1145 ψ³
/// ```
/// | symbol | meaning                                               | unit  | argument           |
/// |--------|-------------------------------------------------------|-------|--------------------|
/// | d      | diameter of the sphere of equal volume                | m     | `diameter`         |
/// | ψ      | surface of that sphere over the grain's, 0.2 to 1     | –     | `sphericity`       |
/// | ρ_s    | density of the grain, above the fluid's               | kg/m³ | `particle_density` |
/// | ρ      | density of the fluid                                  | kg/m³ | `fluid_density`    |
/// | μ      | viscosity of the fluid around the grain               | Pa·s  | `viscosity`        |
///
/// Both laws together are a quadratic equation for log₁₀ Re, which is solved in closed form. Valid
/// for Re from 1 to 10 000. A gel holds grains that a flowing fluid would let sink.
///
/// # Source
/// Guo & Liu, Applied Drilling Circulation Systems, pp. 55 and 56: procedure and example read; the
/// coefficients are from memory and give the printed A, B, C of the example to the last digit.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument, or the Reynolds number outside the fit.
/// # Checked by
/// `cases/fluid/particle-slip-guo-p55.toml` (published); property: the equations hold.
pub fn particle_slip(
    diameter: Length,
    sphericity: f64,
    particle_density: Density,
    fluid_density: Density,
    viscosity: Viscosity,
) -> Result<Slip, FluidError> {
    let d = positive("diameter", diameter.si(), unit::MM)?;
    let psi = between("sphericity", sphericity, unit::ONE, LEAST_SPHERICITY, 1.0)?;
    let rho = positive("fluid density", fluid_density.si(), unit::KG_PER_M3)?;
    let solid = particle_density.si();
    within("particle density", solid, unit::KG_PER_M3, solid > rho, || {
        format!("greater than the fluid density ({})", show(rho, unit::KG_PER_M3))
    })?;
    let mu = positive("viscosity", viscosity.si(), unit::MPA_S)?;
    let (a, b, c) = drag_coefficients(psi);
    let drive = 4.0 * GRAVITY * d * (solid - rho) / (3.0 * rho);
    let per_reynolds = mu / (rho * d);
    let constant = a + 2.0 * per_reynolds.log10() - drive.log10();
    let half = (2.0 + b) / 2.0;
    let under_root = half * half - c * constant;
    if under_root < 0.0 {
        let why = "the grain sinks more slowly than the drag fit reaches".to_owned();
        return Err(FluidError::NotConverged { what: "slip of the grain", why });
    }
    let log_re = (under_root.sqrt() - half) / c;
    let reynolds = 10f64.powf(log_re);
    let in_fit = (LEAST_REYNOLDS..=MOST_REYNOLDS).contains(&reynolds);
    within("Reynolds number of the grain", reynolds, unit::ONE, in_fit, || {
        format!("{LEAST_REYNOLDS} to {MOST_REYNOLDS}, where the drag is known")
    })?;
    let velocity = finite("slip velocity", reynolds * per_reynolds)?;
    let drag = finite("drag factor", 10f64.powf(a + log_re * (b + c * log_re)))?;
    Ok(Slip { velocity: Velocity::from_si(velocity), reynolds, drag })
}

/// Velocity that keeps the cuttings of a pass at a concentration, `v = v_adv D_c²/(c (D₂² − D₁²))`.
///
/// | symbol | meaning                                    | unit | argument          |
/// |--------|--------------------------------------------|------|-------------------|
/// | v_adv  | advance of the bit                         | m/s  | `advance`         |
/// | D_c    | diameter of the pilot bit                  | m    | `cut_diameter`    |
/// | D₂, D₁ | hole and string                            | m    | `hole_diameter`, `string_diameter` |
/// | c      | share of solids that is allowed, below 1   | –    | `concentration`   |
///
/// Add the slip of [`particle_slip`] for the least velocity of upward returns. Reamed bores never
/// reach it: there the ratio of fluid to soil and the gel carry the cuttings.
///
/// # Source
/// Guo & Liu, Applied Drilling Circulation Systems, eq. 2.97 and 2.98.
/// # Errors
/// [`FluidError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/fluid/transport-velocity.toml` (computed).
pub fn transport_velocity(
    advance: Velocity,
    cut_diameter: Length,
    hole_diameter: Length,
    string_diameter: Length,
    concentration: f64,
) -> Result<Velocity, FluidError> {
    let v = not_negative("advance", advance.si(), unit::M_PER_MIN)?;
    let (outer, inner) = annulus(hole_diameter, string_diameter)?;
    let cut = cut_diameter.si();
    within("cut diameter", cut, unit::MM, cut > 0.0 && cut <= outer, || {
        format!("greater than 0 and at most the hole diameter ({})", show(outer, unit::MM))
    })?;
    let in_range = concentration > 0.0 && concentration < 1.0;
    let c = within("concentration", concentration, unit::PERCENT, in_range, || {
        "greater than 0 and less than 100 %".to_owned()
    })?;
    let velocity = v * (cut / (outer - inner)) * (cut / (outer + inner)) / c;
    finite("transport velocity", velocity).map(Velocity::from_si)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn both_equations_hold(
            d in 0.5e-3f64..0.02, psi in 0.3f64..=1.0, mu in 0.001f64..0.03, solid in 1500f64..3000.0,
        ) {
            let rho = 1080.0;
            let slip = particle_slip(
                Length::metres(d), psi, Density::from_si(solid), Density::from_si(rho),
                Viscosity::from_si(mu),
            );
            if let Ok(slip) = slip {
                let v = slip.velocity.si();
                prop_assert!((slip.reynolds / (rho * v * d / mu) - 1.0).abs() < 1e-9);
                let force = 4.0 * GRAVITY * d * (solid - rho) / (3.0 * slip.drag * rho);
                prop_assert!((v * v / force - 1.0).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn the_drag_of_a_sphere_is_near_the_textbook_within_the_range() {
        let (a, b, c) = drag_coefficients(1.0);
        for (re, textbook) in [(1.0, 27.1), (10.0, 4.2), (100.0, 1.09), (1000.0, 0.46), (1e4, 0.41)]
        {
            let x = f64::log10(re);
            let f = 10f64.powf(a + b * x + c * x * x);
            assert!((f / textbook - 1.0).abs() < 0.15, "{re}: {f} against {textbook}");
        }
    }

    #[test]
    fn grains_outside_the_fit_are_refused() {
        let slip = |d: f64, solid: f64, mu: f64| {
            let (rho, mu) = (Density::from_si(1080.0), Viscosity::from_si(mu));
            particle_slip(Length::millimetres(d), 0.8, Density::from_si(solid), rho, mu)
        };
        assert!(slip(1.0, 2650.0, 0.3).unwrap_err().to_string().contains("Reynolds number"));
        assert!(slip(1.0, 1080.0, 0.01).is_err());
        assert!(slip(6.0, 2650.0, 0.01).is_ok());
        assert!(slip(f64::MAX, 2650.0, 0.01).is_err());
    }
}

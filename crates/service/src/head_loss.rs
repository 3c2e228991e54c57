use std::f64::consts::{LN_10, PI};

use quantity::{Flow, GRAVITY, KinematicViscosity, Length, Velocity, unit};

use crate::ServiceError;
use crate::error::{finite, positive, within};

/// Reynolds number below which the flow is taken as laminar; hydraulics texts, from memory.
pub const LAMINAR_LIMIT: f64 = 2300.0;

/// Steps of Newton's method; five are usual.
const MAX_STEPS: usize = 50;

/// Flow in a full round pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FullPipe {
    /// Mean velocity.
    pub velocity: Velocity,
    /// Reynolds number.
    pub reynolds: f64,
    /// Darcy's friction factor.
    pub friction_factor: f64,
    /// Head lost per length, m/m.
    pub gradient: f64,
}

/// Darcy's friction factor of turbulent flow in a full round pipe (Colebrook–White).
///
/// ```text
/// 1/√f = −2·log₁₀( (k/D)/3.7 + 2.51/(Re·√f) )
/// ```
/// | symbol | meaning            | unit | argument             |
/// |--------|--------------------|------|----------------------|
/// | f      | friction factor    | –    | returned             |
/// | k/D    | relative roughness | –    | `relative_roughness` |
/// | Re     | Reynolds number    | –    | `reynolds`           |
///
/// Valid for Re ≥ 2300 and 0 ≤ k/D ≤ 0.05; between 2300 and 4000 it stands for the turbulent end of
/// the transition. Solved by Newton's method on 1/√f to 1e-14 relative.
///
/// # Source
/// Colebrook 1939, as every hydraulics text prints it.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument; nothing is clamped.
/// # Checked by
/// `cases/service/head-loss.toml` (computed); property: falls with the Reynolds number.
pub fn colebrook_white(reynolds: f64, relative_roughness: f64) -> Result<f64, ServiceError> {
    let re = within("Reynolds number", reynolds, unit::ONE, reynolds >= LAMINAR_LIMIT, || {
        format!("at least {LAMINAR_LIMIT}")
    })?;
    let k = relative_roughness;
    within("relative roughness", k, unit::ONE, (0.0..=0.05).contains(&k), || {
        "0 to 0.05".to_owned()
    })?;
    let mut x = 7.0;
    for _ in 0..MAX_STEPS {
        let inner = k / 3.7 + 2.51 * x / re;
        let residual = x + 2.0 * inner.log10();
        let slope = 1.0 + 2.0 / LN_10 * (2.51 / re) / inner;
        let step = residual / slope;
        x -= step;
        if step.abs() <= 1e-14 * x.abs() {
            break;
        }
    }
    finite("friction factor", 1.0 / (x * x))
}

/// Head lost per length, `f v² / (2 g D)` (Darcy–Weisbach).
///
/// # Source
/// Every hydraulics text.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
pub fn darcy_weisbach(
    friction_factor: f64,
    velocity: Velocity,
    inside_diameter: Length,
) -> Result<f64, ServiceError> {
    let f = positive("friction factor", friction_factor, unit::ONE)?;
    let v = positive("velocity", velocity.si(), unit::M_PER_S)?;
    let d = positive("inside diameter", inside_diameter.si(), unit::MM)?;
    finite("gradient", f * v * v / (2.0 * GRAVITY * d))
}

/// Velocity, Reynolds number, friction factor and head loss of a full round pipe.
///
/// Laminar (`f = 64/Re`) below Re = 2300, else [`colebrook_white`]. Take the *lined* bore, and 0.1
/// mm for a network with its joints, 0.03 mm for a smooth lining; 0.26 mm in some tables is bare
/// cast iron.
///
/// # Source
/// As [`colebrook_white`] and [`darcy_weisbach`].
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/head-loss.toml` (computed).
pub fn full_pipe_flow(
    inside_diameter: Length,
    flow: Flow,
    roughness: Length,
    viscosity: KinematicViscosity,
) -> Result<FullPipe, ServiceError> {
    let d = positive("inside diameter", inside_diameter.si(), unit::MM)?;
    let q = positive("flow", flow.si(), unit::L_PER_S)?;
    let nu = positive("kinematic viscosity", viscosity.si(), unit::MM2_PER_S)?;
    let k = roughness.si() / d;
    let v = finite("velocity", q / (PI / 4.0 * d * d))?;
    let reynolds = finite("Reynolds number", v * d / nu)?;
    let friction_factor =
        if reynolds < LAMINAR_LIMIT { 64.0 / reynolds } else { colebrook_white(reynolds, k)? };
    let velocity = Velocity::from_si(v);
    let gradient = darcy_weisbach(friction_factor, velocity, inside_diameter)?;
    Ok(FullPipe { velocity, reynolds, friction_factor, gradient })
}

/// Head lost per length by Hazen and Williams, `10.67 Q^1.852 / (C^1.852 D^4.8704)` in SI.
///
/// C = 140 is the US industry's value for mortar-lined ductile iron (from memory). Empirical; water
/// near 15 °C.
///
/// # Source
/// Common handbook form in SI.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/hazen-williams.toml` (computed).
pub fn hazen_williams(
    inside_diameter: Length,
    flow: Flow,
    coefficient: f64,
) -> Result<f64, ServiceError> {
    let d = positive("inside diameter", inside_diameter.si(), unit::MM)?;
    let q = positive("flow", flow.si(), unit::L_PER_S)?;
    let c = positive("Hazen-Williams coefficient", coefficient, unit::ONE)?;
    finite("gradient", 10.67 * q.powf(1.852) / (c.powf(1.852) * d.powf(4.8704)))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn laminar_flow_needs_no_roughness_and_follows_poiseuille() {
        let d = Length::millimetres(100.0);
        let nu = KinematicViscosity::square_metres_per_second(1.31e-6);
        let q = Flow::litres_per_second(0.1);
        let p = full_pipe_flow(d, q, Length::ZERO, nu).expect("valid");
        assert!(p.reynolds < LAMINAR_LIMIT);
        let poiseuille = 32.0 * nu.si() * p.velocity.si() / (GRAVITY * d.si() * d.si());
        assert!((p.gradient / poiseuille - 1.0).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn friction_falls_with_reynolds_and_rises_with_roughness(
            log_re in 3.4f64..8.0, k in 1e-6f64..0.049,
        ) {
            let re = 10f64.powf(log_re);
            let f = colebrook_white(re, k).unwrap();
            prop_assert!(colebrook_white(re * 1.1, k).unwrap() < f);
            prop_assert!(colebrook_white(re, k * 1.01).unwrap() > f);
            let right = -2.0 * (k / 3.7 + 2.51 / (re * f.sqrt())).log10();
            prop_assert!((right * f.sqrt() - 1.0).abs() < 1e-12);
        }

        #[test]
        fn any_numbers_give_a_finite_result_or_an_error(
            d in proptest::num::f64::ANY, q in proptest::num::f64::ANY,
            k in proptest::num::f64::ANY, nu in proptest::num::f64::ANY,
        ) {
            let result = full_pipe_flow(
                Length::from_si(d), Flow::from_si(q), Length::from_si(k),
                KinematicViscosity::from_si(nu),
            );
            if let Ok(p) = result {
                prop_assert!(p.gradient.is_finite() && p.friction_factor.is_finite());
            }
        }
    }
}

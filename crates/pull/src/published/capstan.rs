//! The hinged chain on a bend, and the force of one joint on the wall.

use std::f64::consts::PI;

use quantity::{Angle, Force, unit};
use working::Evidence;

use super::{Method, PublishedError, range};

/// The chain on a bend.
pub const CAPSTAN: Method = Method {
    name: "chain on a bend",
    document: "balance of forces at one hinge, derived",
    evidence: Evidence::Derived,
    validity: "weightless chain of rigid barrels whose joints touch the outside of the bend",
};

/// What [`chain_capstan`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CapstanRatios {
    /// Pull ahead over pull behind of the chain.
    pub chain: f64,
    /// The same of a rope around the same total angle.
    pub smooth: f64,
}

/// Pull ahead over pull behind of a chain with equal joint angles, beside that of a rope.
///
/// ```text
/// T₂/T₁ = [ (cos(δ/2) + μ·sin(δ/2)) / (cos(δ/2) − μ·sin(δ/2)) ]^n        rope: e^(μ·n·δ)
/// ```
/// | symbol | meaning                | unit | argument      |
/// |--------|------------------------|------|---------------|
/// | n      | number of joints       | –    | `joints`      |
/// | δ      | angle at each joint    | rad  | `joint_angle` |
/// | μ      | friction on the wall   | –    | `friction`    |
///
/// Valid for n ≥ 1, 0 ≤ δ < 180°, μ from 0 to 1 with μ·tan(δ/2) < 1: beyond that the joint locks itself and no pull
/// moves it.
///
/// # Source
/// [`CAPSTAN`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/chain-capstan.toml`; property: small joint angles approach the rope.
pub fn chain_capstan(
    joints: f64,
    joint_angle: Angle,
    friction: f64,
) -> Result<CapstanRatios, PublishedError> {
    let n = range::within("joints", joints, (1.0, 1e6), unit::ONE)?;
    if n.fract() != 0.0 {
        return Err(PublishedError::OutOfRange {
            quantity: "joints",
            found: n.to_string(),
            allowed: "a whole number".to_owned(),
        });
    }
    let mu = range::friction("friction", friction)?;
    let locked = if mu > 0.0 { 2.0 * (1.0 / mu).atan() } else { PI };
    let delta = range::not_negative("joint angle", joint_angle.si(), unit::DEG)?;
    if delta >= locked {
        return Err(PublishedError::OutOfRange {
            quantity: "joint angle",
            found: joint_angle.to_string(),
            allowed: format!("less than {}, where the joint locks itself", Angle::radians(locked)),
        });
    }
    let (sin, cos) = (delta / 2.0).sin_cos();
    let one = (cos + mu * sin) / (cos - mu * sin);
    Ok(CapstanRatios {
        chain: range::result("force ratio", one.powf(n))?,
        smooth: range::result("smooth ratio", rope(mu, n * delta))?,
    })
}

/// Pull ahead over pull behind of a rope around a turn; arguments in SI and checked.
pub(crate) fn rope(friction: f64, turn: f64) -> f64 {
    (friction * turn).exp()
}

/// Force of one joint on the wall of the bore.
///
/// ```text
/// F = 2·T·sin(δ/2)
/// ```
/// | symbol | meaning                    | unit | argument      |
/// |--------|----------------------------|------|---------------|
/// | F      | force across the string    | N    | returned      |
/// | T      | pull at the joint          | N    | `force`       |
/// | δ      | angle at the joint         | rad  | `joint_angle` |
///
/// Valid for T ≥ 0 and 0 ≤ δ ≤ 180°; equal pulls on both sides, weight left out.
///
/// # Source
/// [`CAPSTAN`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/joint-side-force.toml`.
pub fn joint_side_force(force: Force, joint_angle: Angle) -> Result<Force, PublishedError> {
    let t = range::not_negative("force", force.si(), unit::KN)?;
    let delta = range::within("joint angle", joint_angle.si(), (0.0, PI), unit::DEG)?;
    range::result("side force", 2.0 * t * (delta / 2.0).sin()).map(Force::newtons)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn joint_that_locks_itself_is_refused() {
        let error = chain_capstan(1.0, Angle::degrees(90.0), 1.0).unwrap_err();
        assert_eq!(error.quantity(), Some("joint angle"));
        assert!(error.to_string().contains("less than 90 deg"), "{error}");
        assert!(chain_capstan(1.5, Angle::degrees(1.0), 0.3).is_err());
        assert!(chain_capstan(0.0, Angle::degrees(1.0), 0.3).is_err());
        assert!(chain_capstan(1.0, Angle::degrees(-1.0), 0.3).is_err());
        assert!(joint_side_force(Force::newtons(-1.0), Angle::ZERO).is_err());
    }

    proptest! {
        #[test]
        fn many_small_joints_approach_the_rope(
            total in 1.0f64..90.0, mu in 0.0f64..1.0, joints in 2_000u32..20_000,
        ) {
            let n = f64::from(joints);
            let ratios = chain_capstan(n, Angle::degrees(total / n), mu).unwrap();
            prop_assert!((ratios.chain / ratios.smooth - 1.0).abs() < 1e-6);
        }

        #[test]
        fn a_chain_needs_at_least_the_pull_of_the_rope(
            joints in 1u32..60, delta in 0.0f64..5.0, mu in 0.0f64..1.0,
        ) {
            let ratios = chain_capstan(f64::from(joints), Angle::degrees(delta), mu).unwrap();
            prop_assert!(ratios.chain >= ratios.smooth * (1.0 - 1e-13));
        }

        #[test]
        fn two_halves_of_a_bend_multiply(
            joints in 1u32..40, delta in 0.0f64..5.0, mu in 0.0f64..1.0,
        ) {
            let n = f64::from(joints);
            let delta = Angle::degrees(delta);
            let half = chain_capstan(n, delta, mu).unwrap().chain;
            let whole = chain_capstan(2.0 * n, delta, mu).unwrap().chain;
            prop_assert!((half * half / whole - 1.0).abs() < 1e-12);
        }
    }
}

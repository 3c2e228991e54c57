//! The arc of the stiff-pipe method: a beam on three supports under tension.

use std::f64::consts::{FRAC_PI_2, PI};

use quantity::{Angle, Area, Force, Length, unit};

use super::tension_beam::Levers;
use super::{Contact, PublishedError, StiffPipe, range};

/// Plane and sense of a bend.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BendPlane {
    /// In the vertical plane, hollow upwards: the pull lifts the pipe, its weight presses it down.
    Sag,
    /// In the vertical plane, hollow downwards: pull and weight both press the pipe down.
    Over,
    /// In plan: the weight acts across the plane of the bend and rubs by itself.
    Plan,
}

/// One arc, in the direction of the pull.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arc {
    /// Radius of the pipe's axis.
    pub radius: Length,
    /// Angle between the ends.
    pub angle: Angle,
    /// Mean inclination, positive where the pipe climbs.
    pub mean_inclination: Angle,
    /// Plane and sense.
    pub plane: BendPlane,
}

/// Pull over an arc with everything that led to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArcForces {
    /// Pull at the front end, T₂.
    pub force_out: Force,
    /// Force of the bore at the middle of the arc, N; negative where the weight outweighs the pull.
    pub centre_reaction: Force,
    /// Mean of the pulls at both ends, T.
    pub mean_force: Force,
    /// Length of the arc, L.
    pub length: Length,
    /// Mid-ordinate of the arc, h.
    pub mid_ordinate: Length,
    /// √(EI/T), j; none where the pull is zero.
    pub stiffness_length: Option<Length>,
    /// Lever of the centre reaction, X.
    pub force_lever: Length,
    /// Lever of the weight, Y.
    pub load_lever: Area,
}

/// Pull over an arc, the pipe taken as a beam on three supports under tension.
///
/// ```text
/// L = R·a      h = R·(1 − cos(a/2))      T = (T₁ + T₂)/2
/// j = √(E·I/T)      U = L/j      I = π·(D − t)³·t/8
/// X = L/4 − (j/2)·tanh(U/2)
/// Y = L²/8 − j²·(1 − 1/cosh(U/2))
/// N = (T·h − w·cos θ·Y) / X          sag;  + in an overbend;  no weight term in plan
/// T₂ = T₁ + 2·μ·|N| + π·D·L·τ + w·L·sin θ        in plan also + μ·|w|·L·cos θ
/// ```
/// | symbol  | meaning                                   | unit | argument            |
/// |---------|-------------------------------------------|------|---------------------|
/// | T₁, T₂  | pull behind and ahead                     | N    | `force_in`, `force_out` |
/// | N       | reaction at the middle                    | N    | `centre_reaction`   |
/// | R, a, θ | radius, angle, mean inclination           | m, rad | `arc`             |
/// | D, t, E | diameter, wall, modulus                   | m, Pa | `pipe`             |
/// | w       | net weight, positive sinks                | N/m  | `pipe`              |
/// | μ, τ    | friction, fluid stress                    | –, Pa | `contact`          |
///
/// 2·N because the reactions at the two ends add up to that at the middle. Without stiffness 2·N is the chord form of
/// T·a − w·L·cos θ, the capstan law with weight; without tension N is 48·E·I·h/L³.
/// Valid for 0 < a ≤ 90°, R > D, |θ| < 90°, T₁ ≥ 0, μ from 0 to 1, τ ≥ 0, E ≥ 0. Solved for the mean pull by
/// Brent's method to the last places of a double; with several balances, which only a nearly slack bend of heavy pipe
/// has, one of them.
///
/// # Source
/// [`super::STIFF_PIPE`]. Deviation: the guide stops at a change of 10 %; the weight rule for overbends and plan bends is
/// derived here.
/// # Errors
/// [`PublishedError::OutOfRange`]; `Pushed` where the mean force is a push; `NotConverged`.
/// # Checked by
/// `cases/pull/stiff-arc.toml`, `cases/pull/stiff-path.toml`; properties: both limits named above.
pub fn arc_stiff(
    pipe: &StiffPipe,
    contact: &Contact,
    force_in: Force,
    arc: &Arc,
) -> Result<ArcForces, PublishedError> {
    let (w, d, ei) = (pipe.weight()?, pipe.diameter()?, pipe.bending_stiffness()?);
    let (mu, tau) = contact.checked()?;
    let t1 = range::not_negative("force in", force_in.si(), unit::KN)?;
    let r = range::above("radius", arc.radius.si(), d, unit::M)?;
    let a = range::positive("arc angle", arc.angle.si(), unit::DEG)?;
    let a = range::within("arc angle", a, (0.0, FRAC_PI_2), unit::DEG)?;
    let theta = range::between(
        "mean inclination",
        arc.mean_inclination.si(),
        (-FRAC_PI_2, FRAC_PI_2),
        unit::DEG,
    )?;

    let l = r * a;
    // 1 − cos(a/2) written so that small angles keep their digits.
    let h = 2.0 * r * (a / 4.0).sin().powi(2);
    let across = w * theta.cos();
    // Load in the direction of the deflection h, and the friction of weight across the plane of the bend.
    let (load, beside) = match arc.plane {
        BendPlane::Sag => (across, 0.0),
        BendPlane::Over => (-across, 0.0),
        BendPlane::Plan => (0.0, mu * across.abs() * l),
    };
    let along = PI * d * l * tau + w * l * theta.sin() + beside;

    // Excess of a mean pull over the mean that follows from it. Substituting the mean again and again would do for
    // ordinary bends, but swings for ever where a long bend of heavy pipe ends with almost no pull.
    let holding = |mean: f64| Levers::new(l, ei, mean).holding_force(h, load);
    let ahead = |mean: f64| t1 + 2.0 * mu * holding(mean).abs() + along;
    let excess = |mean: f64| mean - (t1 + ahead(mean)) / 2.0;
    let slack = range::result("force out", excess(0.0))?;
    if slack > 0.0 {
        return Err(PublishedError::Pushed { mean_force: Force::newtons(-slack).to_string() });
    }
    let mut upper = t1.max(-slack).max(1.0);
    while excess(upper) < 0.0 {
        upper = range::result("force out", upper * 2.0)?;
    }
    let mean = numerics::root(excess, 0.0, upper, 0.0)
        .map_err(|error| PublishedError::NotConverged { quantity: "force out", error })?;
    let t2 = range::result("force out", ahead(mean))?;
    let levers = Levers::new(l, ei, mean);
    Ok(ArcForces {
        force_out: Force::newtons(t2),
        centre_reaction: Force::newtons(holding(mean)),
        mean_force: Force::newtons(mean),
        length: Length::metres(l),
        mid_ordinate: Length::metres(h),
        stiffness_length: levers.stiffness_length().map(Length::metres),
        force_lever: Length::metres(levers.force_lever()),
        load_lever: Area::square_metres(levers.load_lever()),
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::{ForcePerLength, Pressure};

    use super::super::fixtures::{arc, contact, steel};
    use super::*;

    #[test]
    fn reference_arc_gives_its_numbers() {
        let f = arc_stiff(
            &steel(-1600.0),
            &contact(0.3, 345.0),
            Force::newtons(524_680.0),
            &arc(732.0, 10.0, 5.0, BendPlane::Sag),
        )
        .unwrap();
        for (found, expected, tolerance) in [
            (f.length.si(), 127.758, 5e-4),
            (f.mid_ordinate.si(), 2.785_48, 5e-6),
            (f.stiffness_length.unwrap().si(), 18.880, 5e-4),
            (f.force_lever.si(), 22.5212, 5e-5),
            (f.load_lever.si(), 1707.97, 5e-3),
            (f.centre_reaction.si(), 197_213.0, 0.5),
            (f.force_out.si(), 709_659.0, 0.5),
            (f.mean_force.si(), 617_169.0, 0.5),
        ] {
            assert!((found - expected).abs() <= tolerance, "{found} against {expected}");
        }
    }

    #[test]
    fn string_without_stiffness_follows_the_capstan_law_with_weight() {
        let rope = StiffPipe { modulus: Pressure::ZERO, ..steel(-1600.0) };
        let bend = arc(732.0, 10.0, 5.0, BendPlane::Sag);
        let f = arc_stiff(&rope, &contact(0.3, 345.0), Force::newtons(524_680.0), &bend).unwrap();
        let capstan = f.mean_force.si() * bend.angle.si()
            + 1600.0 * f.length.si() * bend.mean_inclination.si().cos();
        let ratio = 2.0 * f.centre_reaction.si() / capstan;
        // The arc's mid-ordinate against a parabola's: (a/2)²/48 plus the spread of the exponential.
        assert!((ratio - 1.0).abs() < 2e-3, "{ratio}");
        let with_share_of_modulus = |share: f64| {
            let pipe = StiffPipe { modulus: Pressure::megapascals(207e3 * share), ..rope };
            arc_stiff(&pipe, &contact(0.3, 345.0), Force::newtons(524_680.0), &bend).unwrap()
        };
        let almost = with_share_of_modulus(1e-5);
        assert!((almost.centre_reaction.si() - 154_675.0).abs() <= 0.5);
        assert!((almost.force_out.si() - 684_136.0).abs() <= 0.5);
        let limit = with_share_of_modulus(1e-15);
        approx::assert_relative_eq!(limit.force_out.si(), f.force_out.si(), max_relative = 1e-7);
    }

    #[test]
    fn bend_without_pull_is_a_beam_on_three_supports() {
        let f = arc_stiff(
            &steel(0.0),
            &contact(0.0, 0.0),
            Force::ZERO,
            &arc(732.0, 10.0, 0.0, BendPlane::Plan),
        )
        .unwrap();
        let ei = steel(0.0).bending_stiffness().unwrap();
        let expected = 48.0 * ei * f.mid_ordinate.si() / f.length.si().powi(3);
        approx::assert_relative_eq!(f.centre_reaction.si(), expected, max_relative = 1e-12);
        assert_eq!(f.stiffness_length, None);
        let loaded = arc_stiff(
            &steel(1000.0),
            &contact(0.0, 0.0),
            Force::ZERO,
            &arc(732.0, 10.0, 0.0, BendPlane::Sag),
        )
        .unwrap();
        let supports = expected - 5.0 / 8.0 * 1000.0 * f.length.si();
        approx::assert_relative_eq!(loaded.centre_reaction.si(), supports, max_relative = 1e-12);
    }

    #[test]
    fn weight_presses_in_an_overbend_and_rubs_alone_in_plan() {
        let at = |plane| {
            arc_stiff(
                &steel(1600.0),
                &contact(0.3, 0.0),
                Force::kilonewtons(400.0),
                &arc(732.0, 10.0, 0.0, plane),
            )
            .unwrap()
        };
        let (sag, over, plan) = (at(BendPlane::Sag), at(BendPlane::Over), at(BendPlane::Plan));
        assert!(over.centre_reaction > plan.centre_reaction);
        assert!(plan.centre_reaction > sag.centre_reaction);
        let rubbing = 0.3 * 1600.0 * plan.length.si();
        let bend = 2.0 * 0.3 * plan.centre_reaction.si();
        approx::assert_relative_eq!(
            plan.force_out.si(),
            4e5 + rubbing + bend,
            max_relative = 1e-11
        );
    }

    #[test]
    fn a_bend_in_which_the_pipe_runs_down_by_itself_is_refused() {
        let down = arc_stiff(
            &steel(8000.0),
            &contact(0.0, 0.0),
            Force::ZERO,
            &arc(500.0, 10.0, -30.0, BendPlane::Sag),
        );
        assert!(matches!(down, Err(PublishedError::Pushed { .. })), "{down:?}");
    }

    proptest! {
        #[test]
        fn any_bend_settles_or_is_refused_with_a_finite_result(
            d in 0.1f64..1.6, share in 0.005f64..0.2, e in 0.0f64..2.5e11, w in -8e3f64..8e3,
            r in 30.0f64..3e3, a in 0.01f64..90.0, theta in -40.0f64..40.0, t in 0.0f64..5e6,
            mu in 0.0f64..1.0, tau in 0.0f64..400.0, plane in 0usize..3,
        ) {
            let pipe = StiffPipe {
                outside_diameter: Length::metres(d),
                wall: Length::metres(d * share),
                modulus: Pressure::pascals(e),
                net_weight: ForcePerLength::from_si(w),
            };
            let plane = [BendPlane::Sag, BendPlane::Over, BendPlane::Plan][plane];
            let bend = arc(r, a, theta, plane);
            match arc_stiff(&pipe, &contact(mu, tau), Force::newtons(t), &bend) {
                Ok(f) => {
                    let sum = t + 2.0 * mu * f.centre_reaction.si().abs()
                        + PI * d * f.length.si() * tau
                        + w * f.length.si() * theta.to_radians().sin()
                        + if plane == BendPlane::Plan {
                            mu * w.abs() * f.length.si() * theta.to_radians().cos()
                        } else { 0.0 };
                    prop_assert!((f.force_out.si() - sum).abs() <= 1e-9 * sum.abs().max(1.0));
                    let mean = (t + f.force_out.si()) / 2.0;
                    prop_assert!((f.mean_force.si() - mean).abs() <= 1e-9 * mean.abs().max(1.0));
                }
                Err(error) => prop_assert!(
                    matches!(error, PublishedError::Pushed { .. }), "{error}"
                ),
            }
        }

        #[test]
        fn more_stiffness_never_lowers_the_force_of_a_weightless_bend(
            r in 200.0f64..2e3, a in 2.0f64..40.0, t in 1e4f64..2e6, e in 1e9f64..2e11,
        ) {
            let bend = arc(r, a, 0.0, BendPlane::Plan);
            let at = |modulus: f64| arc_stiff(
                &StiffPipe { modulus: Pressure::pascals(modulus), ..steel(0.0) },
                &contact(0.3, 50.0), Force::newtons(t), &bend,
            ).unwrap().force_out.si();
            prop_assert!(at(e * 1.2) >= at(e) * (1.0 - 1e-11));
        }
    }
}

//! The one-third rule for small rigs.

use std::f64::consts::{FRAC_PI_2, TAU};

use quantity::{Angle, Force, ForcePerLength, Length, unit};
use working::Evidence;

use super::{Method, PublishedError, range};

/// The one-third rule.
pub const MINI_RULE: Method = Method {
    name: "one-third rule for small rigs",
    document: "Najafi, Trenchless Technology Piping, eq. 5.15 to 5.22, p. 220-222",
    evidence: Evidence::Published,
    validity: "small rigs; up to 5 % below the four-point form; its count of unplanned bends \
               varies a lot, is not conservative, and is too severe on large rigs",
};

/// Inputs of [`mini_rule`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MiniRule {
    /// Length of the bore.
    pub length: Length,
    /// Magnitude of the net force on the pipe in the bore, up or down.
    pub net_weight: ForcePerLength,
    /// Sum of the planned bends.
    pub planned_bends: Angle,
    /// Diameter of the drill rods.
    pub rod_diameter: Length,
}

/// What [`mini_rule`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MiniRuleForce {
    /// Planned bends in units of 90°.
    pub planned: f64,
    /// Unplanned bends in units of 90°.
    pub unplanned: f64,
    /// Pull at the head at the end of the pull.
    pub force: Force,
}

/// Pull at the end of a small crossing by the one-third rule.
///
/// ```text
/// T  = L·w_b·(1/3)·1.6^n,   n = n1 + n2
/// n1 = planned bends / 90°
/// n2 = (L / 500 ft)·(2 in / d)
/// ```
/// | symbol | meaning                              | unit | argument        |
/// |--------|--------------------------------------|------|-----------------|
/// | T      | pull at the head                     | N    | `force`         |
/// | L      | length of the bore                   | m    | `length`        |
/// | w_b    | net force on the pipe, magnitude     | N/m  | `net_weight`    |
/// | n1, n2 | planned, unplanned bends per 90°     | –    | `planned`, `unplanned` |
/// | d      | diameter of the drill rods           | m    | `rod_diameter`  |
///
/// 1.6 is e^(0.3·π/2) rounded: friction 0.3 is inside the rule. Valid for L > 0, w_b ≥ 0, d > 0 and bends up to 360°.
///
/// # Source
/// [`MINI_RULE`]. Deviation: none; the rule is written in SI.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/mini-rule-design-example.toml` (published), `cases/pull/mini-rule-unplanned-bends.toml`.
pub fn mini_rule(given: &MiniRule) -> Result<MiniRuleForce, PublishedError> {
    let length = range::positive("length", given.length.si(), unit::M)?;
    let weight = range::not_negative("net weight", given.net_weight.si(), unit::N_PER_M)?;
    let bends = range::within("planned bends", given.planned_bends.si(), (0.0, TAU), unit::DEG)?;
    let rod = range::positive("rod diameter", given.rod_diameter.si(), unit::MM)?;
    let planned = bends / FRAC_PI_2;
    let unplanned = (length / unit::FT.to_si(500.0)) * (unit::INCH.to_si(2.0) / rod);
    let force = length * weight / 3.0 * 1.6f64.powf(planned + unplanned);
    Ok(MiniRuleForce {
        planned,
        unplanned: range::result("unplanned bends", unplanned)?,
        force: Force::newtons(range::result("force", force)?),
    })
}

/// Net upward force on an empty pipe by the shortcut of the one-third rule.
///
/// ```text
/// w_b = 0.5 D² − w_a        lbf/ft with D in inches
/// ```
/// | symbol | meaning                         | unit | argument           |
/// |--------|---------------------------------|------|--------------------|
/// | w_b    | net upward force; negative sinks | N/m | returned           |
/// | D      | outside diameter                | m    | `outside_diameter` |
/// | w_a    | weight of the empty pipe in air | N/m  | `weight_air`       |
///
/// Fluid of 1.5 times the density of water is inside the 0.5, which is 2 % below the exact 0.511.
///
/// # Source
/// [`MINI_RULE`], eq. 5.22, p. 222. Deviation: none; the rule is written in SI.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/mini-rule-uplift.toml` (computed).
pub fn mini_rule_uplift(
    outside_diameter: Length,
    weight_air: ForcePerLength,
) -> Result<ForcePerLength, PublishedError> {
    let d = range::positive("outside diameter", outside_diameter.si(), unit::MM)?;
    let weight = range::not_negative("weight air", weight_air.si(), unit::N_PER_M)?;
    let inches = unit::INCH.from_si(d);
    let uplift = unit::LBF_PER_FT.to_si(0.5 * inches * inches) - weight;
    Ok(ForcePerLength::from_si(range::result("net weight", uplift)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::published::{F1962, f1962};

    #[test]
    fn rule_lies_within_five_percent_below_the_four_point_form() {
        let pipe = |l2: f64, l3: f64, h: f64| F1962 {
            weight_air: ForcePerLength::from_si(2.325),
            weight_net_up: ForcePerLength::from_si(7.8),
            extra_length: Length::ZERO,
            transition_pipe_side: Length::feet(l2),
            level_length: Length::feet(l3),
            transition_rig_side: Length::feet(l2),
            depth: Length::feet(h),
            depth_rig_side: Length::feet(h),
            angle_pipe_side: Angle::degrees(20.0),
            angle_rig_side: Angle::degrees(20.0),
            friction_surface: 0.5,
            friction_bore: 0.3,
        };
        // A rod so thick that the rule counts no unplanned bends, as in the comparison.
        let rule = mini_rule(&MiniRule {
            length: Length::feet(600.0),
            net_weight: ForcePerLength::from_si(7.8),
            planned_bends: Angle::ZERO,
            rod_diameter: Length::metres(1e9),
        })
        .unwrap()
        .force;
        for (l2, l3, h) in [(0.0, 600.0, 0.0), (300.0, 0.0, 0.0), (171.887, 256.226, 30.0)] {
            let full = f1962(&pipe(l2, l3, h)).unwrap().d;
            assert!((0.947..1.001).contains(&(rule / full)), "{} at {l2}/{l3}", rule / full);
        }
    }

    #[test]
    fn inputs_outside_the_range_are_named() {
        let bad = MiniRule {
            length: Length::feet(600.0),
            net_weight: ForcePerLength::from_si(-7.8),
            planned_bends: Angle::degrees(90.0),
            rod_diameter: Length::inches(2.0),
        };
        assert_eq!(mini_rule(&bad).unwrap_err().quantity(), Some("net weight"));
        let endless = MiniRule { length: Length::metres(1e7), ..bad };
        let endless = MiniRule { net_weight: ForcePerLength::from_si(1.0), ..endless };
        assert!(matches!(mini_rule(&endless), Err(PublishedError::NotFinite { .. })));
    }
}

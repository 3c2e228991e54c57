//! From the parts to what the rig pulls and what the string carries.

use std::f64::consts::{FRAC_PI_2, TAU};

use quantity::{Angle, Force, ForcePerLength, Length, unit};
use working::{Evidence, Source};

use super::Figure;
use crate::published::capstan::rope;
use crate::published::stiff::weight_on_slope;
use crate::published::{Method, PublishedError, range};

/// The sum of the parts.
pub const BURST_PULL: Method = Method {
    name: "break, expand and drag",
    document: "sum of parts as in IPBA article 14, June 2012, p. 1; weight, rods, curves and restart added from statics",
    evidence: Evidence::Derived,
    validity: "as good as its parts, of which none is generally accepted: show a band, never one number",
};

/// The curve factor.
pub const CURVE: Method = Method {
    name: "rope around a turn",
    document: "balance of forces on a rope, derived; as for drilled bores",
    evidence: Evidence::Derived,
    validity: "hosts with gentle bends; the joints must allow the turn as well",
};

/// Force at restart over force while moving.
pub const RESTART_FACTORS: Figure = Figure::range(
    "drag at restart over drag while moving",
    (1.2, 1.5),
    unit::ONE,
    Source::new(
        "usual in pipe jacking; pulling pipe by pipe stops at every joint",
        Evidence::Judgement,
    ),
);

/// What [`string_weight`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StringWeight {
    /// Friction of the weight.
    pub friction: Force,
    /// Its component along the line, negative where it helps.
    pub along: Force,
}

/// Pull of the string's own weight.
///
/// ```text
/// F_f = μ·|w|·L·cos θ,   F_w = w·L·sin θ
/// ```
/// | symbol | meaning                                                  | unit | argument     |
/// |--------|----------------------------------------------------------|------|--------------|
/// | w      | weight per length; net of buoyancy in a flooded hole     | N/m  | `net_weight` |
/// | L      | length of string in the ground                           | m    | `length`     |
/// | θ      | slope, positive where the string climbs in the pull      | rad  | `slope`      |
/// | μ      | friction of pipe on ground                               | –    | `friction`   |
///
/// Valid for |θ| < 90°, L ≥ 0, μ from 0 to 1.
///
/// # Source
/// Statics of a body on a slope. Deviation: the trade leaves out the cosine, which matters on steep lines only.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/weight.toml` (derived).
pub fn string_weight(
    net_weight: ForcePerLength,
    length: Length,
    slope: Angle,
    friction: f64,
) -> Result<StringWeight, PublishedError> {
    let w = range::any("net weight", net_weight.si(), unit::N_PER_M)?;
    let l = range::not_negative("length", length.si(), unit::M)?;
    let theta = range::between("slope", slope.si(), (-FRAC_PI_2, FRAC_PI_2), unit::DEG)?;
    let mu = range::friction("friction", friction)?;
    let (friction, along) = weight_on_slope(w, mu, l, theta);
    Ok(StringWeight {
        friction: Force::newtons(range::result("weight friction", friction)?),
        along: Force::newtons(range::result("weight along", along)?),
    })
}

/// Pull ahead over pull behind where the host turns, e^(μ·θ).
///
/// | symbol | meaning                              | unit | argument   |
/// |--------|--------------------------------------|------|------------|
/// | θ      | sum of all turns, in any direction   | rad  | `turn`     |
/// | μ      | friction of string or rods on ground | –    | `friction` |
///
/// Valid for 0 ≤ θ ≤ 360°, μ from 0 to 1. A chain of barrels pulls slightly harder than a rope:
/// [`chain_capstan`](crate::published::chain_capstan).
///
/// # Source
/// [`CURVE`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/pull.toml`; property: turns multiply.
pub fn curve_factor(turn: Angle, friction: f64) -> Result<f64, PublishedError> {
    let theta = range::within("turn", turn.si(), (0.0, TAU), unit::DEG)?;
    let mu = range::friction("friction", friction)?;
    range::result("curve factor", rope(mu, theta))
}

/// The parts of a pull, each by a function of this module.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurstParts {
    /// Breaking or splitting the host.
    pub breaking: Force,
    /// Pushing the ground aside.
    pub cone: Force,
    /// Friction of the ground on the string.
    pub drag: Force,
    /// Own weight of the string.
    pub weight: StringWeight,
    /// Friction of the rods ahead of the head.
    pub rods: Force,
}

/// Factors on the parts of a pull.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurstFactors {
    /// On all friction of the string at restart ([`RESTART_FACTORS`]); 1 while moving.
    pub restart: f64,
    /// Of the turns behind the head, on the string ([`curve_factor`]).
    pub string_curve: f64,
    /// Of the turns ahead of the head, on the rods ([`curve_factor`]).
    pub rod_curve: f64,
}

impl BurstFactors {
    /// Straight line, string moving.
    pub const NONE: Self = Self { restart: 1.0, string_curve: 1.0, rod_curve: 1.0 };
}

/// What [`burst_pull`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurstPull {
    /// What the first joint behind the head carries.
    pub string: Force,
    /// What the head takes: breaking and cone.
    pub head: Force,
    /// What rig and reaction wall carry.
    pub rig: Force,
}

/// Pull on the string and on the rig.
///
/// ```text
/// F_s = [ k_r·(F_d + F_f) + F_w ]·k_s        string
/// F_h = F_b + F_c                            head
/// F_r = (F_s + F_h)·k_t + F_t                rig
/// ```
/// | symbol   | meaning                                       | unit | argument  |
/// |----------|-----------------------------------------------|------|-----------|
/// | F_b, F_c | breaking, cone                                | N    | `parts`   |
/// | F_d      | drag                                          | N    | `parts`   |
/// | F_f, F_w | weight: friction and along the line           | N    | `parts`   |
/// | F_t      | rods                                          | N    | `parts`   |
/// | k_r      | restart                                       | –    | `factors` |
/// | k_s, k_t | curves behind and ahead of the head           | –    | `factors` |
///
/// The joints never carry the head's share: holding the rig's force against the allowable of a joint is too severe.
/// Valid for parts not negative except F_w, and factors from 1 to 1000. A string that would run down by its own weight
/// has to be held back and is refused.
///
/// # Source
/// [`BURST_PULL`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/pull.toml`; property: the rig carries the string and the head at least.
pub fn burst_pull(parts: &BurstParts, factors: &BurstFactors) -> Result<BurstPull, PublishedError> {
    let part = |quantity, force: Force| range::not_negative(quantity, force.si(), unit::KN);
    let factor = |quantity, value: f64| range::within(quantity, value, (1.0, 1e3), unit::ONE);
    let head = part("breaking", parts.breaking)? + part("cone", parts.cone)?;
    let friction = part("drag", parts.drag)? + part("weight friction", parts.weight.friction)?;
    let along = range::any("weight along", parts.weight.along.si(), unit::KN)?;
    let rods = part("rods", parts.rods)?;
    let restart = factor("restart factor", factors.restart)?;
    let string_curve = factor("string curve", factors.string_curve)?;
    let rod_curve = factor("rod curve", factors.rod_curve)?;
    let pulled = restart * friction + along;
    if pulled < 0.0 {
        return Err(PublishedError::OutOfRange {
            quantity: "weight along",
            found: parts.weight.along.to_string(),
            allowed: format!(
                "at least {}: below that the string runs down by its own weight",
                Force::newtons(-restart * friction)
            ),
        });
    }
    let string = pulled * string_curve;
    let rig = (string + head) * rod_curve + rods;
    Ok(BurstPull {
        string: Force::newtons(range::result("string force", string)?),
        head: Force::newtons(range::result("head force", head)?),
        rig: Force::newtons(range::result("rig force", rig)?),
    })
}

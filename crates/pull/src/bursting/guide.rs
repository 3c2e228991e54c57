//! The planning guide: a quarter of the length, and a depth that arching shortens.

use quantity::{Force, Length, Pressure, UnitWeight, unit};
use working::Evidence;

use super::drag::{barrel_drag, prism_stress};
use crate::published::{Method, PublishedError, range};

/// The planning guide.
pub const DRAG_GUIDE: Method = Method {
    name: "planning guide with effective depth",
    document: "Najafi, Trenchless Technology Piping, eq. 6.4 and 6.5, p. 271 and 272",
    evidence: Evidence::Published,
    validity: "for planning, not conservative; jumps by a quarter to a third where depth over diameter passes 5, 10 or \
               20; traffic is left out; the upper end of the last band was not legible",
};

/// Share of the string on which the ground bears.
const EFFECTIVE_LENGTH: f64 = 0.25;

/// Depth over diameter from which a share of the depth holds, in steps down.
const STEPS: [(f64, f64); 3] = [(5.0, 2.0 / 3.0), (10.0, 1.0 / 2.0), (20.0, 1.0 / 3.0)];

/// How near to a step both sides of it should be looked at.
// Judgement: nominal and true diameters differ by up to 13 %; the book itself calculates with nominal ones.
const NEAR: f64 = 0.10;

/// What [`drag_guide`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GuideDrag {
    /// Drag.
    pub force: Force,
    /// Depth over diameter, which chooses the share.
    pub depth_ratio: f64,
    /// Share of the depth: 1, 2/3, 1/2 or 1/3.
    pub depth_share: f64,
    /// Depth that counts.
    pub effective_depth: Length,
    /// Set where the depth lies within 10 % of a step.
    pub near_step: Option<NearStep>,
}

/// A step of the guide close by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearStep {
    /// Depth over diameter of the step: 5, 10 or 20.
    pub at: f64,
    /// Drag with the share on the other side of it.
    pub force: Force,
}

/// Share of the depth and the step close by, with the share on its other side.
fn shares(ratio: f64) -> (f64, Option<(f64, f64)>) {
    let mut share = 1.0;
    let mut near = None;
    for (at, below) in STEPS {
        // Depth and diameter may come from inches: rounding must not choose the band.
        let passed = ratio >= at * (1.0 - 1e-12);
        if (ratio / at - 1.0).abs() <= NEAR * (1.0 + 1e-9) {
            near = Some((at, if passed { share } else { below }));
        }
        if passed {
            share = below;
        }
    }
    (share, near)
}

/// Drag by the planning guide.
///
/// ```text
/// T = 0.25·γ·d_eff·π·D·L·μ
/// d_eff = d             d/D < 5
///         2/3·d     5 ≤ d/D < 10
///         1/2·d    10 ≤ d/D < 20
///         1/3·d    20 ≤ d/D
/// ```
/// | symbol | meaning                     | unit | argument      |
/// |--------|-----------------------------|------|---------------|
/// | γ      | unit weight; 100 lbf/ft³ in the book | N/m³ | `unit_weight` |
/// | d      | depth above the pipe        | m    | `cover`       |
/// | D      | outside diameter of pipe    | m    | `diameter`    |
/// | L      | length of string in the ground | m | `length`      |
/// | μ      | friction; 0.3 in the book   | –    | `friction`    |
///
/// Valid for γ, D > 0, d, L ≥ 0, μ from 0 to 1.
///
/// # Source
/// [`DRAG_GUIDE`]. Deviation: unit weight and friction are arguments; the book's rounded US form is
/// [`drag_guide_rounded`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/guide-steps-najafi-p271.toml`, `cases/burst/guide-steps-flagged.toml` (computed),
/// `cases/burst/guide-computed.toml`.
pub fn drag_guide(
    unit_weight: UnitWeight,
    cover: Length,
    diameter: Length,
    length: Length,
    friction: f64,
) -> Result<GuideDrag, PublishedError> {
    let of_depth = |depth: f64| {
        let stress = prism_stress(unit_weight, Length::metres(depth), Pressure::ZERO)?;
        Ok(EFFECTIVE_LENGTH * barrel_drag(stress, diameter, length, friction)?)
    };
    guide(cover, diameter, of_depth)
}

/// Drag by the planning guide in the book's rounded US form.
///
/// ```text
/// T[lbf] = d_eff[in]·D[in]·L[ft]/6
/// ```
/// Symbols as in [`drag_guide`]; unit weight 100 lbf/ft³ and friction 0.3 are in the divisor, which is 6.11 before
/// rounding: the form lies 2 % above.
///
/// # Source
/// [`DRAG_GUIDE`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/guide-najafi-p272.toml`.
pub fn drag_guide_rounded(
    cover: Length,
    diameter: Length,
    length: Length,
) -> Result<GuideDrag, PublishedError> {
    let l = range::not_negative("length", length.si(), unit::M)?;
    let of_depth = |depth: f64| {
        let inches = Length::metres(depth).to_inches() * diameter.to_inches();
        let pounds = inches * Length::metres(l).to_feet() / 6.0;
        range::result("drag", pounds).map(Force::pounds_force)
    };
    guide(cover, diameter, of_depth)
}

fn guide(
    cover: Length,
    diameter: Length,
    of_depth: impl Fn(f64) -> Result<Force, PublishedError>,
) -> Result<GuideDrag, PublishedError> {
    let d = range::not_negative("cover", cover.si(), unit::M)?;
    let pipe = range::positive("barrel diameter", diameter.si(), unit::MM)?;
    let depth_ratio = range::result("depth over diameter", d / pipe)?;
    let (depth_share, near) = shares(depth_ratio);
    let near_step = near
        .map(|(at, other)| Ok::<_, PublishedError>(NearStep { at, force: of_depth(other * d)? }))
        .transpose()?;
    Ok(GuideDrag {
        force: of_depth(depth_share * d)?,
        depth_ratio,
        depth_share,
        effective_depth: Length::metres(depth_share * d),
        near_step,
    })
}

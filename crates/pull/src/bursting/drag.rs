//! Friction of the ground on the new string: two of four models, and what they share.

use std::f64::consts::PI;

use quantity::{Force, Length, Pressure, UnitWeight, unit};
use working::{Evidence, Source};

use super::{Figure, guide::DRAG_GUIDE, silo::DRAG_SILO};
use crate::published::{Method, PublishedError, range};

/// The collapsed hole.
pub const DRAG_PRISM: Method = Method {
    name: "collapsed hole, prism load over the whole length",
    document: "Najafi, Trenchless Technology Piping, eq. 6.3, p. 270",
    evidence: Evidence::Published,
    validity: "the high end: with usual friction it exceeds what rigs have pulled; traffic is left out",
};

/// The open hole.
pub const DRAG_SOCKETS: Method = Method {
    name: "open hole, contact at the sockets",
    document: "contact area times stress, derived; that the sockets carry the friction while the hole stands is read in \
         one manufacturer's trenchless manual, p. 38",
    evidence: Evidence::Derived,
    validity: "the low end while the hole stands; the collapsed share leads over to the full barrel",
};

const REMEMBERED: Source = Source::new("usual values for bursting", Evidence::FromMemory);
const SLURRY: Source = Source::new(
    "book chapter on frictional resistance in drilled bores, eq. 7-4",
    Evidence::Published,
);

/// Friction of pipe on ground, as the trade states it.
pub const FRICTIONS: &[Figure] = &[
    Figure::range(
        "ductile iron, bare or mortar-coated, dry in sand",
        (0.4, 0.6),
        unit::ONE,
        REMEMBERED,
    ),
    Figure::range("ductile iron, lubricated", (0.15, 0.3), unit::ONE, REMEMBERED),
    Figure::value("to start from, not lubricated", 0.4, unit::ONE, REMEMBERED),
    Figure::value("to start from, lubricated", 0.25, unit::ONE, REMEMBERED),
    Figure::range("whole range", (0.15, 0.6), unit::ONE, REMEMBERED),
    Figure::value("polyethylene or steel in drilling fluid", 0.3, unit::ONE, SLURRY),
    Figure::value("polyethylene or steel on the ground", 0.5, unit::ONE, SLURRY),
    Figure::value("polyethylene or steel on rollers", 0.1, unit::ONE, SLURRY),
];

/// The four models of drag, from the high end of a band to the low one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DragModel {
    /// [`drag_prism`]: collapsed hole, whole weight of the cover.
    Prism,
    /// [`super::drag_silo`]: collapsed hole, arching.
    Silo,
    /// [`super::drag_guide`]: planning guide with a quarter of the length and an effective depth.
    Guide,
    /// [`drag_sockets`]: open hole.
    Sockets,
}

impl DragModel {
    /// All models.
    pub const ALL: [Self; 4] = [Self::Prism, Self::Silo, Self::Guide, Self::Sockets];

    /// What the model is and where it comes from.
    #[must_use]
    pub const fn method(self) -> &'static Method {
        match self {
            DragModel::Prism => &DRAG_PRISM,
            DragModel::Silo => &DRAG_SILO,
            DragModel::Guide => &DRAG_GUIDE,
            DragModel::Sockets => &DRAG_SOCKETS,
        }
    }
}

/// Vertical stress of the whole cover, γ·H + q.
///
/// # Source
/// Statics.
/// # Errors
/// [`PublishedError::OutOfRange`].
pub fn prism_stress(
    unit_weight: UnitWeight,
    cover: Length,
    surcharge: Pressure,
) -> Result<Pressure, PublishedError> {
    let gamma = range::positive("unit weight", unit_weight.si(), unit::KN_PER_M3)?;
    let h = range::not_negative("cover", cover.si(), unit::M)?;
    let q = range::not_negative("surcharge", surcharge.si(), unit::KPA)?;
    range::result("prism stress", gamma * h + q).map(Pressure::pascals)
}

/// Mean of the stress around a pipe, σ_v·(1 + K)/2.
///
/// | symbol | meaning                             | unit | argument       |
/// |--------|-------------------------------------|------|----------------|
/// | σ_v    | vertical stress                     | Pa   | `vertical`     |
/// | K      | horizontal over vertical stress     | –    | `stress_ratio` |
///
/// # Source
/// Mean over the circumference, derived.
/// # Errors
/// [`PublishedError::OutOfRange`].
pub fn mean_radial_stress(
    vertical: Pressure,
    stress_ratio: f64,
) -> Result<Pressure, PublishedError> {
    let sigma = range::not_negative("vertical stress", vertical.si(), unit::KPA)?;
    let k = range::not_negative("stress ratio", stress_ratio, unit::ONE)?;
    range::result("mean stress", sigma * (1.0 + k) / 2.0).map(Pressure::pascals)
}

/// Friction of a stress all around a barrel, μ·σ·π·D·L.
///
/// # Source
/// Area times stress times friction.
/// # Errors
/// [`PublishedError::OutOfRange`].
pub fn barrel_drag(
    stress: Pressure,
    diameter: Length,
    length: Length,
    friction: f64,
) -> Result<Force, PublishedError> {
    let sigma = range::not_negative("radial stress", stress.si(), unit::KPA)?;
    let d = range::positive("barrel diameter", diameter.si(), unit::MM)?;
    let l = range::not_negative("length", length.si(), unit::M)?;
    let mu = range::friction("friction", friction)?;
    range::result("drag", mu * sigma * PI * d * l).map(Force::newtons)
}

/// Drag of a collapsed hole that bears with the whole cover on the whole barrel.
///
/// ```text
/// T = γ·H·π·D·L·μ
/// ```
/// | symbol | meaning                     | unit | argument      |
/// |--------|-----------------------------|------|---------------|
/// | γ      | unit weight                 | N/m³ | `unit_weight` |
/// | H      | cover over the pipe         | m    | `cover`       |
/// | D      | outside diameter of barrel  | m    | `diameter`    |
/// | L      | length of string in the ground | m | `length`      |
/// | μ      | friction of pipe on ground  | –    | `friction`    |
///
/// Valid for γ, D > 0, H, L ≥ 0, μ from 0 to 1.
///
/// # Source
/// [`DRAG_PRISM`]. The friction of the book's example is not legible; 0.30 gives its answer.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/drag-prism-najafi-p270.toml`, `cases/burst/drag-comparison.toml` (computed).
pub fn drag_prism(
    unit_weight: UnitWeight,
    cover: Length,
    diameter: Length,
    length: Length,
    friction: f64,
) -> Result<Force, PublishedError> {
    barrel_drag(prism_stress(unit_weight, cover, Pressure::ZERO)?, diameter, length, friction)
}

/// Diameters and lengths of one pipe of a socketed string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SocketedString {
    /// Outside diameter of the barrel with its coating.
    pub barrel_diameter: Length,
    /// Largest outside diameter of the socket with sleeve and cone.
    pub socket_diameter: Length,
    /// Length over which a socket bears on the ground, 0.10 to 0.25 m.
    pub socket_length: Length,
    /// Laying length of one pipe.
    pub laying_length: Length,
}

/// The same in metres, checked.
pub(super) struct CheckedString {
    pub(super) barrel: f64,
    pub(super) socket: f64,
    pub(super) socket_length: f64,
    pub(super) laying_length: f64,
}

impl SocketedString {
    /// Barrel not wider than the socket, socket not longer than the pipe.
    pub(super) fn checked(&self) -> Result<CheckedString, PublishedError> {
        let barrel = range::positive("barrel diameter", self.barrel_diameter.si(), unit::MM)?;
        let socket = self.socket_diameter.si();
        let socket = range::at_least("socket diameter", socket, barrel, unit::MM)?;
        let laying_length = range::positive("laying length", self.laying_length.si(), unit::M)?;
        let on_pipe = (0.0, laying_length);
        let socket_length =
            range::within("socket length", self.socket_length.si(), on_pipe, unit::M)?;
        Ok(CheckedString { barrel, socket, socket_length, laying_length })
    }
}

/// Drag of a socketed string and its shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SocketDrag {
    /// On the sockets, over the whole length.
    pub sockets: Force,
    /// On the barrels, where the hole has collapsed.
    pub barrels: Force,
    /// Sum.
    pub force: Force,
}

/// Drag of a socketed string in a hole of which a share has collapsed.
///
/// ```text
/// T = μ·σ·π·[ D_s·L_s + χ·D_n·(L_p − L_s) ]·L/L_p
/// ```
/// | symbol   | meaning                                          | unit | argument          |
/// |----------|--------------------------------------------------|------|-------------------|
/// | μ        | friction of pipe on ground                       | –    | `friction`        |
/// | σ        | mean radial stress ([`mean_radial_stress`])      | Pa   | `stress`          |
/// | D_n, D_s | outside diameters of barrel and socket           | m    | `string`          |
/// | L_s, L_p | bearing length of a socket, laying length        | m    | `string`          |
/// | L        | length of string in the ground                   | m    | `length`          |
/// | χ        | collapsed share: 0 open, 0.25 to plan, 1 all     | –    | `collapsed_share` |
///
/// Sockets bear whether the hole stands or not, so the share only adds the barrels. Valid for 0 ≤ χ ≤ 1, D_s ≥ D_n > 0,
/// 0 ≤ L_s ≤ L_p, L ≥ 0, μ from 0 to 1. Pipes are not counted singly: L/L_p need not be whole.
///
/// # Source
/// [`DRAG_SOCKETS`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/drag-comparison.toml` (computed); property: between the open and the collapsed hole it is a straight line.
pub fn drag_sockets(
    string: &SocketedString,
    stress: Pressure,
    length: Length,
    collapsed_share: f64,
    friction: f64,
) -> Result<SocketDrag, PublishedError> {
    let s = string.checked()?;
    let sigma = range::not_negative("radial stress", stress.si(), unit::KPA)?;
    let l = range::not_negative("length", length.si(), unit::M)?;
    let collapsed = range::within("collapsed share", collapsed_share, (0.0, 1.0), unit::ONE)?;
    let mu = range::friction("friction", friction)?;
    let per_area = mu * sigma * PI;
    let pipes = l / s.laying_length;
    let sockets = per_area * s.socket * s.socket_length * pipes;
    let barrels = per_area * collapsed * s.barrel * (s.laying_length - s.socket_length) * pipes;
    Ok(SocketDrag {
        sockets: Force::newtons(range::result("drag", sockets)?),
        barrels: Force::newtons(range::result("drag", barrels)?),
        force: Force::newtons(range::result("drag", sockets + barrels)?),
    })
}

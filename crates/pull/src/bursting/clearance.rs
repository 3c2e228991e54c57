//! Distances to other lines and to the surface, by rules of thumb.

use quantity::{Length, unit};
use working::{Evidence, Source};

use super::{Figure, expansion_measure};
use crate::published::{Method, PublishedError, range};

/// The rule of ten expansions.
pub const TEN_TIMES: Method = Method {
    name: "ten times the expansion",
    document: "IPBA article, September 2011, on effects on nearby utilities",
    evidence: Evidence::Published,
    validity: "axis of the old pipe to the other line; up to double in cobbles and dense ground, less in loose sand; \
               the movement that it allows grows with the diameter: look at the computed movement as well",
};

/// The German rules.
pub const CLEARANCE_PRACTICE: Method = Method {
    name: "multiples of the expansion measure",
    document: "common reading of DVGW GW 323, whose text was not read",
    evidence: Evidence::FromMemory,
    validity: "remembered with little confidence: confirm in the document before it decides anything",
};

/// Multiple of the expansion to other lines.
const TEN: f64 = 10.0;
/// The same in cobbles and dense ground.
const TEN_DENSE: f64 = 20.0;
/// Cover over expansion, GW 323; from memory.
const COVER_MULTIPLE: f64 = 10.0;
/// Distance of parallel lines over expansion, GW 323; from memory.
const PARALLEL_MULTIPLE: f64 = 3.0;
/// Least distance of parallel lines, GW 323, m; from memory.
const PARALLEL_LEAST: f64 = 0.40;
/// Distance of crossing or brittle lines over expansion, GW 323; from memory.
const CROSSING_MULTIPLE: f64 = 5.0;

const ROGERS: Source =
    Source::new("Rogers 1995, as quoted on a plastic pipe institute's page", Evidence::Published);
const SWISS: Source = Source::new("one contractor's page on bursting", Evidence::Published);
const ATALAH_1998: Source =
    Source::new("Atalah 1998, as quoted on a plastic pipe institute's page", Evidence::Published);
const ATALAH_QUOTED: Source = Source::new(
    "Atalah 2006, as quoted on a plastic pipe institute's page; the abstract itself says 2.45 m: take that",
    Evidence::Published,
);
const ATALAH_2006: Source =
    Source::new("Atalah, J. Transp. Eng. 132(4), 2006, abstract", Evidence::Published);

/// Distances that the trade states. Nearer lines are exposed before the head passes.
pub const DISTANCES: &[Figure] = &[
    Figure::range(
        "movement unlikely a problem beyond, in diameters from the line",
        (2.0, 3.0),
        unit::ONE,
        ROGERS,
    ),
    Figure::value("to neighbouring lines", 0.5, unit::M, SWISS),
    Figure::range("to neighbouring lines, in diameters of the host", (2.0, 3.0), unit::ONE, SWISS),
    Figure::value(
        "vibration, pneumatic head below 12 in, sound utilities",
        2.5,
        unit::FT,
        ATALAH_1998,
    ),
    Figure::value("vibration, pneumatic head up to 24 in", 7.0, unit::FT, ATALAH_QUOTED),
    Figure::value("vibration in hard limestone, buried structures", 2.45, unit::M, ATALAH_2006),
    Figure::value("vibration in hard limestone, houses", 3.35, unit::M, ATALAH_2006),
];

/// Distance from the axis of the old pipe to another line, 10·(D_e − d_i).
///
/// | symbol | meaning                       | unit | argument      |
/// |--------|-------------------------------|------|---------------|
/// | D_e    | outside diameter of expander  | m    | `expander`    |
/// | d_i    | inside diameter of the host   | m    | `host_inside` |
///
/// # Source
/// [`TEN_TIMES`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/clearance-ten-times.toml`.
pub fn ten_times_rule(expander: Length, host_inside: Length) -> Result<Length, PublishedError> {
    Ok(TEN * expansion_measure(expander, host_inside)?)
}

/// What [`burst_clearance`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurstClearance {
    /// How much the hole grows on the diameter.
    pub expansion: Length,
    /// To other lines by [`TEN_TIMES`].
    pub separation: Length,
    /// The same in cobbles and dense ground.
    pub separation_dense: Length,
    /// Cover by [`CLEARANCE_PRACTICE`].
    pub cover: Length,
    /// To parallel lines by [`CLEARANCE_PRACTICE`].
    pub parallel: Length,
    /// To crossing and to brittle lines by [`CLEARANCE_PRACTICE`]; nearer ones are exposed.
    pub crossing: Length,
}

/// Distances by multiples of the expansion.
///
/// ```text
/// a = D_e − d_i
/// 10·a to other lines, 20·a in dense ground                       trade article
/// 10·a cover, max(3·a, 0.40 m) parallel, 5·a crossing or brittle  German practice
/// ```
/// Symbols as in [`ten_times_rule`].
///
/// # Source
/// [`TEN_TIMES`] and [`CLEARANCE_PRACTICE`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/clearance-ten-times.toml`, `cases/burst/clearance-dense-ground.toml` (computed),
/// `cases/burst/clearance-practice.toml` (from memory).
pub fn burst_clearance(
    expander: Length,
    host_inside: Length,
) -> Result<BurstClearance, PublishedError> {
    let expansion = expansion_measure(expander, host_inside)?;
    let dense = range::result("separation", TEN_DENSE * expansion.si())?;
    Ok(BurstClearance {
        expansion,
        separation: ten_times_rule(expander, host_inside)?,
        separation_dense: Length::metres(dense),
        cover: COVER_MULTIPLE * expansion,
        parallel: (PARALLEL_MULTIPLE * expansion).max(Length::metres(PARALLEL_LEAST)),
        crossing: CROSSING_MULTIPLE * expansion,
    })
}

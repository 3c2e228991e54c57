use std::f64::consts::FRAC_PI_4;

use quantity::{Length, Volume, unit};
use working::{Evidence, Source};

use super::{Figure, expander_and_host};
use crate::published::{Method, PublishedError, range};

/// Lubricant for the gap behind the expander.
pub const LUBRICANT: Method = Method {
    name: "lubricant for the gap behind the expander",
    document: "IPBA article 14, June 2012, p. 2: expander against the old pipe's bore; the gap around the barrel \
         is derived",
    evidence: Evidence::Published,
    validity: "usual above about 380 mm and where the drag comes near the allowable pull; the article's form takes \
               the old bore where the gap has the new barrel",
};

/// Lubricant over volume of the gap, for what the ground takes up.
pub const LOSS_RATIOS: Figure = Figure::range(
    "volume of lubricant over volume of the gap",
    (1.0, 2.0),
    unit::ONE,
    Source::new("IPBA article 14, June 2012, p. 2", Evidence::Published),
);

/// What [`lubricant`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lubricant {
    /// By the gap around the barrel.
    pub annulus: Volume,
    /// By the article: expander against the old bore.
    pub article: Volume,
}

/// Volume of lubricant for a pull, by the gap and by the trade article.
///
/// ```text
/// V = r·π/4·(D_e² − D_n²)·L        gap around the barrel
/// V = r·π/4·(D_e² − d_i²)·L        trade article
/// ```
/// | symbol | meaning                                       | unit | argument      |
/// |--------|-----------------------------------------------|------|---------------|
/// | D_e    | outside diameter of expander                  | m    | `expander`    |
/// | D_n    | outside diameter of the new barrel            | m    | `barrel`      |
/// | d_i    | inside diameter of the host                   | m    | `host_inside` |
/// | L      | length                                        | m    | `length`      |
/// | r      | loss ratio, 1 to 2 ([`LOSS_RATIOS`])          | –    | `loss_ratio`  |
///
/// Valid for D_e ≥ D_n, D_e ≥ d_i, L ≥ 0, r ≥ 1. Sockets are left out: they fill a part of the gap.
///
/// # Source
/// [`LUBRICANT`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/lubricant.toml`.
pub fn lubricant(
    expander: Length,
    barrel: Length,
    host_inside: Length,
    length: Length,
    loss_ratio: f64,
) -> Result<Lubricant, PublishedError> {
    let (expander, host) = expander_and_host(expander, host_inside)?;
    let barrel = range::positive("barrel diameter", barrel.si(), unit::MM)?;
    range::at_least("expander diameter", expander, barrel, unit::MM)?;
    let length = range::not_negative("length", length.si(), unit::M)?;
    let ratio = range::at_least("loss ratio", loss_ratio, 1.0, unit::ONE)?;
    let gap = |inner: f64| {
        let section = FRAC_PI_4 * (expander - inner) * (expander + inner);
        range::result("lubricant volume", ratio * section * length).map(Volume::cubic_metres)
    };
    Ok(Lubricant { annulus: gap(barrel)?, article: gap(host)? })
}

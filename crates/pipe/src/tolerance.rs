use quantity::{Length, unit};
use working::Evidence;

use crate::data::{SizeRow, data};
use crate::error::positive;
use crate::size::listed;
use crate::{PipeError, Standard, Valued};

/// Greatest offset of a barrel from the straight, as a share of its length; read on a foundry's
/// data page.
const STRAIGHTNESS: f64 = 0.001_25;

/// How much smaller than its nominal value the outside diameter may be (EN 545).
///
/// Read to DN 1000, from memory above. At DN 80 the standard's leaflet prints 2.7 mm, a trade table
/// 2.8 mm; the leaflet is taken.
///
/// # Source
/// EN 545:2010 leaflet.
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
/// # Checked by
/// `cases/pipe/outside-diameter-tolerance.toml` (published).
pub fn outside_diameter_tolerance(dn: u32) -> Result<Valued<Length>, PipeError> {
    let row = size(dn)?;
    let evidence = if dn <= 1000 { Evidence::Published } else { Evidence::FromMemory };
    let text = "EN 545:2010, minus tolerance of the outside diameter";
    Ok(Valued::from_text(Length::millimetres(row.de_tolerance_minus), text, evidence))
}

/// How much thinner than its nominal value the mortar lining may be (EN 545).
///
/// # Source
/// One technical page quoting EN 545, read.
/// # Errors
/// [`PipeError::UnknownSize`] lists the sizes.
/// # Checked by
/// `cases/pipe/lining.toml` (published).
pub fn lining_tolerance(dn: u32) -> Result<Valued<Length>, PipeError> {
    let row = size(dn)?;
    let text = "page quoting EN 545, minus tolerance of the mortar lining";
    let tolerance = Length::millimetres(row.lining_tolerance_minus);
    Ok(Valued::from_text(tolerance, text, Evidence::Published))
}

/// Greatest offset of a barrel's middle from the straight, 0.125 % of its length.
///
/// # Source
/// A foundry's data page, read.
/// # Errors
/// [`PipeError::OutOfRange`] for a length that is not positive.
/// # Checked by
/// `cases/pipe/straightness.toml`.
pub fn straightness_limit(laying_length: Length) -> Result<Length, PipeError> {
    let a = positive("laying length", laying_length.si(), unit::M)?;
    Ok(Length::from_si(STRAIGHTNESS * a))
}

fn size(dn: u32) -> Result<&'static SizeRow, PipeError> {
    let sizes = &data()?.sizes;
    sizes.iter().find(|s| s.dn == dn).ok_or_else(|| PipeError::UnknownSize {
        standard: Standard::En545.name(),
        found: format!("DN {dn}"),
        allowed: listed(sizes.iter().map(|s| format!("DN {}", s.dn))),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tolerances_above_dn_1000_are_marked_as_remembered() {
        let evidence = |dn| outside_diameter_tolerance(dn).expect("size").evidence();
        assert_eq!((evidence(1000), evidence(1100)), (Evidence::Published, Evidence::FromMemory));
        assert!(outside_diameter_tolerance(333).is_err() && lining_tolerance(333).is_err());
        assert!(straightness_limit(Length::ZERO).is_err());
    }
}

use quantity::Pressure;
use working::{Evidence, Source};

use crate::size::listed;
use crate::{PipeError, Rating};

/// Nominal pressures of flanges with the allowable pressures in bar: PN, PFA, PMA, PEA.
const FLANGES: [(u32, f64, f64, f64); 4] = [
    (10, 10.0, 12.0, 17.0),
    (16, 16.0, 20.0, 25.0),
    (25, 25.0, 30.0, 35.0),
    (40, 40.0, 48.0, 53.0),
];

/// Allowable pressures of a flanged component by its nominal pressure.
///
/// A line takes the least of pipe, joint, fitting, valve and flange: a PN 10 flange bears 17 bar in
/// the site test, whatever the pipe bears.
///
/// # Source
/// Page of a maker quoting EN 545 and EN 805, read. At PN 16 the print is rounded: 1.2 × 16 = 19.2.
/// # Errors
/// [`PipeError::UnknownClass`] lists the nominal pressures.
/// # Checked by
/// `cases/pipe/flange-rating.toml` (published).
pub fn flange_rating(nominal_pressure: u32) -> Result<Rating, PipeError> {
    let found = FLANGES.iter().find(|(pn, ..)| *pn == nominal_pressure);
    let (_, pfa, pma, pea) = found.ok_or_else(|| PipeError::UnknownClass {
        standard: "EN 545",
        size: "flange".to_owned(),
        found: format!("PN {nominal_pressure}"),
        allowed: listed(FLANGES.iter().map(|(pn, ..)| format!("PN {pn}"))),
    })?;
    let source = Source::new("flanges, page of a maker quoting EN 545", Evidence::Published);
    Ok(Rating {
        pfa: Pressure::bar(*pfa),
        pma: Pressure::bar(*pma),
        pea: Pressure::bar(*pea),
        pea_source: source.clone(),
        source,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_unknown_flange_names_the_known_ones() {
        let e = flange_rating(20).expect_err("accepted").to_string();
        assert!(e.contains("PN 20") && e.contains("PN 10, PN 16, PN 25, PN 40"), "{e}");
    }
}

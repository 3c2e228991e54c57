//! Classing socketed pipe by its expander, not by its nominal diameter.

use quantity::{Length, unit};
use working::Evidence;

use super::DifficultyClass;
use crate::published::{Method, PublishedError, range};

/// The rule of the equivalent size.
pub const EQUIVALENT_SIZE: Method = Method {
    name: "equivalent size of plastic pipe",
    document: "smallest standard plastic pipe whose usual expander, 1.2 times its diameter, is as wide; own rule, \
         sizes of pipe remembered",
    evidence: Evidence::Judgement,
    validity: "the tables of difficulty count sizes of smooth pipe; a socketed pipe needs the expander of a larger one",
};

/// Expander over outside diameter of plastic pipe.
// Judgement: 1.15 to 1.25 are usual; one recorded job has 194 mm on 160 mm, 1.21.
const PLASTIC_EXPANDER_RATIO: f64 = 1.2;

/// Standard sizes of smooth plastic pipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlasticSeries {
    /// Polyethylene pipe by metric outside diameter, ISO 161-1; from memory.
    Metric,
    /// Pipe by nominal inches with the outside diameters of steel pipe, as ASTM F714; from memory.
    Inch,
}

/// Outside and nominal diameter, mm.
type Size = (f64, f64);

/// ISO 161-1, from memory. The nominal diameter of such a pipe is its outside diameter.
const METRIC: &[Size] = &[
    (90.0, 90.0),
    (110.0, 110.0),
    (125.0, 125.0),
    (140.0, 140.0),
    (160.0, 160.0),
    (180.0, 180.0),
    (200.0, 200.0),
    (225.0, 225.0),
    (250.0, 250.0),
    (280.0, 280.0),
    (315.0, 315.0),
    (355.0, 355.0),
    (400.0, 400.0),
    (450.0, 450.0),
    (500.0, 500.0),
    (560.0, 560.0),
    (630.0, 630.0),
    (710.0, 710.0),
    (800.0, 800.0),
    (900.0, 900.0),
    (1000.0, 1000.0),
    (1200.0, 1200.0),
];

/// Nominal inches as DN with outside diameters of steel pipe, from memory: 4, 6, 8, 10, 12, 14, 16, 18, 20, 24, 30,
/// 36, 42, 48 in.
const INCH: &[Size] = &[
    (114.3, 100.0),
    (168.275, 150.0),
    (219.075, 200.0),
    (273.05, 250.0),
    (323.85, 300.0),
    (355.6, 350.0),
    (406.4, 400.0),
    (457.2, 450.0),
    (508.0, 500.0),
    (609.6, 600.0),
    (762.0, 750.0),
    (914.4, 900.0),
    (1066.8, 1050.0),
    (1219.2, 1200.0),
];

impl PlasticSeries {
    const fn sizes(self) -> &'static [Size] {
        match self {
            PlasticSeries::Metric => METRIC,
            PlasticSeries::Inch => INCH,
        }
    }
}

/// What [`equivalent_plastic_size`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlasticSize {
    /// Outside diameter that the expander would fit exactly, D_e/1.2.
    pub least_diameter: Length,
    /// Outside diameter of the standard pipe.
    pub outside_diameter: Length,
    /// Its nominal diameter: DN of the inch series, outside diameter of the metric one.
    pub nominal_diameter: Length,
}

/// Smallest standard plastic pipe whose usual expander is at least as wide as this one.
///
/// ```text
/// 1.2·D ≥ D_e
/// ```
/// | symbol | meaning                               | unit | argument   |
/// |--------|---------------------------------------|------|------------|
/// | D_e    | outside diameter of expander          | m    | `expander` |
/// | D      | outside diameter of the plastic pipe  | m    | returned   |
///
/// Valid up to the expander of the largest size of the series.
///
/// # Source
/// [`EQUIVALENT_SIZE`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/upsize.toml`.
pub fn equivalent_plastic_size(
    expander: Length,
    series: PlasticSeries,
) -> Result<PlasticSize, PublishedError> {
    let expander = range::positive("expander diameter", expander.si(), unit::MM)?;
    let least = expander / PLASTIC_EXPANDER_RATIO;
    let sizes = series.sizes();
    let found = sizes.iter().find(|(outside, _)| outside * 1e-3 >= least * (1.0 - 1e-12));
    let largest = sizes.last().map_or(0.0, |(outside, _)| outside * 1e-3 * PLASTIC_EXPANDER_RATIO);
    match found {
        Some((outside, nominal)) => Ok(PlasticSize {
            least_diameter: Length::metres(least),
            outside_diameter: Length::millimetres(*outside),
            nominal_diameter: Length::millimetres(*nominal),
        }),
        None => Err(PublishedError::OutOfRange {
            quantity: "expander diameter",
            found: Length::metres(expander).to_string(),
            allowed: format!(
                "at most {}, the expander of the largest size of the series",
                quantity::show(largest, unit::MM)
            ),
        }),
    }
}

/// Number of sizes of the inch series from the host up to the equivalent pipe of the expander.
///
/// Sizes above the host's nominal diameter up to and with the equivalent one are counted; none for an equivalent pipe of
/// the host's size or less. The inch series is counted because the tables of difficulty are American.
///
/// # Source
/// [`EQUIVALENT_SIZE`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/upsize.toml`.
pub fn sizes_up(expander: Length, host_nominal: Length) -> Result<u32, PublishedError> {
    let host = range::positive("host diameter", host_nominal.si(), unit::MM)?;
    let equivalent = equivalent_plastic_size(expander, PlasticSeries::Inch)?.nominal_diameter.si();
    let between = |(_, nominal): &&Size| {
        let nominal = nominal * 1e-3;
        nominal > host * (1.0 + 1e-12) && nominal <= equivalent * (1.0 + 1e-12)
    };
    let count = INCH.iter().filter(between).count();
    Ok(u32::try_from(count).unwrap_or(u32::MAX))
}

/// Class of the new pipe by its expander: A up to one size up, B two, C three and more.
///
/// # Source
/// Sizes by [`sizes_up`]; classes as in [`super::DIFFICULTY`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/upsize.toml`.
pub fn upsize_class(
    expander: Length,
    host_nominal: Length,
) -> Result<DifficultyClass, PublishedError> {
    Ok(DifficultyClass::of_sizes(sizes_up(expander, host_nominal)?))
}

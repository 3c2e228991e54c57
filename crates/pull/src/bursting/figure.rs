use quantity::{Unit, show};
use working::Source;

/// A figure of the trade: a value or a range that somebody stated, no formula.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is a figure of.
    pub what: &'static str,
    /// Lower end, in `unit` as printed.
    pub low: f64,
    /// Upper end, in `unit` as printed; `None` for "and more". Equal to `low` for a single value.
    pub high: Option<f64>,
    /// Unit as printed.
    pub unit: Unit,
    /// Who says so, and how well that is founded.
    pub source: Source,
}

impl Figure {
    pub(super) const fn range(
        what: &'static str,
        (low, high): (f64, f64),
        unit: Unit,
        source: Source,
    ) -> Self {
        Self { what, low, high: Some(high), unit, source }
    }

    pub(super) const fn value(what: &'static str, value: f64, unit: Unit, source: Source) -> Self {
        Self { what, low: value, high: Some(value), unit, source }
    }

    pub(super) const fn at_least(
        what: &'static str,
        value: f64,
        unit: Unit,
        source: Source,
    ) -> Self {
        Self { what, low: value, high: None, unit, source }
    }

    /// Lower end in SI.
    #[must_use]
    pub fn low_si(&self) -> f64 {
        self.unit.to_si(self.low)
    }

    /// Upper end in SI, where there is one.
    #[must_use]
    pub fn high_si(&self) -> Option<f64> {
        self.high.map(|high| self.unit.to_si(high))
    }
}

impl std::fmt::Display for Figure {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let low = show(self.low_si(), self.unit);
        match self.high_si() {
            None => write!(f, "{}: {low} and more", self.what),
            Some(_) if self.high == Some(self.low) => write!(f, "{}: {low}", self.what),
            Some(high) => write!(f, "{}: {low} to {}", self.what, show(high, self.unit)),
        }
    }
}

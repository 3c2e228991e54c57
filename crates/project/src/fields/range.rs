use quantity::{Unit, show};

/// Allowed range of a number, in the unit of its field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    low: Option<Bound>,
    high: Option<Bound>,
}

/// One end of a range.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Bound {
    value: f64,
    open: bool,
}

impl Range {
    /// From the first to the second value, both allowed.
    #[must_use]
    pub const fn within(low: f64, high: f64) -> Self {
        let low = Bound { value: low, open: false };
        Self { low: Some(low), high: Some(Bound { value: high, open: false }) }
    }

    /// Greater than the first value and at most the second.
    #[must_use]
    pub const fn above(low: f64, high: f64) -> Self {
        let low = Bound { value: low, open: true };
        Self { low: Some(low), high: Some(Bound { value: high, open: false }) }
    }

    /// At least the value.
    #[must_use]
    pub const fn at_least(low: f64) -> Self {
        Self { low: Some(Bound { value: low, open: false }), high: None }
    }

    /// At most the value.
    #[must_use]
    pub const fn at_most(high: f64) -> Self {
        Self { low: None, high: Some(Bound { value: high, open: false }) }
    }

    /// Greater than zero.
    #[must_use]
    pub const fn positive() -> Self {
        Self { low: Some(Bound { value: 0.0, open: true }), high: None }
    }

    /// The words for the bound that a value breaks, in a unit; `None` when the value is allowed.
    ///
    /// A value that is not a number breaks every bound. At a bound that is allowed itself the
    /// rounding of a conversion of units does no harm.
    #[must_use]
    pub fn broken(self, value: f64, unit: Unit) -> Option<String> {
        const ROUNDING: f64 = 1e-12;
        let slack = |b: &Bound| ROUNDING * b.value.abs();
        let below = |b: &Bound| if b.open { value > b.value } else { value >= b.value - slack(b) };
        let above = |b: &Bound| if b.open { value < b.value } else { value <= b.value + slack(b) };
        if let Some(low) = self.low.filter(|b| !below(b)) {
            return Some(low.words("greater than", "at least", unit));
        }
        let high = self.high.filter(|b| !above(b))?;
        Some(high.words("less than", "at most", unit))
    }

    /// The whole range in words, in a unit.
    #[must_use]
    pub fn describe(self, unit: Unit) -> String {
        match (self.low, self.high) {
            (None, None) => "any finite value".to_owned(),
            (Some(low), None) => low.words("greater than", "at least", unit),
            (None, Some(high)) => high.words("less than", "at most", unit),
            (Some(low), Some(high)) if low.value == high.value => number(low.value, unit),
            (Some(low), Some(high)) if !low.open && !high.open => {
                format!("{} to {}", number(low.value, unit), number(high.value, unit))
            }
            (Some(low), Some(high)) => format!(
                "{} and {}",
                low.words("greater than", "at least", unit),
                high.words("less than", "at most", unit)
            ),
        }
    }

    /// Lower end and whether it is allowed itself.
    #[must_use]
    pub fn low(self) -> Option<(f64, bool)> {
        self.low.map(|b| (b.value, !b.open))
    }

    /// Upper end and whether it is allowed itself.
    #[must_use]
    pub fn high(self) -> Option<(f64, bool)> {
        self.high.map(|b| (b.value, !b.open))
    }
}

impl Bound {
    fn words(self, open: &str, closed: &str, unit: Unit) -> String {
        let words = if self.open { open } else { closed };
        format!("{words} {}", number(self.value, unit))
    }
}

/// A number of a unit with its symbol; zero needs none.
fn number(value: f64, unit: Unit) -> String {
    if value == 0.0 { "0".to_owned() } else { show(unit.to_si(value), unit) }
}

use std::f64::consts::FRAC_PI_4;

use quantity::Unit;
use working::Source;

use crate::run::{Failure, Sheet, Values};

/// One calculation with its inputs and outputs.
#[derive(Debug)]
pub struct Worksheet {
    /// Stable id, as scripts use it.
    pub id: &'static str,
    /// What it computes, one line.
    pub title: &'static str,
    /// Inputs in the order of the working.
    pub inputs: &'static [Input],
    /// Outputs in the order of the result.
    pub outputs: &'static [Output],
    /// Where the method comes from.
    pub source: Source,
    /// Inputs of an example that runs; shown in the help and recomputed in a test.
    pub example: &'static [(&'static str, &'static str)],
    /// Puts the numbers in.
    pub run: fn(&Values) -> Result<Sheet, Failure>,
}

/// One input of a worksheet.
#[derive(Debug)]
pub struct Input {
    /// Key, as scripts use it.
    pub key: &'static str,
    /// Symbol in the working; letters, digits, underscores.
    pub symbol: &'static str,
    /// What it means.
    pub meaning: &'static str,
    /// Quantity or choice.
    pub shape: Shape,
    /// Whether it must be given.
    pub need: Need,
    /// Unit of a bare number where the trade writes one without unit, as a pressure class; SI otherwise.
    pub bare: Option<Unit>,
}

/// What an input holds.
#[derive(Debug, Clone, Copy)]
pub enum Shape {
    /// A quantity; the unit is the one in which a person reads it, bare numbers are SI.
    Quantity(Unit, Range),
    /// One of a few words.
    Choice(&'static [&'static str]),
}

/// Whether an input must be given.
#[derive(Debug, Clone, Copy)]
pub enum Need {
    /// Must be given.
    Required,
    /// Used when nothing is given: text as a user would write it, and why this value.
    Default(&'static str, &'static Source),
    /// May be left out; the calculation says when it is needed.
    Optional,
}

/// Allowed range of a quantity, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Range {
    /// Any finite number.
    Any,
    /// Greater than zero.
    Positive,
    /// Zero or greater.
    NotNegative,
    /// Between two values, both allowed.
    Within(f64, f64),
    /// Greater than the first and less than the second.
    Between(f64, f64),
    /// Greater than the first and at most the second.
    Above(f64, f64),
}

/// One output of a worksheet.
#[derive(Debug)]
pub struct Output {
    /// Key, as scripts use it; also the symbol's place in the working is named by it.
    pub key: &'static str,
    /// What it means.
    pub meaning: &'static str,
    /// Unit in which a person reads it; machines get SI.
    pub unit: Unit,
}

impl Input {
    /// A required quantity.
    pub(crate) const fn quantity(
        key: &'static str,
        symbol: &'static str,
        meaning: &'static str,
        unit: Unit,
        range: Range,
    ) -> Self {
        let shape = Shape::Quantity(unit, range);
        Self { key, symbol, meaning, shape, need: Need::Required, bare: None }
    }

    /// A required choice.
    pub(crate) const fn choice(
        key: &'static str,
        meaning: &'static str,
        words: &'static [&'static str],
    ) -> Self {
        let shape = Shape::Choice(words);
        Self { key, symbol: "", meaning, shape, need: Need::Required, bare: None }
    }

    /// The same input with a default.
    pub(crate) const fn or(mut self, text: &'static str, why: &'static Source) -> Self {
        self.need = Need::Default(text, why);
        self
    }

    /// The same input, whose bare numbers are in `unit`; its meaning should say so.
    pub(crate) const fn bare(mut self, unit: Unit) -> Self {
        self.bare = Some(unit);
        self
    }

    /// The same input, not required.
    pub(crate) const fn optional(mut self) -> Self {
        self.need = Need::Optional;
        self
    }
}

impl Output {
    /// An output.
    pub(crate) const fn new(key: &'static str, meaning: &'static str, unit: Unit) -> Self {
        Self { key, meaning, unit }
    }
}

impl Range {
    /// A diameter, a wall or an offset: greater than zero; at most 10 m, beyond which a unit was forgotten.
    pub(crate) const SIZE: Range = Range::Above(0.0, 10.0);
    /// The same, zero allowed.
    pub(crate) const SIZE_OR_NONE: Range = Range::Within(0.0, 10.0);
    /// The angle of a joint that turns; no socket allows more than 45 degrees.
    pub(crate) const JOINT_ANGLE: Range = Range::Above(0.0, FRAC_PI_4);
    /// The angle of a joint, which may be straight.
    pub(crate) const JOINT_ANGLE_OR_NONE: Range = Range::Within(0.0, FRAC_PI_4);

    /// Whether a finite number lies in the range.
    #[must_use]
    pub fn holds(self, value: f64) -> bool {
        match self {
            Range::Any => value.is_finite(),
            Range::Positive => value > 0.0,
            Range::NotNegative => value >= 0.0,
            Range::Within(a, b) => (a..=b).contains(&value),
            Range::Between(a, b) => value > a && value < b,
            Range::Above(a, b) => value > a && value <= b,
        }
    }

    /// The range in words, in a unit.
    #[must_use]
    pub fn describe(self, unit: Unit) -> String {
        let show = |v| quantity::show(v, unit);
        let above = |v: f64| if v == 0.0 { "0".to_owned() } else { show(v) };
        match self {
            Range::Any => "any finite value".to_owned(),
            Range::Positive => "greater than 0".to_owned(),
            Range::NotNegative => "0 or greater".to_owned(),
            Range::Within(a, b) => format!("{} to {}", show(a), show(b)),
            Range::Between(a, b) => {
                format!("greater than {} and less than {}", above(a), show(b))
            }
            Range::Above(a, b) => format!("greater than {} and at most {}", above(a), show(b)),
        }
    }
}

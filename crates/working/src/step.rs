use quantity::{Kind, System, Unit, show_with, significant};
use serde::ser::{Serialize, SerializeStruct, Serializer};

use crate::Source;

/// How the value of a step follows from earlier ones.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
#[serde(rename_all = "kebab-case", tag = "kind", content = "text")]
pub enum Formula {
    /// The value was put in.
    Given,
    /// An expression in the symbols of earlier steps; see [`crate::expression`].
    Expression(String),
    /// Found by a procedure that a line of text describes.
    Procedure(String),
}

/// One line of a working.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Symbol, unique in its working; letters, digits and underscores.
    pub symbol: String,
    /// What the symbol means.
    pub meaning: String,
    /// How the value was got.
    pub formula: Formula,
    /// Value in SI.
    pub value: f64,
    /// Unit in which a person reads the value.
    pub unit: Unit,
    /// Where the formula or the value comes from.
    pub source: Source,
}

impl Step {
    /// The value as a person reads it.
    #[must_use]
    pub fn shown(&self, system: System) -> String {
        show_with(self.value, self.unit, system)
    }
}

/// An ordered list of steps that ends in the result.
#[derive(Debug, Clone, PartialEq, Default, serde::Serialize)]
#[serde(transparent)]
pub struct Working {
    /// The steps, inputs first.
    pub steps: Vec<Step>,
}

impl Working {
    /// The step with this symbol.
    #[must_use]
    pub fn step(&self, symbol: &str) -> Option<&Step> {
        self.steps.iter().find(|s| s.symbol == symbol)
    }

    /// The formula of a step with the numbers put in, SI units; `None` where no expression stands.
    #[must_use]
    pub fn numbers_put_in(&self, step: &Step) -> Option<String> {
        let Formula::Expression(text) = &step.formula else { return None };
        let lookup = |symbol: &str| self.step(symbol).map(|s| significant(s.value, 5));
        crate::expression::substitute(text, lookup).ok()
    }

    /// Evaluates every expression again from its text and returns the largest relative difference with the
    /// step that shows it.
    ///
    /// # Errors
    /// Names the step whose expression cannot be evaluated.
    pub fn largest_difference(&self) -> Result<(f64, &str), String> {
        let mut worst = (0.0, "");
        for (i, step) in self.steps.iter().enumerate() {
            let Formula::Expression(text) = &step.formula else { continue };
            let lookup =
                |symbol: &str| self.steps[..i].iter().find(|s| s.symbol == symbol).map(|s| s.value);
            let value = crate::expression::evaluate(text, lookup)
                .map_err(|e| format!("step {}: {e}", step.symbol))?;
            let scale = step.value.abs().max(value.abs());
            let difference = if scale == 0.0 { 0.0 } else { (value - step.value).abs() / scale };
            // A NaN counts as the worst, so that it can never pass for agreement.
            if difference.is_nan() || difference > worst.0 {
                worst = (difference, step.symbol.as_str());
            }
        }
        Ok(worst)
    }
}

impl Serialize for Step {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut out = serializer.serialize_struct("Step", 7)?;
        out.serialize_field("symbol", &self.symbol)?;
        out.serialize_field("meaning", &self.meaning)?;
        out.serialize_field("formula", &self.formula)?;
        out.serialize_field("value", &self.value)?;
        out.serialize_field("unit", self.unit.kind().si().symbol())?;
        out.serialize_field("shown", &self.shown(System::Metric))?;
        out.serialize_field("source", &self.source)?;
        out.end()
    }
}

/// The kind of a step's value.
impl Step {
    /// Kind of quantity the step holds.
    #[must_use]
    pub fn kind(&self) -> Kind {
        self.unit.kind()
    }
}

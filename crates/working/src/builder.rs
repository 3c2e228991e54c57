use quantity::Unit;

use crate::{Formula, Source, Step, Working};

/// Puts a [`Working`] together, one line at a time.
#[derive(Debug, Default)]
pub struct Builder {
    steps: Vec<Step>,
}

impl Builder {
    /// An empty working.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    fn push(
        &mut self,
        symbol: &str,
        meaning: &str,
        formula: Formula,
        value: f64,
        unit: Unit,
        source: Source,
    ) -> f64 {
        debug_assert!(
            !self.steps.iter().any(|s| s.symbol == symbol),
            "symbol {symbol} stands twice in one working"
        );
        self.steps.push(Step {
            symbol: symbol.to_owned(),
            meaning: meaning.to_owned(),
            formula,
            value,
            unit,
            source,
        });
        value
    }

    /// A value that was put in. `value` is SI.
    pub fn given(&mut self, symbol: &str, meaning: &str, value: f64, unit: Unit) -> f64 {
        self.push(symbol, meaning, Formula::Given, value, unit, Source::given())
    }

    /// A value that was put in and has a source of its own, as a table value or an assumption.
    pub fn given_from(
        &mut self,
        symbol: &str,
        meaning: &str,
        value: f64,
        unit: Unit,
        source: Source,
    ) -> f64 {
        self.push(symbol, meaning, Formula::Given, value, unit, source)
    }

    /// A value that a calculation returned, shown with the expression it came from.
    pub fn result(
        &mut self,
        symbol: &str,
        meaning: &str,
        expression: &str,
        value: f64,
        unit: Unit,
        source: Source,
    ) -> f64 {
        self.push(symbol, meaning, Formula::Expression(expression.to_owned()), value, unit, source)
    }

    /// An intermediate value computed from its expression; NaN if the expression cannot be evaluated, which the
    /// tests of every working refuse.
    pub fn derive(
        &mut self,
        symbol: &str,
        meaning: &str,
        expression: &str,
        unit: Unit,
        source: Source,
    ) -> f64 {
        let lookup = |s: &str| self.steps.iter().find(|p| p.symbol == s).map(|p| p.value);
        let value = crate::expression::evaluate(expression, lookup).unwrap_or(f64::NAN);
        self.push(symbol, meaning, Formula::Expression(expression.to_owned()), value, unit, source)
    }

    /// A value found by a procedure that no single expression holds.
    pub fn found(
        &mut self,
        symbol: &str,
        meaning: &str,
        procedure: &str,
        value: f64,
        unit: Unit,
        source: Source,
    ) -> f64 {
        self.push(symbol, meaning, Formula::Procedure(procedure.to_owned()), value, unit, source)
    }

    /// Whether a symbol stands in the working already.
    #[must_use]
    pub fn has(&self, symbol: &str) -> bool {
        self.steps.iter().any(|s| s.symbol == symbol)
    }

    /// The finished working.
    #[must_use]
    pub fn finish(self) -> Working {
        Working { steps: self.steps }
    }
}

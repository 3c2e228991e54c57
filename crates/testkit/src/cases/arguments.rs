use quantity::{Kind, parse};
use toml::{Table, Value};

use super::method::MethodFailure;

/// Inputs of a method that is not a worksheet: taken by key, and whatever is left over is refused.
pub(super) struct Arguments<'a> {
    table: &'a Table,
    taken: Vec<&'static str>,
    failures: Vec<MethodFailure>,
}

impl<'a> Arguments<'a> {
    pub(super) fn new(table: &'a Table) -> Self {
        Self { table, taken: Vec::new(), failures: Vec::new() }
    }

    pub(super) fn fail(&mut self, code: &'static str, key: &str, message: impl Into<String>) {
        self.failures.push(MethodFailure::new(code, key, message));
    }

    /// A value that must be there.
    pub(super) fn value(&mut self, key: &'static str) -> Option<&'a Value> {
        let value = self.optional(key);
        if value.is_none() {
            self.fail("missing", key, "is missing");
        }
        value
    }

    fn optional(&mut self, key: &'static str) -> Option<&'a Value> {
        self.taken.push(key);
        self.table.get(key)
    }

    /// A quantity that must be there, in SI; zero after a failure, which [`Self::finish`] reports.
    pub(super) fn quantity(&mut self, key: &'static str, kind: Kind) -> f64 {
        self.value(key).and_then(|value| self.read(key, value, kind)).unwrap_or(0.0)
    }

    /// A quantity that may be left out.
    pub(super) fn quantity_or(&mut self, key: &'static str, kind: Kind, otherwise: f64) -> f64 {
        self.optional(key).map_or(otherwise, |value| self.read(key, value, kind).unwrap_or(0.0))
    }

    /// A quantity that may be left out.
    pub(super) fn quantity_if_given(&mut self, key: &'static str, kind: Kind) -> Option<f64> {
        self.optional(key).map(|value| self.read(key, value, kind).unwrap_or(0.0))
    }

    /// A text that must be there.
    pub(super) fn word(&mut self, key: &'static str) -> String {
        self.value(key).map(text_of).unwrap_or_default()
    }

    /// A list that must be there.
    pub(super) fn list(&mut self, key: &'static str) -> &'a [Value] {
        match self.value(key) {
            Some(Value::Array(list)) => list,
            Some(_) => {
                self.fail("unreadable", key, "must be a list");
                &[]
            }
            None => &[],
        }
    }

    fn read(&mut self, key: &str, value: &Value, kind: Kind) -> Option<f64> {
        match parse(&text_of(value), kind) {
            Ok((si, _)) => Some(si),
            Err(error) => {
                self.fail("unreadable", key, error.to_string());
                None
            }
        }
    }

    /// All failures so far, with one for each key that nothing took.
    pub(super) fn finish(mut self) -> Result<(), Vec<MethodFailure>> {
        for key in self.table.keys().filter(|key| !self.taken.contains(&key.as_str())) {
            let message = format!("is unknown; known are {}", self.taken.join(", "));
            self.failures.push(MethodFailure::new("unknown_key", key, message));
        }
        if self.failures.is_empty() { Ok(()) } else { Err(self.failures) }
    }
}

/// A TOML value as a user would type it.
pub(super) fn text_of(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

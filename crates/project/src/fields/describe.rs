//! A field's definition in words, the same in starter, reference and schema.

use quantity::{Kind, Unit, unit};

use super::{Fallback, Field, Need, Range, Value};

impl Field {
    /// What may be written, in words: `a length (bare numbers in m)`.
    #[must_use]
    pub fn kind_in_words(&self) -> String {
        match &self.value {
            Value::Text => "a text".to_owned(),
            Value::Integer(_) => "a whole number".to_owned(),
            Value::Quantity(unit, _) => quantity(*unit),
            Value::Choice(_) => "one of the words".to_owned(),
            Value::ChoiceOrQuantity(_, unit, _) => {
                format!("one of the words, or {}", quantity(*unit))
            }
            Value::Integers(_) => "a list of whole numbers".to_owned(),
            Value::Quantities(unit, _) => format!("a list, each entry {}", quantity(*unit)),
            Value::Rows(columns) => {
                let row: Vec<_> =
                    columns.iter().map(|c| format!("{} ({})", c.name, bare(c.unit))).collect();
                format!("a list of [{}]", row.join(", "))
            }
            Value::Texts => "a list of texts".to_owned(),
            Value::NamedRows(name, columns) => {
                let row: Vec<_> =
                    columns.iter().map(|c| format!("{} ({})", c.name, bare(c.unit))).collect();
                format!("a list of [{name} (a text), {}]", row.join(", "))
            }
        }
    }

    /// The allowed values in words; nothing for texts.
    #[must_use]
    pub fn allowed_in_words(&self) -> Option<String> {
        let words = |list: &[super::Word]| {
            let each = list.iter().map(|w| format!("\"{}\" ({})", w.word, w.meaning));
            each.collect::<Vec<_>>().join(", ")
        };
        let range = |range: Range, unit: Unit| {
            let usual = self.usual.map(|u| format!("; {}", u.describe(unit)));
            range.describe(unit) + &usual.unwrap_or_default()
        };
        Some(match &self.value {
            Value::Text | Value::Texts => return None,
            Value::Integer(r) => range(*r, unit::ONE),
            Value::Integers(r) => range(*r, unit::ONE),
            Value::Quantity(unit, r) | Value::Quantities(unit, r) => range(*r, *unit),
            Value::Choice(list) => words(list),
            Value::ChoiceOrQuantity(list, unit, r) => {
                format!("{}, or {}", words(list), range(*r, *unit))
            }
            Value::Rows(columns) | Value::NamedRows(_, columns) => columns
                .iter()
                .map(|c| format!("{} {}", c.name, range(c.range, c.unit)))
                .collect::<Vec<_>>()
                .join(", "),
        })
    }

    /// Whether the field must be written, and what happens when it is not.
    #[must_use]
    pub fn need_in_words(&self) -> String {
        match &self.need {
            Need::Required => "required".to_owned(),
            Need::RequiredWhen(case) => format!("required when {case}"),
            Need::Optional(without) => format!("optional; without it {without}"),
            Need::Default(Fallback::Value(value), why) => {
                format!("default {} [{}]", value.trim_matches('"'), why.source())
            }
            Need::Default(Fallback::Rule(rule), why) => {
                format!("default: {rule} [{}]", why.source())
            }
        }
    }
}

fn quantity(unit: Unit) -> String {
    match unit.kind() {
        Kind::Ratio => "a number or a percentage".to_owned(),
        kind => format!("{} ({})", kind.name(), bare(unit)),
    }
}

fn bare(unit: Unit) -> String {
    format!("bare numbers in {}", unit.symbol())
}

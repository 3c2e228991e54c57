//! Words for values, the same in every message.

use quantity::{Unit, show, significant, unit};
use toml::de::DeValue;

use crate::diagnostic::brief;
use crate::fields::Word;

/// Words of a choice in quotes.
pub(crate) fn listed(words: &[Word]) -> String {
    words.iter().map(|w| format!("\"{}\"", w.word)).collect::<Vec<_>>().join(", ")
}

/// The nearest of some known words, where one is near enough to be meant.
pub(crate) fn nearest<'w>(wanted: &str, known: impl Iterator<Item = &'w str>) -> Option<&'w str> {
    const NEAR: f64 = 0.8;
    // Similarity costs the product of the lengths; no key is anywhere near this long.
    if wanted.len() > 100 {
        return None;
    }
    let wanted = wanted.to_lowercase();
    known
        .map(|word| (strsim::jaro_winkler(&wanted, &word.to_lowercase()), word))
        .filter(|(likeness, _)| *likeness >= NEAR)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, word)| word)
}

/// What a value is, in words.
pub(crate) fn kind_of(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "a true-or-false value",
        DeValue::Datetime(_) => "a date or a time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

/// A value in SI as it is shown in messages and assumptions.
pub(crate) fn shown(si: f64, in_unit: Unit) -> String {
    if in_unit == unit::ONE { significant(si, 4) } else { show(si, in_unit) }
}

/// Whether a text begins like a number.
pub(crate) fn starts_a_number(text: &str) -> bool {
    text.trim_start().starts_with(|c: char| c.is_ascii_digit() || matches!(c, '+' | '-' | '.'))
}

/// A bare number with the unit that it is read in.
pub(crate) fn with_unit(number: &str, bare: Unit) -> String {
    match bare.symbol() {
        "" => brief(number),
        symbol => format!("{} {symbol}", brief(number)),
    }
}

/// The units that a text may use.
pub(crate) fn units_allowed(bare: Unit) -> String {
    let all = bare.kind().units().map(Unit::symbol).filter(|s| !s.is_empty());
    let list = all.collect::<Vec<_>>().join(", ");
    match bare.symbol() {
        "" => format!("a number without unit, or {list}"),
        symbol => format!("{list}; a bare number is in {symbol}"),
    }
}

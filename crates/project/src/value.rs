//! Reading of one value as its definition says.

use quantity::{ParseError, Unit, parse, parse_number, unit};
use toml::Spanned;
use toml::de::{DeArray, DeValue};

use crate::diagnostic::{Place, Report, brief};
use crate::fields::{Column, Field, Range, Value, Word};
use crate::given::Given;
use crate::wording::{kind_of, listed, nearest, starts_a_number, units_allowed, with_unit};

/// A value of the file in the shape that its definition names; numbers are SI.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Reading {
    Number(f64),
    Integer(u32),
    Text(String),
    Word(&'static str),
    Numbers(Vec<Given<f64>>),
    Integers(Vec<Given<u32>>),
    Rows(Vec<Vec<Given<f64>>>),
}

/// Reads a value; notes what is wrong with it and returns `None` where it cannot be used.
pub(crate) fn read_value(
    field: &Field,
    value: &Spanned<DeValue<'_>>,
    place: &Place,
    report: &mut Report<'_>,
) -> Option<Reading> {
    let mut reader = Reader { field, report };
    match &field.value {
        Value::Text => reader.text(value, place).map(Reading::Text),
        Value::Integer(range) => reader.integer(value, place, *range).map(Reading::Integer),
        Value::Quantity(unit, range) => {
            reader.number(value, place, field.key, *unit, *range).map(Reading::Number)
        }
        Value::Choice(words) => reader.word(value, place, words).map(Reading::Word),
        Value::ChoiceOrQuantity(words, unit, range) => match value.get_ref() {
            DeValue::String(text) if !starts_a_number(text) => {
                reader.word(value, place, words).map(Reading::Word)
            }
            _ => reader.number(value, place, field.key, *unit, *range).map(Reading::Number),
        },
        Value::Integers(range) => {
            let read = |r: &mut Reader<'_, '_>, v: &Spanned<DeValue<'_>>, p: &Place| {
                Some(Given { value: r.integer(v, p, *range)?, place: p.clone() })
            };
            reader.list(value, place, read).map(Reading::Integers)
        }
        Value::Quantities(unit, range) => {
            let read = |r: &mut Reader<'_, '_>, v: &Spanned<DeValue<'_>>, p: &Place| {
                let value = r.number(v, p, field.key, *unit, *range)?;
                Some(Given { value, place: p.clone() })
            };
            reader.list(value, place, read).map(Reading::Numbers)
        }
        Value::Rows(columns) => {
            let read =
                |r: &mut Reader<'_, '_>, v: &Spanned<DeValue<'_>>, p: &Place| r.row(v, p, columns);
            reader.list(value, place, read).map(Reading::Rows)
        }
    }
}

struct Reader<'r, 'a> {
    field: &'r Field,
    report: &'r mut Report<'a>,
}

impl Reader<'_, '_> {
    fn text(&mut self, value: &Spanned<DeValue<'_>>, place: &Place) -> Option<String> {
        let DeValue::String(text) = value.get_ref() else {
            self.wrong_type(value, place, "a text in quotes");
            return None;
        };
        if text.trim().is_empty() {
            let message = format!("{} must not be empty", self.field.key);
            let hint = self.as_in();
            self.report.error("empty", place, message).hint(hint);
            return None;
        }
        Some(text.trim().to_owned())
    }

    fn integer(
        &mut self,
        value: &Spanned<DeValue<'_>>,
        place: &Place,
        range: Range,
    ) -> Option<u32> {
        let DeValue::Integer(number) = value.get_ref() else {
            self.wrong_type(value, place, "a whole number");
            return None;
        };
        let read = i64::from_str_radix(number.as_str(), number.radix()).ok();
        #[expect(clippy::cast_precision_loss, reason = "only compared with a range far smaller")]
        let compared = read.map_or(f64::NAN, |n| n as f64);
        self.in_range(place, self.field.key, (compared, unit::ONE), range, &number.to_string())?;
        read.and_then(|n| u32::try_from(n).ok())
    }

    /// A quantity in SI: a bare number in the unit, or a text with a unit.
    fn number(
        &mut self,
        value: &Spanned<DeValue<'_>>,
        place: &Place,
        name: &str,
        bare: Unit,
        range: Range,
    ) -> Option<f64> {
        let (si, found) = match value.get_ref() {
            DeValue::Integer(n) => {
                #[expect(clippy::cast_precision_loss, reason = "nobody writes 2^53 metres")]
                let number = i64::from_str_radix(n.as_str(), n.radix()).ok().map(|n| n as f64);
                (number.map_or(f64::NAN, |n| bare.to_si(n)), with_unit(n.as_str(), bare))
            }
            DeValue::Float(n) => {
                let number = n.as_str().parse::<f64>().unwrap_or(f64::NAN);
                (bare.to_si(number), with_unit(n.as_str(), bare))
            }
            DeValue::String(text) => (self.quantity(text, place, name, bare)?, brief(text.trim())),
            _ => {
                let (kind, example) = (bare.kind().name(), self.field.example);
                let expected = format!("{kind} such as {example}");
                self.wrong_type(value, place, &expected);
                return None;
            }
        };
        if !si.is_finite() {
            let message = format!("{name} must be a finite number, but was {found}");
            self.report.error("not_finite", place, message).found(found);
            return None;
        }
        self.in_range(place, name, (bare.from_si(si), bare), range, &found)?;
        Some(si)
    }

    fn quantity(&mut self, text: &str, place: &Place, name: &str, bare: Unit) -> Option<f64> {
        // A text without unit means the same as a bare number; the SI unit would be a trap beside
        // it.
        if let Some(number) = parse_number(text) {
            return Some(bare.to_si(number));
        }
        match parse(text, bare.kind()) {
            Ok((si, _)) => Some(si),
            Err(error) => {
                let code = match error {
                    ParseError::NotANumber { .. } => "unreadable",
                    ParseError::NotFinite { .. } => "not_finite",
                    ParseError::WrongUnit { .. } => "wrong_unit",
                };
                let hint = match &error {
                    ParseError::WrongUnit { symbol, .. } => Unit::find_any(symbol).map_or_else(
                        || self.as_in(),
                        |u| {
                            let (symbol, kind) = (u.symbol(), u.kind().name());
                            format!("\"{symbol}\" is a unit of {kind}; {}", self.as_in())
                        },
                    ),
                    _ => self.as_in(),
                };
                let allowed = units_allowed(bare);
                let message = match &error {
                    ParseError::WrongUnit { symbol, kind, .. } => {
                        format!("{name}: \"{}\" is not a unit of {}", brief(symbol), kind.name())
                    }
                    ParseError::NotANumber { .. } => {
                        let kind = bare.kind().name();
                        format!("{name} must be {kind}, but was \"{}\"", brief(text))
                    }
                    ParseError::NotFinite { .. } => {
                        format!("{name} must be a finite number, but was \"{}\"", brief(text))
                    }
                };
                self.report
                    .error(code, place, message)
                    .found(brief(text))
                    .allowed(allowed)
                    .hint(hint);
                None
            }
        }
    }

    fn word(
        &mut self,
        value: &Spanned<DeValue<'_>>,
        place: &Place,
        words: &'static [Word],
    ) -> Option<&'static str> {
        let DeValue::String(text) = value.get_ref() else {
            self.wrong_type(value, place, &format!("one of {}", listed(words)));
            return None;
        };
        let wanted = text.trim();
        if let Some(word) = words.iter().find(|w| w.word.eq_ignore_ascii_case(wanted)) {
            return Some(word.word);
        }
        let key = self.field.key;
        if let Some(later) = self.field.refused.iter().find(|w| w.word.eq_ignore_ascii_case(wanted))
        {
            self.report
                .error(
                    "not_in_this_version",
                    place,
                    format!("{key} \"{}\" is not in this version", later.word),
                )
                .found(later.word)
                .allowed(listed(words))
                .hint(later.meaning);
            return None;
        }
        let message =
            format!("{key} must be one of {}, but was \"{}\"", listed(words), brief(text));
        let hint = match nearest(wanted, words.iter().map(|w| w.word)) {
            Some(near) => format!("did you mean \"{near}\"?"),
            None => words
                .iter()
                .map(|w| format!("\"{}\": {}", w.word, w.meaning))
                .collect::<Vec<_>>()
                .join("; "),
        };
        self.report
            .error("not_a_choice", place, message)
            .found(brief(text))
            .allowed(listed(words))
            .hint(hint);
        None
    }

    /// A list whose every entry is looked at; `None` when one of them cannot be used.
    fn list<T>(
        &mut self,
        value: &Spanned<DeValue<'_>>,
        place: &Place,
        mut read: impl FnMut(&mut Self, &Spanned<DeValue<'_>>, &Place) -> Option<T>,
    ) -> Option<Vec<T>> {
        let DeValue::Array(entries) = value.get_ref() else {
            let expected = format!("a list such as {}", self.field.example);
            self.wrong_type(value, place, &expected);
            return None;
        };
        if entries.is_empty() {
            let message = format!("{} must have at least one entry", self.field.key);
            let hint = self.as_in();
            self.report.error("empty", place, message).hint(hint);
            return None;
        }
        let mut all = Vec::with_capacity(entries.len());
        for (i, entry) in entries.iter().enumerate() {
            all.push(read(self, entry, &place.below(i).at(entry.span())));
        }
        all.into_iter().collect()
    }

    fn row(
        &mut self,
        value: &Spanned<DeValue<'_>>,
        place: &Place,
        columns: &'static [Column],
    ) -> Option<Vec<Given<f64>>> {
        let names = columns.iter().map(|c| c.name).collect::<Vec<_>>().join(", ");
        let cells: &DeArray<'_> = match value.get_ref() {
            DeValue::Array(cells) if cells.len() == columns.len() => cells,
            other => {
                let found = match other {
                    DeValue::Array(cells) => format!("{} values", cells.len()),
                    other => kind_of(other).to_owned(),
                };
                let (key, count) = (self.field.key, columns.len());
                let message = format!(
                    "each entry of {key} must be a list of {count} values, but was {found}"
                );
                let hint = self.as_in();
                self.report
                    .error("wrong_type", place, message)
                    .found(found)
                    .allowed(format!("[{names}]"))
                    .hint(hint);
                return None;
            }
        };
        let mut row = Vec::with_capacity(columns.len());
        for (i, (cell, column)) in cells.iter().zip(columns).enumerate() {
            let at = place.below(i).at(cell.span());
            let name = format!("{} of {}", column.name, self.field.key);
            let si = self.number(cell, &at, &name, column.unit, column.range);
            row.push(si.map(|value| Given { value, place: at }));
        }
        row.into_iter().collect()
    }

    fn in_range(
        &mut self,
        place: &Place,
        name: &str,
        (value, bare): (f64, Unit),
        range: Range,
        found: &str,
    ) -> Option<()> {
        let Some(broken) = range.broken(value, bare) else { return Some(()) };
        let hint = self.as_in();
        self.report
            .error("out_of_range", place, format!("{name} must be {broken}, but was {found}"))
            .found(found)
            .allowed(range.describe(bare))
            .hint(hint);
        None
    }

    fn wrong_type(&mut self, value: &Spanned<DeValue<'_>>, place: &Place, expected: &str) {
        let found = kind_of(value.get_ref());
        let message = format!("{} must be {expected}, but was {found}", self.field.key);
        let hint = self.as_in();
        self.report.error("wrong_type", place, message).found(found).allowed(expected).hint(hint);
    }

    fn as_in(&self) -> String {
        let Field { key, meaning, example, .. } = self.field;
        format!("{key}: {meaning}, as in {key} = {example}")
    }
}

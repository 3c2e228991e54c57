//! Reading of one value as its definition says.

use quantity::unit;
use toml::Spanned;
use toml::de::{DeArray, DeValue};

use crate::diagnostic::{Place, Report, brief};
use crate::fields::{Column, Field, Range, Value, Word};
use crate::given::Given;
use crate::measure::Measured;
use crate::wording::{kind_of, listed, nearest, starts_a_number};

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
    Texts(Vec<Given<String>>),
    NamedRows(Vec<(Given<String>, Vec<Given<f64>>)>),
}

/// Reads a value; notes what is wrong with it and returns `None` where it cannot be used.
pub(crate) fn read_value(
    field: &Field,
    value: &Spanned<DeValue<'_>>,
    place: &Place,
    report: &mut Report<'_>,
) -> Option<Reading> {
    let mut reader = Reader { field, report, outside: Vec::new() };
    match &field.value {
        Value::Text => reader.text(value, place).map(Reading::Text),
        Value::Integer(range) => reader.integer(value, place, *range).map(Reading::Integer),
        Value::Quantity(unit, range) => {
            let si = reader.number(value, place, field.key, *unit, *range)?;
            reader.note_unusual(si, place, *unit);
            Some(Reading::Number(si))
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
            let rows = reader.list(value, place, read);
            reader.note_outside(columns);
            rows.map(Reading::Rows)
        }
        Value::Texts => {
            let read = |r: &mut Reader<'_, '_>, v: &Spanned<DeValue<'_>>, p: &Place| {
                Some(Given { value: r.text(v, p)?, place: p.clone() })
            };
            reader.list(value, place, read).map(Reading::Texts)
        }
        Value::NamedRows(name, columns) => {
            let read = |r: &mut Reader<'_, '_>, v: &Spanned<DeValue<'_>>, p: &Place| {
                r.named_row(v, p, name, columns)
            };
            let rows = reader.list(value, place, read);
            reader.note_outside(columns);
            rows.map(Reading::NamedRows)
        }
    }
}

pub(crate) struct Reader<'r, 'a> {
    pub(crate) field: &'r Field,
    pub(crate) report: &'r mut Report<'a>,
    /// Cells of rows outside the range of their column; each column gets one message.
    pub(crate) outside: Vec<(usize, Place, Measured)>,
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
        let found = Measured { si: compared, found: number.to_string(), bare: false };
        self.in_range(place, self.field.key, unit::ONE, range, &found)?;
        read.and_then(|n| u32::try_from(n).ok())
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
        let cells = self.cells(value, place, columns.len(), &names)?;
        self.numbers(cells, place, 0, columns)
    }

    /// A row that begins with a name.
    fn named_row(
        &mut self,
        value: &Spanned<DeValue<'_>>,
        place: &Place,
        name: &str,
        columns: &'static [Column],
    ) -> Option<(Given<String>, Vec<Given<f64>>)> {
        let names = columns.iter().map(|c| c.name).collect::<Vec<_>>().join(", ");
        let cells = self.cells(value, place, columns.len() + 1, &format!("{name}, {names}"))?;
        let (first, rest) = cells.split_first()?;
        let at = place.below(0).at(first.span());
        let text = self.text(first, &at).map(|value| Given { value, place: at });
        let numbers = self.numbers(rest, place, 1, columns);
        Some((text?, numbers?))
    }

    /// The cells of a row with the right count of them.
    fn cells<'v, 'i>(
        &mut self,
        value: &'v Spanned<DeValue<'i>>,
        place: &Place,
        count: usize,
        names: &str,
    ) -> Option<&'v [Spanned<DeValue<'i>>]> {
        let found = match value.get_ref() {
            DeValue::Array(cells) if cells.len() == count => {
                let cells: &DeArray<'i> = cells;
                return Some(cells);
            }
            DeValue::Array(cells) => format!("{} values", cells.len()),
            other => kind_of(other).to_owned(),
        };
        let key = self.field.key;
        let message =
            format!("each entry of {key} must be a list of {count} values, but was {found}");
        let hint = self.as_in();
        self.report
            .error("wrong_type", place, message)
            .found(found)
            .allowed(format!("[{names}]"))
            .hint(hint);
        None
    }

    /// Numbers of a row, the first of which stands in the cell with this index.
    fn numbers(
        &mut self,
        cells: &[Spanned<DeValue<'_>>],
        place: &Place,
        first: usize,
        columns: &'static [Column],
    ) -> Option<Vec<Given<f64>>> {
        let mut row = Vec::with_capacity(columns.len());
        for (i, (cell, column)) in cells.iter().zip(columns).enumerate() {
            let at = place.below(first + i).at(cell.span());
            let name = format!("{} of {}", column.name, self.field.key);
            let measured = self.measure(cell, &at, &name, column.unit);
            row.push(match measured {
                Some(m)
                    if column.range.broken(column.unit.from_si(m.si), column.unit).is_some() =>
                {
                    self.outside.push((i, at, m));
                    None
                }
                measured => measured.map(|m| Given { value: m.si, place: at }),
            });
        }
        row.into_iter().collect()
    }

    pub(crate) fn wrong_type(
        &mut self,
        value: &Spanned<DeValue<'_>>,
        place: &Place,
        expected: &str,
    ) {
        let found = kind_of(value.get_ref());
        let message = format!("{} must be {expected}, but was {found}", self.field.key);
        let hint = self.as_in();
        self.report.error("wrong_type", place, message).found(found).allowed(expected).hint(hint);
    }

    pub(crate) fn as_in(&self) -> String {
        let Field { key, meaning, example, .. } = self.field;
        format!("{key}: {meaning}, as in {key} = {example}")
    }
}

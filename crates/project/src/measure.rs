//! Reading of one quantity: its number, its unit, its range, and what is usual.

use quantity::{ParseError, Unit, parse, parse_number};
use toml::Spanned;
use toml::de::DeValue;

use crate::diagnostic::{Place, brief};
use crate::fields::{Column, Range};
use crate::value::Reader;
use crate::wording::{shown, units_allowed, with_unit};

/// A number as it was read.
pub(crate) struct Measured {
    pub(crate) si: f64,
    /// As written, with the unit.
    pub(crate) found: String,
    /// Whether it was written without a unit.
    pub(crate) bare: bool,
}

impl Reader<'_, '_> {
    /// A quantity in SI and in range.
    pub(crate) fn number(
        &mut self,
        value: &Spanned<DeValue<'_>>,
        place: &Place,
        name: &str,
        bare: Unit,
        range: Range,
    ) -> Option<f64> {
        let measured = self.measure(value, place, name, bare)?;
        self.in_range(place, name, bare, range, &measured)?;
        Some(measured.si)
    }

    /// A quantity in SI: a bare number in the unit, or a text with a unit.
    pub(crate) fn measure(
        &mut self,
        value: &Spanned<DeValue<'_>>,
        place: &Place,
        name: &str,
        bare: Unit,
    ) -> Option<Measured> {
        let (si, found, is_bare) = match value.get_ref() {
            DeValue::Integer(n) => {
                #[expect(clippy::cast_precision_loss, reason = "nobody writes 2^53 metres")]
                let number = i64::from_str_radix(n.as_str(), n.radix()).ok().map(|n| n as f64);
                let si = number.map_or(f64::NAN, |n| bare.to_si(n));
                (si, with_unit(n.as_str(), bare), true)
            }
            DeValue::Float(n) => {
                let number = n.as_str().parse::<f64>().unwrap_or(f64::NAN);
                (bare.to_si(number), with_unit(n.as_str(), bare), true)
            }
            DeValue::String(text) => {
                let is_bare = parse_number(text).is_some();
                (self.quantity(text, place, name, bare)?, brief(text.trim()), is_bare)
            }
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
        Some(Measured { si, found, bare: is_bare })
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
                    ParseError::Separator { .. } => "separator",
                };
                let hint = match &error {
                    ParseError::WrongUnit { symbol, .. } => Unit::find_any(symbol).map_or_else(
                        || self.as_in(),
                        |u| {
                            let (symbol, kind) = (u.symbol(), u.kind().name());
                            format!("\"{symbol}\" is a unit of {kind}; {}", self.as_in())
                        },
                    ),
                    ParseError::Separator { suggestion, .. } => format!("write {suggestion}"),
                    _ => self.as_in(),
                };
                let allowed = match error {
                    ParseError::Separator { .. } => {
                        "a decimal point, no thousands separator".to_owned()
                    }
                    _ => units_allowed(bare),
                };
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
                    ParseError::Separator { .. } => {
                        let text = brief(text.trim());
                        format!("{name}: \"{text}\" has a comma or a space between digits")
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

    pub(crate) fn in_range(
        &mut self,
        place: &Place,
        name: &str,
        unit: Unit,
        range: Range,
        measured: &Measured,
    ) -> Option<()> {
        let Some(broken) = range.broken(unit.from_si(measured.si), unit) else { return Some(()) };
        let found = measured.found.as_str();
        let hint = format!("{}{}", bare_in(measured, unit), self.as_in());
        self.report
            .error("out_of_range", place, format!("{name} must be {broken}, but was {found}"))
            .found(found)
            .allowed(range.describe(unit))
            .hint(hint);
        None
    }

    /// One message for every column with cells outside its range, at the first of them.
    pub(crate) fn note_outside(&mut self, columns: &'static [Column]) {
        let outside = std::mem::take(&mut self.outside);
        for (i, column) in columns.iter().enumerate() {
            let mut cells = outside.iter().filter(|(of, ..)| *of == i);
            let Some((_, place, first)) = cells.next() else { continue };
            let unit = column.unit;
            let Some(broken) = column.range.broken(unit.from_si(first.si), unit) else { continue };
            let more = match cells.count() {
                0 => String::new(),
                1 => "; one more entry is out of range".to_owned(),
                count => format!("; {count} more entries are out of range"),
            };
            let (name, key, found) = (column.name, self.field.key, first.found.as_str());
            let hint = match column.hint {
                Some(hint) => hint.to_owned(),
                None => format!("{}{}", bare_in(first, unit), self.as_in()),
            };
            let message = format!("{name} of {key} must be {broken}, but was {found}{more}");
            self.report
                .error("out_of_range", place, message)
                .found(found)
                .allowed(column.range.describe(unit))
                .hint(hint);
        }
    }

    /// Warns of a value outside what is usual for its field.
    pub(crate) fn note_unusual(&mut self, si: f64, place: &Place, unit: Unit) {
        let Some(usual) = self.field.usual else { return };
        if usual.holds(unit.from_si(si), unit) {
            return;
        }
        let (key, found) = (self.field.key, shown(si, unit));
        self.report
            .warning(
                "unusual",
                place,
                format!("{key} is {found}, which is unusual ({})", self.field.meaning),
            )
            .found(found)
            .allowed(usual.describe(unit))
            .hint(usual.hint);
    }
}

/// The unit in which a bare number was read, where that may be the mistake.
fn bare_in(measured: &Measured, unit: Unit) -> String {
    match unit.symbol() {
        symbol if measured.bare && !symbol.is_empty() => {
            format!("a bare number is in {symbol}; ")
        }
        _ => String::new(),
    }
}

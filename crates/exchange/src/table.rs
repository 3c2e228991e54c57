//! Columns with their units, and the reading of one row by the names of its columns.

use quantity::ParseError;

use crate::fields::Row;
use crate::issue::{Issues, Located, Place, nearest};
use crate::spec::{Spec, WithoutUnit};

/// The columns of a group or of a table.
#[derive(Debug)]
pub(crate) struct Table {
    /// What it is in messages: `group GEOL`, `the table`.
    pub(crate) what: String,
    pub(crate) columns: Vec<Column>,
    /// Where a unit is written, for advice: `the UNIT row`.
    pub(crate) units_stand: &'static str,
    /// Whether `4,2` is a number.
    pub(crate) decimal_comma: bool,
    /// Whether a dictionary of the format gives each column its usual unit, the one in which it is shown.
    pub(crate) usual_units: bool,
}

/// One column.
#[derive(Debug)]
pub(crate) struct Column {
    pub(crate) name: String,
    /// The name's place.
    pub(crate) place: Place,
    /// Its unit and where it is written; nothing where the file says none at all, which is told elsewhere.
    pub(crate) unit: Option<Located<String>>,
    /// Whether its unit has been complained about.
    pub(crate) told: bool,
}

impl Table {
    pub(crate) fn position(&self, name: &str) -> Option<usize> {
        self.columns.iter().position(|column| column.name == name)
    }

    /// Notes the columns that are needed and not there; whether all are.
    pub(crate) fn has(&self, needed: &[&str], line: usize, issues: &mut Issues) -> bool {
        let missing: Vec<_> =
            needed.iter().filter(|name| self.position(name).is_none()).copied().collect();
        for name in &missing {
            let near = nearest(name, self.columns.iter().map(|column| column.name.as_str()));
            let at_fault = near.and_then(|near| self.columns.iter().find(|c| c.name == near));
            let issue = issues.error(
                "missing_column",
                at_fault.map_or(Place::line(line), |column| column.place),
                format!("{} has no column {name}, which is needed", self.what),
            );
            issue.allowed(format!("a column {name}"));
            match near {
                Some(near) => issue.found(near).hint(format!("is {near} meant to be {name}?")),
                None => issue.hint(format!("add the column {name}")),
            };
        }
        missing.is_empty()
    }
}

/// One row, read by the names of its columns.
#[derive(Debug)]
pub(crate) struct Cells<'a, 't> {
    pub(crate) table: &'a mut Table,
    pub(crate) row: &'a Row<'t>,
    pub(crate) issues: &'a mut Issues,
}

impl Cells<'_, '_> {
    /// The place of the row.
    pub(crate) fn line(&self) -> Place {
        Place::line(self.row.line)
    }

    /// A text; nothing where the cell is empty or the column is not there.
    pub(crate) fn text(&self, name: &str) -> Option<Located<String>> {
        let at = self.table.position(name)?;
        let text = self.row.text(at);
        (!text.is_empty()).then(|| Located { value: text.to_owned(), place: self.row.place(at) })
    }

    /// A text that must be there.
    pub(crate) fn needed_text(&mut self, name: &str) -> Option<Located<String>> {
        let text = self.text(name);
        if text.is_none() {
            self.missing(name);
        }
        text
    }

    /// A number in SI; nothing where the cell is empty, and where it is at fault, which is noted.
    pub(crate) fn value(&mut self, name: &str, spec: &Spec) -> Option<Located<f64>> {
        let cell = self.text(name)?;
        let factor = self.factor(name, spec);
        let number = self.number(name, &cell)?;
        // Exactly what was written where the unit is the SI unit.
        let si = number * factor?;
        if !spec.holds(si) {
            self.issues
                .error(
                    "out_of_range",
                    cell.place,
                    format!("{name} must be {}, but was {}", spec.range(), spec.show(si)),
                )
                .found(&cell.value)
                .allowed(spec.range())
                .hint("correct the value, or the unit of its column");
            return None;
        }
        Some(Located { value: si, place: cell.place })
    }

    /// A number that must be there.
    pub(crate) fn needed_value(&mut self, name: &str, spec: &Spec) -> Option<Located<f64>> {
        if self.text(name).is_none() {
            self.missing(name);
            return None;
        }
        self.value(name, spec)
    }

    /// A plain number in the unit of the file.
    pub(crate) fn number(&mut self, name: &str, cell: &Located<String>) -> Option<f64> {
        let text = cell.value.as_str();
        let fault = match read_number(text, self.table.decimal_comma) {
            Ok(number) => return Some(number),
            Err(fault) => fault,
        };
        let units_stand = self.table.units_stand;
        match fault {
            NumberFault::Separator(meant) => self
                .issues
                .error(
                    "decimal_comma",
                    cell.place,
                    format!("{name} has a comma or a space between digits: \"{text}\""),
                )
                .hint(format!("write {meant}")),
            NumberFault::NotANumber => self
                .issues
                .error("not_a_number", cell.place, format!("{name} is not a number: \"{text}\""))
                .hint(format!(
                    "write the number alone, its unit stands in {units_stand}; leave the value \
                     empty where it is not known"
                )),
        }
        .found(text)
        .allowed("a number such as 4.2");
        None
    }

    fn missing(&mut self, name: &str) {
        let place = self.table.position(name).map_or(self.line(), |at| self.row.place(at));
        let what = &self.table.what;
        self.issues
            .error("missing_value", place, format!("{name} is empty in a row of {what}"))
            .found("nothing")
            .allowed("a value")
            .hint(format!("give {name}, or remove the row"));
    }

    /// SI units in one unit of a column; a fault is noted once for the column.
    fn factor(&mut self, name: &str, spec: &Spec) -> Option<f64> {
        if spec.without_unit == WithoutUnit::IsCount {
            return Some(1.0);
        }
        let at = self.table.position(name)?;
        let units_stand = self.table.units_stand;
        let column = self.table.columns.get_mut(at)?;
        let unit = column.unit.as_ref()?;
        let symbol = unit.value.trim();
        if symbol.is_empty() && spec.without_unit == WithoutUnit::IsSi {
            return Some(1.0);
        }
        if symbol.is_empty() && self.table.usual_units {
            let usual = spec.unit.symbol();
            if !std::mem::replace(&mut column.told, true) {
                self.issues
                    .warning(
                        "no_unit",
                        unit.place,
                        format!(
                            "{name} has no unit: it was read in {usual}, the unit of the dictionary"
                        ),
                    )
                    .found("nothing")
                    .allowed(spec.units())
                    .hint(format!("write the unit of the values in {units_stand}"));
            }
            return Some(spec.unit.to_si(1.0));
        }
        let factor = if symbol.is_empty() { None } else { spec.factor(symbol) };
        if factor.is_none() && !std::mem::replace(&mut column.told, true) {
            let kind = spec.unit.kind().name();
            let (code, message) = if symbol.is_empty() {
                ("no_unit", format!("{name} has no unit"))
            } else {
                ("unknown_unit", format!("\"{symbol}\" is not a unit of {kind}, as {name} needs"))
            };
            self.issues
                .error(code, unit.place, message)
                .found(if symbol.is_empty() { "nothing" } else { symbol })
                .allowed(spec.units())
                .hint(format!("write the unit of the values in {units_stand}"));
        }
        factor
    }
}

/// Why a text is no number.
#[derive(Debug, PartialEq)]
pub(crate) enum NumberFault {
    /// A comma or a space stands between digits; the text as it may be meant.
    Separator(String),
    /// It is none at all, or not finite.
    NotANumber,
}

/// Reads a number that fills the text.
pub(crate) fn read_number(text: &str, decimal_comma: bool) -> Result<f64, NumberFault> {
    if decimal_comma
        && text.matches(',').count() == 1
        && !text.contains('.')
        && let Some(number) = quantity::parse_number(&text.replace(',', "."))
    {
        return Ok(number);
    }
    if let Some(number) = quantity::parse_number(text) {
        return Ok(number);
    }
    match quantity::parse(text, quantity::Kind::Ratio) {
        Err(ParseError::Separator { suggestion, .. }) => Err(NumberFault::Separator(suggestion)),
        _ => Err(NumberFault::NotANumber),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_with_a_point_and_with_a_comma_where_it_may_stand() {
        for (text, comma, number) in [
            ("4.2", false, 4.2),
            ("-0.30", false, -0.3),
            ("1.5E3", false, 1500.0),
            ("4,2", true, 4.2),
            ("4.2", true, 4.2),
            ("1,250", true, 1.25),
        ] {
            assert_eq!(read_number(text, comma), Ok(number), "{text}");
        }
        let meant = |text: &str| Err(NumberFault::Separator(text.to_owned()));
        assert_eq!(read_number("4,2", false), meant("\"4.2\""));
        assert_eq!(read_number("1,234.5", true), meant("\"1234.5\""));
        for text in ["", "m", "4.2 m", "NaN", "inf", "1e999", "4..2", "--1", "50/75", "0x10", "5 %"]
        {
            assert_eq!(read_number(text, false), Err(NumberFault::NotANumber), "{text}");
        }
    }
}

//! The tables of this crate as plain data, for a command line, a page or a workbook to print.

use quantity::{Angle, Force, Length, Mass, MassPerLength, Pressure, Unit};
use working::Evidence;

use crate::{PipeError, Valued};

mod awwa;
mod en545;
mod joints;

/// A table to print.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Stable id, as a user asks for it.
    pub id: &'static str,
    /// What it shows, one line.
    pub title: &'static str,
    /// Where it comes from, in words.
    pub source: &'static str,
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows, each as long as the columns.
    pub rows: Vec<Vec<Cell>>,
    /// What a reader must know, one sentence each.
    pub notes: Vec<&'static str>,
}

/// A column of a table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Heading.
    pub name: &'static str,
    /// Unit in which a person reads it; cells are SI. No unit for words and counts.
    pub unit: Unit,
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// A value in SI and how well it is founded.
    Number(f64, Evidence),
    /// A word or a count.
    Text(String),
    /// Nothing known.
    Missing,
}

/// All tables, in the order in which they are listed.
///
/// # Errors
/// Only if an embedded table cannot be read.
pub fn all_tables() -> Result<Vec<Table>, PipeError> {
    Ok(vec![
        en545::dimensions()?,
        en545::classes()?,
        en545::lining()?,
        awwa::walls()?,
        awwa::laying_types()?,
        joints::pulls()?,
        joints::angles()?,
        joints::assembly()?,
        joints::sockets()?,
    ])
}

/// The table with this id.
///
/// # Errors
/// Only if an embedded table cannot be read.
pub fn find_table(id: &str) -> Result<Option<Table>, PipeError> {
    Ok(all_tables()?.into_iter().find(|t| t.id == id))
}

const fn column(name: &'static str, unit: Unit) -> Column {
    Column { name, unit }
}

fn text(word: impl ToString) -> Cell {
    Cell::Text(word.to_string())
}

/// A newtype's SI number.
trait Si {
    fn number(&self) -> f64;
}

macro_rules! si {
    ($($name:ident),*) => { $(impl Si for $name { fn number(&self) -> f64 { self.si() } })* };
}
si!(Angle, Force, Length, Mass, MassPerLength, Pressure);

fn cell<T: Si>(value: &Valued<T>) -> Cell {
    Cell::Number(value.value.number(), value.evidence())
}

fn maybe<T: Si>(value: Option<&Valued<T>>) -> Cell {
    value.map_or(Cell::Missing, cell)
}

fn computed<T: Si>(value: T) -> Cell {
    Cell::Number(value.number(), Evidence::Computed)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_table_is_rectangular_finite_and_has_a_unique_id() {
        let tables = all_tables().expect("embedded tables");
        for (i, t) in tables.iter().enumerate() {
            assert!(!tables[..i].iter().any(|o| o.id == t.id), "{} stands twice", t.id);
            assert!(!t.rows.is_empty(), "{} is empty", t.id);
            for row in &t.rows {
                assert_eq!(row.len(), t.columns.len(), "{}: {row:?}", t.id);
                for cell in row {
                    if let Cell::Number(v, _) = cell {
                        assert!(v.is_finite(), "{}: {row:?}", t.id);
                    }
                }
            }
        }
    }

    #[test]
    fn tables_are_found_by_id() {
        for t in all_tables().expect("embedded tables") {
            assert_eq!(find_table(t.id).expect("tables").map(|f| f.title), Some(t.title));
        }
        assert_eq!(find_table("none"), Ok(None));
    }

    #[test]
    fn the_table_of_dimensions_holds_two_classes_a_size() {
        let t = find_table("en545").expect("tables").expect("en545");
        assert_eq!(t.rows.len(), 46);
    }
}

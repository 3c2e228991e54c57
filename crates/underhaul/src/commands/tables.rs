//! `tables`: the pipe data that the program knows.

use std::io;

use clap::Args;
use pipe::{Column as Heading, Table as Data, all_tables};
use quantity::significant;
use serde_json::{Value, json};
use working::Evidence;

use super::{NameOf, did_you_mean};
use crate::failure::{Complaint, Failure, Outcome};
use crate::invocation::invocation;
use crate::print::{self, Cell, Column, Page, Table};

const AFTER: &str = "\
Examples:
  underhaul tables
  underhaul tables en545
  underhaul tables joints --csv > joints.csv

A sign behind a number says how well it is founded; a number without a sign was
read in the published source. --csv and --json write the evidence beside each
number.

Exit codes:
  0  listed or printed
  2  there is no such table, or a system error";

/// Prints pipe data: dimensions, classes, linings, joints, each with its source.
///
/// Without NAME: lists the tables. With one: prints it with title, units, source, evidence and notes.
#[derive(Debug, Args)]
#[command(after_help = AFTER)]
pub(crate) struct Tables {
    /// Name of the table.
    #[arg(value_parser = NameOf(names), hide_possible_values = true)]
    name: Option<String>,
    /// Print JSON, values in SI units.
    #[arg(long)]
    pub(crate) json: bool,
    /// Print CSV, values in the units of the headings.
    #[arg(long, requires = "name", conflicts_with = "json")]
    csv: bool,
}

impl Tables {
    /// Lists or prints.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        let tables = all_tables().map_err(|e| Complaint::new("table_broken", e.to_string()))?;
        let written = match &self.name {
            None if self.json => {
                let list: Vec<_> = tables.iter().map(summary).collect();
                print::json(page.stream(), &list)
            }
            None => list(page, &tables),
            Some(name) => {
                let table =
                    tables.iter().find(|t| t.id == name).ok_or_else(|| unknown(name, &tables))?;
                if self.json {
                    print::json(page.stream(), &to_json(table))
                } else if self.csv {
                    write_csv(page, table)
                } else {
                    print_table(page, table)
                }
            }
        };
        Failure::unless_closed(written, Outcome::Done)
    }
}

/// Names of all tables.
pub(super) fn names() -> Vec<String> {
    all_tables().unwrap_or_default().into_iter().map(|t| t.id.to_owned()).collect()
}

fn unknown(name: &str, tables: &[Data]) -> Failure {
    let ids = || tables.iter().map(|t| t.id);
    let list = || format!("the tables are {}", ids().collect::<Vec<_>>().join(", "));
    Complaint::new("unknown_table", format!("there is no table \"{name}\""))
        .about(name)
        .hint(did_you_mean(name, ids(), list))
        .into()
}

fn list(page: &mut Page<'_>, tables: &[Data]) -> io::Result<()> {
    page.title("Tables")?;
    page.names(tables.iter().map(|t| (Cell::name(t.id), Cell::new(t.title))).collect())?;
    page.gap()?;
    page.quiet(2, &format!("print one: {} tables NAME", invocation()))
}

fn print_table(page: &mut Page<'_>, data: &Data) -> io::Result<()> {
    page.title(data.title)?;
    page.gap()?;
    let columns = data.columns.iter().enumerate().map(|(i, column)| {
        let words = data.rows.iter().all(|r| !matches!(r.get(i), Some(pipe::Cell::Number(..))));
        let heading = heading(column, "(", ")");
        if words && i > 0 { Column::left(heading).wrap(12) } else { Column::right(heading) }
    });
    let mut table = Table::new(columns.collect());
    let marked: Vec<bool> = (0..data.columns.len()).map(|i| is_marked(data, i)).collect();
    for row in &data.rows {
        let cells = row.iter().zip(&data.columns).zip(&marked);
        table.row(cells.map(|((cell, column), marked)| shown(cell, column, *marked)).collect());
    }
    page.table(&table)?;
    page.gap()?;
    legend(page, data)?;
    page.indented("Source:", 2, data.source)?;
    data.notes.iter().try_for_each(|note| page.indented("Note:", 2, note))
}

fn heading(column: &Heading, open: &str, close: &str) -> String {
    match column.unit.symbol() {
        "" => column.name.to_owned(),
        unit => format!("{} {open}{unit}{close}", column.name),
    }
}

/// Sign behind a number, as of a footnote; none for what was read in its source. No letters: they would read as units.
const fn mark(evidence: Evidence) -> &'static str {
    match evidence {
        Evidence::Published => "",
        Evidence::Computed => "*",
        Evidence::FromMemory => "†",
        Evidence::Judgement => "‡",
        Evidence::CommonPractice => "§",
        Evidence::Derived => "¶",
        Evidence::Given => "#",
    }
}

/// All evidence in the order of the legend.
const EVIDENCE: [Evidence; 6] = [
    Evidence::Computed,
    Evidence::FromMemory,
    Evidence::Judgement,
    Evidence::CommonPractice,
    Evidence::Derived,
    Evidence::Given,
];

fn is_marked(data: &Data, column: usize) -> bool {
    data.rows
        .iter()
        .any(|r| matches!(r.get(column), Some(pipe::Cell::Number(_, e)) if !mark(*e).is_empty()))
}

/// A cell; in a column with signs a number without one keeps the room, so that digits stay in line.
fn shown(cell: &pipe::Cell, column: &Heading, marked: bool) -> Cell {
    let room = usize::from(marked);
    match cell {
        pipe::Cell::Missing => Cell::new(format!("–{:room$}", "")),
        pipe::Cell::Text(text) => Cell::new(text),
        pipe::Cell::Number(si, evidence) => {
            let number = significant(column.unit.from_si(*si), 4);
            Cell::new(format!("{number}{:room$}", mark(*evidence)))
        }
    }
}

/// The signs of a table; nothing for a table of words.
fn legend(page: &mut Page<'_>, data: &Data) -> io::Result<()> {
    if (0..data.columns.len()).all(|i| !has_numbers(data, i)) {
        return Ok(());
    }
    let is_used = |e: Evidence| {
        data.rows.iter().flatten().any(|c| matches!(c, pipe::Cell::Number(_, of) if *of == e))
    };
    if !EVIDENCE.into_iter().any(is_used) {
        return page.indented("Evidence:", 2, Evidence::Published.label());
    }
    page.paragraph(0, "Evidence:")?;
    if is_used(Evidence::Published) {
        page.paragraph(2, &format!("no sign: {}", Evidence::Published.label()))?;
    }
    EVIDENCE
        .into_iter()
        .filter(|e| is_used(*e))
        .try_for_each(|e| page.paragraph(2, &format!("{} {}", mark(e), e.label())))
}

fn write_csv(page: &mut Page<'_>, data: &Data) -> io::Result<()> {
    let mut csv = csv::Writer::from_writer(Vec::new());
    let mut first = Vec::new();
    for (i, column) in data.columns.iter().enumerate() {
        first.push(heading(column, "(", ")"));
        if has_numbers(data, i) {
            first.push(format!("{} evidence", column.name));
        }
    }
    csv.write_record(&first)?;
    for row in &data.rows {
        let mut record = Vec::new();
        for (i, (cell, column)) in row.iter().zip(&data.columns).enumerate() {
            let (value, evidence) = match cell {
                pipe::Cell::Missing => (String::new(), ""),
                pipe::Cell::Text(text) => (text.clone(), ""),
                pipe::Cell::Number(si, e) => (significant(column.unit.from_si(*si), 6), e.label()),
            };
            record.push(value);
            if has_numbers(data, i) {
                record.push(evidence.to_owned());
            }
        }
        csv.write_record(&record)?;
    }
    let bytes = csv.into_inner().map_err(|e| io::Error::other(e.to_string()))?;
    page.stream().write_all(&bytes)
}

fn has_numbers(data: &Data, column: usize) -> bool {
    data.rows.iter().any(|r| matches!(r.get(column), Some(pipe::Cell::Number(..))))
}

fn summary(data: &Data) -> Value {
    json!({"id": data.id, "title": data.title, "source": data.source, "rows": data.rows.len()})
}

fn to_json(data: &Data) -> Value {
    let columns: Vec<Value> = data
        .columns
        .iter()
        .map(|c| json!({"name": c.name, "unit": c.unit.kind().si().symbol()}))
        .collect();
    let cell = |cell: &pipe::Cell| match cell {
        pipe::Cell::Missing => Value::Null,
        pipe::Cell::Text(text) => json!(text),
        pipe::Cell::Number(value, evidence) => json!({"value": value, "evidence": evidence}),
    };
    let rows: Vec<Vec<Value>> =
        data.rows.iter().map(|row| row.iter().map(cell).collect()).collect();
    json!({
        "id": data.id,
        "title": data.title,
        "source": data.source,
        "columns": columns,
        "rows": rows,
        "notes": data.notes,
    })
}

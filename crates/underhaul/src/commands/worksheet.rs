//! `worksheet`: single formulas, each with its working.

use std::io;

use clap::Args;
use quantity::System;
use working::Formula;
use worksheet::{InputError, Need, Shape, Worked, Worksheet};

use super::{NameOf, did_you_mean};
use crate::cli::Units;
use crate::failure::{Complaint, Failure, Outcome};
use crate::invocation::invocation;
use crate::print::{self, Cell, Column, Page, Table};

const AFTER: &str = "\
Examples:
  underhaul worksheet                    the list
  underhaul worksheet joint-radius       inputs, outputs, formula, source
  underhaul worksheet joint-radius laying_length=\"20 ft\" joint_angle=3deg

Exit codes:
  0  listed, shown or computed
  2  an input is unknown, missing, of the wrong kind or out of range: all such
     errors at once, each naming its key; with --json they are also printed to
     standard output as {\"errors\": [{\"code\", \"key\", \"message\", \"hint\"}]}";

/// Computes single formulas, each with its working.
///
/// Without ID: lists the worksheets. With an ID: shows its inputs, outputs, formula, source and an example. With values:
/// prints the working. A value is a number in the SI unit of its key, or a quantity with its unit: diameter="12 in",
/// angle=3deg.
#[derive(Debug, Args)]
#[command(after_help = AFTER)]
pub(crate) struct Sheet {
    /// Id of the worksheet.
    #[arg(value_parser = NameOf(ids), hide_possible_values = true)]
    id: Option<String>,
    /// Inputs of the worksheet.
    #[arg(value_name = "KEY=VALUE")]
    values: Vec<String>,
    /// Print JSON; outputs in SI units.
    #[arg(long)]
    pub(crate) json: bool,
    /// Units of printed values; numbers put in a formula are SI, --json too.
    #[arg(long, value_enum, default_value_t)]
    units: Units,
}

impl Sheet {
    /// Lists, shows or computes.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        let written = match &self.id {
            None => self.list(page),
            Some(id) => {
                let sheet = worksheet::find(id).ok_or_else(|| unknown(id))?;
                if self.values.is_empty() {
                    self.show(page, sheet)
                } else {
                    let worked = self.compute(sheet)?;
                    self.print_worked(page, &worked)
                }
            }
        };
        Failure::unless_closed(written, Outcome::Done)
    }

    fn list(&self, page: &mut Page<'_>) -> io::Result<()> {
        let sheets = worksheet::all();
        if self.json {
            let list: Vec<_> = sheets.into_iter().map(Worksheet::to_json).collect();
            return print::json(page.stream(), &list);
        }
        page.title("Worksheets")?;
        page.names(sheets.iter().map(|w| (Cell::name(w.id), Cell::new(w.title))).collect())?;
        page.gap()?;
        page.quiet(2, &format!("inputs and an example: {} worksheet ID", invocation()))
    }

    fn show(&self, page: &mut Page<'_>, sheet: &'static Worksheet) -> io::Result<()> {
        if self.json {
            return print::json(page.stream(), &sheet.to_json());
        }
        page.title(&format!("{}: {}", sheet.id, sheet.title))?;
        page.heading("Inputs")?;
        inputs(page, sheet)?;
        page.heading("Outputs")?;
        let outputs = sheet.outputs.iter().map(|o| {
            let unit = match o.unit.symbol() {
                "" => String::new(),
                symbol => format!(" ({symbol})"),
            };
            (Cell::name(o.key), Cell::new(format!("{}{unit}", o.meaning)))
        });
        page.names(outputs.collect())?;
        formulas(page, sheet)?;
        page.heading("Source")?;
        page.paragraph(2, &sheet.source.to_string())?;
        page.heading("Example")?;
        page.line(&format!("  {} worksheet {}{}", invocation(), sheet.id, example(sheet, page)))
    }

    fn compute(&self, sheet: &'static Worksheet) -> Result<Worked, Failure> {
        let mut complaints = Vec::new();
        let mut pairs = Vec::new();
        for word in &self.values {
            match word.split_once('=') {
                Some((key, value)) => pairs.push((key.trim(), value)),
                None => complaints.push(
                    Complaint::new(
                        "not_a_pair",
                        format!("\"{word}\" is not of the form key=value"),
                    )
                    .about(word)
                    .hint("write the quantity and its unit without blanks, or in quotation marks"),
                ),
            }
        }
        match worksheet::evaluate(sheet, &pairs) {
            Ok(worked) if complaints.is_empty() => Ok(worked),
            Ok(_) => Err(Failure::Told(complaints)),
            Err(errors) => {
                complaints.extend(errors.iter().map(complaint));
                let hint =
                    format!("all inputs and an example: {} worksheet {}", invocation(), sheet.id);
                if let Some(last) = complaints.pop() {
                    let last = if last.hint.is_none() { last.hint(hint) } else { last };
                    complaints.push(last);
                }
                Err(Failure::Told(complaints))
            }
        }
    }

    fn print_worked(&self, page: &mut Page<'_>, worked: &Worked) -> io::Result<()> {
        if self.json {
            return print::json(page.stream(), worked);
        }
        let system = System::from(self.units);
        let sheet = worked.definition();
        page.title(&format!("{}: {}", sheet.id, sheet.title))?;
        page.heading("Working")?;
        print::working::steps(page, &worked.working, system)?;
        page.heading("Result")?;
        let mut table =
            Table::new(vec![Column::left(""), Column::right(""), Column::left("").wrap(20)]);
        for output in sheet.outputs {
            let word = worked.word(output.key).map(str::to_owned);
            let number =
                || worked.number(output.key).map(|v| quantity::show_with(v, output.unit, system));
            if let Some(value) = word.or_else(number) {
                table.row(vec![
                    Cell::name(output.key),
                    Cell::new(value),
                    Cell::new(output.meaning),
                ]);
            }
        }
        page.table(&table)?;
        print::assessment::assumptions(page, &worked.assumptions)?;
        page.gap()?;
        page.quiet(0, &format!("Source: {}", sheet.source))
    }
}

/// Ids of all worksheets.
pub(super) fn ids() -> Vec<String> {
    worksheet::all().into_iter().map(|w| w.id.to_owned()).collect()
}

fn complaint(error: &InputError) -> Complaint {
    let complaint = Complaint::new(error.code(), error.to_string());
    if error.key().is_empty() { complaint } else { complaint.about(error.key()) }
}

fn unknown(id: &str) -> Failure {
    let list = || format!("the list: {} worksheet", invocation());
    let known = worksheet::all();
    Complaint::new("unknown_worksheet", format!("there is no worksheet \"{id}\""))
        .about(id)
        .hint(did_you_mean(id, known.iter().map(|w| w.id), list))
        .into()
}

/// One input a paragraph: keys are typed, so that they are never cut.
fn inputs(page: &mut Page<'_>, sheet: &Worksheet) -> io::Result<()> {
    let rows = sheet.inputs.iter().map(|input| {
        let (symbol, allowed) = match input.shape {
            Shape::Quantity(unit, range) => {
                let bare = match input.bare.unwrap_or(unit.kind().si()).symbol() {
                    "" => String::new(),
                    symbol => format!("; a bare number is in {symbol}"),
                };
                (format!(" ({})", input.symbol), format!("{}{bare}", range.describe(unit)))
            }
            Shape::Choice(words) => (String::new(), words.join(", ")),
        };
        let need = match input.need {
            Need::Required => String::new(),
            Need::Default(text, _) => format!("; default {text}"),
            Need::Optional => "; optional".to_owned(),
        };
        (Cell::name(input.key), Cell::new(format!("{}{symbol}: {allowed}{need}", input.meaning)))
    });
    page.names(rows.collect())
}

/// The formulas of the example's working: the definition holds none of its own, so that there is one place for them.
fn formulas(page: &mut Page<'_>, sheet: &'static Worksheet) -> io::Result<()> {
    let Ok(worked) = worksheet::evaluate(sheet, sheet.example) else { return Ok(()) };
    page.heading("Formula")?;
    for step in &worked.working.steps {
        let text = match &step.formula {
            Formula::Given => continue,
            Formula::Expression(text) => print::working::formula(text),
            Formula::Procedure(text) => text.clone(),
        };
        page.indented(&format!("  {} =", step.symbol), 6, &text)?;
        page.quiet(6, &step.meaning)?;
    }
    Ok(())
}

/// The example's inputs as typed, on as many lines as they need.
fn example(sheet: &Worksheet, page: &Page<'_>) -> String {
    let words: Vec<String> = sheet
        .example
        .iter()
        .map(|(key, value)| {
            if value.chars().all(|c| c.is_ascii_alphanumeric() || ".-+".contains(c)) {
                format!(" {key}={value}")
            } else {
                format!(" {key}=\"{value}\"")
            }
        })
        .collect();
    let mut used = 2 + invocation().len() + " worksheet ".len() + sheet.id.len();
    let mut typed = String::new();
    for word in words {
        // Room for the stroke that continues the line.
        if used + word.chars().count() + 2 > page.width() {
            typed.push_str(" \\\n     ");
            used = 5;
        }
        used += word.chars().count();
        typed.push_str(&word);
    }
    typed
}

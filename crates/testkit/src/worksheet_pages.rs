//! The reference of all worksheets, with the cases that check each: `docs/worksheets.md`.

use std::fmt::Write;

use working::Formula;
use worksheet::{Need, Shape, Worksheet};

use crate::cases::Case;

const HEAD: &str = "\
# Worksheets

Single calculations, each with its working: `underhaul worksheet ID key=value …`. A value is a quantity with its unit, or a
bare number in the unit that the table names. Outputs are in SI units with `--json`. Formulas are written so that they can
be evaluated: `^` is a power, angles are in radians. A test recomputes every step from its text.

This file is made from the definitions and from `cases/`; do not edit it by hand:
`UPDATE_REFERENCE=1 cargo test -p testkit --test worksheet_pages` writes it anew.
";

/// Text of the reference.
#[must_use]
pub fn worksheet_pages(cases: &[Case]) -> String {
    let mut out = HEAD.to_owned();
    for sheet in worksheet::all() {
        page(&mut out, sheet, cases);
    }
    out
}

fn page(out: &mut String, sheet: &'static Worksheet, cases: &[Case]) {
    let _ = writeln!(out, "\n## {}\n\n{}.\n", sheet.id, capital(sheet.title));
    let _ = writeln!(out, "| input | symbol | meaning | bare number | allowed | default |");
    let _ = writeln!(out, "|---|---|---|---|---|---|");
    for input in sheet.inputs {
        let (bare, allowed) = match input.shape {
            Shape::Quantity(unit, range) => {
                (input.bare.unwrap_or(unit.kind().si()).symbol(), range.describe(unit))
            }
            Shape::Choice(words) => ("", words.join(", ")),
        };
        let default = match input.need {
            Need::Required => String::new(),
            Need::Default(text, why) => format!("{text}: {why}"),
            Need::Optional => "may be left out".to_owned(),
        };
        let _ = writeln!(
            out,
            "| `{}` | {} | {} | {bare} | {allowed} | {default} |",
            input.key, input.symbol, input.meaning
        );
    }
    let _ = writeln!(out, "\n| output | meaning | unit |\n|---|---|---|");
    for output in sheet.outputs {
        let unit = output.unit.kind().si().symbol();
        let _ = writeln!(out, "| `{}` | {} | {unit} |", output.key, output.meaning);
    }
    formulas(out, sheet);
    let _ = writeln!(out, "\nSource: {}.\n", sheet.source);
    checked_by(out, sheet, cases);
}

/// The formulas of the example's working; the definition holds none of its own.
fn formulas(out: &mut String, sheet: &'static Worksheet) {
    let Ok(worked) = worksheet::evaluate(sheet, sheet.example) else { return };
    let _ = writeln!(out, "\n```text");
    for step in &worked.working.steps {
        let text = match &step.formula {
            Formula::Given => continue,
            Formula::Expression(text) => {
                working::expression::read(text).map_or_else(|_| text.clone(), |n| n.to_string())
            }
            Formula::Procedure(text) => text.clone(),
        };
        let _ = writeln!(out, "{} = {text}        {}", step.symbol, step.meaning);
    }
    let _ = writeln!(out, "```");
}

fn checked_by(out: &mut String, sheet: &Worksheet, cases: &[Case]) {
    let _ = writeln!(out, "Checked by:\n");
    for case in cases.iter().filter(|c| c.method == sheet.id) {
        let rows = match case.row.len() {
            1 => "1 row".to_owned(),
            n => format!("{n} rows"),
        };
        let _ = writeln!(
            out,
            "- [`{0}`](../cases/{0}.toml), {rows}, {1}: {2}",
            case.id,
            case.evidence.name(),
            case.source
        );
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

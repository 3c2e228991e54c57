//! The workbook says what the program found, and a second engine recomputes it from the formulas alone.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    missing_docs
)]

mod office;
mod xlsx;

use assess::Status;
use project::{Design, Technique, read_design, starter};
use quantity::System;
use sheets::workbook::workbook;
use sheets::{Issue, Subject};
use working::Formula;

use self::xlsx::{Book, Cell, read, without_results};

const CREEK: &str = include_str!("../../../../demo/creek.toml");
const CREEK_FAILS: &str = include_str!("../../../../demo/creek-fails.toml");
const STREET: &str = include_str!("../../../../demo/street.toml");
const LANE: &str = include_str!("../../../../demo/lane-asbestos.toml");
/// Largest relative difference between the second engine and ours.
const TOLERANCE: f64 = 1e-9;

fn design(text: &str) -> Design {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/");
    let load = |name: &str| std::fs::read(format!("{folder}{name}")).map_err(|e| e.to_string());
    match read_design("design.toml", text, &load) {
        Ok(reading) => reading.design,
        Err(list) => panic!("{}", list.iter().map(|d| format!("{d}\n")).collect::<String>()),
    }
}

fn issue() -> Issue {
    Issue {
        date: Some("2026-05-31".parse().unwrap()),
        revision: Some("B".into()),
        author: Some("A. Nonymous".into()),
    }
}

fn sheet<'a>(book: &'a Book, name: &str) -> &'a xlsx::Sheet {
    &book.iter().find(|(n, _)| n == name).unwrap_or_else(|| panic!("no sheet {name}")).1
}

fn words<'a>(sheet: &'a xlsx::Sheet, cell: &str) -> &'a str {
    sheet.get(cell).and_then(|c| c.value.as_deref()).unwrap_or("")
}

/// Whether two results of one formula agree.
fn agree(at: &str, ours: &Cell, theirs: &Cell) -> Result<(), String> {
    let told = || format!("{at}: {:?} is {:?}, ours {:?}", ours.formula, theirs, ours.value);
    if theirs.kind == "e" || theirs.value.is_none() {
        return Err(told());
    }
    match (ours.number(), theirs.number()) {
        (Some(a), Some(b)) => {
            // The column of differences holds relative differences: 0, but for rounding.
            let is_difference = ours.formula.as_deref().is_some_and(|f| f.contains("/MAX(ABS(D"));
            let allowed = if is_difference { TOLERANCE } else { TOLERANCE * a.abs().max(b.abs()) };
            if (a - b).abs() <= allowed { Ok(()) } else { Err(told()) }
        }
        (None, None) if ours.value == theirs.value => Ok(()),
        _ => Err(told()),
    }
}

#[test]
fn a_second_engine_recomputes_every_live_cell_from_the_formulas_alone() {
    let new = [starter(Technique::Drilling), starter(Technique::Bursting)];
    let us = System::Customary;
    let cases = [
        ("creek", CREEK, System::Metric, 1200),
        ("creek-fails", CREEK_FAILS, System::Metric, 1200),
        ("creek-us", CREEK, us, 1200),
        ("street", STREET, System::Metric, 600),
        ("lane", LANE, System::Metric, 600),
        ("street-us", STREET, us, 600),
        ("new-crossing", &new[0], System::Metric, 500),
        ("new-renewal", &new[1], System::Metric, 500),
    ];
    let made: Vec<_> = cases
        .iter()
        .map(|(name, text, system, _)| {
            let design = design(text);
            (*name, workbook(&Subject::new(&design, "design.toml", issue(), *system)).unwrap())
        })
        .collect();
    let stripped: Vec<_> = made
        .iter()
        .map(|(name, bytes)| {
            let (stripped, taken) = without_results(bytes);
            let left = read(&stripped);
            let results = left
                .iter()
                .flat_map(|(_, s)| s.values())
                .filter(|c| c.formula.is_some() && c.value.is_some());
            assert_eq!(results.count(), 0, "{name}: stored results are left");
            assert!(taken > 0, "{name}");
            (*name, stripped)
        })
        .collect();
    let recomputed = office::recalculated(&stripped);
    let mut faults = Vec::new();
    for ((case, (name, bytes)), theirs) in cases.iter().zip(&made).zip(&recomputed) {
        let (ours, theirs) = (read(bytes), read(theirs));
        let mut live = 0;
        for ((title, our), (their_title, their)) in ours.iter().zip(&theirs) {
            assert_eq!(title, their_title, "{name}");
            for (at, cell) in our.iter().filter(|(_, c)| c.formula.is_some()) {
                live += 1;
                let nothing = Cell::default();
                let place = format!("{name} {title}!{at}");
                faults.extend(agree(&place, cell, their.get(at).unwrap_or(&nothing)).err());
            }
        }
        println!("{name}: {live} live cells");
        assert!(live >= case.3, "{name}: only {live} live cells");
    }
    assert!(
        faults.is_empty(),
        "{} cells differ:\n{}",
        faults.len(),
        faults[..faults.len().min(40)].join("\n")
    );
}

#[test]
fn every_line_of_every_working_stands_with_our_value_and_every_formula_is_live() {
    for text in [CREEK, CREEK_FAILS, STREET, LANE] {
        let design = design(text);
        let subject = Subject::new(&design, "design.toml", issue(), System::Metric);
        let book = read(&workbook(&subject).unwrap());
        let parts = ["Design", "Pilot", "Reaming", "Pull", "Bursting", "Service"];
        let lines: Vec<_> = book
            .iter()
            .filter(|(name, _)| parts.contains(&name.as_str()))
            .flat_map(|(_, sheet)| {
                sheet.iter().filter(|(at, c)| at.starts_with('H') && c.number().is_some()).map(
                    |(at, ours)| {
                        let row = &at[1..];
                        let value = &sheet[&format!("D{row}")];
                        let symbol = words(sheet, &format!("A{row}")).to_owned();
                        (symbol, ours.number().unwrap(), value.clone())
                    },
                )
            })
            .collect();
        let steps: Vec<_> = subject.explanations.iter().flat_map(|e| &e.working.steps).collect();
        assert!(steps.len() > 100);
        assert_eq!(lines.len(), steps.len());
        for step in &steps {
            let procedure = matches!(step.formula, Formula::Procedure(_));
            assert!(
                lines.iter().any(|(symbol, ours, value)| {
                    *symbol == step.symbol
                        && *ours == step.value
                        && value.number() == Some(step.value)
                        && value.formula.is_some() != procedure
                }),
                "{step:?}"
            );
        }
    }
}

#[test]
fn a_value_that_several_workings_use_is_one_input() {
    let design = design(CREEK);
    let subject = Subject::new(&design, "creek.toml", issue(), System::Metric);
    let book = read(&workbook(&subject).unwrap());
    let inputs = sheet(&book, "Inputs");
    let gravity: Vec<_> = inputs
        .iter()
        .filter(|(at, c)| at.starts_with('B') && c.value.as_deref() == Some("laying length"))
        .collect();
    assert_eq!(gravity.len(), 1, "{gravity:?}");
    let cell = gravity[0].0.replace('B', "C");
    let uses = book
        .iter()
        .flat_map(|(_, s)| s.values())
        .filter(|c| c.formula.as_deref() == Some(&format!("Inputs!{cell}")))
        .count();
    assert!(uses >= 3, "{uses}");
    assert!(inputs[&cell].formula.is_none() && inputs[&cell].number() == Some(6.0));
}

#[test]
fn the_first_sheet_says_what_the_assessment_says() {
    for (text, fails) in [(CREEK, false), (CREEK_FAILS, true), (STREET, false), (LANE, false)] {
        let design = design(text);
        let subject = Subject::new(&design, "design.toml", issue(), System::Metric);
        let book = read(&workbook(&subject).unwrap());
        let checks = sheet(&book, "Checks");
        assert_eq!(words(checks, "A1"), subject.assessment.crossing.name);
        assert_eq!(words(checks, "A3"), subject.assessment.verdict.sentence);
        let governing =
            subject.assessment.verdict.governing.clone().unwrap_or_else(|| "none".into());
        assert!(words(checks, "B4").starts_with(&governing));
        for wanted in ["2026-05-31", "revision B", "A. Nonymous", "design.toml"] {
            assert!(words(checks, "B5").contains(wanted), "{}", words(checks, "B5"));
        }
        for (i, check) in subject.assessment.checks.iter().enumerate() {
            let row = i + 9;
            assert_eq!(words(checks, &format!("A{row}")), check.id);
            let word = match check.status {
                Status::Pass => "✓ pass",
                Status::Attention => "! attention",
                Status::Fail => "✗ fail",
                Status::NotAssessed => "– not assessed",
            };
            assert_eq!(words(checks, &format!("H{row}")), word, "{}", check.id);
        }
        let shown = book.iter().any(|(name, _)| name == "Changes");
        let a = &subject.assessment;
        assert_eq!(shown, !(a.fixes.is_empty() && a.remedies.is_empty()));
        assert!(!fails || a.checks.iter().any(|c| c.status == Status::Fail));
        let live = |column: char| {
            checks.iter().filter(|(at, c)| at.starts_with(column) && c.formula.is_some()).count()
        };
        println!("live: C {} E {} G {} H {}", live('C'), live('E'), live('G'), live('H'));
        assert!(live('C') * 2 > a.checks.len() && live('G') * 3 > 2 * a.checks.len());
    }
}

#[test]
fn the_same_subject_gives_the_same_bytes() {
    let design = design(CREEK);
    let make =
        |issue| workbook(&Subject::new(&design, "creek.toml", issue, System::Metric)).unwrap();
    assert!(make(issue()) == make(issue()));
    assert!(make(Issue::default()) == make(Issue::default()));
    assert!(make(issue()) != make(Issue::default()));
}

#[test]
fn any_text_of_a_user_stays_text() {
    let long = "x".repeat(40_000);
    for name in [
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "\\t=1",
        "<b>&amp;</b>\\u0007 🛠 _x0041_",
        "[a]:*?/\\\\'",
        &long,
    ] {
        let text = CREEK
            .replace("name = \"Tidal creek\"", &format!("name = \"{name}\""))
            .replace("name = \"lane\"", &format!("name = \"{name}\""));
        let load = |_: &str| {
            std::fs::read(concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/creek-ground.ags"))
                .map_err(|e| e.to_string())
        };
        let Ok(reading) = read_design("design.toml", &text, &load) else {
            assert!(name.len() > 1000 || name.contains('\\'), "{name} was refused");
            continue;
        };
        let mut subject = Subject::new(&reading.design, "=2+2.toml", issue(), System::Metric);
        subject.issue.author = Some("=HYPERLINK(\"x\")".into());
        subject.assessment.cautions.push(format!("{name}\u{1b}[31m{}", "y".repeat(40_000)));
        let book = read(&workbook(&subject).unwrap());
        let title = &sheet(&book, "Checks")["A1"];
        assert!(title.formula.is_none());
        let shown = title.value.as_deref().unwrap();
        if name.starts_with(['=', '+', '-', '@']) {
            assert_eq!(shown, name);
        }
        for (sheet, cells) in &book {
            for (at, cell) in cells {
                let value = cell.value.as_deref().unwrap_or("");
                assert!(value.encode_utf16().count() <= 32_767, "{sheet}!{at}");
                assert!(!value.contains(['\u{1b}', '\u{7}']), "{sheet}!{at}");
                let formula = cell.formula.as_deref().unwrap_or("");
                assert!(!formula.contains("1+1") && !formula.contains("HYPERLINK"), "{sheet}!{at}");
            }
        }
        assert!(
            sheet(&book, "Cautions")
                .values()
                .any(|c| c.value.as_deref().is_some_and(|v| v.contains("(shortened:")))
        );
    }
}

#[test]
fn the_checks_follow_when_an_input_changes() {
    let design = design(CREEK);
    let bytes = workbook(&Subject::new(&design, "creek.toml", issue(), System::Metric)).unwrap();
    let ours = read(&bytes);
    let inputs = sheet(&ours, "Inputs");
    let row = inputs
        .iter()
        .find(|(at, c)| {
            at.starts_with('B') && c.value.as_deref() == Some("permitted pull of the joint")
        })
        .map(|(at, _)| at[1..].to_owned())
        .unwrap();
    let cell = format!("C{row}");
    let before = inputs[&cell].number().unwrap();
    let (stripped, _) = without_results(&bytes);
    let changed = xlsx::with_number(&stripped, "xl/worksheets/sheet2.xml", &cell, before / 10.0);
    let theirs = read(&office::recalculated(&[("changed", changed)])[0]);
    let (checks, now) = (sheet(&ours, "Checks"), sheet(&theirs, "Checks"));
    let row = checks
        .iter()
        .find(|(at, c)| at.starts_with('A') && c.value.as_deref() == Some("pull.joint-force"))
        .map(|(at, _)| at[1..].to_owned())
        .unwrap();
    let used = |sheet: &xlsx::Sheet| sheet[&format!("G{row}")].number().unwrap();
    assert!((used(now) / used(checks) - 10.0).abs() < 1e-9, "{} {}", used(now), used(checks));
    assert_eq!(words(checks, &format!("H{row}")), "✓ pass");
    assert_eq!(words(now, &format!("H{row}")), "✗ fail");
}

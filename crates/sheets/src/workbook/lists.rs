//! Sheets of lists: joints, changes, assumptions, cautions, references.

use quantity::unit;
use rust_xlsxwriter::{Worksheet, XlsxError};
use working::{Evidence, Source};

use super::page::Page;
use super::style::{Styles, digits};
use crate::Subject;

/// Row of the head of a table; its first line follows.
const HEAD: u32 = 3;

/// A sheet that is a table of words.
struct Table<'a> {
    name: &'a str,
    title: &'a str,
    sentence: &'a str,
    widths: &'a [f64],
    head: &'a [&'a str],
    lines: Vec<Vec<String>>,
}

impl Table<'_> {
    fn sheet(&self, subject: &Subject, styles: &Styles) -> Result<Worksheet, XlsxError> {
        let mut page = Page::new(subject, self.name, self.widths)?;
        page.title(self.title, self.sentence, styles)?;
        page.head(HEAD, self.head, styles)?;
        let mut row = HEAD + 1;
        for line in &self.lines {
            for (column, words) in (0u16..).zip(line) {
                page.words(row, column, words, &styles.cell)?;
            }
            row += 1;
        }
        page.filter(HEAD, row - 1)?;
        page.finish()
    }
}

/// The sheets of words; those that would be empty are left out, but not the sources.
pub fn sheets(subject: &Subject, styles: &Styles) -> Result<Vec<Worksheet>, XlsxError> {
    let references = references(subject);
    [changes(subject), assumptions(subject), cautions(subject), references]
        .iter()
        .filter(|t| !t.lines.is_empty())
        .map(|t| t.sheet(subject, styles))
        .collect()
}

fn changes(subject: &Subject) -> Table<'static> {
    let a = &subject.assessment;
    let together =
        a.fixes.iter().map(|c| ("all together", "", &c.parameter, &c.from, &c.to, &c.note));
    let alone = a
        .remedies
        .iter()
        .map(|r| ("one alone", r.check.as_str(), &r.parameter, &r.from, &r.to, &r.note));
    let lines = together
        .chain(alone)
        .map(|(how, check, parameter, from, to, note)| {
            [how, check, parameter, from, to, note].map(str::to_owned).to_vec()
        })
        .collect();
    Table {
        name: "Changes",
        title: "Changes that would meet what is not met",
        sentence: if a.search_complete {
            "Changes marked \"all together\" make every check pass together; one alone makes the check that it names pass. \
             Each is a place in the design file."
        } else {
            "Changes marked \"all together\" make every check pass together; one alone makes the check that it names pass. \
             The search was not complete: there may be more, and simpler ones."
        },
        widths: &[13.0, 30.0, 36.0, 22.0, 22.0, 60.0],
        head: &["how", "check", "place in the design file", "now", "take", "mind"],
        lines,
    }
}

fn assumptions(subject: &Subject) -> Table<'static> {
    let lines = subject
        .assessment
        .assumptions
        .iter()
        .map(|a| {
            let source = &a.source;
            [&a.path, &a.meaning, &a.value, source.text.as_ref(), source.evidence.label()]
                .map(str::to_owned)
                .to_vec()
        })
        .collect();
    Table {
        name: "Assumptions",
        title: "Values that nobody gave",
        sentence: "What the program used instead, and why. Write the value at its place in the design file to replace it.",
        widths: &[38.0, 50.0, 18.0, 62.0, 18.0],
        head: &["place in the design file", "meaning", "value", "source", "evidence"],
        lines,
    }
}

fn cautions(subject: &Subject) -> Table<'static> {
    let a = &subject.assessment;
    let kind = |kind: &'static str| move |text: &String| vec![kind.to_owned(), text.clone()];
    let lines = a
        .cautions
        .iter()
        .map(kind("caution"))
        .chain(a.warnings.iter().map(kind("warning on the file")))
        .collect();
    Table {
        name: "Cautions",
        title: "What to keep in mind",
        sentence: "Cautions go with every design; warnings are on this design file.",
        widths: &[22.0, 120.0],
        head: &["kind", "text"],
        lines,
    }
}

/// Every source once, with where it is used first and how often.
fn references(subject: &Subject) -> Table<'static> {
    let a = &subject.assessment;
    let mut list: Vec<(&Source, String, u32)> = Vec::new();
    let mut add = |source, place: String| match list.iter_mut().find(|(known, ..)| *known == source)
    {
        Some((_, _, count)) => *count += 1,
        None => list.push((source, place, 1)),
    };
    for explanation in &subject.explanations {
        let id = &explanation.check.id;
        add(&explanation.check.basis, format!("basis of {id}"));
        for step in &explanation.working.steps {
            add(&step.source, format!("{} in {id}", step.symbol));
        }
    }
    for method in &a.methods {
        add(&method.source, format!("method {}", method.id));
    }
    for part in &a.forces {
        add(&part.source, format!("force: {}", part.name));
    }
    for assumption in &a.assumptions {
        add(&assumption.source, format!("assumption {}", assumption.path));
    }
    let lines = list
        .into_iter()
        .filter(|(source, ..)| source.evidence != Evidence::Given || source.text != "given")
        .map(|(source, place, count)| {
            vec![
                source.text.to_string(),
                source.evidence.label().to_owned(),
                place,
                count.to_string(),
            ]
        })
        .collect();
    Table {
        name: "References",
        title: "Sources of formulas and values",
        sentence: "Each source once. What is from memory has to be confirmed in the document; what is judgement has no source.",
        widths: &[80.0, 26.0, 46.0, 8.0],
        head: &["source", "evidence", "first used", ">times"],
        lines,
    }
}

/// The joints of the string where checks of the pull are tightest; none where no check has them.
pub fn joints(subject: &Subject, styles: &Styles) -> Result<Option<Worksheet>, XlsxError> {
    if subject.explanations.iter().all(|e| e.joints.is_empty()) {
        return Ok(None);
    }
    let units = [unit::M, unit::KN, unit::KN, unit::DEG, unit::MM, unit::MM, unit::MM]
        .map(|u| u.in_system(subject.system));
    let names = [
        "at md",
        "tension ahead",
        "force on the wall",
        "joint angle",
        "off the axis, upwards",
        "off the axis, to the right",
        "gap of the middle of the barrel",
    ];
    let mut head = vec!["check".to_owned(), ">joint".to_owned()];
    head.extend(names.iter().zip(units).map(|(name, unit)| format!(">{name}, {}", unit.symbol())));
    let mut page =
        Page::new(subject, "Joints", &[30.0, 7.0, 12.0, 13.0, 13.0, 12.0, 14.0, 14.0, 16.0])?;
    page.title(
        "Joints of the string",
        "State of every joint in the bore with the head where the check is tightest, from the tail to the head. Numbers of \
         the chain of barrels, not live.",
        styles,
    )?;
    page.head(HEAD, &head.iter().map(String::as_str).collect::<Vec<_>>(), styles)?;
    let mut row = HEAD + 1;
    for explanation in &subject.explanations {
        for (number, j) in (1u32..).zip(&explanation.joints) {
            page.words(row, 0, &explanation.check.id, &styles.cell)?;
            page.number(row, 1, f64::from(number), &styles.number)?;
            let values = [j.md, j.tension, j.side_force, j.angle, j.up, j.right, j.clearance];
            for (column, (value, unit)) in (2u16..).zip(values.into_iter().zip(units)) {
                let value = unit.from_si(value);
                page.number(row, column, value, &digits(&styles.number, value, 4))?;
            }
            row += 1;
        }
    }
    page.filter(HEAD, row - 1)?;
    page.finish().map(Some)
}

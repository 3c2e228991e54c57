//! One sheet for each part of the work, with the workings of its checks one below the other.

use assess::{Explanation, Stage};
use rust_xlsxwriter::{Url, Worksheet, XlsxError};
use working::{Formula, Step};

use super::checks;
use super::formula::translate;
use super::inputs::{self, Inputs};
use super::page::{Page, cell, exact};
use super::style::{Styles, digits};
use crate::Subject;

const FIRST: u32 = 3;
const VALUE: u16 = 3;
const OURS: u16 = 7;
/// Largest relative difference between a formula recomputed from its text and the value shown, for the formula to stand.
const AGREES: f64 = 1e-9;

const HEAD: [&str; 11] = [
    "symbol",
    "meaning",
    "formula, SI",
    ">value, SI",
    "SI unit",
    ">as read",
    "unit",
    ">our value, SI",
    ">difference",
    "source",
    "evidence",
];

/// Where every working stands.
pub struct Workings<'a> {
    parts: Vec<Part<'a>>,
}

/// The workings of one part of the work.
struct Part<'a> {
    stage: Stage,
    blocks: Vec<Block<'a>>,
}

/// One working.
pub struct Block<'a> {
    /// The check with its working.
    pub explanation: &'a Explanation,
    /// Name of its sheet.
    pub sheet: &'static str,
    /// Row of its head.
    pub row: u32,
    /// Row of its check on the first sheet.
    check_row: u32,
    /// Row of its first line.
    lines: u32,
}

impl Block<'_> {
    /// The cell of the SI value of a symbol, without its sheet; only of lines before `before`.
    fn cell(&self, symbol: &str, before: usize) -> Option<String> {
        let steps = self.explanation.working.steps.get(..before)?;
        let at = steps.iter().position(|s| s.symbol == symbol)?;
        Some(cell(self.lines + u32::try_from(at).ok()?, VALUE))
    }

    /// The cell of the SI value of a symbol, with its sheet.
    pub fn cell_from_afar(&self, symbol: &str) -> Option<String> {
        let all = self.explanation.working.steps.len();
        Some(format!("{}!{}", self.sheet, self.cell(symbol, all)?))
    }
}

/// Name of the sheet of a part of the work.
const fn name(stage: Stage, bursting: bool) -> &'static str {
    match stage {
        Stage::Design => "Design",
        Stage::Pilot => "Pilot",
        Stage::Ream => "Reaming",
        Stage::Pull if bursting => "Bursting",
        Stage::Pull => "Pull",
        Stage::InService => "Service",
    }
}

impl<'a> Workings<'a> {
    /// Places every working of a subject.
    pub fn new(subject: &'a Subject) -> Self {
        let bursting = subject.assessment.technique == "bursting";
        let mut parts: Vec<Part<'a>> =
            [Stage::Design, Stage::Pilot, Stage::Ream, Stage::Pull, Stage::InService]
                .map(|stage| Part { stage, blocks: Vec::new() })
                .into();
        for (i, explanation) in (0u32..).zip(&subject.explanations) {
            let Some(part) = parts.iter_mut().find(|p| p.stage == explanation.check.stage) else {
                continue;
            };
            let row = part.blocks.last().map_or(FIRST, |b| b.end() + 1);
            part.blocks.push(Block {
                explanation,
                sheet: name(part.stage, bursting),
                row,
                check_row: checks::FIRST + i,
                lines: row + 2,
            });
        }
        parts.retain(|p| !p.blocks.is_empty());
        Self { parts }
    }

    /// The working of a check.
    pub fn block(&self, id: &str) -> Option<&Block<'a>> {
        self.parts.iter().flat_map(|p| &p.blocks).find(|b| b.explanation.check.id == id)
    }

    /// The sheets, in the order of the work.
    pub fn sheets(
        &self,
        subject: &Subject,
        inputs: &Inputs<'_>,
        styles: &Styles,
    ) -> Result<Vec<Worksheet>, XlsxError> {
        self.parts.iter().map(|part| part.sheet(subject, inputs, styles)).collect()
    }
}

impl Block<'_> {
    /// The row below the last of the block.
    fn end(&self) -> u32 {
        let e = self.explanation;
        let rows = |n: usize| u32::try_from(n).unwrap_or(u32::MAX / 4);
        let without = u32::from(e.working.steps.is_empty());
        self.lines + rows(e.working.steps.len()) + without + rows(e.notes.len())
    }
}

impl Part<'_> {
    fn sheet(
        &self,
        subject: &Subject,
        inputs: &Inputs<'_>,
        styles: &Styles,
    ) -> Result<Worksheet, XlsxError> {
        let name = self.blocks.first().map_or("Design", |b| b.sheet);
        let widths = [11.0, 34.0, 38.0, 13.0, 8.0, 10.0, 8.0, 13.0, 10.0, 36.0, 15.0];
        let mut page = Page::new(subject, name, &widths)?;
        page.title(
            &format!("Workings: {}", name.to_lowercase()),
            "Formulas are live and in SI units, angles in radians. \"Our value\" is what the program found; \"difference\" is \
             relative and should be 0 but for rounding. Slanted grey numbers were found by a procedure and do not follow \
             when an input changes.",
            styles,
        )?;
        page.head(FIRST - 1, &HEAD, styles)?;
        for block in &self.blocks {
            block.write(&mut page, subject, inputs, styles)?;
        }
        page.finish()
    }
}

impl Block<'_> {
    fn write(
        &self,
        page: &mut Page,
        subject: &Subject,
        inputs: &Inputs<'_>,
        styles: &Styles,
    ) -> Result<(), XlsxError> {
        let check = &self.explanation.check;
        let last = page.last();
        page.across(
            self.row,
            (0, last - 1),
            &format!("{} – {}", check.id, check.title),
            &styles.block,
        )?;
        let back = Url::new(format!("internal:'{}'!A{}", checks::NAME, self.check_row + 1))
            .set_text("to the check");
        page.sheet.write_url_with_format(self.row, last, back, &styles.link)?;
        let sign = checks::status(check);
        page.across(self.row + 1, (0, last), &format!("{sign}: {}", check.because), &styles.words)?;
        let steps = &self.explanation.working.steps;
        let mut row = self.lines;
        for (i, step) in steps.iter().enumerate() {
            self.line(page, row, (i, step), subject, inputs, styles)?;
            row += 1;
        }
        if steps.is_empty() {
            let why = match check.missing.as_slice() {
                [] => "There is no working: nothing was computed.".to_owned(),
                keys => {
                    format!("There is no working. Missing in the design file: {}", keys.join(", "))
                }
            };
            page.across(row, (0, last), &why, &styles.fixed_words)?;
            row += 1;
        }
        for note in &self.explanation.notes {
            page.across(row, (0, last), &format!("Note: {note}"), &styles.words)?;
            row += 1;
        }
        Ok(())
    }

    fn line(
        &self,
        page: &mut Page,
        row: u32,
        (i, step): (usize, &Step),
        subject: &Subject,
        inputs: &Inputs<'_>,
        styles: &Styles,
    ) -> Result<(), XlsxError> {
        let number = digits(&styles.number, step.value, 6);
        let fixed = digits(&styles.fixed, step.value, 6);
        page.words(row, 0, &step.symbol, &styles.cell)?;
        page.words(row, 1, &step.meaning, &styles.cell)?;
        let live = match &step.formula {
            Formula::Given => {
                page.words(row, 2, "put in", &styles.cell)?;
                inputs.cell(step)
            }
            Formula::Expression(text) => {
                page.words(row, 2, &text.replace('*', "·"), &styles.formula)?;
                self.agreeing(i, text, step)
                    .then_some(())
                    .and_then(|()| translate(text, &|symbol| self.cell(symbol, i)))
            }
            Formula::Procedure(text) => {
                page.words(row, 2, &format!("found by procedure: {text}"), &styles.fixed_words)?;
                None
            }
        };
        match live.filter(|_| step.value.is_finite()) {
            Some(formula) => {
                page.formula(row, VALUE, &formula, exact(step.value), &number)?;
                let (a, b) = (cell(row, VALUE), cell(row, OURS));
                let difference = format!("IF({a}={b},0,ABS({a}-{b})/MAX(ABS({a}),ABS({b})))");
                let format = styles.number.clone().set_num_format("0.0E+00;-0.0E+00;0");
                page.formula(row, 8, &difference, "0", &format)?;
            }
            None => {
                page.number(row, VALUE, step.value, &fixed)?;
                page.words(row, 8, "not live", &styles.fixed)?;
            }
        }
        page.words(row, 4, step.unit.kind().si().symbol(), &styles.unit)?;
        inputs::read(page, row, 5, (VALUE, step), subject, styles)?;
        page.words(row, 6, step.unit.in_system(subject.system).symbol(), &styles.unit)?;
        page.number(row, OURS, step.value, &number)?;
        page.words(row, 9, &step.source.text, &styles.unit)?;
        page.words(row, 10, step.source.evidence.label(), &styles.cell)
    }

    /// Whether the formula's text gives the value from the lines before it; it does, or a test of its working fails.
    fn agreeing(&self, i: usize, text: &str, step: &Step) -> bool {
        let before = self.explanation.working.steps.get(..i).unwrap_or_default();
        let lookup = |symbol: &str| before.iter().find(|s| s.symbol == symbol).map(|s| s.value);
        working::expression::evaluate(text, lookup)
            .is_ok_and(|v| (v - step.value).abs() <= AGREES * v.abs().max(step.value.abs()))
    }
}

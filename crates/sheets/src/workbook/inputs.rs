//! Values that were put into workings, each once.

use assess::Explanation;
use rust_xlsxwriter::{Worksheet, XlsxError};
use working::{Formula, Step};

use super::page::{Page, cell, exact};
use super::style::{Styles, as_read, digits};
use crate::Subject;

/// Name of the sheet.
pub const NAME: &str = "Inputs";
const FIRST: u32 = 3;
const VALUE: u16 = 2;
/// Checks that are named beside an input; the workings name all.
const NAMED: usize = 4;

/// Every value put in, in the order of its first use.
pub struct Inputs<'a> {
    list: Vec<Input<'a>>,
}

struct Input<'a> {
    step: &'a Step,
    used: Vec<&'a str>,
}

/// Whether two lines of workings are one value put in.
fn same(a: &Step, b: &Step) -> bool {
    a.symbol == b.symbol
        && a.meaning == b.meaning
        && a.value.to_bits() == b.value.to_bits()
        && a.unit == b.unit
        && a.source == b.source
}

impl<'a> Inputs<'a> {
    /// The values put into some workings.
    pub fn of(explanations: &'a [Explanation]) -> Self {
        let mut list: Vec<Input<'a>> = Vec::new();
        for explanation in explanations {
            let id = explanation.check.id.as_str();
            for step in explanation.working.steps.iter().filter(|s| s.formula == Formula::Given) {
                match list.iter_mut().find(|i| same(i.step, step)) {
                    Some(input) => input.used.push(id),
                    None => list.push(Input { step, used: vec![id] }),
                }
            }
        }
        Self { list }
    }

    /// The cell of a value put in, with its sheet.
    pub fn cell(&self, step: &Step) -> Option<String> {
        let at = self.list.iter().position(|i| same(i.step, step))?;
        Some(format!("{NAME}!{}", cell(FIRST + u32::try_from(at).ok()?, VALUE)))
    }

    /// The sheet.
    pub fn sheet(&self, subject: &Subject, styles: &Styles) -> Result<Worksheet, XlsxError> {
        let widths = [11.0, 36.0, 13.0, 8.0, 10.0, 9.0, 42.0, 15.0, 30.0];
        let mut page = Page::new(subject, NAME, &widths)?;
        page.title(
            "Values put in",
            "Each value stands once; the workings refer to it. Change one in the coloured column and every live formula \
             follows. A number found by a procedure does not follow, and an input that another calculation gave does not \
             either: for that, change the design file.",
            styles,
        )?;
        page.head(
            FIRST - 1,
            &[
                "symbol",
                "meaning",
                ">value, SI",
                "SI unit",
                ">as read",
                "unit",
                "source",
                "evidence",
                "used in",
            ],
            styles,
        )?;
        let mut row = FIRST;
        for input in &self.list {
            let step = input.step;
            let unit = step.unit.in_system(subject.system);
            page.words(row, 0, &step.symbol, &styles.cell)?;
            page.words(row, 1, &step.meaning, &styles.cell)?;
            page.number(row, VALUE, step.value, &digits(&styles.input, step.value, 6))?;
            page.words(row, 3, step.unit.kind().si().symbol(), &styles.unit)?;
            read(&mut page, row, 4, (VALUE, step), subject, styles)?;
            page.words(row, 5, unit.symbol(), &styles.unit)?;
            page.words(row, 6, &step.source.text, &styles.cell)?;
            page.words(row, 7, step.source.evidence.label(), &styles.cell)?;
            page.words(row, 8, &used(&input.used), &styles.cell)?;
            row += 1;
        }
        page.filter(FIRST - 1, row.saturating_sub(1))?;
        page.finish()
    }
}

/// A value in the unit of its reader, as a formula on its SI value in another column.
pub fn read(
    page: &mut Page,
    row: u32,
    column: u16,
    (from, step): (u16, &Step),
    subject: &Subject,
    styles: &Styles,
) -> Result<(), XlsxError> {
    let shown = step.unit.in_system(subject.system).from_si(step.value);
    let format = digits(&styles.number, shown, 4);
    if !shown.is_finite() {
        return page.number(row, column, shown, &format);
    }
    let formula = as_read(&cell(row, from), step.unit, subject.system);
    page.formula(row, column, &formula, exact(shown), &format)
}

fn used(ids: &[&str]) -> String {
    let named = ids.iter().take(NAMED).copied().collect::<Vec<_>>().join(", ");
    match ids.len().saturating_sub(NAMED) {
        0 => named,
        more => format!("{named} and {more} more"),
    }
}

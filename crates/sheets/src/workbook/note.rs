//! How to read the workbook.

use rust_xlsxwriter::XlsxError;

use super::page::Page;
use super::style::Styles;
use crate::Subject;

const LINES: [&str; 10] = [
    "An aid to a qualified engineer: local codes, the authority and licensed practice decide.",
    "Inside everything is SI: metres, newtons, pascals, kilograms, seconds, radians. Columns \"as read\" turn it into usual units.",
    "Each value put in stands once, on the sheet Inputs, in a coloured cell. Workings refer to it; change it there.",
    "The sheets of workings show each check line by line. A formula stands as text and, beside it, as a live formula on earlier lines and inputs. \"Our value\" is what the program found, as a plain number: the difference should be 0 but for rounding.",
    "Slanted grey numbers are not live. They were found by a procedure (a root, a search along the bore, the chain of barrels), which the line names; change the design file and run the program again to move them. A chain of formulas stops at such a number.",
    "On this sheet value, limit, share used and status are formulas, unless slanted and grey. A status that is more than the share used, as advice not followed, stands as a word; its reason stands above the working.",
    "Used is value over limit with ≤, limit over value with ≥; met up to 100 %. For a rule that is kept or not, used is grey: how near its limit is says nothing.",
    "Evidence: published – read in the named source; derived – exact mechanics or geometry; computed – from a named formula; from memory – to be confirmed before relying on it; common practice and judgement – without a source.",
    "To check independently: recalculate everything in your spreadsheet program, look at the column of differences, then replace any formula by your own.",
    "Values that nobody gave are on the sheet Assumptions; read Cautions, too.",
];

/// Writes the note below the table.
pub fn write(
    page: &mut Page,
    row: u32,
    subject: &Subject,
    styles: &Styles,
) -> Result<(), XlsxError> {
    let last = page.last();
    page.across(row, (0, last), "How to read this workbook", &styles.block)?;
    let mut row = row + 1;
    for line in LINES {
        page.across(row, (0, last), line, &styles.words)?;
        row += 1;
    }
    let axis = if subject.assessment.technique == "bursting" {
        "Chainage runs along the old main."
    } else {
        "md is the measured distance along the bore from the entry point on the rig side."
    };
    page.across(row, (0, last), axis, &styles.words)
}

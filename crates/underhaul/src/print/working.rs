//! A working for a person: each value with its meaning, formula, numbers put in and source.

use std::io;

use quantity::System;
use working::{Formula, Source, Step, Working, expression};

use super::Page;

use super::text::{tidy, width};

/// Widest column of symbols or values; longer ones push their line to the right.
const WIDEST_COLUMN: usize = 16;

/// Prints every step in order.
pub(crate) fn steps(page: &mut Page<'_>, working: &Working, system: System) -> io::Result<()> {
    let column = |of: &dyn Fn(&Step) -> String| {
        working.steps.iter().map(|s| width(&of(s))).filter(|w| *w <= WIDEST_COLUMN).max()
    };
    let symbols = column(&|s| s.symbol.clone()).unwrap_or(0);
    let values = column(&|s| s.shown(system)).unwrap_or(0);
    let indent = 2 + symbols + 2;
    if working.steps.iter().any(|s| working.numbers_put_in(s).is_some()) {
        page.quiet(2, "numbers put into formulas are SI")?;
    }
    for step in &working.steps {
        let pad = |text: &str, room: usize| " ".repeat(room.saturating_sub(width(text)));
        let (symbol, value) = (tidy(&step.symbol), step.shown(system));
        let mark = format!("  {symbol}{}  {value}{} ", pad(&symbol, symbols), pad(&value, values));
        // A value that was simply given has its formula and its source in one word.
        let given = step.source == Source::given();
        let meaning =
            if given { format!("{} (given)", step.meaning) } else { step.meaning.clone() };
        page.indented(&mark, indent + values + 2, &meaning)?;
        match &step.formula {
            Formula::Given => {}
            Formula::Expression(text) => {
                page.paragraph_after(indent, "=", &formula(text))?;
                if let Some(numbers) = working.numbers_put_in(step) {
                    page.paragraph_after(indent, "=", &numbers)?;
                }
            }
            Formula::Procedure(text) => page.paragraph_after(indent, "found:", text)?,
        }
        if !given {
            page.quiet(indent, &step.source.to_string())?;
        }
    }
    Ok(())
}

/// A formula with the fewest parentheses; as it stands where it cannot be read.
pub(crate) fn formula(text: &str) -> String {
    expression::read(text).map_or_else(|_| text.to_owned(), |node| node.to_string())
}

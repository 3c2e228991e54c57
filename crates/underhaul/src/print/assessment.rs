//! An assessment for a person: the parts that several commands print.

use std::io;

use anstyle::Style;
use assess::{Assessment, Check, Method, Reading, Status, VerdictStatus};
use quantity::{System, unit};
use working::{Assumption, Evidence};

use super::style::{BAD, CLOSE, GOOD};
use super::{Cell, Column, Page, Table};

/// Sign, word and style of an outcome; the sign and the word say the same as the style.
pub(crate) fn sign(status: Status) -> (&'static str, &'static str, Style) {
    match status {
        Status::Pass => ("✓", "pass", GOOD),
        Status::Attention => ("!", "attention", CLOSE),
        Status::Fail => ("✗", "FAIL", BAD),
        Status::NotAssessed => ("?", "not assessed", CLOSE),
    }
}

/// Name, note and figures of the crossing.
pub(crate) fn head(page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
    page.title(&a.crossing.name)?;
    if let Some(note) = &a.crossing.note {
        page.quiet(0, note)?;
    }
    page.gap()?;
    let facts = a.crossing.facts.iter().map(|(name, text)| (Cell::new(name), Cell::new(text)));
    let figures = a
        .crossing
        .figures
        .iter()
        .map(|(name, value)| (Cell::new(name), Cell::new(value.shown(system))));
    page.names(facts.chain(figures).collect())
}

/// The verdict in one or two sentences.
pub(crate) fn verdict(page: &mut Page<'_>, a: &Assessment) -> io::Result<()> {
    let (sign, style) = match a.verdict.status {
        VerdictStatus::Feasible => ("✓", GOOD),
        VerdictStatus::FeasibleWithAttention => ("!", CLOSE),
        VerdictStatus::Incomplete => ("?", CLOSE),
        VerdictStatus::NotFeasible => ("✗", BAD),
    };
    page.gap()?;
    page.marked(sign, style, 2, &a.verdict.sentence)
}

/// The table of checks, in the order of the work.
pub(crate) fn checks<'c>(
    page: &mut Page<'_>,
    checks: impl Iterator<Item = &'c Check>,
    system: System,
) -> io::Result<()> {
    let mut table = Table::new(vec![
        Column::left("check").wrap(16),
        Column::right("demand"),
        Column::right("limit"),
        Column::right("used"),
        Column::right("at md"),
        Column::left("outcome"),
    ]);
    for check in checks {
        let (sign, word, style) = sign(check.status);
        let value = |v: Option<Reading>| Cell::new(v.map_or("–".to_owned(), |v| v.shown(system)));
        table.row(vec![
            Cell::new(&check.id),
            value(check.demand),
            value(check.limit),
            // Nearness to a rule that is kept or not says nothing.
            Cell::new(if check.rule { "rule".to_owned() } else { used(check.utilisation) }),
            Cell::new(place(check.at, system)),
            Cell::styled(format!("{sign} {word}"), style),
        ]);
    }
    page.table(&table)
}

/// Share of the limit that is used; never rounded across the limit.
pub(crate) fn used(utilisation: Option<f64>) -> String {
    match utilisation {
        None => "–".to_owned(),
        Some(u) if u > 9.99 => "> 999 %".to_owned(),
        Some(u) if u > 1.0 && u < 1.01 => format!("{:.1} %", (u * 1000.0).ceil() / 10.0),
        Some(u) => format!("{:.0} %", u * 100.0),
    }
}

/// Measured distance of a place on the bore.
pub(crate) fn place(at: Option<f64>, system: System) -> String {
    at.map_or(String::new(), |md| quantity::show_with(md, unit::M, system))
}

/// Why checks that are not simply met have their outcome.
pub(crate) fn reasons<'c>(
    page: &mut Page<'_>,
    checks: impl Iterator<Item = &'c Check>,
) -> io::Result<()> {
    let mut open = checks.filter(|c| c.status != Status::Pass).peekable();
    if open.peek().is_none() {
        return Ok(());
    }
    page.heading("Why")?;
    for check in open {
        let (sign, _, style) = sign(check.status);
        page.marked(&format!("{sign} {}", check.id), style, 4, &format!("({})", check.title))?;
        page.paragraph(4, &check.because)?;
        if !check.missing.is_empty() {
            page.indented("    missing:", 6, &check.missing.join(", "))?;
        }
    }
    Ok(())
}

/// What would make failing checks pass.
pub(crate) fn remedies(page: &mut Page<'_>, a: &Assessment) -> io::Result<()> {
    if !a.checks.iter().any(|c| c.status == Status::Fail) {
        return Ok(());
    }
    page.heading("What must change")?;
    for check in a.checks.iter().filter(|c| c.status == Status::Fail) {
        let of_check: Vec<_> = a.remedies.iter().filter(|r| r.check == check.id).collect();
        page.marked(&format!("✗ {}", check.id), BAD, 4, "")?;
        if of_check.is_empty() {
            page.paragraph(4, "no single value was found that makes this check pass")?;
        }
        for remedy in of_check {
            let change = format!("{} from {} to {}", remedy.parameter, remedy.from, remedy.to);
            page.indented("    →", 6, &change)?;
            if !remedy.note.is_empty() {
                page.quiet(6, &remedy.note)?;
            }
        }
    }
    Ok(())
}

/// The pull by each method, side by side.
pub(crate) fn methods(page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
    page.heading("Greatest pull at the head, by method")?;
    let mut table = Table::new(vec![
        Column::left("id"),
        Column::left("method").wrap(20),
        Column::right("low"),
        Column::right("high"),
        Column::left("evidence").wrap(10),
    ]);
    for method in &a.methods {
        let end = |pick: fn(&(Reading, Reading)) -> Reading| {
            Cell::new(method.force.as_ref().map_or("–".to_owned(), |f| pick(f).shown(system)))
        };
        table.row(vec![
            Cell::new(&method.id),
            Cell::new(&method.name),
            end(|f| f.0),
            end(|f| f.1),
            Cell::new(evidence(method.source.evidence)),
        ]);
    }
    page.table(&table)?;
    page.gap()?;
    a.methods.iter().try_for_each(|m| remark(page, m, system))
}

fn remark(page: &mut Page<'_>, method: &Method, system: System) -> io::Result<()> {
    let head = match method.at {
        Some(_) => format!(" Greatest with the head at md {}.", place(method.at, system)),
        None => String::new(),
    };
    let remark = method.remark.trim_end_matches('.');
    let text = format!("{remark}.{head} Source: {}", method.source.text);
    page.indented(&format!("  {}:", method.id), 4, &text)
}

/// Evidence in a table: the first words of its label.
pub(crate) fn evidence(evidence: Evidence) -> &'static str {
    let label = evidence.label();
    label.split(',').next().unwrap_or(label)
}

/// Values that nobody gave.
pub(crate) fn assumptions(page: &mut Page<'_>, list: &[Assumption]) -> io::Result<()> {
    if list.is_empty() {
        return Ok(());
    }
    page.heading("Assumed, because nobody gave it")?;
    for assumption in list {
        let text = format!("= {}: {}", assumption.value, assumption.meaning);
        page.indented(&format!("  {}", assumption.path), 6, &text)?;
        page.quiet(6, &assumption.source.to_string())?;
    }
    Ok(())
}

/// What the reader must keep in mind.
pub(crate) fn cautions(page: &mut Page<'_>, a: &Assessment) -> io::Result<()> {
    page.heading("Cautions")?;
    a.cautions.iter().try_for_each(|caution| page.indented("  -", 4, caution))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_is_never_rounded_across_the_limit() {
        assert_eq!(used(Some(1.0)), "100 %");
        assert_eq!(used(Some(1.000_01)), "100.1 %");
        assert_eq!(used(Some(1.234)), "123 %");
        assert_eq!(used(Some(1e9)), "> 999 %");
        assert_eq!(used(None), "–");
    }
}

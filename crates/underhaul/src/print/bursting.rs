//! The parts of a result that only a renewal by bursting has.

use std::io;

use assess::{Assessment, Reading};
use quantity::System;

use super::assessment::evidence;
use super::{Cell, Column, Page, Table};

/// The parts of the force, low, planning and high.
pub(crate) fn forces(page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
    if a.forces.is_empty() {
        return Ok(());
    }
    page.heading("Forces as a band, the hardest run")?;
    let mut table = Table::new(vec![
        Column::left("part").wrap(24),
        Column::right("low"),
        Column::right("planning"),
        Column::right("high"),
        Column::left("evidence").wrap(10),
    ]);
    for part in &a.forces {
        let cell = |reading: Reading| Cell::new(reading.shown(system));
        table.row(vec![
            Cell::new(&part.name),
            cell(part.low),
            cell(part.planning),
            cell(part.high),
            Cell::new(evidence(part.source.evidence)),
        ]);
    }
    page.table(&table)?;
    page.gap()?;
    for part in a.forces.iter().filter(|p| !p.remark.is_empty()) {
        let text = format!("{}. Source: {}", part.remark, part.source.text);
        page.indented(&format!("  {}:", part.name), 4, &text)?;
    }
    page.quiet(
        2,
        "the checks judge the planning value; a high end above the limit asks for attention",
    )
}

/// Runs in the order of the work.
pub(crate) fn runs(page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
    if a.runs.is_empty() {
        return Ok(());
    }
    page.heading("Runs in the order of the work")?;
    let mut table = Table::new(vec![
        Column::left("run").wrap(8),
        Column::right("launch"),
        Column::right("machine"),
        Column::right("pipes"),
        Column::right("by pipe"),
        Column::right("as string"),
        Column::right("services"),
        Column::right("dig out"),
        Column::right("lubricant"),
    ]);
    for run in &a.runs {
        table.row(vec![
            Cell::new(&run.name),
            Cell::new(run.launch.shown(system)),
            Cell::new(run.machine.shown(system)),
            Cell::new(format!("{:.0}", run.pipes)),
            Cell::new(run.time_pipe_by_pipe.shown(system)),
            Cell::new(run.time_string.shown(system)),
            Cell::new(run.services.to_string()),
            Cell::new(run.opened.to_string()),
            Cell::new(run.lubricant.map_or("–".to_owned(), |v| v.shown(system))),
        ]);
    }
    page.table(&table)?;
    page.gap()?;
    page.quiet(
        2,
        "by pipe, as string: time of joining, pulling and resetting pipe by pipe, and of pulling one string that lies ready; \
         digging, testing, disinfection and connections come on top",
    )?;
    for run in &a.runs {
        if let (Some(by_pipe), Some(string)) = (run.force_pipe_by_pipe, run.force_string) {
            let text = format!(
                "run {}: force in the string for planning {} pipe by pipe, with a start after every pipe; {} as one string without a stop, which needs its whole length laid out and a ramp",
                run.name,
                by_pipe.shown(system),
                string.shown(system)
            );
            page.quiet(2, &text)?;
        }
    }
    Ok(())
}

//! Without a command: the main job on the demo crossing, and what to try next.

use std::io;
use std::path::Path;

use assess::Assessment;
use quantity::System;

use super::check::outcome;
use super::serve;
use crate::crossing_file;
use crate::failure::{Failure, Outcome};
use crate::invocation::invocation;
use crate::print::{self, Page};

/// The demo crossing as it stands in a clone of the project.
pub(super) const FILE: &str = "demo/creek.toml";
/// A street with an old main that is renewed by bursting.
pub(super) const BURSTING_FILE: &str = "demo/street.toml";
/// The same for a program that runs elsewhere.
pub(super) const BURSTING: &str = include_str!("../../../../demo/street.toml");
/// A main of asbestos cement in a lane.
pub(super) const LANE: &str = include_str!("../../../../demo/lane-asbestos.toml");
/// The crossing with three mistakes.
pub(super) const FAILING: &str = include_str!("../../../../demo/creek-fails.toml");
/// The same crossing with three mistakes.
const FAILING_FILE: &str = "demo/creek-fails.toml";
/// The demo crossing for a program that runs elsewhere.
pub(super) const EMBEDDED: &str = include_str!("../../../../demo/creek.toml");

/// Checks the demo crossing and serves the workbench until it is stopped.
pub(crate) fn run(page: &mut Page<'_>) -> Result<Outcome, Failure> {
    let on_disk = Path::new(FILE).exists();
    let reading = if on_disk {
        crossing_file::read(Path::new(FILE))?
    } else {
        project::read_design(FILE, EMBEDDED, &project::no_files).map_err(Failure::File)?
    };
    print::warn(&reading.warnings);
    let assessment = assess::assess_design(&reading.design);
    let outcome =
        Failure::unless_closed(print_all(page, &assessment, on_disk), outcome(&assessment))?;
    serve::serve_anywhere(page)?;
    Ok(outcome)
}

fn print_all(page: &mut Page<'_>, a: &Assessment, on_disk: bool) -> io::Result<()> {
    let file = if on_disk { FILE } else { "the demo crossing in the program" };
    print::assessment::title(page, file, &a.crossing.name, a.crossing.note.as_deref())?;
    print::assessment::figures(page, a, System::Metric)?;
    print::assessment::verdict(page, a)?;
    page.gap()?;
    print::assessment::checks(page, a, a.checks.iter(), System::Metric)?;
    page.gap()?;
    print::assessment::legend(page, a, a.checks.iter())?;
    page.heading("What to try next")?;
    let call = invocation();
    let command = |page: &mut Page<'_>, what: &str, arguments: &str| {
        page.paragraph(2, what)?;
        page.line(&format!("      {call} {arguments}"))
    };
    if on_disk {
        page.paragraph(2, &format!("open {FILE}, change entry_radius and see the checks move:"))?;
        page.line(&format!("      {call} check {FILE}"))?;
        command(
            page,
            "see how one number was obtained:",
            &format!("explain {FILE} pull.joint-force"),
        )?;
        if Path::new(FAILING_FILE).exists() {
            command(
                page,
                "see what must change when checks fail:",
                &format!("check {FAILING_FILE}"),
            )?;
        }
    } else {
        command(
            page,
            "take this crossing as a file and change entry_radius:",
            "new --demo creek.toml",
        )?;
        command(page, "see the checks move:", "check creek.toml")?;
        command(page, "see how one number was obtained:", "explain creek.toml pull.joint-force")?;
    }
    if Path::new(BURSTING_FILE).exists() {
        command(
            page,
            "see an old main burst and a new one pulled into its place:",
            &format!("check {BURSTING_FILE}"),
        )?;
    }
    command(
        page,
        "make calculation book, drawings, workbook and data files:",
        &format!("dossier {} -o dossier", if on_disk { FILE } else { "creek.toml" }),
    )?;
    command(page, "start your own crossing from a commented file:", "new crossing.toml")?;
    command(page, "single formulas, each with its working:", "worksheet")
}

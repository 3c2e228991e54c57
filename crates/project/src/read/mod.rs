//! From the text of a file to a valid [`Project`]; all errors of the file in one pass.

use pipe::Pipe;
use toml::de::{DeTable, DeValue};

use crate::context::{Context, Load, no_files};
use crate::diagnostic::{Diagnostic, Place, Report, Severity};
use crate::fields::{FORMAT, Technique};
use crate::model::Project;
use crate::renewal::Renewal;
use crate::tree::{Tree, read_tree};

mod bore;
mod bore_line;
mod check;
mod coordinates;
mod data_sheet;
mod dimensions;
mod drilling;
mod fluid;
mod ground_factors;
mod line_faults;
mod pipe_data;
mod plausible;
mod renewal;
mod site;
mod soils;
mod strata;
mod strata_file;
mod string;

/// Largest file that is read, bytes.
pub const LARGEST_FILE: usize = 5_000_000;

/// A valid crossing and what somebody should look at in its file.
#[derive(Debug, Clone)]
pub struct Reading {
    /// The crossing.
    pub project: Project,
    /// Warnings, in the order of the file.
    pub warnings: Vec<Diagnostic>,
}

/// A valid file of either technique.
#[derive(Debug, Clone)]
pub enum Design {
    /// A drilled crossing.
    Crossing(Box<Project>),
    /// A main renewed by pipe bursting.
    Renewal(Box<Renewal>),
}

/// A valid design and what somebody should look at in its file.
#[derive(Debug, Clone)]
pub struct DesignReading {
    /// The design.
    pub design: Design,
    /// Warnings, in the order of the file.
    pub warnings: Vec<Diagnostic>,
}

impl Design {
    /// Its technique.
    #[must_use]
    pub const fn technique(&self) -> Technique {
        match self {
            Design::Crossing(_) => Technique::Drilling,
            Design::Renewal(_) => Technique::Bursting,
        }
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Design::Crossing(project) => &project.name,
            Design::Renewal(renewal) => &renewal.name,
        }
    }

    /// What the reader should know.
    #[must_use]
    pub fn note(&self) -> Option<&str> {
        match self {
            Design::Crossing(project) => project.note.as_deref(),
            Design::Renewal(renewal) => renewal.note.as_deref(),
        }
    }
}

/// Reads a crossing file; `name` is printed in messages.
///
/// # Errors
/// Every error of the file, with the warnings, in the order of the file.
pub fn read(name: &str, source: &str) -> Result<Project, Vec<Diagnostic>> {
    read_with_warnings(name, source).map(|reading| reading.project)
}

/// Reads a crossing file and keeps the warnings of a valid one.
///
/// # Errors
/// Every error of the file, with the warnings, in the order of the file.
pub fn read_with_warnings(name: &str, source: &str) -> Result<Reading, Vec<Diagnostic>> {
    read_beside(name, source, &no_files)
}

/// Reads a crossing file that may name files beside it.
///
/// # Errors
/// As [`read_with_warnings`]; also what is wrong with the files that it names, and for a renewal.
pub fn read_beside(name: &str, source: &str, load: Load<'_>) -> Result<Reading, Vec<Diagnostic>> {
    let DesignReading { design, warnings } = read_design(name, source, load)?;
    match design {
        Design::Crossing(project) => Ok(Reading { project: *project, warnings }),
        Design::Renewal(_) => {
            let mut report = Report::new(name, source);
            let place = Place { path: "/technique".to_owned(), span: 0..0 };
            report
                .error(
                    "not_a_crossing",
                    &place,
                    "the file describes pipe bursting, no drilled crossing",
                )
                .hint("write technique = \"drilling\" and the sections of a crossing");
            Err(report.finish())
        }
    }
}

/// Reads a file of either technique; it may name files beside it.
///
/// # Errors
/// Every error of the file, with the warnings, in the order of the file.
pub fn read_design(
    name: &str,
    source: &str,
    load: Load<'_>,
) -> Result<DesignReading, Vec<Diagnostic>> {
    let mut cx = Context::new(Report::new(name, source), load, technique_of(source));
    let design = read_in(&mut cx, source);
    if design.is_none() && cx.report.errors() == 0 {
        cx.report
            .error("incomplete", &Place::default(), "nothing can be made of this file")
            .hint("compare it with a new file from the starter, section by section");
    }
    let messages = cx.report.finish();
    let failed = messages.iter().any(|d| d.severity == Severity::Error);
    match design {
        Some(mut design) if !failed => {
            match &mut design {
                Design::Crossing(project) => project.warnings.clone_from(&messages),
                Design::Renewal(renewal) => renewal.warnings.clone_from(&messages),
            }
            Ok(DesignReading { design, warnings: messages })
        }
        _ => Err(messages),
    }
}

/// Reads the bytes of a file of either technique, which may be anything.
///
/// # Errors
/// As [`read_design`]; also for a file above [`LARGEST_FILE`] and for one that is not UTF-8.
pub fn read_bytes(
    name: &str,
    bytes: &[u8],
    load: Load<'_>,
) -> Result<DesignReading, Vec<Diagnostic>> {
    if bytes.len() > LARGEST_FILE {
        let mut report = Report::new(name, "");
        let found = format!("{} bytes", bytes.len());
        report
            .error("too_large", &Place::default(), format!("the file has {found}"))
            .found(found)
            .allowed(format!("at most {LARGEST_FILE} bytes"))
            .hint("a crossing file holds a few hundred lines: is this the right file?");
        return Err(report.finish());
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => read_design(name, text, load),
        Err(error) => {
            let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let before = std::str::from_utf8(good).unwrap_or_default();
            let mut report = Report::new(name, before);
            let place = Place::default().at(before.len()..before.len());
            let byte = bytes.get(error.valid_up_to()).copied().unwrap_or_default();
            report
                .error("not_utf8", &place, "the file is not text in UTF-8")
                .found(format!("byte {byte:#04x} after the place shown"))
                .allowed("UTF-8")
                .hint("save the file as UTF-8 in your editor");
            Err(report.finish())
        }
    }
}

/// Reads and builds; `None` or an error noted in the report means that the file is not valid.
pub(crate) fn read_in(cx: &mut Context<'_>, source: &str) -> Option<Design> {
    if !format_is_known(cx, source) {
        return None;
    }
    let tree = read_tree(source, cx.technique, &mut cx.report);
    let complete = cx.report.errors() == 0;
    // What a fault of syntax swallowed must not be reported as missing.
    if !complete && cx.report.has("syntax") {
        return None;
    }
    match cx.technique {
        Technique::Drilling => build(&tree, cx).map(|p| Design::Crossing(Box::new(p))),
        Technique::Bursting => renewal::build(&tree, cx).map(|r| Design::Renewal(Box::new(r))),
    }
}

/// The technique that a text names; drilling where it names none that is known.
fn technique_of(source: &str) -> Technique {
    let (root, _) = DeTable::parse_recoverable(source);
    match root.get_ref().get("technique").map(|v| v.get_ref()) {
        Some(DeValue::String(word)) if word.trim().eq_ignore_ascii_case("bursting") => {
            Technique::Bursting
        }
        _ => Technique::Drilling,
    }
}

fn build(tree: &Tree, cx: &mut Context<'_>) -> Option<Project> {
    let mut ask = cx.ask(tree.one("")?);
    ask.integer("format");
    let name = ask.text("name");
    let note = ask.text("note");
    ask.word("technique");
    let ground = site::ground_line(tree, cx);
    let line = bore_line::build(tree, cx, ground.as_ref());
    let coordinates = coordinates::of_crossing(tree, cx);
    let string = string::build(tree, cx);
    let rig = drilling::rig(tree, cx);
    let delivered = rig.as_ref().and_then(|r| Some(r.pump.capacity?.si() * r.pump.efficiency));
    let bore = bore::bore(tree, cx, delivered);
    if let (Some(record), Some(length)) = (tree.one("string"), line.length) {
        string::check_pipes(&mut cx.ask(record), &string, length);
    }
    check::ends(tree, cx, ground.as_ref(), &line);
    check::names(tree, cx);
    let pipe = string.built.as_ref().map(|s| &s.pipe);
    let largest = pipe.and_then(Pipe::largest_diameter);
    let final_diameter = bore.as_ref().map(|b| b.final_diameter);
    let site = site::build(tree, cx, ground, &line, pipe, final_diameter);
    let strata = strata::build(tree, cx, site.as_ref().map(|s| &s.ground), &line);
    let fluid = fluid::build(tree, cx);
    let service = bore::service(tree, cx, line.entry.level.zip(line.exit.level));
    let factors = bore::factors(tree, cx, largest);
    note_incomplete(
        tree,
        cx,
        &[
            ("line", line.built.is_some()),
            ("string", string.built.is_some()),
            ("bore", bore.is_some()),
            ("site", site.is_some()),
            ("fluid", fluid.is_some()),
            ("rig", rig.is_some()),
            ("service", service.is_some()),
            ("factors", factors.is_some()),
        ],
    );
    let (line, design) = line.built?;
    Some(Project {
        name: name?.value,
        note: note.map(|n| n.value),
        site: site?,
        strata,
        line,
        design,
        coordinates,
        string: string.built?,
        bore: bore?,
        fluid: fluid?,
        rig: rig?,
        service: service?,
        factors: factors?,
        assumptions: cx.take_assumptions(),
        warnings: Vec::new(),
    })
}

/// Notes the parts that could not be built where no error says why: nobody may be sent away
/// without a word.
fn note_incomplete(tree: &Tree, cx: &mut Context<'_>, parts: &[(&str, bool)]) {
    if cx.report.errors() > 0 {
        return;
    }
    for (key, _) in parts.iter().filter(|(_, built)| !built) {
        let place = tree.one(key).map_or_else(Place::default, |record| record.place.clone());
        let message =
            format!("[{key}] does not give all that is needed, or values in it do not fit");
        cx.report
            .error("incomplete", &place, message)
            .hint(format!("give the fields of [{key}] that were left out, and check their units"));
    }
}

/// Notes a format that this version does not read; the rest of such a file would only raise wrong
/// questions.
fn format_is_known(cx: &mut Context<'_>, source: &str) -> bool {
    let (root, _) = DeTable::parse_recoverable(source);
    let Some(value) = root.get_ref().get("format") else { return true };
    let DeValue::Integer(number) = value.get_ref() else { return true };
    let read = i64::from_str_radix(number.as_str(), number.radix()).ok();
    if read == Some(i64::from(FORMAT)) {
        return true;
    }
    let place = Place { path: "/format".to_owned(), span: value.span() };
    let newer = read.is_none_or(|n| n > i64::from(FORMAT));
    let message = if newer {
        format!("the file has format {number}: it was written by a newer version of this program")
    } else {
        format!("format must be {FORMAT}, but was {number}")
    };
    let hint = if newer {
        format!("read it with that version; this one reads format {FORMAT}")
    } else {
        format!("write format = {FORMAT}")
    };
    cx.report
        .error("unknown_format", &place, message)
        .found(number.to_string())
        .allowed(FORMAT.to_string())
        .hint(hint);
    false
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::fields::{Shape, sections};

    const CREEK: &str = include_str!("../../../../demo/creek.toml");

    /// The demo with its line described in another way.
    fn with_line(line: &str) -> String {
        let start = CREEK.find("[line]").unwrap();
        let end = CREEK.find("[string]").unwrap();
        format!("{}[line]\n{line}\n{}", &CREEK[..start], &CREEK[end..])
    }

    fn with_pipe(pipe: &str) -> String {
        CREEK.replace("standard = \"EN 545\"\ndn = 400\nclass = \"K9\"", pipe)
    }

    const SURVEY: &str = "survey = [[0, -12, 64], [30, -12, 64], [100, 0, 64], [215, 0, 64], \
                          [250, 9, 64], [291, 9, 64]]";
    const ELEMENTS: &str = "entry_angle = 12\n[[line.element]]\nlength = 30\n[[line.element]]\n\
                            radius = 250\nturn = 12\ntoward = \"up\"\n[[line.element]]\nlength = \
                            100\n\
                            [[line.element]]\nradius = 300\nturn = 9\ntoward = \
                            0\n[[line.element]]\n\
                            length = 61";

    #[test]
    fn every_defined_field_is_asked_for() {
        let texts = [
            CREEK.to_owned(),
            with_line(SURVEY),
            with_line(ELEMENTS),
            with_pipe("standard = \"AWWA C151\"\nsize = 16\nclass = \"350 psi\""),
            with_pipe("standard = \"own\"\noutside_diameter = 429\nwall = 8.1"),
        ];
        let mut consumed = BTreeSet::new();
        for text in &texts {
            let mut cx = Context::new(Report::new("x.toml", text), &no_files, Technique::Drilling);
            assert!(read_in(&mut cx, text).is_some());
            consumed.extend(std::mem::take(&mut cx.consumed));
            assert_eq!(cx.report.errors(), 0);
        }
        let defined: BTreeSet<_> =
            sections().iter().flat_map(|s| s.fields.iter().map(|f| (s.key, f.key))).collect();
        let dead: Vec<_> = defined.difference(&consumed).collect();
        assert!(dead.is_empty(), "defined and never read: {dead:?}");
    }

    #[test]
    fn every_fixed_default_can_be_read() {
        let project = read("x.toml", &crate::starter(Technique::Drilling)).unwrap();
        for section in sections().iter().filter(|s| s.key != "fluid.readings") {
            for field in section.fields {
                let crate::fields::Need::Default(crate::fields::Fallback::Value(_), _) = field.need
                else {
                    continue;
                };
                let first = if section.shape == Shape::Array { "/0" } else { "" };
                let path = format!("{}{first}/{}", section.path(), field.key);
                assert!(project.assumptions.iter().any(|a| a.path == path), "{path}");
            }
        }
    }

    #[test]
    fn what_cannot_be_built_is_named_where_nothing_else_was() {
        let mut cx = Context::new(Report::new("x.toml", CREEK), &no_files, Technique::Drilling);
        let tree = read_tree(CREEK, Technique::Drilling, &mut cx.report);
        note_incomplete(&tree, &mut cx, &[("line", false), ("bore", true), ("rig", false)]);
        // With an error already noted nothing is added.
        note_incomplete(&tree, &mut cx, &[("string", false)]);
        let list = cx.report.finish();
        let found: Vec<_> = list.iter().map(|d| (d.code, d.path.as_str())).collect();
        assert_eq!(found, [("incomplete", "/line"), ("incomplete", "/rig")]);
    }
}

//! The commented file that a new crossing starts from.

use std::fmt::Write;

use crate::fields::{Field, Need, Section, Shape, Technique};

/// Widest line of a comment, in characters.
const WIDTH: usize = 96;

const HEAD: &str = "\
# A crossing. Every field that there is stands here with its meaning, what may be written, and
# what is taken when it is left out. Fields that may be left out begin with #: take it away to use
# them. A quantity is a text with a unit, as \"12 m\", \"40 ft\", \"9 deg\", \"16 %\", or a number in
# the unit that is named, bare or in quotes: 12 and \"12\" are the same. The numbers are an example
# and no advice.
";

/// Fields that the starter writes although a file may do without them: the cases of a common crossing, and what the
/// checks need to be made at all.
const ACTIVE: &[(&str, &[&str])] = &[
    ("site.obstacle", &["from", "to", "underside", "clearance", "settlement_limit", "heave_limit"]),
    ("line", &["run", "entry_angle", "exit_angle", "entry_radius", "exit_radius", "lowest_level"]),
    ("string", &["dn", "class"]),
    ("site", &["groundwater_level"]),
    ("ground.soil", &[]),
    ("ground.boring", &[]),
    ("bore", &["pilot_diameter", "ream"]),
    ("bore.rods", &["length", "diameter", "inside_diameter", "permitted_pull", "mass_per_length"]),
    ("bore.pilot", &["nozzles", "nozzle_diameter"]),
    ("bore.reaming", &["nozzles", "nozzle_diameter"]),
    ("fluid", &["gel_strength"]),
    ("fluid.readings", &["r100", "r6", "r3"]),
    ("rig", &["pullback"]),
    ("rig.pump", &["capacity", "pressure"]),
    ("host.stretch", &[]),
    ("run", &[]),
    (
        "pit",
        &[
            "launch_length",
            "launch_width",
            "machine_length",
            "machine_width",
            "plate_width",
            "plate_top",
            "plate_bottom",
        ],
    ),
    ("host", &["temporary_supply"]),
    ("service", &["operating_pressure", "maximum_design_pressure", "test_pressure"]),
];

/// The commented file that a new crossing starts from; it reads without error.
#[must_use]
pub fn starter(technique: Technique) -> String {
    let mut out = HEAD.to_owned();
    for section in technique.sections().iter().copied() {
        write_section(&mut out, section);
    }
    out
}

fn write_section(out: &mut String, section: &Section) {
    let active = is_active(section);
    out.push('\n');
    if !section.key.is_empty() {
        comment(out, section.meaning);
        let _ = writeln!(out, "{}{}", if active { "" } else { "#" }, section.header());
    }
    for field in section.fields {
        comment(out, field.meaning);
        let allowed = field.allowed_in_words().map_or_else(String::new, |a| format!(": {a}"));
        comment(out, &format!("  {}{allowed}", field.kind_in_words()));
        comment(out, &format!("  {}", field.need_in_words()));
        let mark = if active && is_written(section, field) { "" } else { "#" };
        let _ = writeln!(out, "{mark}{} = {}", field.key, field.example);
    }
}

/// Whether the section's header stands in the starter: not where an empty section would be an
/// error.
fn is_active(section: &Section) -> bool {
    let listed = ACTIVE.iter().any(|(key, _)| *key == section.key);
    let complete =
        section.fields.iter().all(|f| !matches!(f.need, Need::Required | Need::RequiredWhen(_)));
    listed || section.required || (section.shape == Shape::Table && complete)
}

fn is_written(section: &Section, field: &Field) -> bool {
    match field.need {
        Need::Required => true,
        Need::RequiredWhen(_) | Need::Optional(_) => {
            ACTIVE.iter().any(|(key, fields)| *key == section.key && fields.contains(&field.key))
        }
        Need::Default(..) => false,
    }
}

/// A comment, wrapped; leading spaces are kept on every line.
fn comment(out: &mut String, text: &str) {
    let words = text.trim_start();
    let indent = &text[..text.len() - words.len()];
    let mut line = format!("# {indent}");
    let start = line.len();
    for word in words.split_whitespace() {
        let longer = line.chars().count() + 1 + word.chars().count();
        if line.len() > start && longer > WIDTH {
            let _ = writeln!(out, "{line}");
            line.truncate(start);
        }
        if line.len() > start {
            line.push(' ');
        }
        line.push_str(word);
    }
    let _ = writeln!(out, "{line}");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_starter_names_every_field_and_keeps_to_the_width() {
        for technique in Technique::ALL {
            let text = starter(technique);
            for line in text.lines().filter(|l| l.starts_with("# ")) {
                assert!(line.chars().count() <= 100, "{line}");
            }
            for field in technique.sections().iter().flat_map(|s| s.fields) {
                assert!(
                    text.contains(&format!("\n{} = ", field.key))
                        || text.contains(&format!("\n#{} = ", field.key)),
                    "{}",
                    field.key
                );
            }
        }
    }
}

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

const RENEWAL_HEAD: &str = "\
# A main renewed by pipe bursting. Every field that there is stands here with its meaning, what
# may be written, and what is taken when it is left out. Fields that may be left out begin with #:
# take it away to use them. A quantity is a text with a unit, as \"12 m\", \"40 ft\", \"9 deg\",
# \"16 %\", or a number in the unit that is named, bare or in quotes: 12 and \"12\" are the same.
# The numbers are an invented example and no advice.
";

/// Values of a renewal that go together, in place of the examples of single fields: those of the demo.
const RENEWAL: &[(&str, &str, &str)] = &[
    ("", "name", "\"Street with an old main\""),
    ("site", "ground", "[[0, 31.4], [55, 31.2], [118, 30.8]]"),
    ("site", "groundwater_level", "\"27 m\""),
    ("site", "heave_limit", "\"40 mm\""),
    ("site", "settlement_limit", "\"20 mm\""),
    ("host", "axis", "[[0, 29.2], [118, 29.1]]"),
    ("host", "dn", "200"),
    ("host.stretch", "wall", "\"12 mm\""),
    ("ground.soil", "name", "\"trench fill\""),
    ("ground.soil", "kind", "\"medium dense sand\""),
    ("string", "dn", "250"),
    ("string", "socket_diameter", "\"345 mm\""),
    ("string", "protection", "\"12 mm\""),
    ("string.joint", "allowable_angle", "\"4 deg\""),
    ("string.joint", "permitted_pull", "\"350 kN\""),
    ("string.joint", "pressure", "\"35 bar\""),
    ("string.joint", "source", "\"invented certificate\""),
    ("burst", "lubricated", "\"yes\""),
    ("run", "launch", "\"118 m\""),
    ("run", "machine", "\"0 m\""),
    ("pit", "launch_width", "\"1.6 m\""),
    ("pit", "machine_length", "\"7 m\""),
    ("pit", "machine_width", "\"4 m\""),
    ("pit", "plate_width", "\"4 m\""),
    ("pit", "plate_top", "\"0.4 m\""),
    ("pit", "plate_bottom", "\"3.2 m\""),
    ("string", "assembly", "\"pipe by pipe\""),
    ("rig", "pullback", "\"1000 kN\""),
    ("service", "operating_pressure", "\"6 bar\""),
    ("service", "maximum_design_pressure", "\"10 bar\""),
    ("service", "test_pressure", "\"15 bar\""),
];

/// The value of a field in the starter of a renewal, where its own example would not go with the others.
fn of_renewal(section: &Section, field: &Field) -> Option<&'static str> {
    let found = RENEWAL.iter().find(|(at, key, _)| *at == section.key && *key == field.key);
    found.map(|(_, _, value)| *value)
}

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
    let head = if technique == Technique::Drilling { HEAD } else { RENEWAL_HEAD };
    let mut out = head.to_owned();
    for section in technique.sections().iter().copied() {
        write_section(&mut out, section, technique == Technique::Bursting);
    }
    out
}

fn write_section(out: &mut String, section: &Section, renewal: bool) {
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
        let own = if renewal { of_renewal(section, field) } else { None };
        let written = own.is_some() || is_written(section, field);
        let mark = if active && written { "" } else { "#" };
        let _ = writeln!(out, "{mark}{} = {}", field.key, own.unwrap_or(field.example));
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

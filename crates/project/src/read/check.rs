//! Checks across sections of the file.

use std::collections::BTreeSet;

use ground::GroundLine;
use quantity::{Length, unit};

use super::bore_line::LineOfFile;
use crate::context::Context;
use crate::diagnostic::brief;
use crate::tree::Tree;
use crate::wording::shown;

/// Ends of the bore that differ more than this from the ground line are worth a warning, m.
const END_OFF_GROUND: f64 = 0.5;

/// Warns where the bore begins or ends off the ground line.
pub(super) fn ends(
    tree: &Tree,
    cx: &mut Context<'_>,
    ground: Option<&GroundLine>,
    line: &LineOfFile,
) {
    let (Some(record), Some(ground)) = (tree.one("line"), ground) else { return };
    let ends = [
        ("entry_level", "entry", Some(Length::ZERO), line.entry.level),
        (line.exit_key(), "exit", line.run, line.exit.level),
    ];
    for (key, end, chainage, level) in ends {
        let surface = chainage.and_then(|x| ground.level_at(x).ok());
        let (Some(surface), Some(level)) = (surface, level) else { continue };
        let off = (level - surface).si();
        if off.abs() <= END_OFF_GROUND {
            continue;
        }
        let side = if off > 0.0 { "above" } else { "below" };
        let by = shown(off.abs(), unit::M);
        let message = format!("the {end} point lies {by} {side} the ground line");
        cx.ask(record)
            .warning("end_off_ground", key, message)
            .found(shown(level.si(), unit::M))
            .allowed(format!("about {}", shown(surface.si(), unit::M)))
            .hint("right for a pit or a ramp; else correct the level or the ground line");
    }
}

/// Names of obstacles make the ids of their checks and must differ.
pub(super) fn names(tree: &Tree, cx: &mut Context<'_>) {
    let mut seen = BTreeSet::new();
    for record in tree.all("site.obstacle") {
        let mut ask = cx.ask(record);
        let Some(name) = ask.text("name") else { continue };
        if !seen.insert(name.value.to_lowercase()) {
            let message = format!("there are two obstacles named \"{}\"", brief(&name.value));
            ask.error("name_twice", "name", message)
                .hint("give every obstacle a name of its own: checks are named after it");
        }
    }
}

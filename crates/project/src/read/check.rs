//! Checks across sections of the file.

use std::collections::BTreeSet;

use ground::GroundLine;
use quantity::unit;

use super::bore_line::{GroundLevel, LineOfFile};
use crate::context::Context;
use crate::diagnostic::brief;
use crate::model::LineDesign;
use crate::tree::Tree;
use crate::wording::shown;

/// Ends of the bore that differ more than this from the ground line are worth a warning, m.
const END_OFF_GROUND: f64 = 0.5;

/// Warns where the bore begins or ends off the ground line.
pub(super) fn ends(
    tree: &Tree,
    cx: &mut Context<'_>,
    ground: &Option<GroundLine>,
    line: &LineOfFile,
) {
    let Some(record) = tree.one("line") else { return };
    let (entry, exit) = super::ends(&line.line);
    let exit_key = match line.design {
        LineDesign::Level(_) => "exit_level",
        LineDesign::Elements => "element",
        LineDesign::Survey => "survey",
    };
    for (key, end, chainage, level) in
        [("entry_level", "entry", 0.0, entry), (exit_key, "exit", line.line.run().si(), exit)]
    {
        let Some(surface) = ground.level(chainage) else { continue };
        let off = level - surface;
        if off.abs() <= END_OFF_GROUND {
            continue;
        }
        let side = if off > 0.0 { "above" } else { "below" };
        let by = shown(off.abs(), unit::M);
        let message = format!("the {end} point lies {by} {side} the ground line");
        cx.ask(record)
            .warning("end_off_ground", key, message)
            .found(shown(level, unit::M))
            .allowed(format!("about {}", shown(surface, unit::M)))
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

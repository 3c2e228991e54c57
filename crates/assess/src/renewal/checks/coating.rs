//! The coating of the new main against what is left of the old one.

use project::{Material, Yields};
use quantity::unit;
use working::{Evidence, Source};

use super::COUNT;
use crate::assessment::{Reading, Stage};
use crate::item::{About, Item};
use crate::renewal::context::Context;

const FRAGMENTS: Source = Source::new(
    "fragments and cut edges of the host stay in the ground and scratch what is pulled past them; mortar bears them",
    Evidence::FromMemory,
);

/// Whether a coating bears what a material leaves in the ground: mortar bears all, plastics bear plastics.
fn bears(coating: &str, material: Material) -> bool {
    match coating {
        "fibre mortar" => true,
        "polyethylene" | "polyurethane" => matches!(material, Material::Pvc | Material::Pe),
        _ => false,
    }
}

/// Whether the new pipe's coating bears the fragments of the host; advice.
pub(super) fn coating(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let about = About::new(
        "burst.coating",
        "stretches whose fragments the new coating does not bear",
        Stage::Design,
        FRAGMENTS,
    )
    .rule();
    let list: Vec<_> = r
        .host
        .stretches
        .iter()
        .filter(|s| s.material.yields() != Yields::Not)
        .filter(|s| r.runs.iter().any(|run| run.stretch().0 < s.to && run.stretch().1 > s.from))
        .collect();
    let sharp: Vec<_> = list.iter().filter(|s| !bears(r.coating, s.material)).collect();
    #[expect(clippy::cast_precision_loss, reason = "a count of stretches")]
    let (count, whole) = (sharp.len() as f64, list.len() as f64);
    let because = match sharp.first() {
        None => format!("\"{}\" bears what is left of the old main", r.coating),
        Some(s) => format!(
            "coating \"{}\" is pulled past fragments or edges of {} from {} to {}: take fibre mortar, or protect it and look at the first pipe that comes out",
            r.coating,
            s.material.word(),
            s.from,
            s.to
        ),
    };
    let one = |v: f64| Reading::new(v, unit::ONE);
    let item = about.at_most(one(count), one(0.0), r.factors.attention, because).advice();
    let item = match sharp.first() {
        Some(s) => item.at(s.from),
        None => item,
    };
    item.worked(c.working(|w| {
        w.found("n", "stretches in the runs", "count", whole, unit::ONE, COUNT);
        w.found("k", "whose fragments the coating does not bear", "count", count, unit::ONE, COUNT);
        w.derive("U", "none is allowed", "k", unit::ONE, COUNT);
    }))
    .note("Mortar bears every host; polyethylene and polyurethane bear plastic hosts only; bare or painted iron is not made for pulling in.")
}

//! The pull at the rig against rods and rig.

use pull::chain::HeadPosition;
use quantity::{Force, unit};
use working::{Builder, Evidence, Source};

use super::RATIO;
use super::pull::{MARCH, beside, exceeded_by, kilonewtons};
use crate::assessment::Stage;
use crate::context::Context;
use crate::item::{About, Item};
use crate::quoted::from_chain;

/// The lines that lead from the head to the rig, with the pull at the rig and the head position.
pub(super) fn rig_lines(c: &Context<'_>, force: Force, head: &HeadPosition, w: &mut Builder) {
    let p = c.project;
    from_chain(w, "s_head", "head's measured distance from the entry point", head.md.si(), unit::M);
    w.found(
        "F_head",
        "pull at the head then",
        "march of the chain from the tail to the head",
        head.force.si(),
        unit::KN,
        MARCH,
    );
    w.given_from(
        "F_ream",
        "reamer and swivel",
        p.rig.reamer_force.si(),
        unit::KN,
        p.source_of("/rig/reamer_force"),
    );
    w.found(
        "F_rods",
        "rods from the head to the rig: friction, weight and fluid drag",
        "soft string over the rest of the bore, from F_head + F_ream",
        force.si() - head.force.si() - p.rig.reamer_force.si(),
        unit::KN,
        Source::new("soft string, SPE 11380", Evidence::Published),
    );
    w.result("F_rig", "pull at the rig", "F_head + F_ream + F_rods", force.si(), unit::KN, MARCH);
}

fn rods_remark(c: &Context<'_>) -> &'static str {
    let rods = &c.project.bore.rods;
    match (rods.mass_per_length, rods.diameter) {
        (Some(_), Some(_)) => "the rods' weight and drag are included",
        (None, Some(_)) => "the rods' mass is not given: their weight is left out",
        _ => "the rods' mass and diameter are not given: only their friction in curves is included",
    }
}

/// Greatest pull at the rig against the rods.
pub(super) fn rods(c: &Context<'_>) -> Item {
    rig_side(
        c,
        About::new(
            "pull.rods",
            "greatest pull in the rods",
            Stage::Pull,
            c.project.source_of("/bore/rods/permitted_pull"),
        ),
        c.project.bore.rods.permitted_pull,
        1.0,
        ("/bore/rods/permitted_pull", "the permitted pull of the rods is not given"),
        ("F_perm", "permitted pull of the rods"),
    )
}

/// Greatest pull at the rig against the rig.
pub(super) fn rig(c: &Context<'_>) -> Item {
    rig_side(
        c,
        About::new(
            "pull.rig",
            "greatest pull at the rig",
            Stage::Pull,
            c.project.source_of("/factors/rig_share"),
        ),
        c.project.rig.pullback,
        c.project.factors.rig_share,
        ("/rig/pullback", "the pull of the rig is not given"),
        ("F_cap", "pull of the rig"),
    )
    .note("The rig's capacity is never the limit of the string: a force limiter or load cell at the head must guard the joint.")
}

fn rig_side(
    c: &Context<'_>,
    about: About,
    capacity: Option<Force>,
    share: f64,
    missing: (&str, &str),
    symbol: (&str, &str),
) -> Item {
    let p = c.project;
    let run = match c.design() {
        Ok(run) => run,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    let Some((force, head)) = run.rig_force() else {
        return about.not_assessed(&[], "the pull has no head position");
    };
    let Some(capacity) = capacity else {
        return about.not_assessed(&[missing.0], missing.1).acting(kilonewtons(force)).at(head.md);
    };
    let because = format!(
        "greatest with the head at {}: {} at the head, {} for the reamer, the rest in the rods; {}{}",
        head.md,
        head.force,
        p.rig.reamer_force,
        rods_remark(c),
        beside(c, |r| r.rig_force().map(|(f, head)| (f, head.md)))
    );
    about
        .at_most(kilonewtons(force), kilonewtons(capacity * share), p.factors.attention, because)
        .at(head.md)
        .beside_the_band(&exceeded_by(c, capacity * share, p.rig.reamer_force))
        .worked(c.working(|w| {
            rig_lines(c, force, head, w);
            w.given(symbol.0, symbol.1, capacity.si(), unit::KN);
            w.given_from(
                "q",
                "share that the check may use",
                share,
                unit::ONE,
                if share < 1.0 { p.source_of("/factors/rig_share") } else { RATIO },
            );
            w.derive("U", "utilisation", &format!("F_rig/(q*{})", symbol.0), unit::ONE, RATIO);
        }))
}

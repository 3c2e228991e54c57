//! The start after a stop.

use project::Assembly;
use pull::chain::HeadPosition;
use quantity::{Force, unit};
use working::{Evidence, Source};

use super::pull::{inputs, kilonewtons};
use crate::assessment::{Stage, Status};
use crate::context::{Context, Run};
use crate::item::{About, Item};

const RATIO: Source = Source::new("demand over limit", Evidence::Derived);

/// Head positions from which the string must be started, and how to call them.
fn stops<'a>(c: &Context<'_>, run: &'a Run) -> (Vec<(usize, &'a HeadPosition)>, &'static str) {
    let heads = run.pull.heads.iter().enumerate();
    match &c.project.string.assembly {
        Assembly::String => (heads.collect(), "an unplanned stop anywhere"),
        Assembly::PipeByPipe => {
            let end = c.project.line.length() - c.project.string.pipe.laying_length() * 0.5;
            (heads.filter(|(_, h)| h.advance < end).collect(), "the stop at every joint")
        }
        Assembly::SubStrings(_) => {
            let a = c.project.string.pipe.laying_length();
            // The last string is pulled to the end; nothing is joined there.
            let stops = c.joined.split_last().map_or(&[][..], |(_, stops)| stops);
            let near =
                |h: &HeadPosition| stops.iter().any(|(_, s)| (*s - h.advance).abs() < a * 0.5);
            (heads.filter(|(_, h)| near(h)).collect(), "the planned stops between strings")
        }
    }
}

/// Break-out force after a stop against joint and rig.
pub(super) fn restart(c: &Context<'_>) -> Item {
    let p = c.project;
    let about = || {
        About::new(
            "pull.restart",
            "start after a stop: joint, rig and rods",
            Stage::Pull,
            p.source_of("/factors/restart"),
        )
    };
    let run = match c.restart() {
        Ok(run) => run,
        Err(m) => return about().not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    let (stops, which) = stops(c, run);
    let joint = stops
        .iter()
        .map(|(_, h)| (h.tension.value, *h))
        .reduce(|a, b| if b.0 > a.0 { b } else { a });
    let rig = stops
        .iter()
        .map(|(i, h)| (run.rig.get(*i).copied().unwrap_or(Force::ZERO), *h))
        .reduce(|a, b| if b.0 > a.0 { b } else { a });
    let (Some(joint), Some(rig)) = (joint, rig) else {
        return about().not_assessed(&[], "there is no stop to start from");
    };
    let permitted = p.string.joint.permitted_pull.as_ref().map(|v| v.value);
    // An unplanned stop may ask for all the rig has; planned ones keep the same reserve as the pull.
    let (share, whole) = match p.string.assembly {
        Assembly::String => (1.0, "the whole pull of the rig"),
        _ => (p.factors.rig_share, "the rig's pull less its reserve"),
    };
    let limits = [
        ("/string/joint/permitted_pull", "the permitted pull of the joint", permitted, joint),
        ("/rig/pullback", whole, p.rig.pullback.map(|r| r * share), rig),
        (
            "/bore/rods/permitted_pull",
            "the permitted pull of the rods",
            p.bore.rods.permitted_pull,
            rig,
        ),
    ];
    let missing: Vec<String> =
        limits.iter().filter(|l| l.2.is_none()).map(|l| l.0.to_owned()).collect();
    let worst = limits
        .iter()
        .filter_map(|(_, who, limit, (force, head))| Some((*force, *head, (*limit)?, *who)))
        .reduce(|a, b| if b.0 / b.2 > a.0 / a.2 { b } else { a });
    let Some((demand, head, limit, who)) = worst else {
        return about()
            .not_assessed(
                &[],
                "neither the joint's permitted pull nor that of rig and rods is known",
            )
            .missing(&missing)
            .acting(kilonewtons(joint.0));
    };
    let gel = p.fluid.gel_strength.map_or_else(
        || "no gel strength is given, so that only the wall friction rises".to_owned(),
        |g| {
            let gel = quantity::show(g.si(), unit::PA);
            format!("the gel of {gel} acts on the string where it exceeds the fluid stress")
        },
    );
    let half = if missing.is_empty() { "" } else { "; the others are not all known" };
    let because = format!(
        "{which}, worst with the head at {}, against {who}{half}; wall friction × {}; {gel}",
        head.md, p.factors.restart
    );
    let mut item = about()
        .at_most(kilonewtons(demand), kilonewtons(limit), p.factors.attention, because)
        .at(head.md)
        .missing(&missing)
        .worked(c.working(|w| {
            inputs(c, run, w);
            w.given_from(
                "k",
                "factor on the wall friction",
                p.factors.restart,
                unit::ONE,
                p.source_of("/factors/restart"),
            );
            w.derive("mu_k", "wall friction at the start", "k*mu", unit::ONE, RATIO);
            if let Some(gel) = p.fluid.gel_strength {
                w.given("tau_gel", "gel strength", gel.si(), unit::PA);
                w.derive(
                    "tau_k",
                    "stress on the string at the start",
                    "max(tau, tau_gel)",
                    unit::PA,
                    RATIO,
                );
            }
            w.found(
                "F_k",
                "force to start",
                "march of the chain with these values, from the tail to the head",
                demand.si(),
                unit::KN,
                Source::new("balance of forces joint by joint along the bore", Evidence::Derived),
            );
            w.given("F_lim", who, limit.si(), unit::KN);
            w.derive("U", "utilisation", "F_k/F_lim", unit::ONE, RATIO);
        }));
    if !missing.is_empty() {
        // Part of a check is not a pass.
        if item.check.status != Status::Fail {
            item.check.status = Status::NotAssessed;
        }
    }
    item.note("No published factor for the start after a stop was found; 1.2 to 1.5 on the wall friction is judgement. Soil settles on the string within minutes to hours: keep stops short.")
}

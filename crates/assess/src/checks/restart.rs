//! The start after a stop.

use project::Assembly;
use pull::chain::HeadPosition;
use quantity::{Force, unit};
use working::{Evidence, Source};

use super::RATIO;
use super::pull::{inputs, kilonewtons};
use super::rig::rig_lines;
use crate::assessment::{Stage, Status};
use crate::context::{Context, Run};
use crate::item::{About, Item};

const DEFINITION: Source = Source::new("definition of the check", Evidence::Derived);

/// A capacity that the start must not exceed.
struct Bound<'a> {
    /// Key of the crossing file that gives it.
    key: &'static str,
    who: &'static str,
    /// From which stops.
    which: &'static str,
    capacity: Option<Force>,
    source: Source,
    /// Share of it that may be used, with the source of the share.
    share: (f64, Source),
    /// Whether rods and reamer add to the pull at the head.
    at_rig: bool,
    acting: (Force, &'a HeadPosition),
}

impl Bound<'_> {
    fn limit(&self) -> Option<Force> {
        self.capacity.map(|capacity| capacity * self.share.0)
    }

    fn utilisation(&self) -> Option<f64> {
        self.limit().map(|limit| self.acting.0 / limit)
    }
}

/// Head positions from which the string may have to be started.
struct Stops<'a> {
    which: &'static str,
    planned: bool,
    /// Pull at the rig and head position.
    heads: Vec<(Force, &'a HeadPosition)>,
}

/// The stops where something is joined, if there are any, then an unplanned one anywhere.
fn stops<'a>(c: &Context<'_>, run: &'a Run) -> Vec<Stops<'a>> {
    let heads = || run.rig.iter().copied().zip(&run.pull.heads);
    let a = c.project.string.pipe.laying_length();
    let mut all = Vec::new();
    let mut planned = |which, heads: Vec<_>| all.push(Stops { which, planned: true, heads });
    match &c.project.string.assembly {
        Assembly::String => {}
        Assembly::PipeByPipe => {
            let end = c.project.line.length() - a * 0.5;
            planned("the stop at every joint", heads().filter(|(_, h)| h.advance < end).collect());
        }
        Assembly::SubStrings(_) => {
            // The last string is pulled to the end; nothing is joined there.
            let stops = c.joined.split_last().map_or(&[][..], |(_, stops)| stops);
            let near =
                |h: &HeadPosition| stops.iter().any(|(_, s)| (*s - h.advance).abs() < a * 0.5);
            planned(
                "the planned stops between strings",
                heads().filter(|(_, h)| near(h)).collect(),
            );
        }
    }
    let which = "an unplanned stop anywhere";
    all.push(Stops { which, planned: false, heads: heads().collect() });
    all
}

/// Joint, rig and rods as they bound the start from some stops; none where there is no stop.
fn bounds<'a>(c: &Context<'_>, stops: &Stops<'a>) -> Vec<Bound<'a>> {
    let p = c.project;
    let greatest = |of: fn(Force, &HeadPosition) -> Force| {
        let forces = stops.heads.iter().map(|(rig, h)| (of(*rig, h), *h));
        forces.reduce(|a, b| if b.0 > a.0 { b } else { a })
    };
    let joint = greatest(|_, h| h.tension.value);
    let rig = greatest(|rig, _| rig);
    let (Some(joint), Some(rig)) = (joint, rig) else { return Vec::new() };
    let permitted = p.string.joint.permitted_pull.as_ref();
    let whole = || (1.0, Source::new("the whole capacity", Evidence::Derived));
    // An unplanned stop may ask for all the rig has; planned ones keep the same reserve as the pull.
    let (share, of_rig) = if stops.planned {
        let share = (p.factors.rig_share, p.source_of("/factors/rig_share"));
        (share, "the rig's pull less its reserve")
    } else {
        (whole(), "the whole pull of the rig")
    };
    let of = |key, who, capacity, source, share, at_rig| {
        let acting = if at_rig { rig } else { joint };
        Bound { key, who, which: stops.which, capacity, source, share, at_rig, acting }
    };
    let (joint_key, rig_key, rods_key) =
        ("/string/joint/permitted_pull", "/rig/pullback", "/bore/rods/permitted_pull");
    vec![
        of(
            joint_key,
            "the permitted pull of the joint",
            permitted.map(|v| v.value),
            permitted.map_or(RATIO, |v| v.source.clone()),
            whole(),
            false,
        ),
        of(rig_key, of_rig, p.rig.pullback, p.source_of(rig_key), share, true),
        of(
            rods_key,
            "the permitted pull of the rods",
            p.bore.rods.permitted_pull,
            p.source_of(rods_key),
            whole(),
            true,
        ),
    ]
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
    let bounds: Vec<_> = stops(c, run).iter().flat_map(|s| bounds(c, s)).collect();
    let Some(joint) = bounds.iter().find(|b| !b.at_rig) else {
        return about().not_assessed(&[], "there is no stop to start from");
    };
    let mut missing: Vec<String> = Vec::new();
    for bound in bounds.iter().filter(|b| b.capacity.is_none()) {
        if !missing.iter().any(|key| key == bound.key) {
            missing.push(bound.key.to_owned());
        }
    }
    let worst = bounds
        .iter()
        .filter(|b| b.capacity.is_some())
        .reduce(|a, b| if b.utilisation() > a.utilisation() { b } else { a });
    let Some((worst, limit)) = worst.and_then(|b| Some((b, b.limit()?))) else {
        return about()
            .not_assessed(
                &[],
                "neither the joint's permitted pull nor that of rig and rods is known",
            )
            .missing(&missing)
            .acting(kilonewtons(joint.acting.0));
    };
    let gel = p.fluid.gel_strength.map_or_else(
        || "no gel strength is given, so that only the wall friction rises".to_owned(),
        |g| {
            let gel = quantity::show(g.si(), unit::PA);
            format!("the gel of {gel} acts on the string where it exceeds the fluid stress")
        },
    );
    let (demand, head) = worst.acting;
    let (who, which) = (worst.who, worst.which);
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
            w.derive("mu_k", "wall friction at the start", "k*mu", unit::ONE, DEFINITION);
            if let Some(gel) = p.fluid.gel_strength {
                w.given("tau_gel", "gel strength", gel.si(), unit::PA);
                w.derive(
                    "tau_k",
                    "stress on the string at the start",
                    "max(tau, tau_gel)",
                    unit::PA,
                    DEFINITION,
                );
            }
            if worst.at_rig {
                rig_lines(c, demand, head, w);
            } else {
                w.found(
                    "F_k",
                    "greatest tension at the start",
                    "march of the chain with these values, from the tail to the head",
                    demand.si(),
                    unit::KN,
                    Source::new(
                        "balance of forces joint by joint along the bore",
                        Evidence::Derived,
                    ),
                );
            }
            let capacity = worst.capacity.map_or(f64::NAN, Force::si);
            w.given_from(
                "F_cap",
                "capacity: joint, rig or rods as named above",
                capacity,
                unit::KN,
                worst.source.clone(),
            );
            w.given_from(
                "q",
                "share of it that the start may use",
                worst.share.0,
                unit::ONE,
                worst.share.1.clone(),
            );
            w.result("F_lim", who, "q*F_cap", limit.si(), unit::KN, DEFINITION);
            let formula = if worst.at_rig { "F_rig/F_lim" } else { "F_k/F_lim" };
            w.derive("U", "utilisation", formula, unit::ONE, RATIO);
        }));
    if !missing.is_empty() {
        // Part of a check is not a pass.
        if item.check.status != Status::Fail {
            item.check.status = Status::NotAssessed;
        }
    }
    item.note("No published factor for the start after a stop was found; 1.2 to 1.5 on the wall friction is judgement. Soil settles on the string within minutes to hours: keep stops short.")
}

//! The force on the machine.

use project::Yields;
use quantity::{Force, unit};

use super::force_lines::lines;
use super::{RATIO, kilonewtons};
use crate::assessment::Stage;
use crate::item::{About, Item};
use crate::renewal::context::Context;
use crate::renewal::forces::{HIGH, PLANNING, RunForces, worst_run};

/// Greatest force on the machine against its pull.
pub(super) fn rig(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let about = About::new(
        "burst.force.rig",
        "force on the machine: planning value of the band",
        Stage::Pull,
        r.source_of("/factors/rig_share"),
    );
    let runs = match c.forces() {
        Ok(runs) => runs,
        Err(m) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
    };
    let Some(f) = worst_run(runs) else {
        return about.not_assessed(&["/run"], "no run is given");
    };
    let planning = f.rig[PLANNING];
    let Some(pullback) = r.machine.pullback else {
        return about
            .not_assessed(&["/rig/pullback"], "the pull of the machine is not given")
            .acting(kilonewtons(planning))
            .at(f.worst.at);
    };
    let limit = pullback * r.factors.rig_share;
    let name = |f: &RunForces| r.runs.get(f.run).map_or("", |run| run.name.as_str());
    let highest = runs
        .iter()
        .reduce(|a, b| if b.rig[HIGH] > a.rig[HIGH] { b } else { a })
        .map_or(f, |highest| highest);
    let p = &f.worst;
    let elsewhere = if highest.run != f.run && highest.rig[HIGH] > limit {
        format!("; run {} reaches {} at the high end", name(highest), highest.rig[HIGH])
    } else {
        String::new()
    };
    let because = format!(
        "run {}, greatest with the head at {}: {} to open the old main{}, {} for the cone, {} in the string; band {} to {}{}{elsewhere}",
        name(f),
        p.at,
        p.breaking[PLANNING],
        if p.spike { " where its blades cut a clamp or coupling" } else { "" },
        p.cone[PLANNING],
        p.string[PLANNING],
        f.rig[0],
        f.rig[HIGH],
        above(f.rig[HIGH], limit)
    );
    let unsure = unsure(c);
    let mut item = about
        .at_most(kilonewtons(planning), kilonewtons(limit), r.factors.attention, because)
        .at(p.at)
        .attend(highest.rig[HIGH] > limit || !unsure.is_empty())
        .worked(c.working(|w| {
            lines(c, f, w);
            w.given("F_cap", "pull of the machine", pullback.si(), unit::KN);
            w.given_from("q", "share that the check may use", r.factors.rig_share, unit::ONE, r.source_of("/factors/rig_share"));
            w.derive("U", "utilisation", "F_rig/(q*F_cap)", unit::ONE, RATIO);
        }))
        .note("No formula for this pull is generally accepted. The band says how far usual values spread; the breaking force is proportional to a length in contact that nobody has measured.")
        .note("Prism load on the whole barrel stands beside the band: with it a published pull of ductile iron DN 200 over 168 m would hardly have been possible with its machine.")
        .note("Traffic on the surface is not in it: the surcharge of the drag is zero.")
        .note("Bends ahead of the head add nothing: the factor of the rods is 1, as they hang on the head through the empty bore.");
    for sentence in unsure {
        item = item.note(sentence);
    }
    if p.spike {
        item = item.note("Blades that cut a clamp or coupling pull in spikes. The factor is remembered for pipe that is split; that it holds for pipe that breaks, and that planning takes its lower end, is a judgement.");
    }
    item
}

/// What the model of a material in the runs leaves open.
fn unsure(c: &Context<'_>) -> Vec<&'static str> {
    let r = c.renewal;
    let any = |yields: Yields| {
        let mut all = r.runs.iter().flat_map(|run| c.stretches_of(run));
        all.any(|s| s.material.yields() == yields)
    };
    let split = "Pipe that is split, as steel and ductile iron, has a model of its own, good to the order of magnitude: its figures must not be compared with those of pipe that breaks. Ductile pipe is not easier to open than grey iron because its figure is lower.";
    let steel = "The model of reinforced concrete leaves its steel out: the force is that of plain concrete, too low by what it takes to tear the bars. Figures across models must not be compared.";
    let mut list = Vec::new();
    list.extend(any(Yields::Split).then_some(split));
    list.extend(any(Yields::Doubtful).then_some(steel));
    list
}

/// The sentence on the high end of the band.
pub(super) fn above(high: Force, limit: Force) -> String {
    if high > limit {
        format!(", whose high end is above the limit of {limit}")
    } else {
        String::new()
    }
}

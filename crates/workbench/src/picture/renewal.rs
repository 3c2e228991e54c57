//! Picture of a renewal by bursting; chainage runs along the old main.

use assess::Assessment;
use project::{NeighbourPlace, Renewal};
use quantity::{Length, System, unit};

use super::handles::{Handle, Motion};
use super::section::{self, Section, Sign};
use super::strips::{Strip, curve, limit, strip};
use super::{Cross, Parts};

/// Share of the length that is shown beyond the ends.
const BESIDE: f64 = 0.04;

pub(super) fn parts<'a>(r: &'a Renewal, a: &Assessment) -> Parts<'a> {
    Parts {
        section: section(r),
        strips: strips(r, a),
        plan: None,
        cross: cross(r),
        handles: handles(r, quantity::reader()),
        chainage_of: Box::new(|chainage| chainage),
    }
}

fn section(r: &Renewal) -> Section {
    let axis = &r.host.axis;
    let (from, to) = (axis.from().si(), axis.to().si());
    let beside = (to - from) * BESIDE;
    let expander = r.burst.expander_diameter.or_else(|| r.string.pipe.largest_diameter());
    Section {
        from: from - beside,
        to: to + beside,
        ground: section::ground_points(&r.street.ground),
        groundwater: r.street.groundwater_level.map(Length::si),
        obstacles: r.street.neighbours.iter().map(neighbour).collect(),
        axis: axis.points().map(|(x, z)| [x.si(), z.si(), x.si()]).collect(),
        radius: 0.5 * expander.unwrap_or(r.string.pipe.barrel_diameter()).si(),
        signs: signs(r),
        ..Section::default()
    }
}

fn neighbour(n: &project::Neighbour) -> section::Obstacle {
    let (from, to) = match n.place {
        NeighbourPlace::Crossing { at } => (at - n.diameter / 2.0, at + n.diameter / 2.0),
        NeighbourPlace::Beside { from, to, .. } => (from, to),
    };
    section::Obstacle {
        name: n.name.clone(),
        kind: n.kind,
        from: from.si(),
        to: to.si(),
        level: n.level.si(),
        diameter: Some(n.diameter.si()),
        clearance: None,
        check: None,
    }
}

fn signs(r: &Renewal) -> Vec<Sign> {
    let sign =
        |at: Length, kind: &str, label: String| Sign { at: at.si(), kind: kind.to_owned(), label };
    let mut list = Vec::new();
    for run in &r.runs {
        list.push(sign(run.launch, "launch-pit", format!("launch pit, run {}", run.name)));
        list.push(sign(run.machine, "machine-pit", format!("machine pit, run {}", run.name)));
    }
    for feature in &r.host.features {
        let action = feature.action.map_or(String::new(), |a| format!(": {a}"));
        list.push(sign(feature.at, "feature", format!("{}{action}", feature.kind)));
    }
    for bend in &r.host.bends {
        let label = format!("bend {}", quantity::show(bend.angle.si(), unit::DEG));
        list.push(sign(bend.at, "bend", label));
    }
    for service in &r.host.services {
        let label = service.name.clone().unwrap_or_else(|| "service".to_owned());
        list.push(sign(service.at, "service", label));
    }
    list
}

fn handles(r: &Renewal, system: System) -> Vec<Handle> {
    let level = |x: Length| r.host.axis.level_extended(x).si();
    let step = unit::M.in_system(system).to_si(if system == System::Metric { 0.5 } else { 1.0 });
    let mut list = Vec::new();
    for (run, k) in r.runs.iter().zip(0..) {
        for (key, word, at) in
            [("launch", "launch pit", run.launch), ("machine", "machine pit", run.machine)]
        {
            list.push(Handle {
                id: format!("run-{}-{key}", k + 1),
                label: format!("{word} of run {}", run.name),
                path: format!("/run/{k}/{key}"),
                unit: "m",
                value: at.si(),
                step,
                shown: at.to_string(),
                at: [at.si(), level(at)],
                motion: Motion::Chainage,
            });
        }
    }
    list
}

fn strips(r: &Renewal, a: &Assessment) -> Vec<Strip> {
    let same = |chainage: f64| chainage;
    let of = |id: &str, name: &str, role| curve(a, id, name, role, &same);
    let mut list = Vec::new();
    let ends = [("planning", "acts"), ("low", "expected"), ("high", "peak")];
    for (title, id, what, limits) in [
        (
            "force on the machine",
            "burst-rig",
            "rig",
            &[("burst.force.rig", "machine"), ("burst.reaction-wall", "reaction wall")][..],
        ),
        ("force in the string", "burst-string", "string", &[("pull.joint-force", "joint")][..]),
    ] {
        let curves = r.runs.iter().zip(1..).flat_map(|(run, k)| {
            let name = &run.name;
            ends.map(|(end, role)| {
                of(&format!("burst.force.{what}.{end}.{k}"), &format!("run {name}, {end}"), role)
            })
        });
        let limits = limits.iter().map(|(check, word)| limit(a, check, word));
        list.push(strip(id, title, "N", curves.collect(), limits.collect()));
    }
    let heaves = r
        .runs
        .iter()
        .zip(1..)
        .map(|(run, k)| of(&format!("burst.heave.{k}"), &format!("run {}", run.name), "acts"));
    list.push(strip(
        "heave",
        "heave of the surface while the head passes",
        "m",
        heaves.collect(),
        vec![r.street.heave_limit.map(|h| ("borne".to_owned(), h.si()))],
    ));
    list.push(strip(
        "cover",
        "ground above the new barrel",
        "m",
        vec![of("host.cover", "cover", "acts")],
        Vec::new(),
    ));
    list.into_iter().flatten().collect()
}

fn cross(r: &Renewal) -> Cross {
    let mut circles = Vec::new();
    if let Some(expander) = r.burst.expander_diameter {
        circles.push(("expander".to_owned(), expander.si()));
    }
    if let Some(stretch) = r.host.stretches.first() {
        let outside = stretch.inside_diameter + stretch.wall * 2.0;
        circles.push(("old main, outside".to_owned(), outside.si()));
        circles.push(("old main, inside".to_owned(), stretch.inside_diameter.si()));
    }
    Cross {
        circles,
        socket: r.string.pipe.largest_diameter().map(Length::si),
        barrel: r.string.pipe.barrel_diameter().si(),
        floats: None,
    }
}

//! Which values may help which check.

use pipe::Contents;
use project::Project;
use quantity::{Force, Length, Pressure, unit};

use super::fluid_knobs;
use super::knob::{Choice, Knob};
use super::line_knobs::{end_angle, lowest_level, radii};
use crate::context::Context;

/// Values that may help a check, the most usual change first.
pub(super) fn knobs(project: &Project, id: &str) -> Vec<Knob> {
    let rig = || {
        let set: fn(&mut Project, Force) = |p, f| p.rig.pullback = Some(f);
        force("/rig/pullback", project.rig.pullback, "a rig of at least this", set)
    };
    match id {
        "line.entry-angle" => end_angle(project, true, false).into_iter().collect(),
        "line.exit-angle" => end_angle(project, false, false).into_iter().collect(),
        "line.straight-entry" => {
            lowest_level(project, -10.0).into_iter().chain(radii(project, false)).collect()
        }
        "line.radius-rods" | "line.radius-pipe" => radii(project, true),
        "line.joint-angle" => radii(project, true)
            .into_iter()
            .chain([narrower(project), head_link(project)])
            .collect(),
        "line.barrel-fit" | "bore.diameter" => {
            [wider(project)].into_iter().chain(radii(project, true)).collect()
        }
        "line.cover" => lowest_level(project, -15.0).into_iter().chain(steeper(project)).collect(),
        _ if id.starts_with("line.clearance.") => lowest_level(project, -15.0)
            .into_iter()
            .chain(lowest_level(project, 15.0))
            .chain(steeper(project))
            .collect(),
        "string.external-pressure" => lowest_level(project, 15.0).into_iter().collect(),
        "pull.joint-force" => joint_pull(project).into_iter().chain(radii(project, true)).collect(),
        "pull.restart" => joint_pull(project).into_iter().chain(rig()).collect(),
        "pull.rig" => rig().into_iter().collect(),
        "pull.rods" => force(
            "/bore/rods/permitted_pull",
            project.bore.rods.permitted_pull,
            "rods that may carry at least this",
            |p, f| p.bore.rods.permitted_pull = Some(f),
        )
        .into_iter()
        .collect(),
        "service.pressure" => joint_pressure(project).into_iter().collect(),
        _ if id.starts_with("fluid.") => fluid_knobs::knobs(project, id)
            .into_iter()
            .chain(if id.starts_with("fluid.limit-pressure.") || id == "fluid.restart" {
                lowest_level(project, -15.0)
            } else {
                None
            })
            .collect(),
        _ if id.starts_with("ground.settlement.") => [narrower(project)]
            .into_iter()
            .chain(fluid_knobs::closing(project))
            .chain(lowest_level(project, -15.0))
            .collect(),
        _ if id.starts_with("ground.heave.") => {
            fluid_knobs::flows(project).into_iter().chain(lowest_level(project, -15.0)).collect()
        }
        _ => Vec::new(),
    }
}

fn steeper(project: &Project) -> impl Iterator<Item = Knob> {
    let angles = [end_angle(project, true, true), end_angle(project, false, true)];
    angles.into_iter().flatten()
}

/// Name of the final bore in the file: a value of its own, or the last ream pass.
fn final_bore(project: &Project) -> String {
    let assumed = project.assumptions.iter().any(|a| a.path == "/bore/final_diameter");
    if assumed {
        format!("/bore/ream, pass {}", project.bore.ream_diameters.len())
    } else {
        "/bore/final_diameter".to_owned()
    }
}

fn bore(project: &Project, to: f64) -> Knob {
    Knob {
        parameter: final_bore(project),
        unit: unit::MM,
        from: project.bore.final_diameter.si(),
        to,
        step: 0.01,
        note: "",
        several: false,
        set: Box::new(|p, v| {
            p.bore.final_diameter = Length::from_si(v);
            if let Some(last) = p.bore.ream_diameters.last_mut() {
                *last = Length::from_si(v);
            }
            true
        }),
    }
}

fn wider(project: &Project) -> Knob {
    bore(project, project.bore.final_diameter.si() + 2.0)
}

/// Less play turns the joints less.
fn narrower(project: &Project) -> Knob {
    let least = project.string.pipe.largest_diameter().map_or(0.05, Length::si);
    bore(project, least)
}

fn head_link(project: &Project) -> Knob {
    Knob {
        parameter: "/string/head_link".to_owned(),
        unit: unit::M,
        from: project.string.head_link.si(),
        to: 6.0,
        step: 0.1,
        note: "a longer swivel and shackle assembly between head and reamer",
        several: false,
        set: Box::new(|p, v| {
            p.string.head_link = Length::from_si(v);
            true
        }),
    }
}

fn force(
    parameter: &str,
    from: Option<Force>,
    note: &'static str,
    set: fn(&mut Project, Force),
) -> Option<Knob> {
    let from = from?;
    Some(Knob {
        parameter: parameter.to_owned(),
        unit: unit::KN,
        from: from.si(),
        to: 20.0 * from.si(),
        step: 10e3,
        note,
        several: false,
        set: Box::new(move |p, v| {
            set(p, Force::from_si(v));
            true
        }),
    })
}

fn joint_pull(project: &Project) -> Option<Knob> {
    let from = project.string.joint.permitted_pull.as_ref().map(|v| v.value);
    let note = "a joint that is certified for at least this, or less pull";
    force("/string/joint/permitted_pull", from, note, |p, f| {
        if let Some(pull) = &mut p.string.joint.permitted_pull {
            pull.value = f;
        }
    })
}

fn joint_pressure(project: &Project) -> Option<Knob> {
    let from = project.string.joint.pfa.as_ref()?.value;
    Some(Knob {
        parameter: "/string/joint/pressure".to_owned(),
        unit: unit::BAR,
        from: from.si(),
        to: 10.0 * from.si(),
        step: 1e5,
        note: "a joint that is certified for at least this; the pipe must stand it too",
        several: false,
        set: Box::new(|p, v| {
            if let Some(pfa) = &mut p.string.joint.pfa {
                pfa.value = Pressure::from_si(v);
            }
            true
        }),
    })
}

fn contents_name(contents: Contents) -> String {
    match contents {
        Contents::Empty => "\"empty\"".to_owned(),
        Contents::Water => "\"water\"".to_owned(),
        Contents::Part(f) => format!("\"part\" with ballast_share {f:.2}"),
    }
}

/// Changes without a size that may help a check.
pub(super) fn choices(project: &Project, id: &str) -> Vec<Choice> {
    let pulls = matches!(id, "pull.joint-force" | "pull.rig" | "pull.rods" | "pull.restart");
    let angle = id == "line.joint-angle";
    if !pulls && !angle && id != "string.external-pressure" {
        return Vec::new();
    }
    let string = &project.string;
    let neutral = string
        .pipe
        .neutral_fill(project.fluid.density, Context::water_density())
        .ok()
        .filter(|n| (0.02..0.98).contains(n))
        .map(|n| Contents::Part((n * 100.0).round() / 100.0));
    let ballast = neutral.filter(|_| pulls || angle);
    let contents = [ballast, Some(Contents::Water), Some(Contents::Empty)];
    let mut list: Vec<Choice> = contents
        .into_iter()
        .flatten()
        .filter(|c| *c != string.contents)
        .map(|c| Choice {
            parameter: "/string/contents",
            from: contents_name(string.contents),
            to: contents_name(c),
            set: Box::new(move |p: &mut Project| p.string.contents = c),
        })
        .collect();
    if pulls && string.support_friction > 0.1 {
        list.push(Choice {
            parameter: "/string/support",
            from: format!("friction {}", string.support_friction),
            to: "\"rollers\"".to_owned(),
            set: Box::new(|p| p.string.support_friction = 0.1),
        });
    }
    list
}

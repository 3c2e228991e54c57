//! What would make a failing check pass: the smallest change of one value, found by computing again.

use pipe::Contents;
use project::{LineDesign, Project};
use quantity::{Angle, Force, Length, Pressure, Unit, show, unit};

use crate::assessment::{Check, Remedy, Status};
use crate::checks;
use crate::context::Context;

/// Sets a value; `false` where the crossing cannot have it.
type Set = Box<dyn Fn(&mut Project, f64) -> bool>;

/// One value of the crossing file that may be changed.
struct Knob {
    parameter: String,
    unit: Unit,
    from: f64,
    /// As far as the search goes.
    to: f64,
    /// Values are rounded away from `from` to whole steps.
    step: f64,
    set: Set,
}

/// A change that has no size.
struct Choice {
    parameter: &'static str,
    from: String,
    to: String,
    set: Box<dyn Fn(&mut Project)>,
}

/// At least one change for every failing check for which one is known.
pub(crate) fn all(project: &Project, checks: &[Check]) -> Vec<Remedy> {
    checks
        .iter()
        .filter(|c| c.status == Status::Fail)
        .flat_map(|check| {
            let mut found: Vec<_> = choices(project, &check.id)
                .iter()
                .filter_map(|k| choose(project, checks, check, k))
                .collect();
            found.extend(
                knobs(project, check).iter().filter_map(|k| turn(project, checks, check, k)),
            );
            found
        })
        .collect()
}

fn passes(project: &Project, id: &str) -> bool {
    let context = Context::new(project, false);
    checks::one(&context, id)
        .is_some_and(|i| matches!(i.check.status, Status::Pass | Status::Attention))
}

/// Smallest change of a value that makes the check pass; the checks are taken as monotone in between.
fn turn(project: &Project, before: &[Check], check: &Check, knob: &Knob) -> Option<Remedy> {
    let steps = ((knob.to - knob.from) / knob.step).abs().floor();
    if !(1.0..=1e6).contains(&steps) {
        return None;
    }
    let toward = (knob.to - knob.from).signum();
    // Whole steps, so that the value is one a person would write.
    let first =
        if toward > 0.0 { (knob.from / knob.step).floor() } else { (knob.from / knob.step).ceil() };
    let value = |k: f64| (first + toward * k) * knob.step;
    let changed = |k: f64| {
        let mut trial = project.clone();
        (knob.set)(&mut trial, value(k)).then_some(trial)
    };
    let good = |k: f64| changed(k).is_some_and(|t| passes(&t, &check.id));
    // The far end may be impossible as a line: walk out in growing strides until one passes.
    let mut low = 0.0;
    let mut high = steps.min(4.0);
    while !good(high) {
        if high >= steps {
            return None;
        }
        low = high;
        high = (high * 3.0).min(steps);
    }
    while high - low > 1.0 {
        let middle = ((low + high) / 2.0).floor();
        if good(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    let trial = changed(high)?;
    Some(Remedy {
        check: check.id.clone(),
        parameter: knob.parameter.clone(),
        from: show(knob.from, knob.unit),
        to: show(value(high), knob.unit),
        note: side_effects(&trial, before, check),
    })
}

fn choose(project: &Project, before: &[Check], check: &Check, choice: &Choice) -> Option<Remedy> {
    let mut trial = project.clone();
    (choice.set)(&mut trial);
    passes(&trial, &check.id).then(|| Remedy {
        check: check.id.clone(),
        parameter: choice.parameter.to_owned(),
        from: choice.from.clone(),
        to: choice.to.clone(),
        note: side_effects(&trial, before, check),
    })
}

/// Checks that the change would break, and those that it would mend as well.
fn side_effects(trial: &Project, before: &[Check], check: &Check) -> String {
    let context = Context::new(trial, false);
    let after = checks::all(&context);
    let status = |id: &str| before.iter().find(|c| c.id == id).map(|c| c.status);
    let list = |wanted: &dyn Fn(Status, Status) -> bool| -> Vec<String> {
        after
            .iter()
            .filter(|i| i.check.id != check.id)
            .filter(|i| status(&i.check.id).is_some_and(|was| wanted(was, i.check.status)))
            .map(|i| i.check.id.clone())
            .collect()
    };
    let broken = list(&|was, is| was != Status::Fail && is == Status::Fail);
    let mended = list(&|was, is| was == Status::Fail && is != Status::Fail);
    let mut parts = Vec::new();
    if !mended.is_empty() {
        parts.push(format!("also mends {}", mended.join(", ")));
    }
    if !broken.is_empty() {
        parts.push(format!("but then {} fails", broken.join(", ")));
    }
    parts.join("; ")
}

/// Changes a level design and lays the line anew; `false` where no line can be had.
fn relay(project: &mut Project, change: impl Fn(&mut line::LevelDesign)) -> bool {
    let LineDesign::Level(design) = &mut project.design else { return false };
    change(design);
    match line::Line::from_level(design) {
        Ok(line) => {
            project.line = line;
            true
        }
        Err(_) => false,
    }
}

fn radii(project: &Project, larger: bool) -> Vec<Knob> {
    let LineDesign::Level(design) = &project.design else { return Vec::new() };
    let far = |r: f64| if larger { 4.0 * r + 100.0 } else { 0.25 * r };
    let knob = |parameter: &str, from: Length, set: fn(&mut line::LevelDesign, Length)| Knob {
        parameter: parameter.to_owned(),
        unit: unit::M,
        from: from.si(),
        to: far(from.si()),
        step: 1.0,
        set: Box::new(move |p, v| relay(p, |d| set(d, Length::from_si(v)))),
    };
    let mut knobs = vec![
        knob("/line/entry_radius", design.entry_radius, |d, r| d.entry_radius = r),
        knob("/line/exit_radius", design.exit_radius, |d, r| d.exit_radius = r),
    ];
    for (index, bend) in design.bends.iter().enumerate() {
        knobs.push(Knob {
            parameter: format!("/line/bend/{index}/radius"),
            unit: unit::M,
            from: bend.radius.si(),
            to: far(bend.radius.si()),
            step: 1.0,
            set: Box::new(move |p, v| {
                relay(p, |d| {
                    if let Some(bend) = d.bends.get_mut(index) {
                        bend.radius = Length::from_si(v);
                    }
                })
            }),
        });
    }
    let least = design.entry_radius.min(design.exit_radius);
    knobs.push(Knob {
        parameter: "/line/entry_radius and /line/exit_radius, both at least".to_owned(),
        unit: unit::M,
        from: least.si(),
        to: far(least.si()),
        step: 1.0,
        set: Box::new(move |p, v| {
            let v = Length::from_si(v);
            relay(p, |d| {
                let pick = |r: Length| if larger { r.max(v) } else { r.min(v) };
                d.entry_radius = pick(d.entry_radius);
                d.exit_radius = pick(d.exit_radius);
            })
        }),
    });
    knobs
}

fn level(project: &Project, by: f64) -> Option<Knob> {
    let LineDesign::Level(design) = &project.design else { return None };
    Some(Knob {
        parameter: "/line/lowest_level".to_owned(),
        unit: unit::M,
        from: design.lowest_level.si(),
        to: design.lowest_level.si() + by,
        step: 0.1,
        set: Box::new(|p, v| relay(p, |d| d.lowest_level = Length::from_si(v))),
    })
}

fn angle(project: &Project, entry: bool) -> Option<Knob> {
    let LineDesign::Level(design) = &project.design else { return None };
    let from = if entry { design.entry_angle } else { design.exit_angle };
    Some(Knob {
        parameter: if entry { "/line/entry_angle" } else { "/line/exit_angle" }.to_owned(),
        unit: unit::DEG,
        from: from.si(),
        to: from.si() * 0.3,
        step: 0.1f64.to_radians(),
        set: Box::new(move |p, v| {
            relay(p, |d| {
                let angle = Angle::from_si(v);
                if entry { d.entry_angle = angle } else { d.exit_angle = angle }
            })
        }),
    })
}

fn force(parameter: &str, from: Option<Force>, set: fn(&mut Project, Force)) -> Option<Knob> {
    let from = from?;
    Some(Knob {
        parameter: parameter.to_owned(),
        unit: unit::KN,
        from: from.si(),
        to: 20.0 * from.si(),
        step: 10e3,
        set: Box::new(move |p, v| {
            set(p, Force::from_si(v));
            true
        }),
    })
}

fn joint_pull(project: &Project) -> Option<Knob> {
    let from = project.string.joint.permitted_pull.as_ref().map(|v| v.value);
    force("/string/joint/permitted_pull", from, |p, f| {
        if let Some(pull) = &mut p.string.joint.permitted_pull {
            pull.value = f;
        }
    })
}

fn knobs(project: &Project, check: &Check) -> Vec<Knob> {
    let id = check.id.as_str();
    match id {
        "line.entry-angle" => angle(project, true).into_iter().collect(),
        "line.exit-angle" => angle(project, false).into_iter().collect(),
        "line.straight-entry" | "line.straight-exit" => {
            level(project, -10.0).into_iter().chain(radii(project, false)).collect()
        }
        "line.radius-rods" | "line.radius-pipe" | "line.joint-angle" | "line.barrel-fit" => {
            radii(project, true)
        }
        "line.cover" => level(project, -15.0).into_iter().collect(),
        _ if id.starts_with("line.clearance.") => {
            level(project, -15.0).into_iter().chain(level(project, 15.0)).collect()
        }
        "bore.diameter" => vec![Knob {
            parameter: "/bore/final_diameter".to_owned(),
            unit: unit::MM,
            from: project.bore.final_diameter.si(),
            to: project.bore.final_diameter.si() + 2.0,
            step: 0.01,
            set: Box::new(|p, v| {
                p.bore.final_diameter = Length::from_si(v);
                true
            }),
        }],
        "string.external-pressure" => level(project, 15.0).into_iter().collect(),
        "pull.joint-force" => joint_pull(project).into_iter().chain(radii(project, true)).collect(),
        "pull.restart" => joint_pull(project)
            .into_iter()
            .chain(force("/rig/pullback", project.rig.pullback, |p, f| p.rig.pullback = Some(f)))
            .collect(),
        "pull.rig" => force("/rig/pullback", project.rig.pullback, |p, f| p.rig.pullback = Some(f))
            .into_iter()
            .collect(),
        "pull.rods" => {
            force("/bore/rods/permitted_pull", project.bore.rods.permitted_pull, |p, f| {
                p.bore.rods.permitted_pull = Some(f)
            })
            .into_iter()
            .collect()
        }
        "service.pressure" => project
            .string
            .joint
            .pfa
            .as_ref()
            .map(|pfa| Knob {
                parameter: "/string/joint/pressure".to_owned(),
                unit: unit::BAR,
                from: pfa.value.si(),
                to: 10.0 * pfa.value.si(),
                step: 1e5,
                set: Box::new(|p, v| {
                    if let Some(pfa) = &mut p.string.joint.pfa {
                        pfa.value = Pressure::from_si(v);
                    }
                    true
                }),
            })
            .into_iter()
            .collect(),
        _ => Vec::new(),
    }
}

fn contents_name(contents: Contents) -> String {
    match contents {
        Contents::Empty => "\"empty\"".to_owned(),
        Contents::Water => "\"water\"".to_owned(),
        Contents::Part(f) => format!("\"part\" with ballast_share {f:.2}"),
    }
}

fn choices(project: &Project, id: &str) -> Vec<Choice> {
    let pulls = matches!(id, "pull.joint-force" | "pull.rig" | "pull.rods" | "pull.restart");
    if !pulls && id != "string.external-pressure" {
        return Vec::new();
    }
    let string = &project.string;
    let neutral = string
        .pipe
        .neutral_fill(project.fluid.density, Context::water_density())
        .ok()
        .filter(|n| (0.02..0.98).contains(n))
        .map(|n| Contents::Part((n * 100.0).round() / 100.0));
    let contents = [Some(Contents::Water), neutral.filter(|_| pulls), Some(Contents::Empty)];
    let mut list: Vec<Choice> = contents
        .into_iter()
        .flatten()
        .filter(|c| *c != string.contents)
        .map(|c| Choice {
            parameter: "/string/contents",
            from: contents_name(string.contents),
            to: contents_name(c),
            set: Box::new(move |p| p.string.contents = c),
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

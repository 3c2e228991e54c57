//! The verdict, the figures at its head and the cautions that go with it.

use pipe::Contents;
use project::{Assembly, Project};
use quantity::unit;
use working::Evidence;

use crate::assessment::{Check, Reading, Status, Summary, Verdict, VerdictStatus};
use crate::context::Context;

/// The verdict on a set of checks.
pub(crate) fn verdict(checks: &[Check]) -> Verdict {
    let count = |status| checks.iter().filter(|c| c.status == status).count();
    let (fail, open, close) =
        (count(Status::Fail), count(Status::NotAssessed), count(Status::Attention));
    let governing = checks
        .iter()
        .filter(|c| c.status != Status::NotAssessed)
        .max_by(|a, b| rank(a).total_cmp(&rank(b)));
    let governing = governing.filter(|c| rank(c) > 0.0);
    let tight = match governing {
        None => String::new(),
        Some(c) => {
            let what = if open == 0 { "governs" } else { "is the tightest of those made" };
            let used = c.share_used().map_or(String::new(), |share| format!(" with {share} used"));
            format!("; {} {what}{used}{}", c.id, doubt(c))
        }
    };
    let (status, sentence) = match (fail, open, close) {
        (0, 0, 0) => (
            VerdictStatus::Feasible,
            format!("Feasible: all {} checks are met with room{tight}.", checks.len()),
        ),
        (0, 0, n) => (
            VerdictStatus::FeasibleWithAttention,
            format!(
                "Feasible, with attention: all {} checks are met, {n} narrowly or against advice{tight}.",
                checks.len()
            ),
        ),
        (0, n, _) => (
            VerdictStatus::Incomplete,
            format!(
                "Incomplete: no check fails, but {n} of {} could not be made{tight}.",
                checks.len()
            ),
        ),
        (n, 0, _) => (
            VerdictStatus::NotFeasible,
            format!(
                "Not feasible as described: {n} of {} checks {} not met{tight}.",
                checks.len(),
                if n == 1 { "is" } else { "are" }
            ),
        ),
        (n, m, _) => (
            VerdictStatus::NotFeasible,
            format!(
                "Not feasible as described: {n} of {} checks {} not met and {m} could not be made{tight}.",
                checks.len(),
                if n == 1 { "is" } else { "are" }
            ),
        ),
    };
    Verdict { status, sentence, governing: governing.map(|c| c.id.clone()) }
}

/// Says it where the basis has no source that a reader can look up.
fn doubt(check: &Check) -> String {
    match check.basis.evidence {
        Evidence::FromMemory | Evidence::CommonPractice | Evidence::Judgement => {
            format!(" (basis: {})", check.basis.evidence.label())
        }
        _ => String::new(),
    }
}

/// How tight a check is; one that is missed without a finite ratio is the tightest. A rule that is kept and advice that is
/// not followed never govern.
fn rank(check: &Check) -> f64 {
    match (check.status, check.utilisation) {
        (Status::Fail, utilisation) => utilisation.unwrap_or(f64::INFINITY),
        _ if check.rule => 0.0,
        (_, utilisation) => utilisation.unwrap_or(0.0),
    }
}

/// The crossing in a few figures.
pub(crate) fn summary(c: &Context<'_>) -> Summary {
    let p = c.project;
    let pipe = &p.string.pipe;
    let figure = |name: &str, value: f64, unit| (name.to_owned(), Reading::new(value, unit));
    let mut figures = vec![
        figure("length of the bore", p.line.length().si(), unit::M),
        figure("run", p.line.run().si(), unit::M),
        figure("final bore", p.bore.final_diameter.si(), unit::MM),
        figure("barrel with coating", pipe.barrel_diameter().si(), unit::MM),
    ];
    if let Some(largest) = c.largest_diameter {
        figures.push(figure("socket with protection", largest.si(), unit::MM));
    }
    if let Some((radius, _)) = p.line.minimum_radius() {
        figures.push(figure("smallest radius in space", radius.si(), unit::M));
    }
    let line = &p.line;
    let (entry, exit) = (line.sample(0.0), line.sample(line.length().si()));
    figures.extend([
        figure("entry angle", -entry.inclination.si(), unit::DEG),
        figure("exit angle", exit.inclination.si(), unit::DEG),
        figure("fluid density", p.fluid.density.si(), unit::KG_PER_M3),
        figure("net weight in the fluid", c.net_weight.si(), unit::N_PER_M),
    ]);
    let joint = &p.string.joint;
    if let Some(angle) = &joint.allowable_angle {
        figures.push(figure("joint: allowable angle", angle.value.si(), unit::DEG));
    }
    if let Some(pull) = &joint.permitted_pull {
        figures.push(figure("joint: permitted pull", pull.value.si(), unit::KN));
    }
    let facts = vec![
        ("pipe".to_owned(), format!("{} {} {}", pipe.standard(), pipe.nominal(), pipe.class())),
        ("pipes".to_owned(), format!("{} of {}", c.pipes(), pipe.laying_length())),
        ("contents".to_owned(), contents(p)),
        ("assembly".to_owned(), assembly(p)),
        (
            "friction, fluid stress".to_owned(),
            format!(
                "{} and {}",
                p.factors.friction_bore,
                quantity::show(p.factors.fluid_stress.si(), unit::PA)
            ),
        ),
    ];
    Summary { name: p.name.clone(), note: p.note.clone(), figures, facts }
}

fn contents(p: &Project) -> String {
    match p.string.contents {
        Contents::Empty => "empty".to_owned(),
        Contents::Water => "filled with water".to_owned(),
        Contents::Part(f) => format!("water in {:.0} % of the bore, ballast line", 100.0 * f),
    }
}

fn assembly(p: &Project) -> String {
    match &p.string.assembly {
        Assembly::String => "one string".to_owned(),
        Assembly::SubStrings(counts) => format!(
            "{} strings of {} pipes",
            counts.len(),
            counts.iter().map(u32::to_string).collect::<Vec<_>>().join(", ")
        ),
        Assembly::PipeByPipe => "pipe by pipe".to_owned(),
    }
}

/// What every reader must keep in mind.
pub(crate) fn cautions() -> Vec<String> {
    [
        "An aid to a qualified engineer: local codes, the authority and licensed practice decide.",
        "Find and expose crossing services before drilling; keep clear of overhead lines when lifting the string.",
        "Keep people away from rotating rods, from a string under tension and from pressurised fluid lines; the string stores energy.",
        "Pits need edge protection, shoring and a way out; nobody stands in the exit pit while the string moves.",
        "No criterion of what the ground bears is certain: watch returns and pressure while drilling, and have a plan for fluid that reaches the surface.",
    ]
    .map(str::to_owned)
    .to_vec()
}

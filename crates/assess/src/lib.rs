//! From a valid crossing to an assessment: checks, workings, remedies.
//!
//! Pure: no disk, no clock, no network. The same crossing gives the same assessment, byte for byte.

use project::{Design, Project};

pub use self::assessment::{
    Assessment, Change, Check, Explanation, FORMAT, JointRow, Method, Pass, Profile, Reading,
    Remedy, Sense, Stage, StageLimits, Status, Summary, Verdict, VerdictStatus,
};
use self::context::Context;
use self::item::Item;
pub use self::setting_out::{SettingOut, SettingOutRow, setting_out};

mod assessment;
mod assumed;
mod checks;
mod context;
mod ground_and_fluid;
mod ground_profiles;
mod item;
mod methods;
mod profiles;
mod quoted;
mod remedies;
mod renewal;
mod setting_out;
mod verdict;

/// Assesses a crossing.
#[must_use]
pub fn assess(project: &Project) -> Assessment {
    let context = Context::new(project, false);
    context.prepare();
    let checks: Vec<_> = checks::all(&context).into_iter().map(|item| item.check).collect();
    let search = remedies::Search::new(project, &checks);
    Assessment {
        fixes: search.together(),
        remedies: search.single(),
        search_complete: search.complete(),
        ..judged(&context, checks)
    }
}

/// An assessment without changes, which nobody searched for.
fn judged(context: &Context<'_>, checks: Vec<Check>) -> Assessment {
    let project = context.project;
    Assessment {
        format: FORMAT,
        version: env!("CARGO_PKG_VERSION"),
        technique: "drilling",
        file: None,
        crossing: verdict::summary(context),
        verdict: verdict::verdict(&checks),
        methods: context.methods().to_vec(),
        forces: Vec::new(),
        runs: Vec::new(),
        limits: ground_and_fluid::stage_limits(context.fluid()),
        passes: ground_and_fluid::passes(project, context.fluid()),
        fixes: Vec::new(),
        remedies: Vec::new(),
        search_complete: false,
        warnings: project.warnings.iter().map(in_one_line).collect(),
        profiles: profiles::all(context),
        assumptions: assumed::all(project),
        cautions: verdict::cautions(),
        checks,
    }
}

/// Assesses a design of either technique.
#[must_use]
pub fn assess_design(design: &Design) -> Assessment {
    match design {
        Design::Crossing(project) => assess(project),
        Design::Renewal(renewal) => renewal::assess(renewal),
    }
}

/// As [`assess_design`], without the search for changes, which takes many times as long as all the rest: for a line that
/// is being moved by hand.
#[must_use]
pub fn judge_design(design: &Design) -> Assessment {
    match design {
        Design::Crossing(project) => {
            let context = Context::new(project, false);
            context.prepare();
            let checks = checks::all(&context).into_iter().map(|item| item.check).collect();
            judged(&context, checks)
        }
        Design::Renewal(renewal) => renewal::judge(renewal),
    }
}

/// Ids of the checks of a design of either technique, in the order of the work; nothing is computed.
#[must_use]
pub fn check_ids_of(design: &Design) -> Vec<String> {
    match design {
        Design::Crossing(project) => check_ids(project),
        Design::Renewal(renewal) => renewal::check_ids(renewal),
    }
}

/// The working of one check of a design of either technique; `None` for an id that it has not got.
#[must_use]
pub fn explain_design(design: &Design, id: &str) -> Option<Explanation> {
    match design {
        Design::Crossing(project) => explain(project, id),
        Design::Renewal(renewal) => renewal::explain(renewal, id),
    }
}

/// Ids of the checks of a crossing, in the order of the work; nothing is computed.
#[must_use]
pub fn check_ids(project: &Project) -> Vec<String> {
    checks::ids(project)
}

/// The working of one check; `None` for an id that the crossing has not got.
#[must_use]
pub fn explain(project: &Project, id: &str) -> Option<Explanation> {
    let context = Context::new(project, true);
    let item = checks::one(&context, id)?;
    Some(item.explained())
}

/// The working of every check of a design of either technique, in the order of the work; what several checks share is
/// computed once.
#[must_use]
pub fn explain_all(design: &Design) -> Vec<Explanation> {
    let items = match design {
        Design::Crossing(project) => checks::all(&Context::new(project, true)),
        Design::Renewal(renewal) => return renewal::explain_all(renewal),
    };
    items.into_iter().map(Item::explained).collect()
}

fn in_one_line(warning: &project::Diagnostic) -> String {
    let hint = warning.hint.as_ref().map_or(String::new(), |hint| format!("; {hint}"));
    format!("line {}, {}: {}{hint}", warning.line, warning.path, warning.message)
}

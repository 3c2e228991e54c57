//! From a valid crossing to an assessment: checks, workings, remedies.
//!
//! Pure: no disk, no clock, no network. The same crossing gives the same assessment, byte for byte.

use project::Project;

pub use self::assessment::{
    Assessment, Check, Explanation, FORMAT, Method, Profile, Reading, Remedy, Stage, Status,
    Summary, Verdict, VerdictStatus,
};
use self::context::Context;

mod assessment;
mod checks;
mod context;
mod item;
mod methods;
mod profiles;
mod quoted;
mod remedies;
mod verdict;

/// Assesses a crossing.
#[must_use]
pub fn assess(project: &Project) -> Assessment {
    let context = Context::new(project, false);
    let checks: Vec<_> = checks::all(&context).into_iter().map(|item| item.check).collect();
    Assessment {
        format: FORMAT,
        crossing: verdict::summary(&context),
        verdict: verdict::verdict(&checks),
        methods: methods::all(&context),
        remedies: remedies::all(project, &checks),
        profiles: profiles::all(&context),
        assumptions: project.assumptions.clone(),
        cautions: verdict::cautions(),
        checks,
    }
}

/// The working of one check; `None` for an id that the crossing has not got.
#[must_use]
pub fn explain(project: &Project, id: &str) -> Option<Explanation> {
    let context = Context::new(project, true);
    let item = checks::one(&context, id)?;
    Some(Explanation {
        check: item.check,
        working: item.working.unwrap_or_default(),
        notes: item.notes,
    })
}

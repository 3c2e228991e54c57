//! A main renewed by pipe bursting: from a valid file to an assessment.

use project::Renewal;

use self::context::Context;
use crate::assessment::{Assessment, Check, Explanation, FORMAT};
use crate::item::Item;
use crate::remedies::Search;
use crate::verdict;

mod checks;
mod context;
mod forces;
mod plan;
mod profiles;
mod remedies;
mod summary;

/// Assesses a renewal.
#[must_use]
pub(crate) fn assess(renewal: &Renewal) -> Assessment {
    let context = Context::new(renewal, false);
    let checks: Vec<_> = checks::all(&context).into_iter().map(|item| item.check).collect();
    let search = Search::new(renewal, &checks);
    Assessment {
        fixes: search.together(),
        remedies: search.single(),
        search_complete: search.complete(),
        ..judged(&context, checks)
    }
}

/// As [`assess`], without the search for changes.
#[must_use]
pub(crate) fn judge(renewal: &Renewal) -> Assessment {
    let context = Context::new(renewal, false);
    let checks = checks::all(&context).into_iter().map(|item| item.check).collect();
    judged(&context, checks)
}

/// An assessment without changes, which nobody searched for.
fn judged(context: &Context<'_>, checks: Vec<Check>) -> Assessment {
    let renewal = context.renewal;
    Assessment {
        format: FORMAT,
        version: env!("CARGO_PKG_VERSION"),
        technique: "bursting",
        file: None,
        crossing: summary::summary(context),
        verdict: verdict::verdict(&checks),
        methods: Vec::new(),
        forces: forces::table(context),
        runs: plan::runs(context),
        limits: Vec::new(),
        passes: Vec::new(),
        fixes: Vec::new(),
        remedies: Vec::new(),
        search_complete: false,
        warnings: renewal.warnings.iter().map(crate::in_one_line).collect(),
        profiles: profiles::all(context),
        assumptions: summary::assumptions(renewal),
        cautions: summary::cautions(renewal),
        checks,
    }
}

/// Ids of the checks of a renewal, in the order of the work; nothing is computed.
pub(crate) fn check_ids(renewal: &Renewal) -> Vec<String> {
    checks::ids(renewal)
}

/// The working of one check; `None` for an id that the renewal has not got.
pub(crate) fn explain(renewal: &Renewal, id: &str) -> Option<Explanation> {
    let context = Context::new(renewal, true);
    let item = checks::one(&context, id)?;
    Some(item.explained())
}

/// The working of every check, in the order of the work.
pub(crate) fn explain_all(renewal: &Renewal) -> Vec<Explanation> {
    let context = Context::new(renewal, true);
    checks::all(&context).into_iter().map(Item::explained).collect()
}

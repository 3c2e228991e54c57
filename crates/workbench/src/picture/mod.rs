//! What a design page draws: a design in numbers, made anew for every position of a handle.
//!
//! Numbers are SI; the page turns them into the units of its reader with the factors in [`Picture::units`]. Texts come in
//! these units already.

use assess::{Assessment, Check, Status};
use project::Design;
use quantity::{System, Unit, unit};
use serde::Serialize;

use self::section::Section;
use self::strips::Strip;

mod crossing;
mod handles;
mod plan;
mod renewal;
mod section;
mod strips;

pub use self::handles::Handle;
pub use self::plan::{Cross, Plan};

/// A design as a page draws it.
#[derive(Debug, Serialize)]
pub struct Picture {
    /// `drilling` or `bursting`.
    pub technique: &'static str,
    /// Name of the design.
    pub name: String,
    /// Verdict in one word: `feasible`, `feasible-with-attention`, `not-feasible`, `incomplete`.
    pub verdict: serde_json::Value,
    /// Verdict in a sentence.
    pub sentence: String,
    /// Id of the governing check.
    pub governing: Option<String>,
    /// Checks, the tightest first.
    pub checks: Vec<CheckRow>,
    /// The section along the chainage.
    pub section: Section,
    /// Curves on the chainage axis.
    pub strips: Vec<Strip>,
    /// The line in plan.
    pub plan: Option<Plan>,
    /// Circles of the cross-section.
    pub cross: Cross,
    /// What can be dragged.
    pub handles: Vec<Handle>,
    /// Factors from SI to the reader's units.
    pub units: Vec<Shown>,
}

/// How a kind of value is shown: reader's value = SI value × factor.
#[derive(Debug, Serialize)]
pub struct Shown {
    /// SI unit; `mm` stands for sizes, which are metres too and are read in smaller units.
    pub si: &'static str,
    /// Reader's unit.
    pub symbol: &'static str,
    /// Reader's value of one SI unit.
    pub factor: f64,
}

/// One check in the list of a page.
#[derive(Debug, Serialize)]
pub struct CheckRow {
    /// Stable id.
    pub id: String,
    /// In words.
    pub title: String,
    /// Outcome.
    pub status: Status,
    /// Demand over limit.
    pub utilisation: Option<f64>,
    /// The same in percent, never rounded across the limit.
    pub used: Option<String>,
    /// What acts.
    pub value: Option<String>,
    /// What is allowed.
    pub limit: Option<String>,
    /// `≤` or `≥`.
    pub sense: &'static str,
    /// Whether it is a rule that is kept or not.
    pub rule: bool,
    /// Chainage where it is tightest, m.
    pub at: Option<f64>,
    /// Reason in a sentence.
    pub because: String,
}

impl Picture {
    /// The picture of a design and what was found about it.
    #[must_use]
    pub fn of(design: &Design, a: &Assessment, system: System) -> Self {
        let parts = match design {
            Design::Crossing(project) => crossing::parts(project, a),
            Design::Renewal(renewal) => renewal::parts(renewal, a),
        };
        let mut checks: Vec<&Check> = a.checks.iter().collect();
        checks.sort_by(|x, y| rank(y).total_cmp(&rank(x)));
        Self {
            technique: a.technique,
            name: a.crossing.name.clone(),
            verdict: serde_json::json!(a.verdict.status),
            sentence: a.verdict.sentence.clone(),
            governing: a.verdict.governing.clone(),
            checks: checks.into_iter().map(|c| row(c, &parts.chainage_of, system)).collect(),
            section: parts.section,
            strips: parts.strips,
            plan: parts.plan,
            cross: parts.cross,
            handles: parts.handles,
            units: units(system),
        }
    }
}

/// What differs between the techniques.
pub(crate) struct Parts<'a> {
    section: Section,
    strips: Vec<Strip>,
    plan: Option<Plan>,
    cross: Cross,
    handles: Vec<Handle>,
    /// Chainage of a measured distance.
    chainage_of: Box<dyn Fn(f64) -> f64 + 'a>,
}

fn row(check: &Check, chainage_of: &dyn Fn(f64) -> f64, system: System) -> CheckRow {
    CheckRow {
        id: check.id.clone(),
        title: check.title.clone(),
        status: check.status,
        utilisation: check.utilisation,
        used: check.share_used(),
        value: check.demand.map(|d| d.shown(system)),
        limit: check.limit.map(|l| l.shown(system)),
        sense: if check.sense == assess::Sense::AtMost { "≤" } else { "≥" },
        rule: check.rule,
        at: check.at.map(chainage_of),
        because: check.because.clone(),
    }
}

/// Order of the list: what is not met, what could not be made, then by share of the limit; rules that are kept come last.
fn rank(check: &Check) -> f64 {
    match (check.status, check.utilisation) {
        (Status::Fail, share) => 3e6 + share.unwrap_or(1e5).min(1e5),
        (Status::NotAssessed, _) => 2e6,
        (Status::Attention, share) => 1e6 + share.unwrap_or(1.0),
        (Status::Pass, _) if check.rule => -1.0,
        (Status::Pass, share) => share.unwrap_or(0.0),
    }
}

fn units(system: System) -> Vec<Shown> {
    const KINDS: [(&str, Unit); 5] =
        [("m", unit::M), ("N", unit::KN), ("rad", unit::DEG), ("Pa", unit::KPA), ("mm", unit::MM)];
    KINDS
        .into_iter()
        .map(|(si, metric)| {
            let shown = metric.in_system(system);
            Shown { si, symbol: shown.symbol(), factor: shown.from_si(1.0) }
        })
        .collect()
}

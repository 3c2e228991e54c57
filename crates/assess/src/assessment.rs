//! What an assessment says: the types that every reader gets, on paper, on a screen or as JSON.

use quantity::{System, Unit, show_with};
use serde::ser::{Serialize, SerializeStruct, Serializer};
use working::{Assumption, Source, Working};

/// Version of the assessment's JSON; raised when a field changes its meaning or goes.
pub const FORMAT: u32 = 1;

/// Everything that was found about a crossing.
#[derive(Debug, Clone, serde::Serialize)]
pub struct Assessment {
    /// Version of this structure.
    pub format: u32,
    /// Version of the program that assessed the crossing.
    pub version: &'static str,
    /// How the string gets into the ground: `drilling` or `bursting`. With bursting every `md` and `at` is a chainage along
    /// the old main.
    pub technique: &'static str,
    /// Name of the crossing file; `None` where the crossing was not read from a named file.
    pub file: Option<String>,
    /// The crossing in a few figures.
    pub crossing: Summary,
    /// Whether it can be built as described.
    pub verdict: Verdict,
    /// Every check, in the order of the work.
    pub checks: Vec<Check>,
    /// The pull force by each method, side by side.
    pub methods: Vec<Method>,
    /// Parts of the force of bursting, low, planning and high; empty for drilling.
    pub forces: Vec<ForcePart>,
    /// Runs of bursting in the order of the work; empty for drilling.
    pub runs: Vec<RunPlan>,
    /// Fluid against the ground in every stage of drilling that could be computed, at its worst place.
    pub limits: Vec<StageLimits>,
    /// Volumes and rates of pilot and ream passes; empty where ground or pilot bore are not known.
    pub passes: Vec<Pass>,
    /// What would make failing checks pass, one change at a time.
    pub remedies: Vec<Remedy>,
    /// Changes that together make every check pass; empty where none are needed or found.
    pub fixes: Vec<Change>,
    /// Whether the search for changes went through all it knows; otherwise there may be more, and simpler ones.
    pub search_complete: bool,
    /// Warnings on the crossing file, in its order.
    pub warnings: Vec<String>,
    /// Curves along the bore.
    pub profiles: Vec<Profile>,
    /// Values that nobody gave.
    pub assumptions: Vec<Assumption>,
    /// What the reader must keep in mind.
    pub cautions: Vec<String>,
}

/// The crossing in a few figures.
#[derive(Debug, Clone, serde::Serialize)]
pub struct Summary {
    /// Name of the crossing.
    pub name: String,
    /// Remark of its author, as that it is invented.
    pub note: Option<String>,
    /// Figures worth a line each: what, and the value.
    pub figures: Vec<(String, Reading)>,
    /// Words worth a line each: what, and the text.
    pub facts: Vec<(String, String)>,
}

/// A value with the unit in which a person reads it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Value in SI.
    pub value: f64,
    /// Unit in which a person reads it.
    pub unit: Unit,
}

/// Whether the crossing can be built as described.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Verdict {
    /// In one word.
    pub status: VerdictStatus,
    /// In one or two sentences.
    pub sentence: String,
    /// Id of the check with the highest utilisation.
    pub governing: Option<String>,
}

/// The verdict in one word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum VerdictStatus {
    /// Every check is met with room.
    Feasible,
    /// Every check is met, some narrowly.
    FeasibleWithAttention,
    /// At least one check is not met.
    NotFeasible,
    /// No check fails, but some could not be made.
    Incomplete,
}

/// Outcome of one check.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Status {
    /// Met with room.
    Pass,
    /// Met, but from the attention threshold on.
    Attention,
    /// Not met.
    Fail,
    /// Not made; never counted as a pass.
    NotAssessed,
}

/// On which side of its limit a value must stay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sense {
    /// The value must not exceed the limit.
    AtMost,
    /// The value must reach the limit.
    AtLeast,
}

/// Part of the work to which a check belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// The line on paper.
    Design,
    /// Drilling the pilot bore.
    Pilot,
    /// Reaming.
    Ream,
    /// Pulling the string in.
    Pull,
    /// The finished main.
    InService,
}

/// One check.
#[derive(Debug, Clone, serde::Serialize)]
pub struct Check {
    /// Stable id such as `pull.joint-force`.
    pub id: String,
    /// What is checked, in words.
    pub title: String,
    /// What acts.
    pub demand: Option<Reading>,
    /// What is allowed.
    pub limit: Option<Reading>,
    /// On which side of the limit the value must stay.
    pub sense: Sense,
    /// Demand over limit, or limit over demand where more is better; met up to 1.
    pub utilisation: Option<f64>,
    /// Outcome.
    pub status: Status,
    /// Whether this is a rule that is kept or not, so that nearness to the limit means nothing.
    pub rule: bool,
    /// Measured distance where the check is tightest, metres from the entry point.
    pub at: Option<f64>,
    /// Part of the work.
    pub stage: Stage,
    /// Where the limit comes from.
    pub basis: Source,
    /// Why the outcome is what it is, in one sentence.
    pub because: String,
    /// Keys of the crossing file that are missing, when the check could not be made.
    pub missing: Vec<String>,
}

impl Check {
    /// Share of the limit that is used, in percent; never rounded across the limit. `None` without a share.
    #[must_use]
    pub fn share_used(&self) -> Option<String> {
        self.utilisation.map(share)
    }
}

/// A share of a limit in percent; never rounded across the limit.
fn share(utilisation: f64) -> String {
    match utilisation {
        u if u > 9.99 => "> 999 %".to_owned(),
        u if u > 1.0 && u < 1.01 => format!("{:.1} %", (u * 1000.0).ceil() / 10.0),
        u => format!("{:.0} %", u * 100.0),
    }
}

/// The pull force by one method.
#[derive(Debug, Clone, serde::Serialize)]
pub struct Method {
    /// Stable id such as `chain`, `f1962`.
    pub id: String,
    /// Name of the method.
    pub name: String,
    /// Greatest pull at the head, low and high end of what the method says.
    pub force: Option<(Reading, Reading)>,
    /// Measured distance of the head at the high end, where the method says it.
    pub at: Option<f64>,
    /// Where the method comes from and how well it is founded.
    pub source: Source,
    /// Whether the crossing lies in the range for which the method was made; the others are for comparison only.
    pub applicable: bool,
    /// What the two ends of the band are, what is left out, why there is no value.
    pub remark: String,
    /// For what the method was made, and where it is known to err.
    pub validity: String,
}

/// One part of the force of bursting as a band.
#[derive(Debug, Clone, serde::Serialize)]
pub struct ForcePart {
    /// What it is.
    pub name: String,
    /// Low end.
    pub low: Reading,
    /// What the checks judge.
    pub planning: Reading,
    /// High end.
    pub high: Reading,
    /// Where the method comes from and how well it is founded.
    pub source: Source,
    /// What the ends are.
    pub remark: String,
}

/// One run of bursting.
#[derive(Debug, Clone, serde::Serialize)]
pub struct RunPlan {
    /// Its name.
    pub name: String,
    /// Chainage of the launch pit.
    pub launch: Reading,
    /// Chainage of the machine pit.
    pub machine: Reading,
    /// Its length.
    pub length: Reading,
    /// Whole pipes.
    pub pipes: f64,
    /// Time of the pull as the file has it.
    pub time: Reading,
    /// Time pipe by pipe.
    pub time_pipe_by_pipe: Reading,
    /// Time of the pull in one string that lies ready.
    pub time_string: Reading,
    /// Greatest force in the string for planning, pipe by pipe: it starts again at every pipe.
    pub force_pipe_by_pipe: Option<Reading>,
    /// The same in one string that is pulled without a stop.
    pub force_string: Option<Reading>,
    /// Services to dig up, take off and connect again.
    pub services: usize,
    /// Features to dig out.
    pub opened: usize,
    /// Lubricant, where the string is lubricated.
    pub lubricant: Option<Reading>,
}

/// Fluid against the ground in one stage, at the place with the least margin outside the end zones.
#[derive(Debug, Clone, serde::Serialize)]
pub struct StageLimits {
    /// As in the id of its check: `pilot`, `ream-1`, `pull`.
    pub id: String,
    /// In words.
    pub name: String,
    /// Where.
    pub chainage: Reading,
    /// Pressure that acts.
    pub pressure: Reading,
    /// Pressure that may act.
    pub allowed: Reading,
    /// What the ground is taken to bear, without safety.
    pub limit: Reading,
    /// Pressure at which its wall yields first, the least of drained and undrained.
    pub first_yield: Option<Reading>,
    /// Pressure at which elastic ground would crack.
    pub tension: Option<Reading>,
    /// Weight of all that lies above.
    pub weight: Reading,
    /// Pressure over what may act in the end zones, where there are any; very large where nothing may act.
    pub used_in_end_zones: Option<f64>,
    /// Chainages in m, from and to, between which the pressure exceeds what may act.
    pub exceeded: Vec<(f64, f64)>,
    /// The same in the end zones.
    pub exceeded_in_end_zones: Vec<(f64, f64)>,
}

/// Volumes and rates of one pass of drilling.
#[derive(Debug, Clone, serde::Serialize)]
pub struct Pass {
    /// `pilot`, `ream 1`, …, `pull-in`
    pub name: String,
    /// Diameter after it.
    pub diameter: Reading,
    /// Volume of fluid per volume of ground cut; `None` for the pull-in, which cuts nothing.
    pub fluid_ratio: Option<f64>,
    /// Ground cut.
    pub cut: Reading,
    /// Fresh fluid pumped.
    pub fluid: Reading,
    /// Ground and fluid that come out, without losses.
    pub returns: Reading,
    /// Their density by mass balance.
    pub returns_density: Reading,
    /// Largest advance that the flow serves at this ratio.
    pub largest_advance: Option<Reading>,
    /// Bentonite in the fresh fluid.
    pub bentonite: Reading,
    /// Tankers that take what comes out, where nothing is recycled.
    pub tankers: f64,
}

/// One change that makes a failing check pass.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Remedy {
    /// Check that would pass.
    pub check: String,
    /// Place in the crossing file.
    pub parameter: String,
    /// Value now.
    pub from: String,
    /// Value that makes the check pass.
    pub to: String,
    /// What else to look at, as checks that the change would break.
    pub note: String,
}

/// One value of the crossing file changed.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Change {
    /// Place in the crossing file.
    pub parameter: String,
    /// Value now.
    pub from: String,
    /// Value to take.
    pub to: String,
    /// What the change means, where it is not plain.
    pub note: String,
}

/// A curve along the bore.
#[derive(Debug, Clone, serde::Serialize)]
pub struct Profile {
    /// Stable id such as `pull.head-force`.
    pub id: String,
    /// What it shows.
    pub title: String,
    /// Measured distance of each point, metres from the entry point.
    pub md: Vec<f64>,
    /// Value of each point in SI.
    pub values: Vec<f64>,
    /// SI unit of the values.
    pub unit: &'static str,
}

/// A check with its working.
#[derive(Debug, Clone, serde::Serialize)]
pub struct Explanation {
    /// The check.
    pub check: Check,
    /// Formula, numbers and source, line by line.
    pub working: Working,
    /// The joints with the head where the check is tightest, for checks of the pull; from the tail to the head.
    pub joints: Vec<JointRow>,
    /// What the lines do not say: other rules, how far the method holds.
    pub notes: Vec<String>,
}

/// One joint of the string, all values in SI.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct JointRow {
    /// Measured distance from the entry point, m.
    pub md: f64,
    /// Tension ahead of the joint, N.
    pub tension: f64,
    /// Force of the joint on the wall, N.
    pub side_force: f64,
    /// Angle at the joint, rad.
    pub angle: f64,
    /// Offset from the axis upwards, m.
    pub up: f64,
    /// Offset from the axis to the right looking from entry to exit, m.
    pub right: f64,
    /// Gap between the middle of the barrel ahead and the wall, m.
    pub clearance: f64,
}

impl Reading {
    /// A value in SI with the unit for its reader.
    #[must_use]
    pub const fn new(value: f64, unit: Unit) -> Self {
        Self { value, unit }
    }

    /// As a person of a unit system reads it.
    #[must_use]
    pub fn shown(&self, system: System) -> String {
        show_with(self.value, self.unit, system)
    }
}

impl std::fmt::Display for Reading {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.shown(System::Metric))
    }
}

impl Serialize for Reading {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut out = serializer.serialize_struct("Reading", 3)?;
        out.serialize_field("value", &self.value)?;
        out.serialize_field("unit", self.unit.kind().si().symbol())?;
        out.serialize_field("shown", &self.shown(System::Metric))?;
        out.end()
    }
}

impl Assessment {
    /// Whether every check was made and met.
    #[must_use]
    pub fn all_met(&self) -> bool {
        self.checks.iter().all(|c| matches!(c.status, Status::Pass | Status::Attention))
    }

    /// The check with this id.
    #[must_use]
    pub fn check(&self, id: &str) -> Option<&Check> {
        self.checks.iter().find(|c| c.id == id)
    }
}

#[cfg(test)]
mod tests {
    use super::share;

    #[test]
    fn a_share_is_never_rounded_across_the_limit() {
        assert_eq!(share(1.0), "100 %");
        assert_eq!(share(1.000_01), "100.1 %");
        assert_eq!(share(1.234), "123 %");
        assert_eq!(share(1e9), "> 999 %");
    }
}

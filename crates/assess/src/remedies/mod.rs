//! What would make failing checks pass: the smallest change of one value, and changes that together fix them all. Every
//! answer was found by computing the crossing again with it.

use std::cell::Cell;

use project::Project;
use quantity::show;

use self::knob::{Choice, Knob};
use crate::assessment::{Change, Check, Remedy, Status};
use crate::checks;
use crate::context::Context;

mod fluid_knobs;
mod knob;
mod knobs;
mod line_knobs;

/// Most changes that a common answer may hold.
const MOST_CHANGES: usize = 8;
/// Work that the search may do, counted in joints of the chain: about a second on one core of an ordinary machine.
/// Counted, not timed, so that the same crossing gives the same answer anywhere.
const MOST_WORK: f64 = 3e6;
/// Work of a check that needs no chain, in joints.
const PLAIN_CHECK: f64 = 200.0;
/// Work of fluid and ground at one place in one stage, in joints; measured beside that of the chain.
const PLACE: f64 = 3.0;

/// The search for changes, with what it may still do.
pub(crate) struct Search<'a> {
    project: &'a Project,
    checks: &'a [Check],
    left: Cell<f64>,
    /// Joints of one run over all head positions.
    run: f64,
    /// Work of one run of fluid and ground along the bore.
    fluid: f64,
}

impl<'a> Search<'a> {
    pub fn new(project: &'a Project, checks: &'a [Check]) -> Self {
        let pipes = f64::from(project.string.pipes_for(project.line.length()));
        let stages = 2.0 + project.bore.ream_diameters.len() as f64;
        // Two places a metre.
        let places = if project.strata.is_some() { 2.0 * project.line.length().si() } else { 0.0 };
        let (run, fluid) = (0.5 * pipes * pipes, PLACE * stages * places);
        Self { project, checks, left: Cell::new(MOST_WORK), run, fluid }
    }

    /// Takes work from what is left; `false` when nothing is.
    fn afford(&self, work: f64) -> bool {
        let left = self.left.get() - work;
        self.left.set(left);
        left >= 0.0
    }

    /// Whether nothing was left out for want of work.
    pub fn complete(&self) -> bool {
        self.left.get() >= 0.0
    }

    /// Every single change that makes one failing check pass, as far as the known ones and the work go.
    pub fn single(&self) -> Vec<Remedy> {
        let failing = self.checks.iter().filter(|c| c.status == Status::Fail);
        failing
            .flat_map(|check| {
                self.attempts(self.project, &check.id)
                    .into_iter()
                    .map(|attempt| Remedy {
                        check: check.id.clone(),
                        parameter: attempt.change.parameter,
                        from: attempt.change.from,
                        to: attempt.change.to,
                        note: join(
                            &attempt.change.note,
                            &self.side_effects(&attempt.project, check),
                        ),
                    })
                    .collect::<Vec<_>>()
            })
            .collect()
    }

    /// Changes that together make every failing check pass; empty where none were found.
    ///
    /// One failing check after the other gets the change that leaves the fewest failing; a change of the same value later
    /// replaces the earlier one. The last state was checked as a whole.
    pub fn together(&self) -> Vec<Change> {
        if self.checks.iter().all(|c| c.status != Status::Fail) {
            return Vec::new();
        }
        let mut state = self.project.clone();
        let mut changes: Vec<Change> = Vec::new();
        let Some(mut failing) = self.failing_of(&state) else { return Vec::new() };
        for _ in 0..MOST_CHANGES {
            let Some(id) = failing.first() else { return changes };
            let best = self
                .attempts(&state, id)
                .into_iter()
                .filter_map(|attempt| Some((self.failing_of(&attempt.project)?, attempt)))
                .min_by_key(|(left, _)| left.len());
            let Some((left, attempt)) = best else { return Vec::new() };
            match changes.iter_mut().find(|c| c.parameter == attempt.change.parameter) {
                Some(earlier) => earlier.to = attempt.change.to,
                None => changes.push(attempt.change),
            }
            state = attempt.project;
            failing = left;
        }
        if failing.is_empty() { changes } else { Vec::new() }
    }

    fn attempts(&self, project: &Project, id: &str) -> Vec<Attempt> {
        let choices = knobs::choices(project, id);
        let mut found: Vec<_> =
            choices.iter().filter_map(|k| self.choose(project, id, k)).collect();
        let knobs = knobs::knobs(project, id);
        for knob in &knobs {
            // Two values at once only where neither alone helps.
            if !(knob.several && found.iter().any(|a| a.turned)) {
                found.extend(self.turn(project, id, knob));
            }
        }
        found
    }

    /// Ids of the failing checks; `None` when the work is used up.
    fn failing_of(&self, project: &Project) -> Option<Vec<String>> {
        self.afford(7.0 * self.run + self.fluid + PLAIN_CHECK).then(|| {
            checks::all(&Context::new(project, false))
                .into_iter()
                .filter(|i| i.check.status == Status::Fail)
                .map(|i| i.check.id)
                .collect()
        })
    }

    fn passes(&self, project: &Project, id: &str) -> bool {
        let runs = match id {
            "line.joint-angle" => 6.0,
            _ if id.starts_with("pull.") || id == "line.barrel-fit" => 4.0,
            _ => 0.0,
        };
        let fluid = id.starts_with("fluid.") || id.starts_with("ground.");
        let work = runs * self.run + if fluid { self.fluid } else { PLAIN_CHECK };
        self.afford(work)
            && checks::one(&Context::new(project, false), id)
                .is_some_and(|i| matches!(i.check.status, Status::Pass | Status::Attention))
    }

    fn turn(&self, project: &Project, id: &str, knob: &Knob) -> Option<Attempt> {
        let (value, changed) = knob.smallest(project, |trial| self.passes(trial, id))?;
        let change = Change {
            parameter: knob.parameter.clone(),
            from: show(knob.from, knob.unit),
            to: show(value, knob.unit),
            note: knob.note.to_owned(),
        };
        Some(Attempt { change, project: changed, turned: true })
    }

    fn choose(&self, project: &Project, id: &str, choice: &Choice) -> Option<Attempt> {
        let mut trial = project.clone();
        (choice.set)(&mut trial);
        self.passes(&trial, id).then(|| Attempt {
            change: Change {
                parameter: choice.parameter.to_owned(),
                from: choice.from.clone(),
                to: choice.to.clone(),
                note: String::new(),
            },
            project: trial,
            turned: false,
        })
    }

    /// Checks that the change would break, and those that it would fix as well.
    fn side_effects(&self, trial: &Project, check: &Check) -> String {
        let Some(failing) = self.failing_of(trial) else { return String::new() };
        let others = self.checks.iter().filter(|c| c.id != check.id);
        let (was, is): (Vec<_>, Vec<_>) = others
            .map(|c| (c.status == Status::Fail, failing.contains(&c.id), c.id.as_str()))
            .filter(|(was, is, _)| was != is)
            .partition(|(was, ..)| *was);
        let names = |list: &[(bool, bool, &str)]| {
            list.iter().map(|(.., id)| *id).collect::<Vec<_>>().join(", ")
        };
        let mut text = String::new();
        if !was.is_empty() {
            text = format!("also fixes {}", names(&was));
        }
        if !is.is_empty() {
            let verb = if is.len() == 1 { "fails" } else { "fail" };
            text = join(&text, &format!("but then {} {verb}", names(&is)));
        }
        text
    }
}

/// A change that makes one check pass, with the crossing after it.
struct Attempt {
    change: Change,
    project: Project,
    /// Whether a value was turned, not a choice made.
    turned: bool,
}

fn join(a: &str, b: &str) -> String {
    match (a, b) {
        ("", text) | (text, "") => text.to_owned(),
        (a, b) => format!("{a}; {b}"),
    }
}

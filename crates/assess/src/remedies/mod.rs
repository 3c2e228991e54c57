//! What would make failing checks pass: the smallest change of one value, and changes that together fix them all. Every
//! answer was found by computing the crossing again with it.

use std::cell::Cell;

use project::Project;
use quantity::show;

pub(crate) use self::knob::{Choice, Knob};
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

/// A design in which changes are searched for.
pub(crate) trait Searched: Clone {
    /// Values that may help a check.
    fn knobs(&self, id: &str) -> Vec<Knob<Self>>;
    /// Choices that may help a check.
    fn choices(&self, id: &str) -> Vec<Choice<Self>>;
    /// One check, made again.
    fn check(&self, id: &str) -> Option<Check>;
    /// Every check, made again.
    fn checks(&self) -> Vec<Check>;
    /// Work of one check, in joints of the chain; of all of them without an id.
    fn work(&self, id: Option<&str>) -> f64;
}

impl Searched for Project {
    fn knobs(&self, id: &str) -> Vec<Knob> {
        knobs::knobs(self, id)
    }

    fn choices(&self, id: &str) -> Vec<Choice> {
        knobs::choices(self, id)
    }

    fn check(&self, id: &str) -> Option<Check> {
        checks::one(&Context::new(self, false), id).map(|item| item.check)
    }

    fn checks(&self) -> Vec<Check> {
        let all = checks::all(&Context::new(self, false));
        all.into_iter().map(|item| item.check).collect()
    }

    fn work(&self, id: Option<&str>) -> f64 {
        // Joints of one run over all head positions.
        let pipes = f64::from(self.string.pipes_for(self.line.length()));
        let run = 0.5 * pipes * pipes;
        let stages = 2.0 + self.bore.ream_diameters.len() as f64;
        // Two places a metre.
        let places = if self.strata.is_some() { 2.0 * self.line.length().si() } else { 0.0 };
        let fluid = PLACE * stages * places;
        match id {
            None => 7.0 * run + fluid + PLAIN_CHECK,
            Some("line.joint-angle") => 6.0 * run + PLAIN_CHECK,
            Some(id) if id.starts_with("pull.") || id == "line.barrel-fit" => {
                4.0 * run + PLAIN_CHECK
            }
            Some(id) if id.starts_with("fluid.") || id.starts_with("ground.") => {
                fluid + PLAIN_CHECK
            }
            Some(_) => PLAIN_CHECK,
        }
    }
}

/// The search for changes, with what it may still do.
pub(crate) struct Search<'a, D> {
    design: &'a D,
    checks: &'a [Check],
    left: Cell<f64>,
}

impl<'a, D: Searched> Search<'a, D> {
    pub fn new(design: &'a D, checks: &'a [Check]) -> Self {
        Self { design, checks, left: Cell::new(MOST_WORK) }
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
                self.attempts(self.design, &check.id)
                    .into_iter()
                    .map(|attempt| Remedy {
                        check: check.id.clone(),
                        parameter: attempt.change.parameter,
                        from: attempt.change.from,
                        to: attempt.change.to,
                        note: join(
                            &attempt.change.note,
                            &self.side_effects(&attempt.design, check),
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
        let mut state = self.design.clone();
        let mut changes: Vec<Change> = Vec::new();
        let Some(mut failing) = self.failing_of(&state) else { return Vec::new() };
        for _ in 0..MOST_CHANGES {
            let Some(id) = failing.first() else { return changes };
            let best = self
                .attempts(&state, id)
                .into_iter()
                .filter_map(|attempt| Some((self.failing_of(&attempt.design)?, attempt)))
                .min_by_key(|(left, _)| left.len());
            let Some((left, attempt)) = best else { return Vec::new() };
            match changes.iter_mut().find(|c| c.parameter == attempt.change.parameter) {
                Some(earlier) => earlier.to = attempt.change.to,
                None => changes.push(attempt.change),
            }
            state = attempt.design;
            failing = left;
        }
        if failing.is_empty() { changes } else { Vec::new() }
    }

    fn attempts(&self, design: &D, id: &str) -> Vec<Attempt<D>> {
        let choices = design.choices(id);
        let mut found: Vec<_> = choices.iter().filter_map(|k| self.choose(design, id, k)).collect();
        let knobs = design.knobs(id);
        for knob in &knobs {
            // Two values at once only where neither alone helps.
            if !(knob.several && found.iter().any(|a| a.turned)) {
                found.extend(self.turn(design, id, knob));
            }
        }
        found
    }

    /// Ids of the failing checks; `None` when the work is used up.
    fn failing_of(&self, design: &D) -> Option<Vec<String>> {
        self.afford(self.design.work(None)).then(|| {
            let failing = design.checks().into_iter().filter(|c| c.status == Status::Fail);
            failing.map(|c| c.id).collect()
        })
    }

    fn passes(&self, design: &D, id: &str) -> bool {
        self.afford(self.design.work(Some(id)))
            && design
                .check(id)
                .is_some_and(|c| matches!(c.status, Status::Pass | Status::Attention))
    }

    fn turn(&self, design: &D, id: &str, knob: &Knob<D>) -> Option<Attempt<D>> {
        let (value, changed) = knob.smallest(design, |trial| self.passes(trial, id))?;
        let change = Change {
            parameter: knob.parameter.clone(),
            from: show(knob.from, knob.unit),
            to: show(value, knob.unit),
            note: knob.note.to_owned(),
        };
        Some(Attempt { change, design: changed, turned: true })
    }

    fn choose(&self, design: &D, id: &str, choice: &Choice<D>) -> Option<Attempt<D>> {
        let mut trial = design.clone();
        (choice.set)(&mut trial);
        self.passes(&trial, id).then(|| Attempt {
            change: Change {
                parameter: choice.parameter.to_owned(),
                from: choice.from.clone(),
                to: choice.to.clone(),
                note: String::new(),
            },
            design: trial,
            turned: false,
        })
    }

    /// Checks that the change would break, and those that it would fix as well.
    fn side_effects(&self, trial: &D, check: &Check) -> String {
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

/// A change that makes one check pass, with the design after it.
struct Attempt<D> {
    change: Change,
    design: D,
    /// Whether a value was turned, not a choice made.
    turned: bool,
}

fn join(a: &str, b: &str) -> String {
    match (a, b) {
        ("", text) | (text, "") => text.to_owned(),
        (a, b) => format!("{a}; {b}"),
    }
}

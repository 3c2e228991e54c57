//! Runs in the order of the work: pipes, time, services, lubricant; string against pipe by pipe.

use project::{Assembly, Run};
use pull::bursting::{LOSS_RATIOS, PipeByPipe, lubricant, pulling_time};
use quantity::{Length, Time, unit};

use super::context::Context;
use crate::assessment::{Reading, RunPlan};

/// Whole pipes that a run takes.
pub(super) fn pipes(c: &Context<'_>, run: &Run) -> f64 {
    (run.length() / c.renewal.string.pipe.laying_length() - 1e-9).ceil().max(1.0)
}

/// Sub-strings of a run: the file's list follows the runs in their order.
fn sub_strings(c: &Context<'_>, run: &Run) -> Option<f64> {
    let Assembly::SubStrings(counts) = &c.renewal.string.assembly else { return None };
    let mut left = counts.iter();
    for one in &c.renewal.runs {
        let (mut sum, mut number) = (0.0, 0.0);
        while sum < pipes(c, one) {
            sum += f64::from(*left.next()?);
            number += 1.0;
        }
        if one == run {
            return Some(number);
        }
    }
    None
}

/// Time of a run pipe by pipe, and in one string.
pub(super) fn times(c: &Context<'_>, run: &Run) -> Option<(Time, Time)> {
    let r = c.renewal;
    let steps = PipeByPipe {
        pipes: pipes(c, run),
        laying_length: r.string.pipe.laying_length(),
        joint_time: r.burst.joint_time,
        pull_speed: r.burst.speed,
        reset_time: r.burst.reset_time,
    };
    let by_pipe = pulling_time(&steps).ok()?.total;
    let moving = run.length().si() / r.burst.speed.si();
    let string = Time::from_si(moving + r.burst.reset_time.si());
    Some((by_pipe, string))
}

/// Time of a run as the file puts the string together; a sub-string costs one joint and one reset, and a joint is made
/// before each but the first.
pub(super) fn time(c: &Context<'_>, run: &Run) -> Option<Time> {
    let r = c.renewal;
    let (by_pipe, string) = times(c, run)?;
    Some(match &r.string.assembly {
        Assembly::String => string,
        Assembly::PipeByPipe => by_pipe,
        Assembly::SubStrings(_) => {
            let number = sub_strings(c, run)?;
            let moving = run.length().si() / r.burst.speed.si();
            let joints = (number - 1.0).max(0.0) * r.burst.joint_time.si();
            Time::from_si(moving + joints + number * r.burst.reset_time.si())
        }
    })
}

/// Whether a run is the first that holds a place: what stands at a shared pit is dug up once.
fn first(c: &Context<'_>, run: &Run, at: Length) -> bool {
    c.renewal.runs.iter().find(|one| one.holds(at)) == Some(run)
}

/// Greatest force in the string of every run for planning, were it put together like this.
fn forces(c: &Context<'_>, assembly: Assembly) -> Vec<Option<Reading>> {
    let mut renewal = c.renewal.clone();
    renewal.string.assembly = assembly;
    let context = Context::new(&renewal, false);
    let Ok(list) = context.forces() else { return vec![None; renewal.runs.len()] };
    list.iter().map(|run| Some(Reading::new(run.string[1].si(), unit::KN))).collect()
}

/// Every run.
pub(super) fn runs(c: &Context<'_>) -> Vec<RunPlan> {
    let r = c.renewal;
    let by_pipes = forces(c, Assembly::PipeByPipe);
    let at_once = forces(c, Assembly::String);
    let list = r.runs.iter().zip(by_pipes).zip(at_once).map(|((run, by_pipes), at_once)| {
        let (by_pipe, string) = times(c, run)?;
        let services = r.host.services.iter().filter(|s| first(c, run, s.at)).count();
        let opened = r
            .host
            .features
            .iter()
            .filter(|f| first(c, run, f.at) && f.action == Some("dig out"))
            .count();
        let largest_host = c.stretches_of(run).map(|s| s.inside_diameter).reduce(Length::min)?;
        let volume = r.burst.lubricated.then(|| {
            let ratio = LOSS_RATIOS.high_si().unwrap_or(LOSS_RATIOS.low_si());
            let barrel = r.string.pipe.barrel_diameter();
            let expander = c.expander().ok()?;
            let made = lubricant(expander, barrel, largest_host, run.length(), ratio).ok()?;
            Some(Reading::new(made.annulus.max(made.article).si(), unit::M3))
        });
        let now = time(c, run)?;
        Some(RunPlan {
            name: run.name.clone(),
            launch: Reading::new(run.launch.si(), unit::M),
            machine: Reading::new(run.machine.si(), unit::M),
            length: Reading::new(run.length().si(), unit::M),
            pipes: pipes(c, run),
            time: Reading::new(now.si(), unit::H),
            time_pipe_by_pipe: Reading::new(by_pipe.si(), unit::H),
            time_string: Reading::new(string.si(), unit::H),
            force_pipe_by_pipe: by_pipes,
            force_string: at_once,
            services,
            opened,
            lubricant: volume.flatten(),
        })
    });
    list.flatten().collect()
}

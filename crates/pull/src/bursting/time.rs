use quantity::{Length, Time, Velocity, unit};
use working::Evidence;

use super::whole;
use crate::published::{Method, PublishedError, range};

/// Time of pulling pipe by pipe.
pub const PIPE_BY_PIPE: Method = Method {
    name: "time of pulling pipe by pipe",
    document: "sum of the steps of every pipe; own model",
    evidence: Evidence::Derived,
    validity: "pulling alone: without pits, services, rods going in, testing; as good as the times put in",
};

/// Steps of every pipe, for [`pulling_time`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeByPipe {
    /// Number of pipes.
    pub pipes: f64,
    /// Laying length of one.
    pub laying_length: Length,
    /// Time to make a joint and protect it.
    pub joint_time: Time,
    /// Speed while pulling.
    pub pull_speed: Velocity,
    /// Time to set back and start again.
    pub reset_time: Time,
}

/// What [`pulling_time`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PullingTime {
    /// Length of the string.
    pub length: Length,
    /// Time of one pipe.
    pub per_pipe: Time,
    /// Time of all.
    pub total: Time,
}

/// Time of pulling a string pipe by pipe.
///
/// ```text
/// t = n·(t_j + L_p/v + t_r)
/// ```
/// | symbol | meaning                                 | unit | argument        |
/// |--------|-----------------------------------------|------|-----------------|
/// | n      | number of pipes                         | –    | `pipes`         |
/// | t_j    | time to make a joint and protect it     | s    | `joint_time`    |
/// | L_p    | laying length                           | m    | `laying_length` |
/// | v      | speed while pulling                     | m/s  | `pull_speed`    |
/// | t_r    | time to set back and start again        | s    | `reset_time`    |
///
/// Valid for whole n ≥ 1, L_p, v > 0, times not negative.
///
/// # Source
/// [`PIPE_BY_PIPE`]; usual times in [`super::RATES`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/time.toml`.
pub fn pulling_time(steps: &PipeByPipe) -> Result<PullingTime, PublishedError> {
    let pipes = whole("pipes", steps.pipes, 1.0)?;
    let laying_length = range::positive("laying length", steps.laying_length.si(), unit::M)?;
    let joint = range::not_negative("joint time", steps.joint_time.si(), unit::MIN)?;
    let speed = range::positive("pull speed", steps.pull_speed.si(), unit::M_PER_MIN)?;
    let reset = range::not_negative("reset time", steps.reset_time.si(), unit::MIN)?;
    let per_pipe = range::result("time", joint + laying_length / speed + reset)?;
    Ok(PullingTime {
        length: Length::metres(range::result("length", pipes * laying_length)?),
        per_pipe: Time::seconds(per_pipe),
        total: Time::seconds(range::result("time", pipes * per_pipe)?),
    })
}

use pull::bursting::{PIPE_BY_PIPE, PipeByPipe, pulling_time};
use quantity::{Length, Time, Velocity, unit};

use super::{LAYING_LENGTH, not_negative, positive};
use crate::definition::{Output, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

pub(super) static BURST_TIME: Worksheet = Worksheet {
    id: "burst-time",
    title: "time of pulling a string in pipe by pipe",
    inputs: &[
        positive("pipes", "n", "number of pipes", unit::ONE),
        LAYING_LENGTH,
        not_negative("joint_time", "t_j", "to make a joint and protect it", unit::MIN),
        positive("pull_speed", "v", "speed while pulling", unit::M_PER_MIN),
        not_negative("reset_time", "t_r", "to set back and start again", unit::MIN),
    ],
    outputs: &[
        Output::new("time", "time of all pipes", unit::H),
        Output::new("time_per_pipe", "time of one pipe", unit::MIN),
        Output::new("length", "length of the string", unit::M),
    ],
    source: PIPE_BY_PIPE.source(),
    example: &[
        ("pipes", "28"),
        ("laying_length", "6 m"),
        ("joint_time", "15 min"),
        ("pull_speed", "0.6 m/min"),
        ("reset_time", "2 min"),
    ],
    run: run_time,
};

fn run_time(v: &Values) -> Result<Sheet, Failure> {
    let found = pulling_time(&PipeByPipe {
        pipes: v.si("pipes"),
        laying_length: Length::from_si(v.si("laying_length")),
        joint_time: Time::from_si(v.si("joint_time")),
        pull_speed: Velocity::from_si(v.si("pull_speed")),
        reset_time: Time::from_si(v.si("reset_time")),
    })
    .map_err(|e| refused(&BURST_TIME, &e))?;
    let (total, one, length) = (found.total.si(), found.per_pipe.si(), found.length.si());
    let source = || PIPE_BY_PIPE.source();
    let mut w = v.open();
    w.result("t_1", "time of one pipe", "t_j + L_p/v + t_r", one, unit::MIN, source());
    w.result("t", "time of all pipes", "n*t_1", total, unit::H, source());
    w.result("L", "length of the string", "n*L_p", length, unit::M, source());
    Ok(Sheet::new(&[("time", total), ("time_per_pipe", one), ("length", length)], w))
}

//! Pipe bursting: the single formulas of replacing a pipe in its own line.

use std::f64::consts::FRAC_PI_2;

use quantity::{Unit, unit};
use working::{Evidence, Source};

use crate::definition::{Input, Range, Worksheet};
use crate::run::{Failure, Values};

mod cavity;
mod clearance;
mod difficulty;
mod drag;
mod expander;
mod guide;
mod head;
mod pit;
mod pull;
mod time;
mod upsize;
mod wall;

/// Worksheets of this topic.
pub(crate) static SHEETS: &[&Worksheet] = &[
    &expander::BURST_EXPANDER,
    &expander::BURST_VOLUME,
    &expander::BURST_RESIDUAL,
    &expander::BURST_LUBRICATION,
    &upsize::BURST_UPSIZE,
    &difficulty::BURST_CLASS,
    &head::BURST_BREAKING,
    &head::BURST_SPLITTING,
    &cavity::BURST_CAVITY,
    &cavity::BURST_CAP,
    &head::BURST_CONE,
    &drag::BURST_DRAG,
    &guide::BURST_GUIDE,
    &pull::BURST_WEIGHT,
    &pull::BURST_PULL_SHEET,
    &wall::REACTION_WALL_SHEET,
    &pit::BURST_PIT,
    &pit::BURST_RAMP_PIT,
    &pit::BURST_PLASTIC_PIT,
    &clearance::BURST_CLEARANCE,
    &time::BURST_TIME,
];

/// Geometry without any other source.
const EXACT: Source = Source::new("geometry, exact", Evidence::Derived);

/// An angle between 0 and 90°, neither included.
const ACUTE: Range = Range::Between(0.0, FRAC_PI_2);

const HOST_INSIDE: Input = size("host_inside_diameter", "d_i", "inside diameter of the old pipe");
const EXPANDER: Input = size("expander_diameter", "D_e", "outside diameter of the expander");
const BARREL: Input = size("barrel_diameter", "D_n", "outside diameter of the new barrel");
const SOCKET: Input = size("socket_diameter", "D_s", "largest outside diameter of the new socket");
const SOCKET_LENGTH: Input = Input::quantity(
    "socket_length",
    "L_s",
    "length over which a socket bears, 0.10 to 0.25 m",
    unit::M,
    Range::NotNegative,
);
const LAYING_LENGTH: Input =
    Input::quantity("laying_length", "L_p", "laying length of one pipe", unit::M, Range::Positive);
const LENGTH: Input =
    Input::quantity("length", "L", "length of string in the ground", unit::M, Range::NotNegative);
const UNIT_WEIGHT: Input = Input::quantity(
    "unit_weight",
    "gamma",
    "unit weight of the ground",
    unit::KN_PER_M3,
    Range::Positive,
);
const COVER: Input =
    Input::quantity("cover", "H", "cover over the crown", unit::M, Range::NotNegative);
const FRICTION: Input = Input::quantity(
    "friction",
    "mu",
    "friction of pipe on ground",
    unit::ONE,
    Range::Within(0.0, 1.0),
);
const HALF_ANGLE: Input =
    Input::quantity("half_angle", "alpha", "half the angle of the cone", unit::DEG, ACUTE);

/// A diameter, a wall or a small length that is not zero.
const fn size(key: &'static str, symbol: &'static str, meaning: &'static str) -> Input {
    Input::quantity(key, symbol, meaning, unit::MM, Range::SIZE)
}

/// A quantity of zero or more.
const fn not_negative(
    key: &'static str,
    symbol: &'static str,
    meaning: &'static str,
    unit: Unit,
) -> Input {
    Input::quantity(key, symbol, meaning, unit, Range::NotNegative)
}

/// A quantity greater than zero.
const fn positive(
    key: &'static str,
    symbol: &'static str,
    meaning: &'static str,
    unit: Unit,
) -> Input {
    Input::quantity(key, symbol, meaning, unit, Range::Positive)
}

/// Refuses keys that have no part in what was chosen, so that none is dropped in silence.
fn no_part(v: &Values, keys: &[&'static str], chosen: &str) -> Result<(), Failure> {
    match keys.iter().find(|key| v.optional(key).is_some()) {
        None => Ok(()),
        Some(key) => Err(Failure::at(key, format!("has no part in {chosen}: leave it out"))),
    }
}

#[cfg(test)]
mod tests;

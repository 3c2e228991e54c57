//! Pipe: tables, ratings, masses and weights, joints.

use crate::definition::Worksheet;

mod capacity;
mod movement;
mod rating;
mod table;
mod weight;

/// Worksheets of this topic.
pub(crate) static SHEETS: &[&Worksheet] = &[
    &weight::NET_WEIGHT,
    &rating::WALL_EN545,
    &rating::PRESSURE_EN545,
    &rating::FLANGE_RATING,
    &table::PIPE_EN545,
    &table::PIPE_AWWA,
    &capacity::END_THRUST,
    &capacity::BARREL_CAPACITY,
    &capacity::PULL_FROM_PRESSURE,
    &capacity::JOINT_OFFSET,
    &movement::THERMAL_MOVEMENT,
];

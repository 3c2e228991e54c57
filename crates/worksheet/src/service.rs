//! The main in service and its acceptance.

use crate::definition::Worksheet;

mod anchorage;
mod cover;
mod disinfection;
mod flow;
mod fluid;
mod ring;
mod soil;
mod surge;
mod test;

/// Worksheets of this topic.
pub(crate) static SHEETS: &[&Worksheet] = &[
    &cover::WALL_C150,
    &cover::COVER_C150,
    &ring::RING_BUCKLING,
    &ring::RING_STIFFNESS,
    &ring::OVALITY,
    &soil::SILO_LOAD,
    &soil::TERZAGHI_LOAD,
    &soil::TRAFFIC_LOAD,
    &test::TEST_PRESSURE,
    &test::TEST_LOSS,
    &test::FREE_AIR,
    &test::AIR_VOLUME,
    &test::MAKEUP_C600,
    &surge::WAVE_SPEED,
    &anchorage::RESTRAINED_LENGTH,
    &disinfection::CHLORINE,
    &disinfection::CHLORINE_SOLUTION,
    &disinfection::SLUG,
    &disinfection::DECHLORINATION,
    &disinfection::FLUSHING,
    &flow::HEAD_LOSS,
    &flow::HAZEN_WILLIAMS,
    &fluid::FLUID_COLUMN,
];

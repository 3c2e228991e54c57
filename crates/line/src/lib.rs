//! Bore line in three dimensions.
//!
//! A [`Line`] is an exact curve from the rig-side entry point (measured distance 0) to the
//! pipe-side exit point, made from a level design ([`Line::from_level`]), from straights and arcs
//! ([`Line::from_elements`]) or from a survey ([`Line::from_survey`]). Beside it stand the single
//! formulas of the trade on curves, rods and barrels.
//!
//! Positions are vectors in metres: x east, y north, z level. Inclination is measured from the
//! horizontal, positive where the bore rises; azimuth from north, clockwise; right is positive.
//!
//! Not covered: convergence and scale of map grids, magnetic declination, the full error models of
//! survey tools.

pub use self::barrel::{BarrelBore, barrel_tilt, bore_for_barrel};
pub use self::bore_line::Line;
pub use self::elements::{Element, Start};
pub use self::error::{End, Field, LineError};
pub use self::first_level::{FirstLevel, first_level};
pub use self::formula_error::FormulaError;
pub use self::level::{LevelDesign, PlanBend};
pub use self::level_profile::{LevelProfile, ProfileSide, level_profile};
pub use self::nearest::Nearest;
pub use self::polygon::{JointPolygon, joint_polygon};
pub use self::radius::{combined_radius, quarter_bend_length, rod_bending_stress, rod_radius};
pub use self::rise::{Overbend, RiseFromLevel, overbend, rise_from_level};
pub use self::rods::{GradePlan, RodPlan, RodStep, grade_plan, rod_plan, rod_step};
pub use self::segment::{Segment, SegmentKind};
pub use self::station::Station;
pub use self::steer::{Steering, slide_share, steer, toolface};
pub use self::survey::{Attitude, SurveyStation, SurveyStep, survey_step};
pub use self::uncertainty::{PositionUncertainty, SurveyAccuracy, position_uncertainty};

mod barrel;
mod bore_line;
mod curve;
mod elements;
mod elliptic;
mod error;
mod first_level;
mod formula_error;
mod level;
mod level_profile;
mod lowest;
mod nearest;
mod plan;
mod polygon;
mod radius;
mod range;
mod rise;
mod rods;
mod segment;
mod station;
mod steer;
mod survey;
mod uncertainty;

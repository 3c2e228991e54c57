//! Ground line, free water and obstacles around a bore, and how far the bore stays from them.
//!
//! All of it lives in the developed section: the vertical surface above the plan line, unrolled,
//! with the chainage to the right and the level upwards. Unrolling keeps lengths, so distances
//! within the section are true ones; what lies beside the plan line is not seen.

pub use self::clearance::{Clearance, clearance};
pub use self::cover::{Cover, cover_at, cover_profile, least_cover};
pub use self::error::GroundError;
pub use self::ground_line::GroundLine;
pub use self::obstacle::{Obstacle, ObstacleKind, Passing, Shape};
pub use self::road_cover::{RoadCover, required_cover_under_road};
pub use self::water::submerged;

mod clearance;
mod cover;
mod error;
mod ground_line;
mod obstacle;
mod road_cover;
mod search;
mod water;

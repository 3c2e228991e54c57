//! How ground moves when a volume appears in it or is lost from it: the expander of a burst, the
//! closing annulus of a bore.
//!
//! Every function is told the volume per length, m³/m, and where it appears. Up and away from the
//! axis are positive for a volume gained; a negative volume, where a function takes one, is a loss
//! and turns the signs.

pub use self::annulus::annulus_loss_volume;
pub use self::elastic::{buried_displacement, greatest_surface_slope, surface_heave};
pub use self::incompressible::{along_pull, far_displacement, near_displacement, trench_wedge};
pub use self::trough::Trough;

mod annulus;
mod elastic;
mod incompressible;
mod trough;

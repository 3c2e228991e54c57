//! Ground line, strata, water and obstacles around a bore: how far the bore stays from them, and the stresses around it.
//!
//! All of it lives in the developed section: the vertical surface above the plan line, unrolled,
//! with the chainage to the right and the level upwards. Unrolling keeps lengths, so distances
//! within the section are true ones; what lies beside the plan line is not seen.

pub use self::clearance::{Clearance, clearance};
pub use self::correlation::{
    CONE_FACTOR, ISO_STRESS, OPERATIONAL_SHARE, OVERBURDEN_CAP, REFERENCE_PRESSURE, SptSoil,
    bore_factor, friction_angle_cpt, friction_angle_kulhawy, friction_angle_peck, k0_cpt,
    k0_normally_consolidated, k0_overconsolidated, mean_stress, operational_shear_modulus,
    overburden_factor, overburden_factor_iso, relative_density, rod_factor,
    shear_modulus_from_youngs, shear_modulus_small_clay, shear_modulus_small_sand,
    shear_wave_velocity_cpt, spt_energy_corrected, strength_factor_spt, undrained_strength_cpt,
    undrained_strength_spt, youngs_from_oedometric, youngs_modulus_spt,
};
pub use self::cover::{Cover, cover_at, cover_profile, least_cover};
pub use self::error::GroundError;
pub use self::ground_line::GroundLine;
pub use self::movement::{
    Trough, along_pull, annulus_loss_volume, buried_displacement, far_displacement,
    greatest_surface_slope, near_displacement, surface_heave, trench_wedge,
};
pub use self::obstacle::{Obstacle, ObstacleKind, Passing, Shape};
pub use self::road_cover::{RoadCover, required_cover_under_road};
pub use self::soil::{Soil, SoilGroup, SoilKind, Suitability, Typical, suitability, typical};
pub use self::strata::{Boring, Column, ConeReading, GroundModel, Layer, PenetrationTest, Stratum};
pub use self::stress::{NearLayer, Stress, WaterAt, stress_at, weaker_layers};
pub use self::water::submerged;

mod argument;
mod clearance;
mod correlation;
mod cover;
mod error;
mod ground_line;
mod movement;
mod obstacle;
mod road_cover;
mod search;
mod soil;
mod strata;
mod stress;
#[cfg(test)]
mod test_soils;
mod water;

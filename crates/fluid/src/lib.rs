//! Drilling fluid: rheology, flow in annulus and rods, limit pressure of the ground, volumes.
//!
//! One function a formula. A fluid is a [`Rheology`], mostly [`fit`] to the readings of a viscometer;
//! [`annulus_loss`] and [`pipe_loss`] say what its flow costs; [`Cavity`], [`UndrainedCavity`] and the
//! elastic limits say what the ground bears. Units are converted by the newtypes of `quantity`;
//! inside, everything is SI. A pressure gradient is a [`quantity::UnitWeight`].
//!
//! Pressures are gauge. Those of [`Cavity`] and [`support_pressure`] are effective, all others total.

pub use self::annulus::{AnnulusFlow, annulus_loss, bingham_asymptote, slot_velocity};
pub use self::at_depth::pressure_at_depth;
pub use self::carrying::{Slip, particle_slip, transport_velocity};
pub use self::eccentric::eccentric_factor;
pub use self::elastic_limits::{rock_fracture_limit, rock_joint_limit, tensile_limit};
pub use self::error::FluidError;
pub use self::gel::{restart_gradient, restart_gradient_in_pipe};
pub use self::ground_limit::{
    Criterion, LimitRules, Limits, Place, Weaker, limit_behind, limits_at, mean_effective_stress,
    plastic_zone,
};
pub use self::limit::Cavity;
pub use self::outlet_path::{OutletPath, PathPressure};
pub use self::pipe_flow::{PipeFlow, nozzle_loss, pipe_loss};
pub use self::readings::{DialReadings, Fit, Model, fit};
pub use self::regime::{
    EqualPipeFlow, annulus_loss_any_regime, annulus_loss_equal_pipe, annulus_reynolds,
    laminar_limit, turbulent_friction_factor, turbulent_limit,
};
pub use self::rheology::Rheology;
pub use self::stability::{overload_number, support_pressure, unloading_radius};
pub use self::surge::{
    clinging_laminar, clinging_newtonian_exact, clinging_turbulent, piston_velocity, surge_velocity,
};
pub use self::undrained::{UndrainedCavity, undrained_yield_anisotropic};
pub use self::volumes::{
    cut_volume, fluid_volume, largest_advance, pass_diameters, returns_density, solids_fraction,
};

mod annulus;
mod at_depth;
mod carrying;
mod eccentric;
mod elastic_limits;
mod error;
mod gel;
mod ground_limit;
mod limit;
mod outlet_path;
mod pipe_flow;
mod readings;
mod regime;
mod rheology;
mod stability;
mod surge;
mod undrained;
mod volumes;

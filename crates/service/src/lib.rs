//! The main in service and its acceptance: external load, surge, thrust, pressure test,
//! disinfection, flow.
//!
//! One function a formula. Units are converted by the newtypes of `quantity`; inside, everything is
//! SI, also where the source prints psi, inches and gallons.
//!
//! Editions: AWWA C150/A21.50, C600, C651; EN 545:2010 annexes C and F; EN 805:2000 clause 11; GW
//! 368 (2002). Each function says how much of its source was read and how much only remembered.

pub use self::buckling::{POISSON, ovality_factor, ring_buckling};
pub use self::c150::{
    C150Cover, C150Load, Criterion, RING_BENDING_LIMIT, SERVICE_ALLOWANCE, TRUCK_IMPACT,
    TRUCK_WHEEL, capacity_by_bending, capacity_by_deflection, earth_pressure, max_cover,
    pressure_wall, total_wall, truck_pressure, truck_surface_factor,
};
pub use self::disinfection::{
    Dechlorinator, Slug, chlorine_mass, dechlorination_mass, flushing_flow, pipe_volume,
    product_mass, slug, solution_volume,
};
pub use self::error::ServiceError;
pub use self::fluid_column::column_pressure;
pub use self::head_loss::{
    FullPipe, LAMINAR_LIMIT, colebrook_white, darcy_weisbach, full_pipe_flow, hazen_williams,
};
pub use self::makeup::makeup_c600;
pub use self::pressure_test::{
    AIR_CHECK_FACTOR, MAIN_TEST_FACTOR, Surge, air_volume_change, elastic_volume,
    system_test_pressure, tolerated_free_air,
};
pub use self::restrained_length::{
    Bearing, BearingTerms, Bisector, Encasement, restrained_length_bearing,
    restrained_length_bisector,
};
pub use self::ring::{
    Ovality, RING_YIELD, allowable_ovality, effective_wall, ovality_stress, ovality_under_load,
    ring_stiffness,
};
pub use self::soil_load::{prism_load, silo_load, silo_ratio, terzaghi_load};
pub use self::surge::{Restraint, WATER_MODULUS, pressure_rise, wave_speed};
pub use self::thrust::{bend_thrust, reducer_thrust, tee_thrust};
pub use self::traffic::{Road, traffic_pressure};

mod buckling;
mod c150;
mod disinfection;
mod error;
mod fluid_column;
mod head_loss;
mod makeup;
mod pressure_test;
mod restrained_length;
mod ring;
mod soil_load;
mod surge;
mod thrust;
mod traffic;

//! Wall and cover of ductile iron pipe by ANSI/AWWA C150/A21.50 (edition -21, reaffirmed 2023).
//!
//! Read: pressure wall, stress limits 42 000 and 48 000 psi, deflection limit 3 %, prism load at
//! 120 lbf/ft³, wheel of 16 000 lbf with impact 1.5 at all depths. From memory: the forms of the
//! ring-bending and deflection equations, the surface load factor and the laying constants.
//! Together they reproduce the published cover table for minimum pressure classes
//! (`cases/service/c150-maximum-cover.toml`), which is the evidence for the remembered parts.

pub use self::capacity::{
    C150Load, Criterion, RING_BENDING_LIMIT, capacity_by_bending, capacity_by_deflection,
};
pub use self::cover::{C150Cover, max_cover};
pub use self::truck::{
    TRUCK_IMPACT, TRUCK_WHEEL, earth_pressure, truck_pressure, truck_surface_factor,
};
pub use self::wall::{SERVICE_ALLOWANCE, pressure_wall, total_wall};

mod capacity;
mod cover;
mod truck;
mod wall;

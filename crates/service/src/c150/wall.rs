use quantity::{Length, Pressure, unit};

use crate::ServiceError;
use crate::error::{finite, not_negative, positive};

/// Yield strength in tension for the pressure wall, 42 000 psi; read.
const YIELD: f64 = 42_000.0 * PSI;

/// Surge allowance, 100 psi; read.
const SURGE: f64 = 100.0 * PSI;

/// Safety factor on working pressure and surge; read.
const SAFETY: f64 = 2.0;

const PSI: f64 = 6_894.757_293_168;

/// Allowance for service that C150 adds to the net wall, 0.08 in; from memory, confirmed by the
/// published walls.
pub const SERVICE_ALLOWANCE: Length = Length::from_si(0.08 * 0.0254);

/// Net wall for internal pressure (AWWA C150).
///
/// ```text
/// t = P_i D / (2 S),   P_i = 2 (P_w + 100 psi),   S = 42 000 psi
/// ```
/// | symbol | meaning          | unit | argument           |
/// |--------|------------------|------|--------------------|
/// | t      | net wall         | m    | returned           |
/// | P_w    | working pressure | Pa   | `working_pressure` |
/// | D      | outside diameter | m    | `outside_diameter` |
///
/// # Source
/// ANSI/AWWA C150/A21.50, read.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/c150-pressure-wall.toml`.
pub fn pressure_wall(
    outside_diameter: Length,
    working_pressure: Pressure,
) -> Result<Length, ServiceError> {
    let d = positive("outside diameter", outside_diameter.si(), unit::MM)?;
    let p = not_negative("working pressure", working_pressure.si(), unit::PSI)?;
    finite("net wall", SAFETY * (p + SURGE) * d / (2.0 * YIELD)).map(Length::from_si)
}

/// Total calculated wall: net wall, service allowance of 0.08 in and casting tolerance.
///
/// # Source
/// ANSI/AWWA C150/A21.50; allowance and tolerances from memory, confirmed by recomputing published
/// walls.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
pub fn total_wall(net: Length, casting_tolerance: Length) -> Result<Length, ServiceError> {
    let t = positive("net wall", net.si(), unit::MM)?;
    let tolerance = not_negative("casting tolerance", casting_tolerance.si(), unit::MM)?;
    finite("total wall", t + SERVICE_ALLOWANCE.si() + tolerance).map(Length::from_si)
}

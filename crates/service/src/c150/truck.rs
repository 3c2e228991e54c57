use std::f64::consts::FRAC_2_PI;

use quantity::{Force, Length, Pressure, unit};

use crate::ServiceError;
use crate::error::{between, finite, positive};

/// Wheel load of C150, 16 000 lbf; read.
pub const TRUCK_WHEEL: Force = Force::from_si(16_000.0 * 4.448_221_615_260_5);

/// Impact factor of C150 at every depth; read.
pub const TRUCK_IMPACT: f64 = 1.5;

/// Unit weight of the soil in C150, 120 lbf/ft³ in N/m³; read.
const SOIL: f64 = 120.0 * 4.448_221_615_260_5 / (0.3048 * 0.3048 * 0.3048);

/// Length of pipe over which the wheel spreads, 36 in; read.
const SPREAD: f64 = 36.0 * 0.0254;

/// Earth pressure of the prism above the pipe in C150, 120 lbf/ft³ × cover.
///
/// # Source
/// ANSI/AWWA C150/A21.50, read.
/// # Errors
/// [`ServiceError::OutOfRange`] for a cover that is not positive.
pub fn earth_pressure(cover: Length) -> Result<Pressure, ServiceError> {
    let h = positive("cover", cover.si(), unit::M)?;
    finite("earth pressure", SOIL * h).map(Pressure::from_si)
}

/// Share of a surface load over a rectangle that reaches the pipe (Boussinesq, integrated), factor
/// C of C150.
///
/// ```text
/// C = 1 − (2/π) asin[ H √( q / ((A² + H²)(H² + B²)) ) ]
///       + (2/π) (B A H / √q) [ 1/(A² + H²) + 1/(H² + B²) ],     q = A² + H² + B²
/// ```
/// | symbol | meaning                                   | unit | argument           |
/// |--------|-------------------------------------------|------|--------------------|
/// | H      | cover                                     | m    | `cover`            |
/// | A      | half the outside diameter                 | m    | `outside_diameter` |
/// | B      | half the 36 in over which the wheel spreads | m  | –                  |
///
/// # Source
/// ANSI/AWWA C150/A21.50, form from memory, confirmed by the published cover table.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// property: 1 at the surface, falls with the cover; the cover table.
pub fn truck_surface_factor(outside_diameter: Length, cover: Length) -> Result<f64, ServiceError> {
    let a = positive("outside diameter", outside_diameter.si(), unit::MM)? / 2.0;
    let h = positive("cover", cover.si(), unit::M)?;
    let b = SPREAD / 2.0;
    let (ah, bh) = (a * a + h * h, b * b + h * h);
    let q = a * a + h * h + b * b;
    // The argument is 1 at most; rounding may lift it by one unit in the last place, where asin has
    // no value.
    let angle = (h * (q / (ah * bh)).sqrt()).min(1.0).asin();
    let c = 1.0 - FRAC_2_PI * angle + FRAC_2_PI * b * a * h / q.sqrt() * (1.0 / ah + 1.0 / bh);
    finite("surface load factor", c)
}

/// Pressure of one truck wheel on the pipe (AWWA C150).
///
/// ```text
/// P_t = R F C P / (b D)
/// ```
/// | symbol | meaning                                          | unit | argument |
/// |--------|--------------------------------------------------|------|----------|
/// | R      | reduction where the wheel covers part of the pipe | –   | `reduction` |
/// | F      | impact factor 1.5                                | –    | [`TRUCK_IMPACT`] |
/// | C      | surface load factor                              | –    | [`truck_surface_factor`] |
/// | P      | wheel load 16 000 lbf                            | N    | [`TRUCK_WHEEL`] |
/// | b      | spread along the pipe, 36 in                     | m    | – |
/// | D      | outside diameter                                 | m    | `outside_diameter` |
///
/// C150 tabulates R by size and depth; the table was not read, so that 1 (on the safe side) is the
/// usual input.
///
/// # Source
/// ANSI/AWWA C150/A21.50, read except R.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument; R must lie in 0 to 1.
pub fn truck_pressure(
    outside_diameter: Length,
    cover: Length,
    reduction: f64,
) -> Result<Pressure, ServiceError> {
    let r = between("reduction", reduction, unit::ONE, 0.0, 1.0)?;
    let c = truck_surface_factor(outside_diameter, cover)?;
    finite(
        "truck pressure",
        r * TRUCK_IMPACT * c * TRUCK_WHEEL.si() / (SPREAD * outside_diameter.si()),
    )
    .map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_whole_load_arrives_at_the_surface_and_less_below() {
        let d = Length::inches(25.8);
        let at = |h: f64| truck_surface_factor(d, Length::metres(h)).expect("valid");
        assert!((at(1e-6) - 1.0).abs() < 1e-4);
        let mut last = 1.0;
        for step in 1..200 {
            let c = at(0.1 * f64::from(step));
            assert!(c > 0.0 && c < last, "{c} at step {step}");
            last = c;
        }
    }

    #[test]
    fn twelve_feet_of_prism_press_with_ten_psi() {
        let p = earth_pressure(Length::feet(12.0)).expect("valid");
        assert!((p.to_psi() - 10.0).abs() < 1e-9, "{}", p.to_psi());
    }
}

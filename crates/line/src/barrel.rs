use quantity::{Angle, Length, unit};

use crate::FormulaError;
use crate::formula_error::{positive, require};

/// Smallest bore through which a rigid barrel passes in a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarrelBore {
    /// Diameter by the usual form with the parabola's offset a²/8R.
    pub bore_diameter: Length,
    /// Diameter by exact geometry.
    pub bore_diameter_exact: Length,
    /// The larger of the exact value and the socket diameter, which must pass on a straight too.
    pub smallest_bore: Length,
}

impl BarrelBore {
    /// Whether the curve decides the smallest bore, not the socket.
    #[must_use]
    pub fn curve_governs(&self) -> bool {
        self.bore_diameter_exact.si() >= self.smallest_bore.si()
    }
}

/// Smallest bore, without any clearance, through which a rigid barrel with a socket at each end
/// passes in a curve.
///
/// ```text
/// usual form   D_b = (D + D_s)/2 + a²/(8 R)
/// exact        D_b = (D + D_s)/2 + a²/(8 R + 2 (D + D_s))
/// ```
/// The sockets touch the outer wall, the middle of the barrel the inner one: with r = D_b/2 and S =
/// (D + D_s)/2, (R − r + S)² + a²/4 = (R + r)².
///
/// | symbol | meaning                               | unit | argument          |
/// |--------|---------------------------------------|------|-------------------|
/// | D      | outside diameter of the barrel        | m    | `barrel_diameter` |
/// | D_s    | outside diameter of the socket        | m    | `socket_diameter` |
/// | a      | laying length, socket to socket       | m    | `laying_length`   |
/// | R      | radius of the bore axis               | m    | `radius`          |
/// | D_b    | bore diameter                         | m    | returned          |
///
/// Valid for D_s ≥ D > 0 and R ≥ a. The annulus for cuttings comes on top.
///
/// # Source
/// Plane geometry, derived. Deviation: none.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// `cases/geometry/bore-for-barrel.toml`; test: the exact value against a search over positions of
/// the barrel.
pub fn bore_for_barrel(
    barrel_diameter: Length,
    socket_diameter: Length,
    laying_length: Length,
    radius: Length,
) -> Result<BarrelBore, FormulaError> {
    let d = positive("barrel diameter", barrel_diameter.si(), unit::MM)?;
    let ds = positive("socket diameter", socket_diameter.si(), unit::MM)?;
    let a = positive("laying length", laying_length.si(), unit::M)?;
    let r = positive("radius", radius.si(), unit::M)?;
    let least = format!("at least the barrel diameter, {barrel_diameter}");
    require(ds >= d, "socket diameter", ds, unit::MM, least)?;
    let least = format!("at least the laying length, {laying_length}");
    require(r >= a, "radius", r, unit::M, least)?;
    let mean = 0.5 * (d + ds);
    let exact = mean + a * a / (8.0 * r + 4.0 * mean);
    Ok(BarrelBore {
        bore_diameter: Length::from_si(mean + a * a / (8.0 * r)),
        bore_diameter_exact: Length::from_si(exact),
        smallest_bore: Length::from_si(exact.max(ds)),
    })
}

/// Angle between bore and barrel when a pipe lies from corner to corner, `atan( (D_b − D_s) / a )`.
///
/// On a straight, two neighbours lying in opposite senses turn the joint between them by twice this
/// angle; under tension the chain straightens.
///
/// | symbol | meaning                         | unit | argument          |
/// |--------|---------------------------------|------|-------------------|
/// | D_b    | bore diameter                   | m    | `bore_diameter`   |
/// | D_s    | outside diameter of the socket  | m    | `socket_diameter` |
/// | a      | laying length                   | m    | `laying_length`   |
///
/// # Source
/// Plane geometry, derived; sockets of one diameter at both ends. Deviation: none.
/// # Errors
/// [`FormulaError::OutOfRange`], also for a socket that does not fit the bore.
/// # Checked by
/// `cases/geometry/barrel-tilt.toml`.
pub fn barrel_tilt(
    bore_diameter: Length,
    socket_diameter: Length,
    laying_length: Length,
) -> Result<Angle, FormulaError> {
    let db = positive("bore diameter", bore_diameter.si(), unit::MM)?;
    let ds = positive("socket diameter", socket_diameter.si(), unit::MM)?;
    let a = positive("laying length", laying_length.si(), unit::M)?;
    let most = format!("at most the bore diameter, {bore_diameter}");
    require(ds <= db, "socket diameter", ds, unit::MM, most)?;
    Ok(Angle::from_si(((db - ds) / a).atan()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_exact_bore_just_holds_the_barrel() {
        for (d, ds, a, r) in
            [(0.635, 0.742, 6.0, 171.9), (0.429, 0.5, 6.0, 115.0), (1.0, 1.2, 8.0, 9.0)]
        {
            let metres = Length::from_si;
            let bore = bore_for_barrel(metres(d), metres(ds), metres(a), metres(r)).unwrap();
            // Push the sockets against the outer wall and find by bisection the bore whose inner
            // wall the barrel meets.
            let gap = |db: f64| {
                let outer = r + 0.5 * db;
                let axis = (outer * outer - 0.25 * a * a).sqrt() - 0.5 * ds;
                (axis - 0.5 * d) - (r - 0.5 * db)
            };
            let found = numerics::root(gap, d, 3.0 * ds + 2.0, 1e-13).unwrap();
            approx::assert_relative_eq!(bore.bore_diameter_exact.si(), found, max_relative = 1e-11);
            assert!(bore.bore_diameter.si() > bore.bore_diameter_exact.si());
        }
    }

    #[test]
    fn a_socket_smaller_than_the_barrel_is_refused_with_both_values() {
        let mm = Length::millimetres;
        let error = bore_for_barrel(mm(635.0), mm(600.0), mm(6000.0), mm(2e5)).unwrap_err();
        let text = error.to_string();
        assert!(text.contains("600 mm") && text.contains("barrel diameter"), "{text}");
    }
}

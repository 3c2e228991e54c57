use quantity::{Length, Pressure, unit};

use crate::ServiceError;
use crate::error::{finite, positive, within};

/// Kind of road over the pipe, for the traffic pressure of EN 545.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Road {
    /// Main road.
    Main,
    /// Access road.
    Access,
    /// Rural area.
    Rural,
}

impl Road {
    /// Load factor β of EN 545 annex F; from memory.
    #[must_use]
    pub const fn factor(self) -> f64 {
        match self {
            Road::Main => 1.5,
            Road::Access => 0.75,
            Road::Rural => 0.5,
        }
    }
}

/// Pressure of road traffic on the pipe, `p_t = 40 kPa·m · β (1 − 2·10⁻⁴ DN) / H`.
///
/// | symbol | meaning                        | unit | argument           |
/// |--------|--------------------------------|------|--------------------|
/// | β      | [`Road::factor`]               | –    | `factor`           |
/// | DN     | nominal diameter, in mm        | m    | `nominal_diameter` |
/// | H      | cover, at least 0.3 m          | m    | `cover`            |
///
/// # Source
/// EN 545:2010 annex F, from memory.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/ovality.toml` (computed).
pub fn traffic_pressure(
    factor: f64,
    nominal_diameter: Length,
    cover: Length,
) -> Result<Pressure, ServiceError> {
    let beta = positive("traffic factor", factor, unit::ONE)?;
    let dn = nominal_diameter.si();
    within("nominal diameter", dn, unit::MM, dn > 0.0 && dn < 5.0, || {
        "greater than 0 and less than 5000 mm".to_owned()
    })?;
    let h = cover.si();
    within("cover", h, unit::M, h >= 0.3, || "at least 0.3 m".to_owned())?;
    finite("traffic pressure", 40.0e3 * beta * (1.0 - 0.2 * dn) / h).map(Pressure::from_si)
}

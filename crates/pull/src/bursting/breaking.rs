use std::f64::consts::PI;

use quantity::{Angle, Force, Length, Pressure, unit};
use working::{Evidence, Source};

use super::{Figure, acute};
use crate::published::{Method, PublishedError, range};

/// Breaking a brittle host.
pub const BREAKING: Method = Method {
    name: "cone that bursts a ring",
    document: "balance of forces on a cone in a thin ring; the length in contact, to which the force is \
         proportional, is a fitting parameter that no measurement has fixed",
    evidence: Evidence::Judgement,
    validity: "brittle hosts; not calibrated: vary the contact length and show the band; blades and \
               fins lower it",
};

/// Length of host in contact with the cone while it breaks, to start from.
// Judgement: no measured breaking force has fixed it; a few wall thicknesses.
pub const CONTACT_LENGTH: Length = Length::from_si(0.05);

/// Range over which the contact length should be varied.
pub const CONTACT_LENGTHS: Figure = Figure::range(
    "length of host in contact with the cone",
    (0.02, 0.10),
    unit::M,
    Source::new("fitting parameter of the breaking force", Evidence::Judgement),
);

const STRENGTHS: Source = Source::new("usual strengths of old pipe", Evidence::FromMemory);

/// Tensile strengths of brittle hosts. Spun iron is tougher than pit-cast iron, in places close to ductile iron: do not
/// assume that it breaks.
pub const HOST_STRENGTHS: &[Figure] = &[
    Figure::range("grey cast iron, pit cast to spun", (70.0, 250.0), unit::MPA, STRENGTHS),
    Figure::range("asbestos cement", (15.0, 25.0), unit::MPA, STRENGTHS),
    Figure::range("vitrified clay", (8.0, 15.0), unit::MPA, STRENGTHS),
    Figure::range("plain concrete", (2.0, 5.0), unit::MPA, STRENGTHS),
];

/// Axial force at which a cone bursts a brittle pipe from inside.
///
/// ```text
/// F = 2·π·t·σ_t·l·(tan α + μ)/(1 − μ·tan α)
/// ```
/// | symbol | meaning                                   | unit | argument           |
/// |--------|-------------------------------------------|------|--------------------|
/// | t      | wall of the host                          | m    | `wall`             |
/// | σ_t    | tensile strength of the host              | Pa   | `tensile_strength` |
/// | l      | length in contact ([`CONTACT_LENGTH`])    | m    | `contact_length`   |
/// | α      | half the cone's angle                     | rad  | `half_angle`       |
/// | μ      | friction of cone on host                  | –    | `friction`         |
///
/// The ring of diameter d bursts at the pressure 2·t·σ_t/d, which on π·d·l is a radial force of 2·π·t·σ_t·l whatever
/// the diameter; the cone turns it into an axial one. Valid for 0 < α < 90°, μ from 0 to 1 and μ·tan α < 1: beyond that
/// the cone jams.
///
/// # Source
/// [`BREAKING`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/breaking.toml` (computed).
pub fn breaking_force(
    wall: Length,
    tensile_strength: Pressure,
    contact_length: Length,
    half_angle: Angle,
    friction: f64,
) -> Result<Force, PublishedError> {
    let t = range::positive("wall", wall.si(), unit::MM)?;
    let strength = range::positive("tensile strength", tensile_strength.si(), unit::MPA)?;
    let l = range::positive("contact length", contact_length.si(), unit::MM)?;
    let mu = range::friction("friction", friction)?;
    let alpha = acute("half angle", half_angle)?;
    let jam = (1.0 / mu).atan();
    // The force grows beyond all bounds there: rounding must not let an angle on it pass.
    if alpha >= jam * (1.0 - 1e-9) {
        return Err(PublishedError::OutOfRange {
            quantity: "half angle",
            found: half_angle.to_string(),
            allowed: format!(
                "less than {}, where the cone jams at this friction",
                Angle::radians(jam)
            ),
        });
    }
    let slope = alpha.tan();
    let radial = 2.0 * PI * t * strength * l;
    range::result("breaking force", radial * (slope + mu) / (1.0 - mu * slope)).map(Force::newtons)
}

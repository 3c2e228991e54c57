//! Launch and machine pits.

use line::FormulaError;
use quantity::{Angle, Length, unit};
use working::{Evidence, Source};

use super::Figure;
use crate::published::{Method, PublishedError, range};

/// The pit for one pipe.
pub const PIPE_PIT: Method = Method {
    name: "pit for one pipe at a time",
    document: "sum of lengths; with the usual allowances it gives the 7 to 8 m that one manufacturer's trenchless manual \
         states on p. 36 and 64",
    evidence: Evidence::Derived,
    validity: "the usual way in built-up streets",
};

/// The pit for plastic pipe.
pub const PLASTIC_PIT: Method = Method {
    name: "pit for a bent plastic string",
    document: "Najafi, Trenchless Technology Piping, fig. 6.10, p. 254",
    evidence: Evidence::Published,
    validity: "polyethylene of DR 17 that bends; not for jointed ductile iron",
};

/// The ramp for a jointed string.
pub const RAMP_PIT: Method = Method {
    name: "ramp for a string of joined pipes",
    document: "circle of the joint polygon from the level bore up to the surface, derived",
    evidence: Evidence::Derived,
    validity: "joints that turn by the allowed angle at once; needs the length of the string free behind the pit",
};

const MEMORY: Source = Source::new("usual practice", Evidence::FromMemory);
const FITTED: Source = Source::new(
    "chosen so that 6 m pipe gives the 7 to 8 m of one manufacturer's manual",
    Evidence::Judgement,
);
const MANUAL_P36: Source =
    Source::new("one manufacturer's trenchless manual, p. 36", Evidence::Published);
const MANUAL_P64: Source =
    Source::new("one manufacturer's trenchless manual, p. 64", Evidence::Published);

/// Lengths that a pit for single pipes needs beside the pipe, and published totals.
pub const PIT_ALLOWANCES: &[Figure] = &[
    Figure::range("length of head and expander", (0.5, 1.0), unit::M, FITTED),
    Figure::range("space to make the joint", (0.5, 1.0), unit::M, FITTED),
    Figure::range("space beside the socket, each side", (0.4, 0.6), unit::M, MEMORY),
    Figure::range("sump below the invert", (0.2, 0.3), unit::M, MEMORY),
    Figure::value("pit for 6 m pipe, old pipe pushed out", 7.0, unit::M, MANUAL_P36),
    Figure::range("pit for 6 m pipe, single pipes pulled in", (7.0, 8.0), unit::M, MANUAL_P64),
];

/// Sizes of machine pits.
pub const MACHINE_PITS: &[Figure] = &[
    Figure::range("length, small rigs", (3.0, 5.0), unit::M, MEMORY),
    Figure::range("width, small rigs", (1.5, 2.0), unit::M, MEMORY),
    Figure::range("length, rigs of 1000 kN and more", (6.0, 8.0), unit::M, MEMORY),
    Figure::value("width, rigs of 1000 kN and more", 3.0, unit::M, MEMORY),
];

/// Length of a launch pit for one pipe at a time, L_p + L_h + L_j.
///
/// | symbol | meaning                          | unit | argument        |
/// |--------|----------------------------------|------|-----------------|
/// | L_p    | laying length                    | m    | `laying_length` |
/// | L_h    | head and expander                | m    | `head_length`   |
/// | L_j    | space to make the joint          | m    | `joint_space`   |
///
/// Valid for L_p > 0, the others not negative; usual values in [`PIT_ALLOWANCES`].
///
/// # Source
/// [`PIPE_PIT`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/pit.toml`.
pub fn pipe_pit(
    laying_length: Length,
    head_length: Length,
    joint_space: Length,
) -> Result<Length, PublishedError> {
    let pipe = range::positive("laying length", laying_length.si(), unit::M)?;
    let head = range::not_negative("head length", head_length.si(), unit::M)?;
    let joint = range::not_negative("joint space", joint_space.si(), unit::M)?;
    range::result("pit length", pipe + head + joint).map(Length::metres)
}

/// Width of a pit, D_s + 2·b: socket and working space on both sides.
///
/// # Source
/// Sum of widths; usual space in [`PIT_ALLOWANCES`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/pit.toml`.
pub fn pit_width(socket_diameter: Length, side_space: Length) -> Result<Length, PublishedError> {
    let socket = range::positive("socket diameter", socket_diameter.si(), unit::MM)?;
    let side = range::not_negative("side space", side_space.si(), unit::M)?;
    range::result("pit width", socket + 2.0 * side).map(Length::metres)
}

/// Level part of a pit for plastic pipe over the pipe's diameter.
const PLASTIC_FLAT: f64 = 12.0;
/// Ramp of a pit for plastic pipe over its depth.
const PLASTIC_RAMP: f64 = 2.5;
/// Length of a pit over its depth by the quick rule; trade forum on tips for bursting, read.
const QUICK_RATIO: f64 = 3.0;

/// What [`plastic_pit`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlasticPit {
    /// Level part, 12 diameters.
    pub flat: Length,
    /// Ramp, 2.5 depths.
    pub ramp: Length,
    /// Both together.
    pub length: Length,
    /// By the quick rule, 3 depths; some makers of pipe ask for 12.
    pub quick: Length,
}

/// Length of a launch pit for a bent string of plastic pipe, to set a socketed pipe's pit beside it.
///
/// ```text
/// L = 12·d + 2.5·D
/// ```
/// | symbol | meaning                        | unit | argument   |
/// |--------|--------------------------------|------|------------|
/// | d      | outside diameter of the pipe   | m    | `diameter` |
/// | D      | depth of the invert            | m    | `depth`    |
///
/// # Source
/// [`PLASTIC_PIT`]; quick rule: trade forum on bursting.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/plastic-pit-najafi-fig-6-10.toml`.
pub fn plastic_pit(diameter: Length, depth: Length) -> Result<PlasticPit, PublishedError> {
    let d = range::positive("pipe diameter", diameter.si(), unit::MM)?;
    let depth = range::positive("depth", depth.si(), unit::M)?;
    let (flat, ramp) = (PLASTIC_FLAT * d, PLASTIC_RAMP * depth);
    let metres = |value| range::result("pit length", value).map(Length::metres);
    Ok(PlasticPit {
        flat: metres(flat)?,
        ramp: metres(ramp)?,
        length: metres(flat + ramp)?,
        quick: metres(QUICK_RATIO * depth)?,
    })
}

/// What [`ramp_pit`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RampPit {
    /// Radius that the joints allow.
    pub radius: Length,
    /// Horizontal length of the ramp.
    pub length: Length,
    /// Angle of the ramp at the surface.
    pub angle: Angle,
}

/// Ramp on which a string of joined pipes runs from the surface into a level bore.
///
/// ```text
/// R = L_p/(2·sin(θ/2)),   β = 2·arcsin √(d/(2·R)),   S = R·sin β = √(2·R·d − d²)
/// ```
/// | symbol | meaning                             | unit | argument        |
/// |--------|-------------------------------------|------|-----------------|
/// | L_p    | laying length                       | m    | `laying_length` |
/// | θ      | angle that a joint allows           | rad  | `joint_angle`   |
/// | d      | depth of the bore's axis            | m    | `depth`         |
/// | R, S, β | radius, ramp, angle at the surface | m, m, rad | returned   |
///
/// Valid for 0 < d ≤ R, 0 < θ < 180°.
///
/// # Source
/// [`RAMP_PIT`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/ramp-pit.toml`.
pub fn ramp_pit(
    laying_length: Length,
    joint_angle: Angle,
    depth: Length,
) -> Result<RampPit, PublishedError> {
    let radius = line::joint_polygon(laying_length, joint_angle).map_err(of_line)?.radius;
    let r = range::result("radius", radius.si())?;
    let d = range::positive("depth", depth.si(), unit::M)?;
    range::within("depth", d, (0.0, r), unit::M)?;
    let angle = 2.0 * (d / (2.0 * r)).sqrt().asin();
    Ok(RampPit { radius, length: Length::metres(r * angle.sin()), angle: Angle::radians(angle) })
}

fn of_line(error: FormulaError) -> PublishedError {
    match error {
        FormulaError::OutOfRange { quantity, found, allowed } => {
            PublishedError::OutOfRange { quantity, found, allowed }
        }
    }
}

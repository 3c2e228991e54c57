//! The wall against which the rig pulls.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

use quantity::{Angle, Force, Length, Pressure, UnitWeight, unit};
use working::{Evidence, Source};

use super::Figure;
use crate::published::{Method, PublishedError, range};

/// Passive resistance of the wall.
pub const REACTION_WALL: Method = Method {
    name: "passive earth pressure on a plate",
    document: "Rankine's passive pressure, standard soil mechanics; that it must exceed the pull with safety is read in \
         Najafi, Trenchless Technology Piping, p. 254 and 255",
    evidence: Evidence::FromMemory,
    validity: "level ground, no water: water pressure and shoring go in separately; the plate does not tilt; full \
               resistance needs the plate to move",
};

/// Resistance over pull that a wall should have; common in soil mechanics, from memory.
pub const WALL_SAFETY: f64 = 1.5;

/// The same in sand with water, or near services; from memory.
pub const WALL_SAFETY_WET: f64 = 2.0;

const SOIL_MECHANICS: Source = Source::new("standard soil mechanics", Evidence::FromMemory);

/// Resistance of a narrow plate over that of an endless wall of its width.
pub const SPREAD_FACTORS: Figure = Figure::range(
    "wedge at the sides of a narrow plate; 1 leaves it out",
    (1.0, 2.5),
    unit::ONE,
    SOIL_MECHANICS,
);

/// Travel of the plate at which the full resistance stands, over its height.
pub const MOBILISATION: Figure = Figure::range(
    "travel of the plate over its height at full resistance",
    (1.0, 5.0),
    unit::PERCENT,
    SOIL_MECHANICS,
);

/// Soil behind the plate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallSoil {
    /// Unit weight.
    pub unit_weight: UnitWeight,
    /// Friction angle; zero for clay without drainage.
    pub friction_angle: Angle,
    /// Cohesion, or undrained strength at zero friction angle.
    pub cohesion: Pressure,
}

/// The plate, upright and level at top and bottom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plate {
    /// Width.
    pub width: Length,
    /// Depth of its top.
    pub depth_top: Length,
    /// Depth of its bottom.
    pub depth_bottom: Length,
    /// Factor for the wedge at its sides ([`SPREAD_FACTORS`]).
    pub spread: f64,
}

/// The opening through which the pipe comes: the rig pulls itself against the wall that holds it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallOpening {
    /// Diameter of a round opening.
    pub diameter: Length,
    /// Depth of its axis.
    pub depth: Length,
}

/// What [`reaction_wall_with_opening`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallResistance {
    /// Of the full plate.
    pub full: Force,
    /// What the opening takes away.
    pub opening: Force,
    /// What is left.
    pub net: Force,
}

/// Soil in SI with its passive ratio.
struct Passive {
    gamma: f64,
    ratio: f64,
    cohesion: f64,
}

impl Passive {
    fn of(soil: &WallSoil) -> Result<Self, PublishedError> {
        let gamma = range::positive("unit weight", soil.unit_weight.si(), unit::KN_PER_M3)?;
        let phi = passive_angle(soil.friction_angle)?;
        let cohesion = range::not_negative("cohesion", soil.cohesion.si(), unit::KPA)?;
        let ratio = range::result("passive ratio", (FRAC_PI_4 + phi / 2.0).tan().powi(2))?;
        Ok(Self { gamma, ratio, cohesion })
    }

    /// Passive pressure at a depth.
    fn at(&self, depth: f64) -> f64 {
        self.ratio * self.gamma * depth + 2.0 * self.cohesion * self.ratio.sqrt()
    }
}

/// A friction angle from 0 to below 90°.
fn passive_angle(angle: Angle) -> Result<f64, PublishedError> {
    let phi = angle.si();
    if (0.0..FRAC_PI_2).contains(&phi) {
        Ok(phi)
    } else {
        Err(PublishedError::OutOfRange {
            quantity: "friction angle",
            found: angle.to_string(),
            allowed: "0 deg or greater and less than 90 deg".to_owned(),
        })
    }
}

/// Ultimate resistance of a wall behind a plate, without opening and without the wedge at its sides.
///
/// ```text
/// R = B·[ ½·K_p·γ·(H₂² − H₁²) + 2·c·√K_p·(H₂ − H₁) ],   K_p = tan²(45° + φ/2)
/// ```
/// | symbol   | meaning                          | unit | argument                    |
/// |----------|----------------------------------|------|-----------------------------|
/// | B        | width of the plate               | m    | `width`                     |
/// | H₁, H₂   | depths of its top and bottom     | m    | `depth_top`, `depth_bottom` |
/// | γ        | unit weight                      | N/m³ | `unit_weight`               |
/// | φ, c     | friction angle, cohesion         | rad, Pa | `friction_angle`, `cohesion` |
///
/// Valid for B, γ > 0, 0 ≤ H₁ < H₂, 0 ≤ φ < 90°, c ≥ 0. The pit has an opening in just this wall:
/// [`reaction_wall_with_opening`] takes it off.
///
/// # Source
/// [`REACTION_WALL`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/reaction-wall.toml` (computed).
pub fn reaction_wall(
    width: Length,
    depth_top: Length,
    depth_bottom: Length,
    unit_weight: UnitWeight,
    friction_angle: Angle,
    cohesion: Pressure,
) -> Result<Force, PublishedError> {
    let plate = Plate { width, depth_top, depth_bottom, spread: 1.0 };
    let soil = WallSoil { unit_weight, friction_angle, cohesion };
    Ok(reaction_wall_with_opening(&plate, &soil, None)?.full)
}

/// Ultimate resistance of a wall behind a plate less the opening for the pipe.
///
/// ```text
/// R_n = s·( R − π/4·D_o²·[ K_p·γ·z_o + 2·c·√K_p ] )
/// ```
/// | symbol   | meaning                                        | unit | argument  |
/// |----------|------------------------------------------------|------|-----------|
/// | R        | resistance of the full plate ([`reaction_wall`]) | N  | `plate`, `soil` |
/// | s        | wedge at the sides, 1 to 2.5                   | –    | `plate`   |
/// | D_o, z_o | diameter of the opening, depth of its axis     | m    | `opening` |
///
/// The pressure grows linearly with depth, so that a round opening takes its area times the pressure at its axis:
/// exact. The opening must lie within the plate. Other symbols as in [`reaction_wall`].
///
/// # Source
/// [`REACTION_WALL`]; the opening derived.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/reaction-wall-opening.toml` (derived).
pub fn reaction_wall_with_opening(
    plate: &Plate,
    soil: &WallSoil,
    opening: Option<&WallOpening>,
) -> Result<WallResistance, PublishedError> {
    let width = range::positive("width", plate.width.si(), unit::M)?;
    let top = range::not_negative("depth top", plate.depth_top.si(), unit::M)?;
    let bottom = range::above("depth bottom", plate.depth_bottom.si(), top, unit::M)?;
    let spread = range::within("spread factor", plate.spread, (1.0, 2.5), unit::ONE)?;
    let passive = Passive::of(soil)?;
    // Height times the pressure at half height is the integral of a linear pressure.
    let full = width * (bottom - top) * passive.at((top + bottom) / 2.0);
    let lost = match opening {
        None => 0.0,
        Some(opening) => {
            let d = range::positive("opening diameter", opening.diameter.si(), unit::MM)?;
            let least = (bottom - top).min(width);
            range::within("opening diameter", d, (0.0, least), unit::M)?;
            let on_plate = (top + d / 2.0, bottom - d / 2.0);
            let z = range::within("opening depth", opening.depth.si(), on_plate, unit::M)?;
            FRAC_PI_4 * d * d * passive.at(z)
        }
    };
    let force = |newtons: f64| range::result("resistance", spread * newtons).map(Force::newtons);
    Ok(WallResistance { full: force(full)?, opening: force(lost)?, net: force(full - lost)? })
}

/// Distance from the plate within which the head is inside the wedge that resists: H₂·tan(45° + φ/2).
///
/// There the wall is loosened while it is loaded most: lower the pull or check the wall again with less resistance.
///
/// # Source
/// Rankine's slip plane from the plate's lower edge, derived.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/reaction-wall-opening.toml` (derived).
pub fn passive_wedge(
    depth_bottom: Length,
    friction_angle: Angle,
) -> Result<Length, PublishedError> {
    let h = range::positive("depth bottom", depth_bottom.si(), unit::M)?;
    let phi = passive_angle(friction_angle)?;
    range::result("wedge", h * (FRAC_PI_4 + phi / 2.0).tan()).map(Length::metres)
}

//! Soils: what they are called, how heavy, strong and stiff they are.

use quantity::{Angle, Length, Pressure, UnitWeight};

pub use self::kind::{SoilGroup, SoilKind};
pub use self::suitability::{Suitability, suitability};
pub use self::typical::{Typical, typical};

mod kind;
mod suitability;
mod typical;

/// A soil of a site with the values that its checks use.
#[derive(Debug, Clone, PartialEq)]
pub struct Soil {
    /// Name on this site.
    pub name: String,
    /// What it is.
    pub kind: SoilKind,
    /// Unit weight above the water.
    pub unit_weight: UnitWeight,
    /// Unit weight with all voids full of water.
    pub saturated_unit_weight: UnitWeight,
    /// Effective friction angle; none for rock.
    pub friction_angle: Option<Angle>,
    /// Effective cohesion.
    pub cohesion: Pressure,
    /// Undrained shear strength; none where the soil drains as fast as it is loaded.
    pub undrained_strength: Option<Pressure>,
    /// Shear modulus at strains of some percent; none for rock.
    pub shear_modulus: Option<Pressure>,
    /// Effective horizontal over effective vertical stress at rest.
    pub k0: f64,
    /// Tensile strength.
    pub tensile_strength: Pressure,
    /// Level to which water rises in a standpipe in this soil, where it is not the groundwater level.
    pub piezometric_level: Option<Length>,
}

impl Soil {
    /// Shear strength under an effective normal stress: undrained where the soil has an undrained strength, else
    /// `c' + σ' tan φ'`; rock counts as stronger than any soil.
    #[must_use]
    pub fn strength(&self, effective_stress: Pressure) -> Pressure {
        match (self.undrained_strength, self.friction_angle) {
            (Some(strength), _) => strength,
            (None, Some(phi)) => {
                self.cohesion + effective_stress.max(Pressure::ZERO) * phi.si().tan()
            }
            (None, None) => Pressure::from_si(f64::MAX),
        }
    }
}

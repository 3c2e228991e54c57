use serde::Serialize;

use crate::unit::{self, Unit};

/// What sort of quantity a number is; decides which units a text may use for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// A number without unit; a percentage is accepted.
    Ratio,
    /// A length of the crossing; SI unit metre.
    Length,
    /// An angle or a gradient in percent; SI unit radian.
    Angle,
    /// A curvature; SI unit 1/m.
    Curvature,
    /// An area; SI unit m².
    Area,
    /// A volume; SI unit m³.
    Volume,
    /// A volume per length; SI unit m³/m.
    VolumePerLength,
    /// A mass; SI unit kg.
    Mass,
    /// A mass per length; SI unit kg/m.
    MassPerLength,
    /// A density or a mass concentration; SI unit kg/m³.
    Density,
    /// A force; SI unit newton.
    Force,
    /// A force per length; SI unit N/m.
    ForcePerLength,
    /// A force per volume: unit weight, subgrade modulus or pressure gradient; SI unit N/m³.
    UnitWeight,
    /// A pressure, stress, strength or modulus; SI unit pascal.
    Pressure,
    /// A bending stiffness; SI unit N·m².
    BendingStiffness,
    /// A time; SI unit second.
    Time,
    /// A velocity; SI unit m/s.
    Velocity,
    /// A volume flow; SI unit m³/s.
    Flow,
    /// A dynamic viscosity; SI unit Pa·s.
    Viscosity,
    /// A kinematic viscosity; SI unit m²/s.
    KinematicViscosity,
}

impl Kind {
    /// The SI unit of the kind.
    #[must_use]
    pub fn si(self) -> Unit {
        match self {
            Kind::Ratio => unit::ONE,
            Kind::Length => unit::M,
            Kind::Angle => unit::RAD,
            Kind::Curvature => unit::PER_M,
            Kind::Area => unit::M2,
            Kind::Volume => unit::M3,
            Kind::VolumePerLength => unit::M3_PER_M,
            Kind::Mass => unit::KG,
            Kind::MassPerLength => unit::KG_PER_M,
            Kind::Density => unit::KG_PER_M3,
            Kind::Force => unit::N,
            Kind::ForcePerLength => unit::N_PER_M,
            Kind::UnitWeight => unit::N_PER_M3,
            Kind::Pressure => unit::PA,
            Kind::BendingStiffness => unit::N_M2,
            Kind::Time => unit::S,
            Kind::Velocity => unit::M_PER_S,
            Kind::Flow => unit::M3_PER_S,
            Kind::Viscosity => unit::PA_S,
            Kind::KinematicViscosity => unit::M2_PER_S,
        }
    }

    /// The unit in which the trade usually reads this kind.
    #[must_use]
    pub fn usual(self) -> Unit {
        match self {
            Kind::Angle => unit::DEG,
            Kind::Force => unit::KN,
            Kind::Pressure => unit::KPA,
            Kind::UnitWeight => unit::KN_PER_M3,
            Kind::Viscosity => unit::MPA_S,
            Kind::Flow => unit::L_PER_S,
            other => other.si(),
        }
    }

    /// Name used in messages, with its article: "a length".
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Kind::Ratio => "a number",
            Kind::Length => "a length",
            Kind::Angle => "an angle",
            Kind::Curvature => "a curvature",
            Kind::Area => "an area",
            Kind::Volume => "a volume",
            Kind::VolumePerLength => "a volume per length",
            Kind::Mass => "a mass",
            Kind::MassPerLength => "a mass per length",
            Kind::Density => "a density",
            Kind::Force => "a force",
            Kind::ForcePerLength => "a force per length",
            Kind::UnitWeight => "a force per volume",
            Kind::Pressure => "a pressure",
            Kind::BendingStiffness => "a bending stiffness",
            Kind::Time => "a time",
            Kind::Velocity => "a velocity",
            Kind::Flow => "a flow",
            Kind::Viscosity => "a viscosity",
            Kind::KinematicViscosity => "a kinematic viscosity",
        }
    }

    /// Symbols of all units a text may use for this kind, in table order.
    pub fn units(self) -> impl Iterator<Item = Unit> {
        unit::ALL.iter().copied().filter(move |u| u.kind() == self)
    }
}

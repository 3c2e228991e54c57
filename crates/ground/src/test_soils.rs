//! Soils for the tests of this crate.

use quantity::{Angle, Pressure, UnitWeight};

use crate::{Soil, SoilKind};

pub(crate) fn sand() -> Soil {
    Soil {
        name: "sand".to_owned(),
        kind: SoilKind::MediumSand,
        unit_weight: UnitWeight::from_si(18e3),
        saturated_unit_weight: UnitWeight::from_si(20e3),
        friction_angle: Some(Angle::degrees(32.0)),
        cohesion: Pressure::ZERO,
        undrained_strength: None,
        shear_modulus: Some(Pressure::from_si(5e6)),
        k0: 0.5,
        tensile_strength: Pressure::ZERO,
        piezometric_level: None,
    }
}

pub(crate) fn clay() -> Soil {
    Soil {
        name: "clay".to_owned(),
        kind: SoilKind::SoftClay,
        undrained_strength: Some(Pressure::from_si(15e3)),
        friction_angle: Some(Angle::degrees(20.0)),
        ..sand()
    }
}

use quantity::{Density, Length};
use working::{Evidence, Source};

use crate::{Layer, Valued};

/// Kinds of coating on the barrel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CoatingKind {
    /// Zinc with a finishing layer; not for pulling in.
    ZincAndFinish,
    /// Fibre-reinforced cement mortar over zinc, EN 15542.
    FibreMortar,
    /// Extruded polyethylene, EN 14628.
    Polyethylene,
    /// Polyurethane, EN 15189.
    Polyurethane,
}

impl CoatingKind {
    /// All kinds.
    pub const ALL: [Self; 4] =
        [Self::ZincAndFinish, Self::FibreMortar, Self::Polyethylene, Self::Polyurethane];

    /// Word in files and tables.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            CoatingKind::ZincAndFinish => "zinc",
            CoatingKind::FibreMortar => "fibre-mortar",
            CoatingKind::Polyethylene => "polyethylene",
            CoatingKind::Polyurethane => "polyurethane",
        }
    }

    /// The kind with this word.
    #[must_use]
    pub fn find(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|k| k.word() == word)
    }

    /// Whether the trade pulls such pipe through the ground. From memory for zinc with finish (EN
    /// 545 annex D).
    #[must_use]
    pub const fn is_for_pulling(self) -> bool {
        !matches!(self, CoatingKind::ZincAndFinish)
    }
}

/// Usual thickness and density of a coating.
///
/// Fibre mortar: nominal 5 mm read in a brochure, density 2300 kg/m³ as the middle of 2200 to 2400
/// from memory. Polyethylene: 3.0 mm, the upper end of 1.8 to 3.0 mm from memory. Polyurethane: 0.7
/// mm from memory. Zinc with finish: thinner than 0.3 mm and not counted.
#[must_use]
pub fn coating(kind: CoatingKind) -> Valued<Layer> {
    let layer = |millimetres: f64, density: f64| Layer {
        thickness: Length::from_si(millimetres * 1e-3),
        density: Density::from_si(density),
    };
    let (value, text, evidence) = match kind {
        CoatingKind::ZincAndFinish => (
            Layer::NONE,
            "zinc and finishing layer, below 0.3 mm, not counted",
            Evidence::FromMemory,
        ),
        CoatingKind::FibreMortar => (
            layer(5.0, 2300.0),
            "EN 15542 fibre mortar: nominal 5 mm read in a brochure, 2300 kg/m3 from memory",
            Evidence::FromMemory,
        ),
        CoatingKind::Polyethylene => (
            layer(3.0, 940.0),
            "EN 14628 extruded polyethylene: 3.0 mm, upper end of 1.8-3.0, and 940 kg/m3",
            Evidence::FromMemory,
        ),
        CoatingKind::Polyurethane => (
            layer(0.7, 1200.0),
            "EN 15189 polyurethane: 0.7 mm and 1200 kg/m3",
            Evidence::FromMemory,
        ),
    };
    Valued::new(value, Source::new(text, evidence))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_is_found_by_its_word() {
        for kind in CoatingKind::ALL {
            assert_eq!(CoatingKind::find(kind.word()), Some(kind));
        }
        assert_eq!(CoatingKind::find("paint"), None);
    }

    #[test]
    fn five_millimetres_of_mortar_on_dn_300_weigh_about_twelve_kilograms_a_metre() {
        let layer = coating(CoatingKind::FibreMortar).value;
        let ring = std::f64::consts::PI * (0.326 + layer.thickness.si()) * layer.thickness.si();
        assert!((ring * layer.density.si() - 12.0).abs() < 0.5);
    }
}

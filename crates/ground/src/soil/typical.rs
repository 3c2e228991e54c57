use quantity::{Angle, GRAVITY, Pressure, UnitWeight};

use super::SoilKind;

/// Density of the water in the ground, kg/m3; fresh, rounded.
const WATER: f64 = 1000.0;
/// Shear modulus over oedometric modulus at a Poisson's ratio of 0.3: (1 − 2ν) / (2 (1 − ν)).
const SHEAR_OVER_OEDOMETRIC: f64 = 0.4 / 1.4;

/// Typical values of a soil, each from its lower to its upper end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typical {
    /// Unit weight above the water.
    pub unit_weight: UnitWeight,
    /// Unit weight with all voids full of water.
    pub saturated_unit_weight: UnitWeight,
    /// Effective friction angle.
    pub friction_angle: (Angle, Angle),
    /// Effective cohesion.
    pub cohesion: Pressure,
    /// Undrained shear strength; none for soils that drain, and where the table has none.
    pub undrained_strength: Option<(Pressure, Pressure)>,
    /// Shear modulus.
    pub shear_modulus: (Pressure, Pressure),
    /// Whether the row was read in the published table; otherwise it is partly from memory.
    pub published: bool,
}

/// A row: unit weight and submerged unit weight in kN/m3, friction angle in degrees, cohesion and undrained strength in
/// kPa, oedometric modulus in MPa, whether published.
type Row = (f64, f64, (f64, f64), f64, Option<(f64, f64)>, (f64, f64), bool);

/// Typical values of a kind of soil for preliminary design; none for fill and rock, of which nothing is typical.
///
/// # Source
/// A published table for preliminary design (Kany) as reprinted in a text on tunnel engineering; shear modulus from its
/// oedometric modulus by `G = E_oed (1 − 2ν)/(2 (1 − ν))` with ν = 0.3. Sands span its rows for round and sharp grain.
/// Gravelly sand and sandy gravel lie between its rows (judgement). Dense sand: friction from a published table by blow
/// count, unit weight likewise, stiffness from memory. Saturated unit weight is the submerged one plus that of water.
#[must_use]
pub fn typical(kind: SoilKind) -> Option<Typical> {
    let row: Row = match kind {
        SoilKind::LooseSand => (18.0, 10.0, (30.0, 32.5), 0.0, None, (20.0, 80.0), true),
        SoilKind::MediumSand => (19.0, 11.0, (32.5, 35.0), 0.0, None, (50.0, 150.0), true),
        SoilKind::DenseSand => (20.4, 11.0, (36.0, 40.0), 0.0, None, (35.0, 105.0), false),
        // Judgement: as medium dense sand; gravel adds strength that is not counted.
        SoilKind::GravellySand => (19.0, 11.0, (32.5, 37.5), 0.0, None, (50.0, 150.0), false),
        // Judgement: between sand and gravel without sand.
        SoilKind::SandyGravel => (17.0, 10.0, (35.0, 37.5), 0.0, None, (80.0, 200.0), false),
        SoilKind::Gravel => (16.0, 10.0, (37.5, 37.5), 0.0, None, (100.0, 200.0), true),
        SoilKind::CoarseGravel => (18.0, 11.0, (40.0, 40.0), 0.0, None, (150.0, 300.0), true),
        SoilKind::Silt => (18.0, 8.0, (27.5, 27.5), 0.0, Some((10.0, 50.0)), (3.0, 10.0), true),
        SoilKind::SoftClay => (17.0, 7.0, (17.5, 17.5), 10.0, Some((10.0, 25.0)), (1.0, 2.5), true),
        SoilKind::StiffClay => {
            (18.0, 8.0, (20.0, 20.0), 20.0, Some((25.0, 50.0)), (2.0, 5.0), true)
        }
        SoilKind::VeryStiffClay => {
            (19.0, 9.0, (25.0, 25.0), 25.0, Some((50.0, 100.0)), (5.0, 10.0), true)
        }
        SoilKind::SoftLoam => (19.0, 9.0, (27.5, 27.5), 0.0, Some((10.0, 25.0)), (4.0, 8.0), true),
        SoilKind::StiffLoam => {
            (21.0, 11.0, (27.5, 27.5), 10.0, Some((50.0, 100.0)), (5.0, 20.0), true)
        }
        SoilKind::Till => {
            (22.0, 12.0, (30.0, 30.0), 25.0, Some((200.0, 700.0)), (30.0, 100.0), true)
        }
        SoilKind::OrganicMud => {
            (17.0, 7.0, (20.0, 20.0), 10.0, Some((10.0, 25.0)), (2.0, 5.0), true)
        }
        SoilKind::MarineMud => {
            (14.0, 4.0, (15.0, 15.0), 15.0, Some((10.0, 20.0)), (0.5, 3.0), true)
        }
        SoilKind::Peat => (11.0, 1.0, (15.0, 15.0), 5.0, None, (0.4, 1.0), true),
        SoilKind::Fill | SoilKind::Rock => return None,
    };
    let (weight, submerged, friction, cohesion, undrained, oedometric, published) = row;
    let kn = |v: f64| UnitWeight::from_si(1e3 * v);
    let kpa = |v: f64| Pressure::from_si(1e3 * v);
    let shear = |v: f64| Pressure::from_si(1e6 * v * SHEAR_OVER_OEDOMETRIC);
    Some(Typical {
        unit_weight: kn(weight),
        saturated_unit_weight: UnitWeight::from_si(1e3 * submerged + WATER * GRAVITY),
        friction_angle: (Angle::degrees(friction.0), Angle::degrees(friction.1)),
        cohesion: kpa(cohesion),
        undrained_strength: undrained.map(|(a, b)| (kpa(a), kpa(b))),
        shear_modulus: (shear(oedometric.0), shear(oedometric.1)),
        published,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loose_sand_of_20_mpa_has_the_shear_modulus_of_the_source() {
        let sand = typical(SoilKind::LooseSand).unwrap();
        assert!((sand.shear_modulus.0.si() / 5.714e6 - 1.0).abs() < 1e-3);
        assert_eq!(sand.saturated_unit_weight.si().round(), 19_807.0);
    }

    #[test]
    fn every_row_is_possible() {
        for kind in SoilKind::ALL {
            let Some(t) = typical(kind) else { continue };
            let word = kind.word();
            assert!(t.friction_angle.0 <= t.friction_angle.1, "{word}");
            assert!(t.shear_modulus.0 < t.shear_modulus.1, "{word}");
            assert!(t.saturated_unit_weight > t.unit_weight * 0.95, "{word}");
            let fine = kind.group() == super::super::SoilGroup::Fine;
            assert!(fine || t.undrained_strength.is_none(), "{word}");
        }
        assert!(typical(SoilKind::Fill).is_none() && typical(SoilKind::Rock).is_none());
    }
}

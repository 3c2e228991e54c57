use quantity::{GRAVITY, Length, Pressure};

use crate::{Column, Soil};

/// Density of the water in and above the ground, kg/m3; fresh, rounded.
const WATER: f64 = 1000.0;

/// Water at one place of the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterAt {
    /// Level up to which the ground is full of water, and of free water where the ground line lies below it.
    pub level: Length,
}

/// Stresses at a point of the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stress {
    /// Vertical total stress.
    pub total_vertical: Pressure,
    /// Pressure of the water in the voids.
    pub pore: Pressure,
    /// Vertical effective stress; not positive where the water would lift the ground.
    pub effective_vertical: Pressure,
    /// Index of the soil at the point.
    pub soil: usize,
}

/// Total, pore and effective vertical stress at a level.
///
/// ```text
/// σ_v = Σ γ_i h_i + γ_w h_w        u = γ_w (z_w − z) ≥ 0        σ'_v = σ_v − u
/// ```
/// | symbol   | meaning                                                            | unit |
/// |----------|--------------------------------------------------------------------|------|
/// | γ_i, h_i | unit weight (saturated below the water) and thickness of each layer above the point | N/m³, m |
/// | h_w      | depth of free water above the ground line                          | m    |
/// | z_w      | water level, or the piezometric level of the soil at the point     | m    |
///
/// Water counts as fresh. Above the water level the pore pressure is zero: suction is left out. The water stands still.
///
/// # Source
/// Soil statics, derived.
///
/// Returns `None` above the ground line and where the column has no layer.
#[must_use]
pub fn stress_at(column: &Column, soils: &[Soil], water: WaterAt, level: Length) -> Option<Stress> {
    let (z, z_w) = (level.si(), water.level.si());
    let layer = column.layer_at(level)?;
    let gamma_w = WATER * GRAVITY;
    let mut total = gamma_w * (z_w - column.ground).max(0.0);
    for l in &column.layers {
        let soil = soils.get(l.soil)?;
        let (top, base) = (l.top, l.base.max(z));
        if top <= z {
            break;
        }
        let dry = (top - base.max(z_w)).max(0.0);
        total += soil.unit_weight.si() * dry + soil.saturated_unit_weight.si() * (top - base - dry);
    }
    let head = soils.get(layer.soil)?.piezometric_level.map_or(z_w, Length::si);
    let pore = gamma_w * (head - z).max(0.0);
    Some(Stress {
        total_vertical: Pressure::from_si(total),
        pore: Pressure::from_si(pore),
        effective_vertical: Pressure::from_si(total - pore),
        soil: layer.soil,
    })
}

/// A layer near a level, and how far its nearest boundary is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearLayer {
    /// Distance of the boundary.
    pub distance: Length,
    /// Index of the layer's soil.
    pub soil: usize,
    /// Whether it lies above.
    pub above: bool,
}

/// The nearest layer that is weaker than the one at a level, and the nearest open one; layers between do not hide them.
///
/// Weaker is less shear strength under the effective stress at the point. Only boundaries straight above and below
/// are seen.
#[must_use]
pub fn weaker_layers(
    column: &Column,
    soils: &[Soil],
    level: Length,
    effective_stress: Pressure,
) -> [Option<NearLayer>; 2] {
    let own = column.layer_at(level).and_then(|l| soils.get(l.soil));
    let Some(own) = own else { return [None; 2] };
    let nearest = |wanted: &dyn Fn(&Soil) -> bool| {
        column
            .others(level.si())
            .filter(|(_, l, _)| soils.get(l.soil).is_some_and(wanted))
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(distance, l, above)| NearLayer {
                distance: Length::from_si(distance),
                soil: l.soil,
                above,
            })
    };
    let weaker = |soil: &Soil| {
        !soil.kind.is_open() && soil.strength(effective_stress) < own.strength(effective_stress)
    };
    let open = |soil: &Soil| soil.kind.is_open() && !own.kind.is_open();
    [nearest(&weaker), nearest(&open)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Layer;
    use crate::test_soils::{clay, sand};

    fn column(ground: f64) -> Column {
        let layers = vec![
            Layer { soil: 0, top: ground, base: -2.0 },
            Layer { soil: 1, top: -2.0, base: f64::NEG_INFINITY },
        ];
        Column { layers, ground, known_to: -20.0, raised: 0.0 }
    }

    fn stress(ground: f64, water: f64, level: f64) -> Stress {
        let water = WaterAt { level: Length::from_si(water) };
        stress_at(&column(ground), &[sand(), sand()], water, Length::from_si(level)).unwrap()
    }

    /// Case L1 of the limit pressures: axis 8 m deep, water 2 m deep, 18 and 20 kN/m3 (computed).
    #[test]
    fn stresses_of_a_bore_below_groundwater() {
        let s = stress(0.0, -2.0, -8.0);
        assert!((s.total_vertical.si() - 156e3).abs() < 1.0, "{s:?}");
        assert!((s.pore.si() - 58.84e3).abs() < 10.0, "{s:?}");
        assert!((s.effective_vertical.si() - 97.16e3).abs() < 10.0, "{s:?}");
    }

    #[test]
    fn water_above_the_bed_adds_to_total_and_pore_alike() {
        let (shallow, deep) = (stress(0.0, 1.0, -5.0), stress(0.0, 9.0, -5.0));
        let rise = 8.0 * 1000.0 * GRAVITY;
        assert!((deep.total_vertical.si() - shallow.total_vertical.si() - rise).abs() < 1e-6);
        assert!((deep.effective_vertical.si() - shallow.effective_vertical.si()).abs() < 1e-6);
    }

    #[test]
    fn artesian_water_lowers_the_effective_stress() {
        let mut soils = [sand(), sand()];
        soils[1].piezometric_level = Some(Length::from_si(3.0));
        let water = WaterAt { level: Length::from_si(0.0) };
        let at = Length::from_si(-8.0);
        let s = stress_at(&column(0.0), &soils, water, at).unwrap();
        assert!((s.pore.si() - 11.0 * 1000.0 * GRAVITY).abs() < 1e-6);
        assert!((s.total_vertical - s.pore - s.effective_vertical).si().abs() < 1e-6);
    }

    #[test]
    fn nothing_is_known_above_the_ground() {
        let water = WaterAt { level: Length::ZERO };
        assert!(stress_at(&column(0.0), &[sand(), sand()], water, Length::from_si(0.1)).is_none());
    }

    #[test]
    fn only_weaker_neighbours_count() {
        let at = Length::from_si(-5.0);
        let load = Pressure::from_si(60e3);
        let [weaker, open] = weaker_layers(&column(0.0), &[clay(), sand()], at, load);
        let weaker = weaker.unwrap();
        assert_eq!((weaker.distance.si(), weaker.soil, weaker.above), (3.0, 0, true));
        assert!(open.is_none());
        assert_eq!(weaker_layers(&column(0.0), &[sand(), clay()], at, load), [None; 2]);
    }

    #[test]
    fn a_thin_layer_does_not_hide_an_open_one() {
        let gravel = Soil { kind: crate::SoilKind::CoarseGravel, ..sand() };
        let till = Soil { undrained_strength: Some(Pressure::from_si(200e3)), ..clay() };
        let layers = vec![
            Layer { soil: 0, top: 0.0, base: -2.0 },
            Layer { soil: 1, top: -2.0, base: -2.1 },
            Layer { soil: 2, top: -2.1, base: f64::NEG_INFINITY },
        ];
        let column = Column { layers, ground: 0.0, known_to: -20.0, raised: 0.0 };
        let load = Pressure::from_si(60e3);
        let at = Length::from_si(-5.0);
        let [_, open] = weaker_layers(&column, &[gravel, till, sand()], at, load);
        assert!((open.unwrap().distance.si() - 3.0).abs() < 1e-12);
    }
}

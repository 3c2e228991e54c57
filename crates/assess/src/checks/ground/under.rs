use ground::{Column, Obstacle, Shape, Soil, SoilGroup};
use project::Project;
use quantity::Length;

use crate::ground_and_fluid::{BorePlace, Places};

/// A place of the bore below an obstacle.
#[derive(Clone, Copy)]
pub(super) struct Under {
    /// Index of the place along the bore.
    pub index: usize,
    /// Level of the obstacle: its underside, or its axis where it is round.
    pub level: Length,
    /// From the axis of the bore up to that level; negative where the bore passes above.
    pub depth: Length,
}

/// The places of the bore below an obstacle; none where the bore does not pass it in the ground.
pub(super) fn under(places: &Places<'_>, obstacle: &Obstacle) -> Vec<Under> {
    let (from, to) = obstacle.shape.stretch();
    let level = match obstacle.shape {
        Shape::Above { underside, .. } => underside,
        Shape::Round { level, .. } => level,
    };
    // A narrow obstacle lies between two places: the nearest one stands for it.
    let middle = (from + to) / 2.0;
    let off = |p: &BorePlace| (p.chainage - middle).abs().si();
    let nearest =
        places.list.iter().enumerate().min_by(|a, b| off(a.1).total_cmp(&off(b.1))).map(|(i, _)| i);
    let within = |p: &BorePlace| p.chainage >= from && p.chainage <= to;
    places
        .list
        .iter()
        .enumerate()
        .filter(|(i, p)| Some(*i) == nearest || within(p))
        .map(|(index, p)| Under { index, level, depth: level - p.level })
        .collect()
}

/// Half-width of the trough over depth, mean of the soils between bore and obstacle by their thickness.
pub(crate) fn trough_factor(
    project: &Project,
    places: &Places<'_>,
    at: &BorePlace,
    up_to: Length,
) -> f64 {
    let f = &project.factors.ground;
    let column: Column = places.model.column(at.chainage, at.ground_level);
    let (low, high) = (at.level.si(), up_to.si());
    let of = |soil: &Soil| match soil.kind.group() {
        SoilGroup::Fine => f.trough_fine,
        SoilGroup::Granular | SoilGroup::Rock => f.trough_granular,
    };
    let soils = places.model.soils();
    let (mut sum, mut whole) = (0.0, 0.0);
    for layer in &column.layers {
        let thickness = (layer.top.min(high) - layer.base.max(low)).max(0.0);
        if let Some(soil) = soils.get(layer.soil) {
            sum += thickness * of(soil);
            whole += thickness;
        }
    }
    if whole > 0.0 { sum / whole } else { f.trough_granular }
}

//! The section along the chainage: ground, strata, water, what lies in the way, the bore.

use ground::{GroundLine, GroundModel, SoilGroup, SoilKind};
use quantity::Length;
use serde::Serialize;

use super::strips::short;

/// The section along the chainage; points are chainage and level in metres.
#[derive(Debug, Default, Serialize)]
pub struct Section {
    /// First and last chainage worth showing.
    pub from: f64,
    /// Last chainage worth showing.
    pub to: f64,
    /// Ground line.
    pub ground: Vec<[f64; 2]>,
    /// Level of free water.
    pub free_water: Option<f64>,
    /// Level of the groundwater.
    pub groundwater: Option<f64>,
    /// Strata as areas.
    pub strata: Vec<Stratum>,
    /// Borings.
    pub borings: Vec<Boring>,
    /// What the line keeps clear of, and neighbours.
    pub obstacles: Vec<Obstacle>,
    /// Axis of the bore or of the old main: chainage, level, measured distance.
    pub axis: Vec<[f64; 3]>,
    /// Half of the diameter of the bore or of the expander.
    pub radius: f64,
    /// Places where straight and arc meet.
    pub tangents: Vec<[f64; 2]>,
    /// Stretches at the ends in which no cover is asked for.
    pub end_zones: Vec<[f64; 2]>,
    /// Signs along an old main.
    pub signs: Vec<Sign>,
}

/// A stratum between two chainages.
#[derive(Debug, Serialize)]
pub struct Stratum {
    /// Name of the soil.
    pub name: String,
    /// Word for its pattern.
    pub pattern: &'static str,
    /// Upper boundary from left to right, then the lower one back.
    pub ring: Vec<[f64; 2]>,
}

/// A boring.
#[derive(Debug, Serialize)]
pub struct Boring {
    /// Name.
    pub name: String,
    /// Chainage.
    pub at: f64,
    /// Level of its top.
    pub top: f64,
    /// Level of its end.
    pub end: f64,
}

/// Something to keep clear of.
#[derive(Debug, Serialize)]
pub struct Obstacle {
    /// Name.
    pub name: String,
    /// Word of its kind.
    pub kind: &'static str,
    /// From this chainage.
    pub from: f64,
    /// To this chainage.
    pub to: f64,
    /// Level of its underside, or of the axis of a round one.
    pub level: f64,
    /// Diameter of a round one.
    pub diameter: Option<f64>,
    /// Clearance that is asked for.
    pub clearance: Option<f64>,
    /// Id of the check on it.
    pub check: Option<String>,
}

/// A sign on an old main.
#[derive(Debug, Serialize)]
pub struct Sign {
    /// Chainage.
    pub at: f64,
    /// `service`, `clamp`, `bend`, `pit` …
    pub kind: String,
    /// What stands beside it.
    pub label: String,
}

/// Points of a ground line.
pub(super) fn ground_points(line: &GroundLine) -> Vec<[f64; 2]> {
    line.points().map(|(x, z)| [x.si(), z.si()]).collect()
}

/// Distance between columns of strata, m, and the most columns that are made.
const SPACING: f64 = 2.0;
const MOST: f64 = 240.0;

/// Soil, upper and lower boundary of a stratum that still goes on.
type OpenStratum = (usize, Vec<[f64; 2]>, Vec<[f64; 2]>);

/// Strata as areas: a layer goes on while neighbouring columns have the same layers.
pub(super) fn strata(
    model: &GroundModel,
    ground: &GroundLine,
    from: f64,
    to: f64,
    lowest: f64,
) -> Vec<Stratum> {
    let mut at: Vec<f64> = model.borings().iter().map(|b| b.chainage.si()).collect();
    at.extend(ground.points().map(|(x, _)| x.si()));
    let spacing = ((to - from) / MOST).max(SPACING);
    let mut x = from;
    while x < to {
        at.push(x);
        x += spacing;
    }
    at.push(to);
    // Just before and behind a boring the layers may differ: both columns are needed.
    let breaks: Vec<f64> = model.borings().iter().map(|b| b.chainage.si() - 1e-6).collect();
    at.extend(breaks);
    at.retain(|x| *x >= from && *x <= to);
    at.sort_by(f64::total_cmp);
    at.dedup();
    let mut open: Vec<OpenStratum> = Vec::new();
    let mut done = Vec::new();
    let mut before = None;
    for x in at {
        let chainage = Length::from_si(x);
        let column = model.column(chainage, ground.level_extended(chainage));
        let layers: Vec<_> = column
            .layers
            .iter()
            .map(|l| (l.soil, l.top, l.base.max(lowest).max(column.known_to)))
            .filter(|(_, top, base)| top > base)
            .collect();
        let same = open.len() == layers.len()
            && open.iter().zip(&layers).all(|(run, layer)| run.0 == layer.0);
        if !same {
            // Layers pinch out between two columns: each side goes on level to the middle.
            let middle = short(0.5 * (before.unwrap_or(x) + x));
            for (_, upper, lower) in &mut open {
                for side in [upper, lower] {
                    side.extend(side.last().copied().map(|[_, z]| [middle, z]));
                }
            }
            done.append(&mut open);
            open = layers
                .iter()
                .map(|l| (l.0, vec![[middle, short(l.1)]], vec![[middle, short(l.2)]]))
                .collect();
        }
        before = Some(x);
        for ((_, upper, lower), (_, top, base)) in open.iter_mut().zip(&layers) {
            upper.push([short(x), short(*top)]);
            lower.push([short(x), short(*base)]);
        }
    }
    done.append(&mut open);
    done.into_iter()
        .filter(|(_, upper, _)| upper.len() > 1)
        .filter_map(|(soil, mut ring, mut lower)| {
            let soil = model.soils().get(soil)?;
            lower.reverse();
            ring.append(&mut lower);
            Some(Stratum { name: soil.name.clone(), pattern: pattern(soil.kind), ring })
        })
        .collect()
}

/// A word for what fills the area.
fn pattern(kind: SoilKind) -> &'static str {
    match kind {
        SoilKind::Peat | SoilKind::OrganicMud => "peat",
        SoilKind::Gravel | SoilKind::CoarseGravel | SoilKind::SandyGravel => "gravel",
        SoilKind::Fill => "fill",
        SoilKind::Silt => "silt",
        _ => match kind.group() {
            SoilGroup::Granular => "sand",
            SoilGroup::Fine => "clay",
            SoilGroup::Rock => "rock",
        },
    }
}

#[cfg(test)]
mod tests {
    use project::Design;

    #[test]
    fn strata_leave_no_gap_along_the_line() {
        let text = include_str!("../../../../demo/creek.toml");
        let read = project::read_design("creek.toml", text, &project::no_files).unwrap();
        let Design::Crossing(project) = read.design else { panic!("the creek is drilled") };
        let model = project.strata.unwrap();
        let strata = super::strata(&model, &project.site.ground, 0.0, 290.0, -11.0);
        // At every metre one stratum reaches the ground and one the lowest level that is drawn.
        for metre in 1..290 {
            let x = f64::from(metre) + 0.37;
            let holds = |ring: &[[f64; 2]]| ring[0][0] <= x && x <= ring[ring.len() / 2 - 1][0];
            let here: Vec<_> = strata.iter().filter(|s| holds(&s.ring)).collect();
            assert!(here.len() >= 2, "{x}: {}", here.len());
            let low = here.iter().flat_map(|s| &s.ring).map(|p| p[1]).fold(f64::MAX, f64::min);
            assert!(low <= -10.9, "{x}: {low}");
        }
    }
}

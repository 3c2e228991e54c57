//! What both drawings of a crossing show of its line, its ground and its checks.

use assess::{Assessment, Check, Status};
use ground::SoilKind;
use line::{Line, Segment};
use project::Project;
use quantity::Length;

use super::reader::{Reader, degrees};
use crate::scene::{Pattern, Point};

/// Turns smaller than this are rounding, rad.
const STRAIGHT: f64 = 1e-7;

/// Easting and northing of the entry point.
pub(super) fn entry_in_grid(project: &Project) -> Point {
    project
        .coordinates
        .as_ref()
        .map_or_else(Point::default, |c| Point::new(c.easting.si(), c.northing.si()))
}

/// The filling of a soil.
pub(super) const fn pattern_of(kind: SoilKind) -> Pattern {
    match kind {
        SoilKind::LooseSand | SoilKind::MediumSand | SoilKind::DenseSand => Pattern::Sand,
        SoilKind::GravellySand
        | SoilKind::SandyGravel
        | SoilKind::Gravel
        | SoilKind::CoarseGravel => Pattern::Gravel,
        SoilKind::Silt => Pattern::Silt,
        SoilKind::SoftClay | SoilKind::SoftLoam | SoilKind::MarineMud => Pattern::SoftClay,
        SoilKind::StiffClay | SoilKind::VeryStiffClay | SoilKind::StiffLoam | SoilKind::Till => {
            Pattern::StiffClay
        }
        SoilKind::OrganicMud | SoilKind::Peat => Pattern::Peat,
        SoilKind::Fill => Pattern::Fill,
        SoilKind::Rock => Pattern::Rock,
    }
}

/// A stretch of the line with one curvature, in profile or in plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    /// Measured distances.
    pub(super) md: (f64, f64),
    /// Chainages.
    pub(super) chainage: (f64, f64),
    /// Angle turned, positive upwards or to the right.
    pub(super) turn: f64,
    /// Radius in profile or plan; `None` where straight.
    pub(super) radius: Option<f64>,
}

impl Stretch {
    /// `R 250 m, 12.00°`, or `straight`.
    pub(super) fn words(&self, reader: Reader) -> String {
        match self.radius {
            Some(radius) => format!("R {}, {}", reader.length(radius), degrees(self.turn.abs())),
            None => "straight".to_owned(),
        }
    }

    /// `R 250 m`, or `straight`.
    pub(super) fn brief(&self, reader: Reader) -> String {
        self.radius.map_or_else(|| "straight".to_owned(), |r| format!("R {}", reader.length(r)))
    }

    pub(super) fn middle(&self) -> f64 {
        f64::midpoint(self.md.0, self.md.1)
    }
}

/// The stretches of the profile.
pub(super) fn profile_stretches(line: &Line) -> Vec<Stretch> {
    stretches(line, |segment, _| (segment.vertical_turn().si(), segment.length().si()))
}

/// The stretches of the plan line.
pub(super) fn plan_stretches(line: &Line) -> Vec<Stretch> {
    stretches(line, |segment, run| (segment.plan_turn().si(), run))
}

fn stretches(line: &Line, turned: impl Fn(&Segment, f64) -> (f64, f64)) -> Vec<Stretch> {
    let mut list: Vec<Stretch> = Vec::new();
    for segment in line.segments() {
        let md = (segment.md_start().si(), segment.md_end().si());
        let chainage = (line.sample(md.0).chainage.si(), line.sample(md.1).chainage.si());
        let (turn, length) = turned(segment, chainage.1 - chainage.0);
        let radius = (turn.abs() > STRAIGHT).then(|| length / turn.abs());
        match list.last_mut() {
            Some(last) if same(last, turn, radius) => {
                last.md.1 = md.1;
                last.chainage.1 = chainage.1;
                last.turn += turn;
            }
            _ => list.push(Stretch { md, chainage, turn, radius }),
        }
    }
    list
}

fn same(last: &Stretch, turn: f64, radius: Option<f64>) -> bool {
    match (last.radius, radius) {
        (None, None) => true,
        (Some(a), Some(b)) => (a - b).abs() < 1e-6 * a && last.turn * turn > 0.0,
        _ => false,
    }
}

/// A place where the curvature of the line changes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct TangentPoint {
    /// `T1`, `T2`, … in the order of the line.
    pub(super) name: String,
    pub(super) md: f64,
    pub(super) chainage: f64,
    /// Whether the plan line changes its direction from here, or no longer.
    pub(super) in_plan: bool,
}

/// Most tangent points that are numbered; a survey has one at every station and is drawn without names.
pub(super) const MOST_NUMBERED: usize = 24;

/// The tangent points of the line, without its ends.
pub(super) fn tangent_points(line: &Line) -> Vec<TangentPoint> {
    let end = line.length().si();
    let (profile, plan) = (profile_stretches(line), plan_stretches(line));
    let mut mds: Vec<f64> = profile
        .iter()
        .chain(&plan)
        .map(|s| s.md.0)
        .filter(|md| *md > 1e-6 && *md < end - 1e-6)
        .collect();
    mds.sort_by(f64::total_cmp);
    mds.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    mds.into_iter()
        .enumerate()
        .map(|(i, md)| TangentPoint {
            name: format!("T{}", i + 1),
            md,
            chainage: line.sample(md).chainage.si(),
            in_plan: plan.iter().any(|s| (s.md.0 - md).abs() < 1e-6),
        })
        .collect()
}

/// Chainage and level of the axis at a measured distance.
pub(super) fn in_section(line: &Line, md: f64) -> Point {
    let station = line.sample(md);
    Point::new(station.chainage.si(), station.level.si())
}

/// Measured distance at a chainage, brought to the nearer end of the line beyond it.
pub(super) fn md_at(line: &Line, chainage: f64) -> f64 {
    let inside = chainage.max(0.0).min(line.run().si());
    line.md_at_chainage(Length::from_si(inside)).map_or(0.0, Length::si)
}

/// Measured distances between two chainages, close enough that straights between them look like the curve.
pub(super) fn md_samples(line: &Line, from: f64, to: f64) -> Vec<f64> {
    const PIECES: u32 = 240;
    let (a, b) = (md_at(line, from), md_at(line, to));
    let mut mds: Vec<f64> =
        (0..=PIECES).map(|i| a + (b - a) * f64::from(i) / f64::from(PIECES)).collect();
    mds.extend(line.breakpoints().into_iter().map(Length::si).filter(|md| *md > a && *md < b));
    mds.sort_by(f64::total_cmp);
    mds.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    mds
}

/// The check of the clearance to the obstacle of some id.
pub(super) fn clearance_check<'a>(assessment: &'a Assessment, id: &str) -> Option<&'a Check> {
    assessment.check(&format!("line.clearance.{id}"))
}

/// Failing checks that have a place, grouped where the places agree within a distance.
pub(super) fn failures(assessment: &Assessment, within: f64) -> Vec<(f64, Vec<&str>)> {
    let mut list: Vec<(f64, Vec<&str>)> = Vec::new();
    for check in assessment.checks.iter().filter(|c| c.status == Status::Fail) {
        let Some(at) = check.at else { continue };
        match list.iter_mut().find(|(place, _)| (place - at).abs() <= within) {
            Some((_, ids)) => ids.push(&check.id),
            None => list.push((at, vec![&check.id])),
        }
    }
    list
}

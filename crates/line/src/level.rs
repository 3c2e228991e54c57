use glam::DVec3;
use quantity::{Angle, Length};

use crate::bore_line::LineBuilder;
use crate::curve::Curve;
use crate::level_profile::{LevelProfile, ProfileSide, level_profile};
use crate::range::Faults;
use crate::{Field, Line, LineError};

/// A bend in plan, laid over the profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlanBend {
    /// Chainage at which the bend starts.
    pub start_chainage: Length,
    /// Radius of the plan line, that is of the bore's horizontal projection.
    pub radius: Length,
    /// Angle turned, positive to the right.
    pub angle: Angle,
}

/// A line of entry tangent, arc, level part, arc and exit tangent, with bends in plan laid over it.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelDesign {
    /// Level of the entry point.
    pub entry_level: Length,
    /// Level of the exit point.
    pub exit_level: Length,
    /// Horizontal length from entry to exit along the plan line.
    pub run: Length,
    /// Entry angle below the horizontal, positive.
    pub entry_angle: Angle,
    /// Exit angle above the horizontal, positive.
    pub exit_angle: Angle,
    /// Radius of the entry curve in profile.
    pub entry_radius: Length,
    /// Radius of the exit curve in profile.
    pub exit_radius: Length,
    /// Level of the level part.
    pub lowest_level: Length,
    /// Azimuth at the entry point.
    pub azimuth: Angle,
    /// Bends in plan, in any order.
    pub bends: Vec<PlanBend>,
}

/// A stretch along the chainage with one curvature of its own, from `from` to `to`.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    from: f64,
    to: f64,
    curvature: f64,
}

/// A part of the profile: chainage of its ends, inclination at its start, curvature upwards.
#[derive(Debug, Clone, Copy)]
struct Part {
    from: f64,
    to: f64,
    inclination: f64,
    curvature: f64,
}

/// Stretches shorter than this are rounding of breakpoints that coincide, m.
const SHORTEST: f64 = 1e-9;

impl LevelDesign {
    /// The design's entry side.
    #[must_use]
    pub fn entry(&self) -> ProfileSide {
        ProfileSide {
            angle: self.entry_angle,
            radius: self.entry_radius,
            depth: self.entry_level - self.lowest_level,
        }
    }

    /// The design's exit side.
    #[must_use]
    pub fn exit(&self) -> ProfileSide {
        ProfileSide {
            angle: self.exit_angle,
            radius: self.exit_radius,
            depth: self.exit_level - self.lowest_level,
        }
    }

    /// Lengths of the parts of the profile.
    ///
    /// # Errors
    /// As [`level_profile`].
    pub fn profile(&self) -> Result<LevelProfile, Vec<LineError>> {
        level_profile(self.entry(), self.exit(), self.run)
    }
}

impl Line {
    /// The line of a level design.
    ///
    /// The profile follows [`level_profile`]; the bends are circular arcs of the plan line. Level
    /// follows from the profile and position in plan from the plan line at the same chainage, both
    /// in closed form. The entry point lies at the origin of the plan.
    ///
    /// # Errors
    /// All faults of the design at once, those that make it infeasible with the numbers that would
    /// not.
    pub fn from_level(design: &LevelDesign) -> Result<Self, Vec<LineError>> {
        let mut faults = Faults::default();
        faults.place(Field::EntryLevel, design.entry_level.si());
        faults.place(Field::ExitLevel, design.exit_level.si());
        faults.place(Field::LowestLevel, design.lowest_level.si());
        faults.azimuth(Field::Azimuth, design.azimuth.si());
        let levels_are_numbers = faults.0.iter().all(|f| {
            !matches!(f.field(), Some(Field::EntryLevel | Field::ExitLevel | Field::LowestLevel))
        });
        let profile = if levels_are_numbers { Some(design.profile()) } else { None };
        let plan = plan_stretches(design, &mut faults);
        let profile = match profile {
            Some(Ok(profile)) if faults.0.is_empty() => profile,
            Some(Err(more)) => {
                // The profile comes first: a reader mends it before its bends.
                return Err(more.into_iter().chain(faults.0).collect());
            }
            _ => return Err(faults.0),
        };
        let start = DVec3::new(0.0, 0.0, design.entry_level.si());
        let mut builder = LineBuilder::new(start);
        let mut azimuth = design.azimuth.si();
        for part in profile_parts(design, &profile) {
            let cuts = plan
                .iter()
                .flat_map(|s| [s.from, s.to])
                .filter(|x| *x > part.from + SHORTEST && *x < part.to - SHORTEST)
                .chain([part.to]);
            let mut from = part.from;
            let mut inclination = part.inclination;
            for to in cuts {
                if to - from < SHORTEST {
                    continue;
                }
                let middle = 0.5 * (from + to);
                let bend = plan
                    .iter()
                    .find(|s| s.from <= middle && middle <= s.to)
                    .map_or(0.0, |s| s.curvature);
                let (length, after) = along(inclination, part.curvature, to - from);
                let curve =
                    Curve::Laid { inclination, vertical: part.curvature, azimuth, plan: bend };
                builder.push(curve, length);
                azimuth += bend * (to - from);
                (from, inclination) = (to, after);
            }
        }
        builder.finish().ok_or_else(|| {
            vec![LineError::OutOfRange {
                field: Field::Run,
                found: quantity::show(design.run.si(), quantity::unit::M),
                allowed: "long enough to hold a bore",
            }]
        })
    }
}

/// Length along the profile over a run, and the inclination at its end.
fn along(inclination: f64, curvature: f64, run: f64) -> (f64, f64) {
    if curvature == 0.0 {
        return (run / inclination.cos(), inclination);
    }
    let after = (inclination.sin() + curvature * run).clamp(-1.0, 1.0).asin();
    ((after - inclination) / curvature, after)
}

fn profile_parts(design: &LevelDesign, profile: &LevelProfile) -> Vec<Part> {
    let (a, e) = (design.entry_angle.si(), design.exit_angle.si());
    let (r1, r2) = (design.entry_radius.si(), design.exit_radius.si());
    let run = design.run.si();
    let arc_start = profile.entry_tangent.si() * a.cos();
    let level_start = profile.entry_run.si();
    let level_end = run - profile.exit_run.si();
    let arc_end = run - profile.exit_tangent.si() * e.cos();
    let part = |from, to, inclination, curvature| Part { from, to, inclination, curvature };
    [
        part(0.0, arc_start, -a, 0.0),
        part(arc_start, level_start, -a, 1.0 / r1),
        part(level_start, level_end, 0.0, 0.0),
        part(level_end, arc_end, 0.0, 1.0 / r2),
        part(arc_end, run, e, 0.0),
    ]
    .into_iter()
    .filter(|p| p.to - p.from >= SHORTEST)
    .collect()
}

/// The bends as stretches in rising order; faults of the bends are collected.
fn plan_stretches(design: &LevelDesign, faults: &mut Faults) -> Vec<Stretch> {
    let before = faults.0.len();
    for (i, bend) in design.bends.iter().enumerate() {
        faults.place(Field::BendStart(i), bend.start_chainage.si());
        faults.radius(Field::BendRadius(i), bend.radius.si());
        faults.bend(Field::BendAngle(i), bend.angle.si());
    }
    if faults.0.len() > before {
        return Vec::new();
    }
    let run = design.run.si();
    let mut stretches: Vec<(usize, Stretch)> = design
        .bends
        .iter()
        .enumerate()
        .map(|(i, bend)| {
            let (radius, angle) = (bend.radius.si(), bend.angle.si());
            let from = bend.start_chainage.si();
            let to = from + radius * angle.abs();
            (i, Stretch { from, to, curvature: angle.signum() / radius })
        })
        .collect();
    stretches.sort_by(|a, b| a.1.from.total_cmp(&b.1.from));
    for (index, stretch) in &stretches {
        if stretch.from < -SHORTEST || (run.is_finite() && stretch.to > run + SHORTEST) {
            faults.0.push(LineError::BendLeavesLine {
                index: *index,
                from: Length::from_si(stretch.from),
                to: Length::from_si(stretch.to),
                run: design.run,
            });
        }
    }
    for pair in stretches.windows(2) {
        if let [(first, a), (second, b)] = pair
            && a.to > b.from + SHORTEST
        {
            let overlap = Length::from_si(a.to - b.from);
            faults.0.push(LineError::BendsOverlap { first: *first, second: *second, overlap });
        }
    }
    stretches.into_iter().map(|(_, stretch)| stretch).collect()
}

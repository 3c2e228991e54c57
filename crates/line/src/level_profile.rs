use std::f64::consts::FRAC_PI_2;

use quantity::{Angle, Length};

use crate::error::End;
use crate::range::Faults;
use crate::{Field, LineError};

/// One side of a profile: tangent and arc down to the level part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProfileSide {
    /// Angle of the tangent with the horizontal, positive.
    pub angle: Angle,
    /// Radius of the arc.
    pub radius: Length,
    /// Depth of the level part below the end point.
    pub depth: Length,
}

/// Lengths of the parts of a profile of tangents and arcs with a level part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelProfile {
    /// Length of the entry tangent.
    pub entry_tangent: Length,
    /// Length of the entry arc.
    pub entry_arc: Length,
    /// Length of the level part.
    pub level_length: Length,
    /// Length of the exit arc.
    pub exit_arc: Length,
    /// Length of the exit tangent.
    pub exit_tangent: Length,
    /// Horizontal length from the entry point to the start of the level part.
    pub entry_run: Length,
    /// Horizontal length from the end of the level part to the exit point.
    pub exit_run: Length,
    /// Length of the whole bore.
    pub bore_length: Length,
}

/// Parts that come out this much below zero are zero by rounding, m.
const ROUNDING: f64 = 1e-9;

/// Lengths of the straight and curved parts of a profile that goes level at a given depth.
///
/// ```text
/// T1 = ( d1 − R1 (1 − cos a) ) / sin a          entry tangent; T2 likewise from d2, R2, e
/// x2 = T1 cos a + R1 sin a                      run to the level part; exit side likewise
/// B  = run − x2 − ( T2 cos e + R2 sin e )       level part
/// s  = T1 + R1 a + B + R2 e + T2                length of the bore
/// ```
/// | symbol   | meaning                                  | unit | argument        |
/// |----------|------------------------------------------|------|-----------------|
/// | a, e     | entry and exit angle                     | rad  | `*.angle`       |
/// | R1, R2   | radii of the arcs                        | m    | `*.radius`      |
/// | d1, d2   | depth of the level part below the ends   | m    | `*.depth`       |
/// | T1, T2, B| straight and level parts                 | m    | returned        |
///
/// Valid for 0 ≤ a, e < 90°, R > 0, d ≥ 0. With an angle of zero the depth must be zero too and T
/// is zero. T1, T2 and B below zero are errors; between −1e-9 m and zero they are zero by rounding.
///
/// # Source
/// Plane geometry, derived. Deviation: none.
/// # Errors
/// All faults at once. [`LineError::CurveNeedsDepth`] and [`LineError::LevelPartShort`] carry what
/// would make the profile feasible: for the first a larger depth, smaller radius or smaller angle;
/// for the second a longer run, smaller radii (by one factor), less depth or steeper angles (by one
/// amount), each alone. Where a curve does not fit its depth, the level part is judged with the
/// largest radius that does.
/// # Checked by
/// `cases/geometry/level-profile.toml`; properties in `tests/level.rs`: the profile closes on run,
/// depth and length, and every alternative that an error names is feasible.
pub fn level_profile(
    entry: ProfileSide,
    exit: ProfileSide,
    run: Length,
) -> Result<LevelProfile, Vec<LineError>> {
    let mut faults = Faults::default();
    faults.length(Field::Run, run.si());
    faults.steepness(Field::EntryAngle, entry.angle.si());
    faults.steepness(Field::ExitAngle, exit.angle.si());
    faults.radius(Field::EntryRadius, entry.radius.si());
    faults.radius(Field::ExitRadius, exit.radius.si());
    faults.place(Field::EntryDepth, entry.depth.si());
    faults.place(Field::ExitDepth, exit.depth.si());
    if !faults.0.is_empty() {
        return Err(faults.0);
    }
    let sides = [Side::new(End::Entry, entry), Side::new(End::Exit, exit)];
    let mut faults: Vec<LineError> = sides.iter().filter_map(Side::fault).collect();
    let deep_enough = !faults.iter().any(|f| {
        matches!(f, LineError::LevelPartAboveEnd { .. } | LineError::NeverReachesDepth { .. })
    });
    if deep_enough {
        let fitting = sides.map(|s| s.fitting());
        faults.extend(level_part_fault(&fitting, run.si()));
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let [one, two] = sides;
    let (t1, t2) = (one.tangent().max(0.0), two.tangent().max(0.0));
    let (x1, x2) = (one.run(), two.run());
    let level = (run.si() - x1 - x2).max(0.0);
    let (arc1, arc2) = (one.radius * one.angle, two.radius * two.angle);
    let metres = Length::from_si;
    Ok(LevelProfile {
        entry_tangent: metres(t1),
        entry_arc: metres(arc1),
        level_length: metres(level),
        exit_arc: metres(arc2),
        exit_tangent: metres(t2),
        entry_run: metres(x1),
        exit_run: metres(x2),
        bore_length: metres(t1 + arc1 + level + arc2 + t2),
    })
}

/// One side in plain numbers: metres and radians.
#[derive(Debug, Clone, Copy)]
struct Side {
    end: End,
    angle: f64,
    radius: f64,
    depth: f64,
}

/// 1 − cos x, with its digits at small x.
fn versine(x: f64) -> f64 {
    2.0 * (0.5 * x).sin().powi(2)
}

impl Side {
    fn new(end: End, side: ProfileSide) -> Self {
        let (angle, radius, depth) = (side.angle.si(), side.radius.si(), side.depth.si());
        Self { end, angle, radius, depth }
    }

    fn tangent(&self) -> f64 {
        if self.angle == 0.0 {
            return 0.0;
        }
        (self.depth - self.radius * versine(self.angle)) / self.angle.sin()
    }

    /// Horizontal length of tangent and arc: d cot a + R tan(a/2), the same as T cos a + R sin a.
    fn run(&self) -> f64 {
        if self.angle == 0.0 {
            return 0.0;
        }
        self.depth / self.angle.tan() + self.curve_share()
    }

    /// The share of the run that grows with the radius.
    fn curve_share(&self) -> f64 {
        self.radius * (0.5 * self.angle).tan()
    }

    fn fault(&self) -> Option<LineError> {
        let Side { end, angle, radius, depth } = *self;
        if depth < -ROUNDING {
            return Some(LineError::LevelPartAboveEnd { end, by: Length::from_si(-depth) });
        }
        if angle == 0.0 {
            let depth = Length::from_si(depth);
            return (depth.si() > ROUNDING).then_some(LineError::NeverReachesDepth { end, depth });
        }
        if self.tangent() >= -ROUNDING {
            return None;
        }
        Some(LineError::CurveNeedsDepth {
            end,
            shortfall: Length::from_si(radius * versine(angle) - depth),
            radius_at_most: Length::from_si(self.largest_radius()),
            angle_at_most: Angle::from_si(self.largest_angle()),
        })
    }

    fn largest_radius(&self) -> f64 {
        self.depth.max(0.0) / versine(self.angle)
    }

    /// Angle whose arc takes up the whole depth; less than a right angle.
    fn largest_angle(&self) -> f64 {
        let half = (0.5 * self.depth.max(0.0) / self.radius).sqrt();
        (2.0 * half.min(1.0).asin()).min(FRAC_PI_2)
    }

    /// The side with a radius that fits its depth.
    fn fitting(&self) -> Self {
        if self.angle == 0.0 || self.tangent() >= 0.0 {
            return *self;
        }
        Self { radius: self.largest_radius(), ..*self }
    }
}

fn level_part_fault(sides: &[Side; 2], run: f64) -> Option<LineError> {
    let [entry, exit] = sides;
    let needed = entry.run() + exit.run();
    let shortfall = needed - run;
    if shortfall <= ROUNDING {
        return None;
    }
    let metres = Length::from_si;
    let factor = 1.0 - shortfall / (entry.curve_share() + exit.curve_share());
    let radii_at_most =
        (factor > 0.0).then(|| (metres(factor * entry.radius), metres(factor * exit.radius)));
    Some(LineError::LevelPartShort {
        shortfall: metres(shortfall),
        run_at_least: metres(needed),
        radii_at_most,
        depth_less: depth_less(sides, shortfall).map(metres),
        angles_at_least: angles_at_least(sides, run)
            .map(|(a, e)| (Angle::from_si(a), Angle::from_si(e))),
    })
}

/// By how much the level part must rise to make room; a curve must still fit its depth.
fn depth_less(sides: &[Side; 2], shortfall: f64) -> Option<f64> {
    // A horizontal end has no depth to give.
    if sides.iter().any(|s| s.angle == 0.0) {
        return None;
    }
    let rise = shortfall / sides.iter().map(|s| 1.0 / s.angle.tan()).sum::<f64>();
    let raised = sides.map(|s| Side { depth: s.depth - rise, ..s });
    raised.iter().all(|s| s.tangent() >= 0.0).then_some(rise)
}

/// Both angles steeper by one amount, so that the level part just has room; each curve must still
/// fit its depth.
///
/// The run of a side falls with its angle as long as the tangent is not negative, so the amount is
/// the one root.
fn angles_at_least(sides: &[Side; 2], run: f64) -> Option<(f64, f64)> {
    let steeper =
        |by: f64| sides.map(|s| if s.angle == 0.0 { s } else { Side { angle: s.angle + by, ..s } });
    let most = sides
        .iter()
        .filter(|s| s.angle > 0.0)
        .map(|s| s.largest_angle() - s.angle)
        .fold(f64::INFINITY, f64::min);
    if !(most > 0.0 && most.is_finite()) {
        return None;
    }
    let short = |by: f64| steeper(by).iter().map(Side::run).sum::<f64>() - run;
    if short(most) > 0.0 {
        return None;
    }
    let by = numerics::root(short, 0.0, most, 1e-13).ok()?;
    let [entry, exit] = steeper(by);
    Some((entry.angle, exit.angle))
}

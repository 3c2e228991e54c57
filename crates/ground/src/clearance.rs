use glam::DVec2;
use line::Line;
use quantity::{Length, show, unit};

use crate::cover::{checked_radius, crown_height};
use crate::search::least;
use crate::{GroundError, Obstacle, Passing, Shape};

/// Distance between the edge of the bore and an obstacle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clearance {
    /// Least distance edge to edge, in whatever direction of the section; negative where they
    /// overlap.
    pub gap: Length,
    /// Measured distance at which the gap is least.
    pub md: Length,
    /// Least vertical distance edge to edge within the obstacle's stretch; negative where they
    /// overlap.
    pub vertical_gap: Length,
    /// On which side the bore's axis passes.
    pub passing: Passing,
}

/// Clearance of the bore from an obstacle, in the developed section.
///
/// ```text
/// round obstacle   gap = |C(s) − P| − d/2 − r,               least over s
/// above a level    gap = distance of C(s) from the region − r,
///                  inside the region −(depth into it from below) − r
/// ```
/// C is the bore axis, r the bore's radius, P and d the obstacle's axis and diameter. Found to 1e-7
/// m of measured distance. An obstacle partly outside the line is measured from the part of the
/// bore there is.
///
/// # Errors
/// [`GroundError::OutsideLine`] for an obstacle wholly outside the line; a negative radius or
/// diameter, numbers that are not finite, a stretch without length; a vertical bore.
pub fn clearance(
    line: &Line,
    obstacle: &Obstacle,
    bore_radius: Length,
) -> Result<Clearance, GroundError> {
    let radius = checked_radius(bore_radius)?;
    check_shape(obstacle)?;
    let (from, to) = obstacle.shape.stretch();
    let run = line.run();
    if to.si() < 0.0 || from > run {
        return Err(GroundError::OutsideLine { name: obstacle.name.clone(), from, to, run });
    }
    let end = line.length().si();
    let place = |md: f64| {
        let station = line.sample(md);
        DVec2::new(station.chainage.si(), station.level.si())
    };
    match obstacle.shape {
        Shape::Round { at, level, diameter } => {
            let centre = DVec2::new(at.si(), level.si());
            let edges = radius + 0.5 * diameter.si();
            let (gap, md) =
                least(line, 0.0, end, [at.si()], |md| place(md).distance(centre) - edges)?;
            let md_at = line.md_at_chainage(at.max(Length::ZERO).min(run))?;
            let station = line.sample(md_at.si());
            let offset = station.level.si() - level.si();
            let reach = crown_height(&station, radius)? + 0.5 * diameter.si();
            Ok(Clearance {
                gap: Length::from_si(gap),
                md: Length::from_si(md),
                vertical_gap: Length::from_si(offset.abs() - reach),
                passing: if offset > 0.0 { Passing::Above } else { Passing::Below },
            })
        }
        Shape::Above { underside, .. } => {
            let (x1, x2, level) = (from.si(), to.si(), underside.si());
            let distance = |p: DVec2| {
                let (aside, below) = ((x1 - p.x).max(p.x - x2).max(0.0), level - p.y);
                if aside > 0.0 { aside.hypot(below.max(0.0)) } else { below }
            };
            let (gap, md) = least(line, 0.0, end, [x1, x2], |md| distance(place(md)) - radius)?;
            let md_from = line.md_at_chainage(from.max(Length::ZERO))?.si();
            let md_to = line.md_at_chainage(to.min(run))?.si();
            let below = |md: f64| level - place(md).y;
            let edge = |md: f64| {
                let height = crown_height(&line.sample(md), radius).unwrap_or(f64::INFINITY);
                below(md) - height
            };
            let (vertical, _) = least(line, md_from, md_to, [], edge)?;
            let (axis, lowest_md) = least(line, md_from, md_to, [], below)?;
            if !vertical.is_finite() {
                return Err(GroundError::Vertical { md: Length::from_si(lowest_md) });
            }
            Ok(Clearance {
                gap: Length::from_si(gap),
                md: Length::from_si(md),
                vertical_gap: Length::from_si(vertical),
                passing: if axis < 0.0 { Passing::Above } else { Passing::Below },
            })
        }
    }
}

/// Largest coordinate of an obstacle, m; keeps sums of squares far from overflow.
const FARTHEST: f64 = 1e9;

fn check_shape(obstacle: &Obstacle) -> Result<(), GroundError> {
    let place = |quantity, length: Length| {
        let found = || show(length.si(), unit::M);
        let allowed = "finite and within a million km of zero";
        if length.si().abs() <= FARTHEST {
            Ok(())
        } else {
            Err(GroundError::OutOfRange { quantity, found: found(), allowed })
        }
    };
    match obstacle.shape {
        Shape::Above { from, to, underside } => {
            place("chainage at which the obstacle begins", from)?;
            place("chainage at which the obstacle ends", to)?;
            place("underside of the obstacle", underside)?;
            if to <= from {
                return Err(GroundError::EmptyStretch { name: obstacle.name.clone(), from, to });
            }
        }
        Shape::Round { at, level, diameter } => {
            place("chainage of the obstacle", at)?;
            place("level of the obstacle", level)?;
            place("diameter of the obstacle", diameter)?;
            if diameter.si() < 0.0 {
                return Err(GroundError::OutOfRange {
                    quantity: "diameter of the obstacle",
                    found: show(diameter.si(), unit::M),
                    allowed: "0 or greater",
                });
            }
        }
    }
    Ok(())
}

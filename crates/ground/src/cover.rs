use glam::DVec2;
use line::{Line, Station};
use quantity::{Length, show, unit};

use crate::search::least;
use crate::{GroundError, GroundLine};

/// Ground above one place of the bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cover {
    /// Measured distance of the place.
    pub md: Length,
    /// Its chainage.
    pub chainage: Length,
    /// Level of the ground above it.
    pub ground_level: Length,
    /// Level of the bore's crown vertically above the axis.
    pub crown_level: Length,
    /// Cover: vertical distance from the crown to the ground; negative where the crown lies above
    /// the ground.
    pub vertical: Length,
    /// Least distance from the edge of the bore to the ground line, in whatever direction of the
    /// section; negative where the axis lies above the ground or the edge reaches it.
    pub least: Length,
}

/// Most places of a profile.
// Judgement: a place every 10 cm over the longest bores; more is a slip of the unit.
const MOST_PLACES: f64 = 100_000.0;

/// Cover at one place of the bore.
///
/// The crown lies r/cos P above the axis, P being the inclination: the vertical distance to the
/// upper edge of a straight bore. `least` is the distance from the axis to the ground line less the
/// radius.
///
/// # Errors
/// Outside the line or the ground line, for a negative radius, and where the bore is vertical.
pub fn cover_at(
    line: &Line,
    ground: &GroundLine,
    bore_radius: Length,
    md: Length,
) -> Result<Cover, GroundError> {
    let radius = checked_radius(bore_radius)?;
    let station = line.at(md)?;
    let ground_level = ground.level_at(within(ground, station.chainage))?;
    cover_of(&station, ground, ground_level, radius)
}

pub(crate) fn checked_radius(bore_radius: Length) -> Result<f64, GroundError> {
    let r = bore_radius.si();
    if r >= 0.0 && r.is_finite() {
        return Ok(r);
    }
    let found = show(r, unit::M);
    Err(GroundError::OutOfRange { quantity: "bore radius", found, allowed: "0 or greater" })
}

fn cover_of(
    station: &Station,
    ground: &GroundLine,
    ground_level: Length,
    radius: f64,
) -> Result<Cover, GroundError> {
    let crown_level = Length::from_si(station.level.si() + crown_height(station, radius)?);
    let (distance, below) = ground.distance(DVec2::new(station.chainage.si(), station.level.si()));
    let signed = if below { distance } else { -distance };
    Ok(Cover {
        md: station.md,
        chainage: station.chainage,
        ground_level,
        crown_level,
        vertical: ground_level - crown_level,
        least: Length::from_si(signed - radius),
    })
}

/// Vertical distance from the axis to the edge of the bore.
pub(crate) fn crown_height(station: &Station, radius: f64) -> Result<f64, GroundError> {
    let flat = station.tangent.x.hypot(station.tangent.y);
    if flat < 1e-9 { Err(GroundError::Vertical { md: station.md }) } else { Ok(radius / flat) }
}

/// Cover along the bore: at even distances no longer than `spacing`, at the ends, where segments of
/// the line meet and under every point of the ground line.
///
/// # Errors
/// As [`cover_at`]; also for a spacing that is not positive or asks for more than 100 000 places.
pub fn cover_profile(
    line: &Line,
    ground: &GroundLine,
    bore_radius: Length,
    spacing: Length,
) -> Result<Vec<Cover>, GroundError> {
    let radius = checked_radius(bore_radius)?;
    let length = line.length().si();
    let count = (length / spacing.si()).ceil();
    if !(spacing.si() > 0.0 && count <= MOST_PLACES) {
        return Err(GroundError::OutOfRange {
            quantity: "spacing of the cover profile",
            found: show(spacing.si(), unit::M),
            allowed: "greater than 0 and at least a hundred-thousandth of the bore",
        });
    }
    let mut mds = vec![0.0];
    let mut i = 1.0;
    while i < count {
        mds.push(length * i / count);
        i += 1.0;
    }
    mds.extend(line.breakpoints().into_iter().map(Length::si));
    for (chainage, _) in ground.points() {
        if chainage.si() > 0.0 && chainage.si() < line.run().si() {
            mds.push(line.md_at_chainage(chainage)?.si());
        }
    }
    mds.sort_by(f64::total_cmp);
    mds.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    mds.into_iter()
        .map(|md| {
            let station = line.sample(md);
            let ground_level = ground.level_at(within(ground, station.chainage))?;
            cover_of(&station, ground, ground_level, radius)
        })
        .collect()
}

/// A chainage that misses an end of the ground line by rounding, brought back to it.
fn within(ground: &GroundLine, chainage: Length) -> Length {
    let (from, to) = (ground.from(), ground.to());
    let near = |end: Length| (chainage.si() - end.si()).abs() < 1e-6;
    if chainage < from && near(from) {
        from
    } else if chainage > to && near(to) {
        to
    } else {
        chainage
    }
}

/// The place of least vertical cover between two chainages, exact: found between the corners of
/// ground and line and refined to 1e-7 m.
///
/// # Errors
/// As [`cover_at`]; chainages outside the line; a stretch that ends before it begins.
pub fn least_cover(
    line: &Line,
    ground: &GroundLine,
    bore_radius: Length,
    chainage_from: Length,
    chainage_to: Length,
) -> Result<Cover, GroundError> {
    let radius = checked_radius(bore_radius)?;
    if chainage_to < chainage_from {
        return Err(GroundError::OutOfRange {
            quantity: "end of the stretch",
            found: show(chainage_to.si(), unit::M),
            allowed: "not before its beginning",
        });
    }
    let md_from = line.md_at_chainage(chainage_from)?.si();
    let md_to = line.md_at_chainage(chainage_to)?.si();
    let cover = |md: f64| {
        let station = line.sample(md);
        let ground_level = ground.level_at(within(ground, station.chainage))?;
        cover_of(&station, ground, ground_level, radius)
    };
    // The ends are where the ground line may be missing; a gap inside is not possible.
    cover(md_from)?;
    cover(md_to)?;
    let vertical = |md: f64| cover(md).map_or(f64::INFINITY, |c| c.vertical.si());
    let corners = ground.points().map(|(x, _)| x.si());
    let (_, md) = least(line, md_from, md_to, corners, vertical)?;
    cover(md)
}

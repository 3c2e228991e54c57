use glam::DVec2;
use quantity::{Angle, Length, unit};

use crate::GroundError;

/// Level of the ground above the bore, straight between points; never vertical.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundLine {
    /// x chainage, y level; at least two, chainage strictly rising.
    points: Vec<DVec2>,
}

/// Largest chainage or level that is accepted, m; keeps sums of squares far from overflow.
const FARTHEST: f64 = 1e9;

impl GroundLine {
    /// A ground line from points of chainage and level.
    ///
    /// # Errors
    /// All faults at once: fewer than two points, numbers that are not finite, chainages that do
    /// not rise.
    pub fn new(points: &[(Length, Length)]) -> Result<Self, Vec<GroundError>> {
        let mut faults = Vec::new();
        if points.len() < 2 {
            faults.push(GroundError::TooFewPoints { found: points.len() });
        }
        for (index, (chainage, level)) in points.iter().enumerate() {
            for (what, value) in [("chainage", chainage.si()), ("level", level.si())] {
                if value.is_nan() || value.abs() > FARTHEST {
                    let found = quantity::show(value, unit::M);
                    faults.push(GroundError::NotFinite { index, what, found });
                }
            }
        }
        for (i, pair) in points.windows(2).enumerate() {
            if let [(before, _), (after, _)] = pair
                && after.si() <= before.si()
            {
                let (found, previous) = (*after, *before);
                faults.push(GroundError::NotRising { index: i + 1, found, previous });
            }
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let points = points.iter().map(|(x, z)| DVec2::new(x.si(), z.si())).collect();
        Ok(Self { points })
    }

    /// The points as chainage and level.
    pub fn points(&self) -> impl Iterator<Item = (Length, Length)> {
        self.points.iter().map(|p| (Length::from_si(p.x), Length::from_si(p.y)))
    }

    /// Chainage at which the ground line begins.
    #[must_use]
    pub fn from(&self) -> Length {
        Length::from_si(self.points.first().map_or(0.0, |p| p.x))
    }

    /// Chainage at which the ground line ends.
    #[must_use]
    pub fn to(&self) -> Length {
        Length::from_si(self.points.last().map_or(0.0, |p| p.x))
    }

    /// Level at a chainage.
    ///
    /// # Errors
    /// [`GroundError::OutsideGround`]: nothing is known there; see [`GroundLine::level_extended`].
    pub fn level_at(&self, chainage: Length) -> Result<Length, GroundError> {
        let [a, b] = self.stretch_at(chainage)?;
        let share = (chainage.si() - a.x) / (b.x - a.x);
        Ok(Length::from_si(a.y + share * (b.y - a.y)))
    }

    /// Level at a chainage; before the first and beyond the last point the level of that point.
    #[must_use]
    pub fn level_extended(&self, chainage: Length) -> Length {
        let inside = chainage.max(self.from()).min(self.to());
        self.level_at(inside).unwrap_or(Length::ZERO)
    }

    /// Slope at a chainage, positive where the ground rises with the chainage; at a point that of
    /// the stretch which begins there.
    ///
    /// # Errors
    /// [`GroundError::OutsideGround`].
    pub fn slope_at(&self, chainage: Length) -> Result<Angle, GroundError> {
        let [a, b] = self.stretch_at(chainage)?;
        Ok(Angle::from_si((b.y - a.y).atan2(b.x - a.x)))
    }

    fn stretch_at(&self, chainage: Length) -> Result<[DVec2; 2], GroundError> {
        let x = chainage.si();
        let (from, to) = (self.from(), self.to());
        let outside = || GroundError::OutsideGround { found: chainage, from, to };
        if !(x >= from.si() && x <= to.si()) {
            return Err(outside());
        }
        let index = self.points.partition_point(|p| p.x <= x).clamp(1, self.points.len() - 1);
        match self.points.get(index - 1..=index) {
            Some([a, b]) => Ok([*a, *b]),
            _ => Err(outside()),
        }
    }

    /// The stretches between points.
    pub(crate) fn stretches(&self) -> impl Iterator<Item = [DVec2; 2]> {
        self.points.windows(2).filter_map(|w| if let [a, b] = w { Some([*a, *b]) } else { None })
    }

    /// Distance from a point of the section to the ground line, and whether the point lies on or
    /// below it; the ground goes on level beyond its ends.
    pub(crate) fn distance(&self, point: DVec2) -> (f64, bool) {
        let far = 2.0 * FARTHEST;
        let ends = [
            self.points.first().map(|p| [DVec2::new(-far, p.y), *p]),
            self.points.last().map(|p| [*p, DVec2::new(far, p.y)]),
        ];
        let nearest = self
            .stretches()
            .chain(ends.into_iter().flatten())
            .map(|[a, b]| {
                let along = b - a;
                let share = ((point - a).dot(along) / along.length_squared()).clamp(0.0, 1.0);
                point.distance(a + share * along)
            })
            .fold(f64::INFINITY, f64::min);
        let below = point.y <= self.level_extended(Length::from_si(point.x)).si();
        (nearest, below)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn metres(points: &[(f64, f64)]) -> Vec<(Length, Length)> {
        points.iter().map(|(x, z)| (Length::from_si(*x), Length::from_si(*z))).collect()
    }

    fn creek() -> GroundLine {
        GroundLine::new(&metres(&[(-10.0, 2.0), (40.0, 2.0), (50.0, -3.0), (60.0, 3.0)])).unwrap()
    }

    #[test]
    fn levels_are_linear_between_points_and_refused_outside() {
        let level = |x: f64| creek().level_at(Length::from_si(x));
        approx::assert_relative_eq!(level(45.0).unwrap().si(), -0.5);
        assert_eq!(level(50.0).unwrap().si(), -3.0);
        assert_eq!(level(60.0).unwrap().si(), 3.0);
        assert_eq!(level(-10.0).unwrap().si(), 2.0);
        assert_eq!(level(60.1).unwrap_err().code(), "outside_ground");
        assert_eq!(level(f64::NAN).unwrap_err().code(), "outside_ground");
        assert_eq!(creek().level_extended(Length::from_si(99.0)).si(), 3.0);
        assert_eq!(creek().level_extended(Length::from_si(-99.0)).si(), 2.0);
    }

    #[test]
    fn slope_at_a_point_is_that_of_the_stretch_that_begins() {
        let slope = |x: f64| creek().slope_at(Length::from_si(x)).unwrap().si().tan();
        approx::assert_relative_eq!(slope(40.0), -0.5);
        approx::assert_relative_eq!(slope(50.0), 0.6);
        approx::assert_relative_eq!(slope(60.0), 0.6);
    }

    #[test]
    fn all_faults_of_a_ground_line_come_at_once() {
        let faults =
            GroundLine::new(&metres(&[(0.0, f64::NAN), (5.0, 1.0), (5.0, 1.0)])).unwrap_err();
        let codes: Vec<_> = faults.iter().map(GroundError::code).collect();
        assert_eq!(codes, ["not_finite", "not_rising"]);
        assert_eq!(GroundLine::new(&[]).unwrap_err()[0].code(), "too_few");
    }

    #[test]
    fn distance_is_perpendicular_and_knows_the_side() {
        let slope = GroundLine::new(&metres(&[(0.0, 0.0), (100.0, 100.0)])).unwrap();
        let (distance, below) = slope.distance(DVec2::new(60.0, 40.0));
        approx::assert_relative_eq!(distance, 200f64.sqrt(), max_relative = 1e-12);
        assert!(below);
        assert!(!slope.distance(DVec2::new(40.0, 60.0)).1);
        approx::assert_relative_eq!(slope.distance(DVec2::new(150.0, 97.0)).0, 3.0);
    }
}

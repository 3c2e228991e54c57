use quantity::Length;

use crate::GroundLine;

/// Stretches of the ground line that lie below a water level, as chainages from and to, in order.
///
/// The shores are found exactly on the straights between points; a point that only touches the
/// level is no stretch.
#[must_use]
pub fn submerged(ground: &GroundLine, water_level: Length) -> Vec<(Length, Length)> {
    let level = water_level.si();
    let mut stretches: Vec<(f64, f64)> = Vec::new();
    for [a, b] in ground.stretches() {
        if a.y >= level && b.y >= level {
            continue;
        }
        let shore = || a.x + (level - a.y) / (b.y - a.y) * (b.x - a.x);
        let from = if a.y > level { shore() } else { a.x };
        let to = if b.y > level { shore() } else { b.x };
        match stretches.last_mut() {
            Some(last) if last.1 >= from => last.1 = to,
            _ => stretches.push((from, to)),
        }
    }
    stretches.into_iter().map(|(a, b)| (Length::from_si(a), Length::from_si(b))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stretches(points: &[(f64, f64)], level: f64) -> Vec<(f64, f64)> {
        let points: Vec<_> =
            points.iter().map(|(x, z)| (Length::from_si(*x), Length::from_si(*z))).collect();
        let ground = GroundLine::new(&points).unwrap();
        submerged(&ground, Length::from_si(level))
            .into_iter()
            .map(|(a, b)| (a.si(), b.si()))
            .collect()
    }

    #[test]
    fn shores_lie_where_the_ground_crosses_the_level() {
        let creek = [(0.0, 2.0), (40.0, 2.0), (50.0, -3.0), (55.0, -3.0), (60.0, 2.0), (90.0, 1.0)];
        assert_eq!(stretches(&creek, 0.0), [(44.0, 58.0)]);
        assert_eq!(stretches(&creek, 1.5), [(41.0, 59.5), (75.0, 90.0)]);
        assert_eq!(stretches(&creek, 5.0), [(0.0, 90.0)]);
        assert_eq!(stretches(&creek, -3.0), []);
    }

    #[test]
    fn an_island_parts_the_water() {
        let island = [(0.0, -1.0), (10.0, -1.0), (20.0, 1.0), (30.0, -1.0), (40.0, -1.0)];
        assert_eq!(stretches(&island, 0.0), [(0.0, 15.0), (25.0, 40.0)]);
        let awash = [(0.0, -1.0), (10.0, 0.0), (20.0, -1.0)];
        assert_eq!(stretches(&awash, 0.0), [(0.0, 20.0)]);
    }
}

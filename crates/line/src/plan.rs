//! Places beside the line, in plan.

use quantity::Length;

use crate::{Line, Station};

/// Places looked at before the nearest one is refined; a bend between two of them turns by far less than a right angle.
const PLACES: u32 = 2_000;
/// How near the nearest place is found, m of measured distance.
const NEAR: f64 = 1e-6;

impl Line {
    /// Chainage and offset of a point in plan, given by its distances east and north of the entry point; the offset is
    /// positive to the right looking from entry to exit.
    ///
    /// Beside the ends the line goes on straight: chainages before the entry are negative. Where several places of the line
    /// are nearest the one first found counts.
    #[must_use]
    pub fn beside(&self, east: Length, north: Length) -> (Length, Length) {
        let (x, y) = (east.si(), north.si());
        let end = self.length().si();
        let distance = |md: f64| {
            let p = self.sample(md).position;
            (p.x - x).hypot(p.y - y)
        };
        let step = end / f64::from(PLACES);
        let nearest = (0..=PLACES)
            .map(|k| step * f64::from(k))
            .min_by(|a, b| distance(*a).total_cmp(&distance(*b)))
            .unwrap_or(0.0);
        let (mut low, mut high) = ((nearest - step).max(0.0), (nearest + step).min(end));
        while high - low > NEAR {
            let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
            if distance(a) <= distance(b) {
                high = b;
            } else {
                low = a;
            }
        }
        from_station(&self.sample(0.5 * (low + high)), x, y)
    }
}

/// Chainage and offset of a point seen from a station, whose direction goes on straight.
fn from_station(station: &Station, x: f64, y: f64) -> (Length, Length) {
    let (sin, cos) = station.azimuth.si().sin_cos();
    let (dx, dy) = (x - station.position.x, y - station.position.y);
    let along = dx * sin + dy * cos;
    let right = dx * cos - dy * sin;
    (Length::from_si(station.chainage.si() + along), Length::from_si(right))
}

#[cfg(test)]
mod tests {
    use quantity::Angle;

    use super::*;
    use crate::{Element, Start};

    fn line(turn: f64) -> Line {
        let start = Start {
            level: Length::ZERO,
            inclination: Angle::degrees(-5.0),
            azimuth: Angle::degrees(64.0),
        };
        let bend = Element::Arc {
            radius: Length::from_si(200.0),
            turn: Angle::degrees(turn),
            toolface: Angle::degrees(90.0),
        };
        let straight = Element::Straight { length: Length::from_si(100.0) };
        Line::from_elements(start, &[straight, bend, straight]).unwrap()
    }

    #[test]
    fn a_point_made_from_chainage_and_offset_is_found_again() {
        let line = line(20.0);
        for (md, right) in [(10.0, 7.0), (120.0, -9.0), (140.0, 12.0), (240.0, 0.0)] {
            let station = line.sample(md);
            let (sin, cos) = station.azimuth.si().sin_cos();
            let (x, y) = (station.position.x + right * cos, station.position.y - right * sin);
            let (chainage, offset) = line.beside(Length::from_si(x), Length::from_si(y));
            assert!((chainage.si() - station.chainage.si()).abs() < 1e-4, "{chainage:?}");
            assert!((offset.si() - right).abs() < 1e-4, "{offset:?}");
        }
    }

    #[test]
    fn beside_the_ends_the_line_goes_on_straight() {
        let line = line(10.0);
        let (sin, cos) = 64f64.to_radians().sin_cos();
        let at = |along: f64, right: f64| {
            line.beside(
                Length::from_si(along * sin + right * cos),
                Length::from_si(along * cos - right * sin),
            )
        };
        let (chainage, offset) = at(-12.0, 5.0);
        assert!((chainage.si() + 12.0).abs() < 1e-6 && (offset.si() - 5.0).abs() < 1e-6);
        let end = line.sample(line.length().si());
        let beyond = end.position + 8.0 * end.tangent.with_z(0.0).normalize();
        let (chainage, offset) = line.beside(Length::from_si(beyond.x), Length::from_si(beyond.y));
        assert!((chainage.si() - line.run().si() - 8.0).abs() < 1e-6 && offset.si().abs() < 1e-6);
    }
}

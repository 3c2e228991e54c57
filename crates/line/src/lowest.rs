use quantity::Length;

use crate::{Line, Station};

/// How near the lowest place of an arc is found, as a measured distance in metres; the level there is then right to the
/// square of this over twice the radius.
const TOLERANCE: f64 = 1e-6;

impl Line {
    /// The lowest place of the axis; the one nearest to the entry point where several are equally low.
    ///
    /// Looked for at the ends of every segment and, where a segment falls at its start and rises at its end, where it is
    /// level in between.
    #[must_use]
    pub fn lowest(&self) -> Station {
        let mut best = self.sample(0.0);
        for segment in self.segments() {
            let (from, to) = (segment.md_start().si(), segment.md_end().si());
            let slope = |md: f64| self.sample(md).tangent.z;
            // Just inside the segment, where a corner of the line belongs to it.
            let inside = 1e-9 * (to - from);
            let falls_then_rises = slope(from + inside) < 0.0 && slope(to - inside) > 0.0;
            let level = falls_then_rises
                .then(|| numerics::root(slope, from + inside, to - inside, TOLERANCE).ok())
                .flatten();
            for md in level.into_iter().chain([to]) {
                let station = self.sample(md);
                if station.level < best.level {
                    best = station;
                }
            }
        }
        best
    }

    /// Chainages between which the axis lies within a height of its lowest place.
    #[must_use]
    pub fn lowest_stretch(&self, within: Length) -> (Length, Length) {
        let lowest = self.lowest();
        let near = |md: f64| (self.sample(md).level - lowest.level).si() <= within.si();
        // From the lowest place outwards, in half metres, then halving the last step.
        let edge = |end: f64| {
            let (mut inner, step) = (lowest.md.si(), 0.5f64.copysign(end - lowest.md.si()));
            loop {
                let next = inner + step;
                let beyond = (end - next) * step < 0.0;
                if beyond || !near(next) {
                    let mut outer = if beyond { end } else { next };
                    if near(outer) {
                        return outer;
                    }
                    for _ in 0..40 {
                        let middle = 0.5 * (inner + outer);
                        if near(middle) {
                            inner = middle;
                        } else {
                            outer = middle;
                        }
                    }
                    return inner;
                }
                inner = next;
            }
        };
        let (from, to) = (edge(0.0), edge(self.length().si()));
        (self.sample(from).chainage, self.sample(to).chainage)
    }
}

#[cfg(test)]
mod tests {
    use quantity::{Angle, Length};

    use crate::{Element, Line, Start};

    #[test]
    fn the_lowest_place_of_a_sag_arc_lies_inside_it() {
        let start = Start {
            level: Length::metres(4.0),
            inclination: Angle::degrees(-12.0),
            azimuth: Angle::degrees(30.0),
        };
        let elements = [
            Element::Straight { length: Length::metres(20.0) },
            Element::Arc {
                radius: Length::metres(250.0),
                turn: Angle::degrees(20.0),
                toolface: Angle::ZERO,
            },
            Element::Straight { length: Length::metres(60.0) },
        ];
        let line = Line::from_elements(start, &elements).unwrap();
        let lowest = line.lowest();
        let a = 12f64.to_radians();
        let exact = 4.0 - 20.0 * a.sin() - 250.0 * (1.0 - a.cos());
        approx::assert_abs_diff_eq!(lowest.level.si(), exact, epsilon = 1e-9);
        approx::assert_abs_diff_eq!(lowest.md.si(), 20.0 + 250.0 * a, epsilon = 1e-5);
        let (from, to) = line.lowest_stretch(Length::metres(0.001));
        let half = (2.0 * 250.0 * 0.001f64).sqrt();
        approx::assert_abs_diff_eq!((to - from).si(), 2.0 * half, epsilon = 1e-3);
    }

    #[test]
    fn a_falling_line_is_lowest_at_its_end_and_a_rising_one_at_its_start() {
        for (inclination, md) in [(-5.0, 50.0), (5.0, 0.0)] {
            let start = Start {
                level: Length::ZERO,
                inclination: Angle::degrees(inclination),
                azimuth: Angle::ZERO,
            };
            let elements = [Element::Straight { length: Length::metres(50.0) }];
            let line = Line::from_elements(start, &elements).unwrap();
            assert_eq!(line.lowest().md.si(), md);
        }
    }
}

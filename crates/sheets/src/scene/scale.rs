//! Scales and scale bars.

use quantity::System;
use quantity::unit::M;

use super::{Anchor, Layer, Mark, Pattern, Point, Rectangle};

/// Denominators of the scales in use.
pub const STANDARD: [f64; 17] = [
    5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 250.0, 500.0, 1000.0, 1250.0, 2000.0, 2500.0,
    5000.0, 10_000.0, 20_000.0, 50_000.0,
];

/// The largest scale in use at which a thing still fits that needs 1:`needed`; beyond the list its powers of ten.
#[must_use]
pub fn standard_scale(needed: f64) -> f64 {
    // A thing that fits exactly must not be thrown to the next scale by rounding.
    let needed = needed * (1.0 - 1e-9);
    if let Some(found) = STANDARD.into_iter().find(|&s| s >= needed) {
        return found;
    }
    let mut last = 100_000.0;
    while last < needed && last < 1e12 {
        last *= 10.0;
    }
    last
}

/// `1:500`.
#[must_use]
pub fn ratio(scale: f64) -> String {
    format!("1:{}", quantity::significant(scale, 7))
}

/// Words on the scales of a view: `1:500`, or `1:500 across, 1:100 up`.
#[must_use]
pub fn scale_words(across: f64, up: f64) -> String {
    if (across - up).abs() < 1e-9 * across {
        ratio(across)
    } else {
        format!("{} across, {} up", ratio(across), ratio(up))
    }
}

/// Height of the bar, mm.
const BAR: f64 = 1.6;
/// Height of its figures, mm.
const FIGURES: f64 = 1.8;
/// Fields of the bar.
const FIELDS: u32 = 4;

/// A scale bar with its lower left corner at a point of the paper, not longer than `most` mm without its last figure,
/// in the unit of the reader; and the room it takes.
#[must_use]
pub fn scale_bar(at: Point, scale: f64, most: f64, system: System) -> (Vec<Mark>, Rectangle) {
    let unit = M.in_system(system);
    let step = step_of(most / f64::from(FIELDS) * scale / 1000.0 / unit.to_si(1.0));
    let field = step * unit.to_si(1.0) * 1000.0 / scale;
    let mut marks = Vec::new();
    for index in 0..FIELDS {
        let cell = Rectangle::new(at.x + f64::from(index) * field, at.y, field, BAR);
        if index % 2 == 0 {
            marks.push(Mark::area(Layer::Frame, cell.corners(), Pattern::Solid));
        }
        marks.push(Mark::rectangle(Layer::Frame, cell));
    }
    for index in 0..=FIELDS {
        let value = quantity::significant(step * f64::from(index), 4);
        let words = if index == FIELDS { format!("{value} {}", unit.symbol()) } else { value };
        let place = Point::new(at.x + f64::from(index) * field, at.y + BAR + 1.0);
        marks.push(Mark::text(Layer::Text, place, words, FIGURES, Anchor::Centre));
    }
    let room = Rectangle::new(at.x, at.y, field * f64::from(FIELDS), BAR + 1.0 + FIGURES);
    (marks, room)
}

/// The largest of 1, 2 and 5 times a power of ten up to a length.
fn step_of(most: f64) -> f64 {
    let power = 10_f64.powf(most.max(1e-6).log10().floor());
    let of = [5.0, 2.0].into_iter().find(|f| f * power <= most * (1.0 + 1e-9)).unwrap_or(1.0);
    of * power
}

#[cfg(test)]
mod tests {
    use quantity::unit::FT;

    use super::*;
    use crate::scene::Shape;

    #[test]
    fn the_next_scale_in_use_is_taken() {
        for (needed, found) in [
            (0.3, 5.0),
            (5.0, 5.0),
            (5.000_001, 10.0),
            (180.0, 200.0),
            (201.0, 250.0),
            (1001.0, 1250.0),
            (50_001.0, 100_000.0),
            (123_456.0, 1_000_000.0),
        ] {
            assert!((standard_scale(needed) - found).abs() < 1e-9, "{needed}");
        }
        assert_eq!(scale_words(500.0, 500.0), "1:500");
        assert_eq!(scale_words(1250.0, 250.0), "1:1250 across, 1:250 up");
    }

    #[test]
    fn a_bar_has_the_length_it_says() {
        for (system, unit) in [(System::Metric, M), (System::Customary, FT)] {
            let (marks, room) = scale_bar(Point::new(10.0, 10.0), 500.0, 60.0, system);
            assert!(room.width <= 60.0 && room.width > 20.0, "{room:?}");
            let last = marks.iter().rev().find_map(|m| match &m.shape {
                Shape::Text(text) => Some(text.words.clone()),
                _ => None,
            });
            let (value, symbol) = last.as_deref().unwrap().split_once(' ').unwrap();
            assert_eq!(symbol, unit.symbol());
            let metres = unit.to_si(value.parse().unwrap());
            assert!((metres * 1000.0 / 500.0 - room.width).abs() < 1e-9);
        }
    }
}

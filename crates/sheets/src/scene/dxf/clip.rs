//! What of a mark lies inside a rectangle of the paper, for views that are drawn flat.

use std::f64::consts::TAU;

use crate::scene::flat::bend;
use crate::scene::{Mark, Point, Rectangle, Shape};

/// The parts of a flattened mark inside a frame.
pub(super) fn clipped(mark: Mark, frame: Rectangle) -> Vec<Mark> {
    let layer = mark.layer;
    match mark.shape {
        Shape::Path { mut points, closed } => {
            if closed && points.iter().all(|&p| inside(p, frame)) {
                return vec![Mark::outline(layer, points)];
            }
            if closed {
                points.extend(points.first().copied());
            }
            pieces(&points, frame).into_iter().map(|p| Mark::path(layer, p)).collect()
        }
        Shape::Circle { centre, radius } => {
            if frame.inset(radius).width > 0.0 && inside(centre, frame.inset(radius)) {
                return vec![Mark::circle(layer, centre, radius)];
            }
            let points = bend(centre, radius, 0.0, TAU);
            pieces(&points, frame).into_iter().map(|p| Mark::path(layer, p)).collect()
        }
        Shape::Arc { centre, radius, from, to } => {
            let points = bend(centre, radius, from, to);
            if points.iter().all(|&p| inside(p, frame)) {
                return vec![Mark::arc(layer, centre, radius, from, to)];
            }
            pieces(&points, frame).into_iter().map(|p| Mark::path(layer, p)).collect()
        }
        Shape::Area { rings, pattern } => {
            let rings: Vec<Vec<Point>> =
                rings.into_iter().map(|r| cut_ring(r, frame)).filter(|r| r.len() > 2).collect();
            if rings.is_empty() {
                return Vec::new();
            }
            vec![Mark::area_with_holes(layer, rings, pattern)]
        }
        Shape::Text(text) => {
            if inside(text.at, frame) {
                vec![Mark { layer, shape: Shape::Text(text) }]
            } else {
                Vec::new()
            }
        }
        // Taken apart before.
        Shape::Dimension(_) | Shape::Symbol { .. } => Vec::new(),
    }
}

fn inside(p: Point, frame: Rectangle) -> bool {
    (frame.left()..=frame.right()).contains(&p.x) && (frame.bottom()..=frame.top()).contains(&p.y)
}

/// Runs of a line inside the frame (the parametric cut of Liang and Barsky, piece by piece).
fn pieces(points: &[Point], frame: Rectangle) -> Vec<Vec<Point>> {
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for pair in points.windows(2) {
        let &[a, b] = pair else { continue };
        let Some((from, to)) = cut(a, b, frame) else { continue };
        let (start, end) = (between(a, b, from), between(a, b, to));
        match runs.last_mut() {
            Some(run) if from == 0.0 && run.last() == Some(&start) => run.push(end),
            _ => runs.push(vec![start, end]),
        }
    }
    runs
}

fn between(a: Point, b: Point, t: f64) -> Point {
    if t >= 1.0 { b } else { Point::new(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t) }
}

fn cut(a: Point, b: Point, frame: Rectangle) -> Option<(f64, f64)> {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let edges = [
        (-dx, a.x - frame.left()),
        (dx, frame.right() - a.x),
        (-dy, a.y - frame.bottom()),
        (dy, frame.top() - a.y),
    ];
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (slope, room) in edges {
        if slope == 0.0 {
            if room < 0.0 {
                return None;
            }
        } else if slope < 0.0 {
            from = from.max(room / slope);
        } else {
            to = to.min(room / slope);
        }
    }
    (from < to).then_some((from, to))
}

/// A ring cut along each edge of the frame in turn (Sutherland and Hodgman).
fn cut_ring(ring: Vec<Point>, frame: Rectangle) -> Vec<Point> {
    let edges: [&dyn Fn(Point) -> f64; 4] =
        [&|p| p.x - frame.left(), &|p| frame.right() - p.x, &|p| p.y - frame.bottom(), &|p| {
            frame.top() - p.y
        }];
    let mut ring = ring;
    for room in edges {
        let mut kept = Vec::with_capacity(ring.len() + 4);
        let Some(mut last) = ring.last().copied() else { return ring };
        for &p in &ring {
            let (before, now) = (room(last), room(p));
            if (before >= 0.0) != (now >= 0.0) {
                kept.push(between(last, p, before / (before - now)));
            }
            if now >= 0.0 {
                kept.push(p);
            }
            last = p;
        }
        ring = kept;
    }
    ring
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Layer, Pattern};

    const FRAME: Rectangle = Rectangle::new(0.0, 0.0, 10.0, 10.0);

    #[test]
    fn a_line_that_leaves_and_returns_is_two() {
        let points = [(-5.0, 5.0), (5.0, 5.0), (5.0, 15.0), (8.0, 15.0), (8.0, 5.0)];
        let path = Mark::path(Layer::Axis, points.map(|(x, y)| Point::new(x, y)).to_vec());
        let parts = clipped(path, FRAME);
        let point = Point::new;
        assert_eq!(
            parts,
            [
                Mark::path(Layer::Axis, vec![point(0.0, 5.0), point(5.0, 5.0), point(5.0, 10.0)]),
                Mark::path(Layer::Axis, vec![point(8.0, 10.0), point(8.0, 5.0)]),
            ]
        );
    }

    #[test]
    fn an_area_keeps_what_lies_inside() {
        let area = Mark::area(
            Layer::Strata,
            Rectangle::new(5.0, -5.0, 20.0, 10.0).corners(),
            Pattern::Sand,
        );
        let parts = clipped(area, FRAME);
        let [Mark { shape: Shape::Area { rings, .. }, .. }] = parts.as_slice() else {
            panic!("no area: {parts:?}")
        };
        let ring = &rings[0];
        let doubled: f64 = (0..ring.len())
            .map(|i| (ring[i], ring[(i + 1) % ring.len()]))
            .map(|(a, b)| a.x * b.y - b.x * a.y)
            .sum();
        assert!((doubled / 2.0 - 25.0).abs() < 1e-9, "{ring:?}");
        let gone =
            Mark::area(Layer::Strata, Rectangle::new(20.0, 0.0, 5.0, 5.0).corners(), Pattern::Sand);
        assert!(clipped(gone, FRAME).is_empty());
    }

    #[test]
    fn words_outside_are_not_drawn_on_the_paper() {
        let words = |x| {
            Mark::text(Layer::Text, Point::new(x, 5.0), "words", 2.0, crate::scene::Anchor::Left)
        };
        assert_eq!(clipped(words(5.0), FRAME).len(), 1);
        assert!(clipped(words(-5.0), FRAME).is_empty());
    }
}

//! From marks to plain lines, areas and words in the units of the place where they are drawn.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use super::text::width_mm;
use super::{
    Anchor, Dimension, DimensionKind, Layer, Mark, Pattern, Point, Shape, SymbolKind, Text, View,
};

/// How marks get to where they are drawn.
#[derive(Debug, Clone, Copy)]
pub(super) enum Onto<'a> {
    /// They are on paper already.
    Paper,
    /// From a view onto the paper.
    View(&'a View),
    /// From a view into the model: coordinates stay, sizes of paper become metres.
    Model(&'a View),
}

impl Onto<'_> {
    /// Length where it is drawn of one mm of paper.
    ///
    /// A view that is higher than wide in scale has the smaller of its scales, so that lines of words keep their distance.
    pub(super) fn unit(&self) -> f64 {
        match self {
            Onto::Paper | Onto::View(_) => 1.0,
            Onto::Model(view) => view.scale_across.min(view.scale_up) / 1000.0,
        }
    }

    fn point(&self, point: Point) -> Point {
        match self {
            Onto::Paper | Onto::Model(_) => point,
            Onto::View(view) => view.on_paper(point),
        }
    }

    /// Direction where it is drawn of what runs level on paper.
    pub(super) fn level(&self) -> f64 {
        match self {
            Onto::Paper | Onto::View(_) => 0.0,
            Onto::Model(view) => -view.turn,
        }
    }

    /// Factor of lengths and turn of directions, where circles stay circles.
    fn similar(&self) -> Option<(f64, f64)> {
        match self {
            Onto::Paper | Onto::Model(_) => Some((1.0, 0.0)),
            Onto::View(view) => view.even().then_some((1000.0 / view.scale_across, view.turn)),
        }
    }
}

impl View {
    /// Whether both scales are the same.
    #[must_use]
    pub fn even(&self) -> bool {
        (self.scale_across - self.scale_up).abs() <= 1e-9 * self.scale_across.abs()
    }
}

/// The same mark as lines, arcs, circles, areas and words; text heights in the units of the place.
pub(super) fn flatten(mark: &Mark, onto: Onto<'_>) -> Vec<Mark> {
    let layer = mark.layer;
    match &mark.shape {
        Shape::Path { points, closed } => {
            let points = points.iter().map(|&p| onto.point(p)).collect();
            vec![Mark { layer, shape: Shape::Path { points, closed: *closed } }]
        }
        Shape::Area { rings, pattern } => {
            let rings =
                rings.iter().map(|ring| ring.iter().map(|&p| onto.point(p)).collect()).collect();
            vec![Mark::area_with_holes(layer, rings, *pattern)]
        }
        Shape::Circle { centre, radius } => match onto.similar() {
            Some((factor, _)) => vec![Mark::circle(layer, onto.point(*centre), radius * factor)],
            None => {
                let mut points = bend(*centre, *radius, 0.0, TAU);
                points.pop();
                let points = points.into_iter().map(|p| onto.point(p)).collect();
                vec![Mark::outline(layer, points)]
            }
        },
        Shape::Arc { centre, radius, from, to } => match onto.similar() {
            Some((factor, turn)) => {
                vec![Mark::arc(layer, onto.point(*centre), radius * factor, from + turn, to + turn)]
            }
            None => {
                let points = bend(*centre, *radius, *from, *to);
                vec![Mark::path(layer, points.into_iter().map(|p| onto.point(p)).collect())]
            }
        },
        Shape::Text(text) => {
            let text = Text {
                at: onto.point(text.at),
                words: text.words.clone(),
                height: text.height * onto.unit(),
                turn: text.turn + onto.level(),
                ..*text
            };
            vec![Mark { layer, shape: Shape::Text(text) }]
        }
        Shape::Dimension(dimension) => dimensioned(dimension, onto).marks(layer),
        Shape::Symbol { at, kind, size, turn } => {
            symbol(layer, onto.point(*at), *kind, size * onto.unit(), turn + onto.level())
        }
    }
}

/// Points on a part of a circle, anticlockwise.
pub(super) fn bend(centre: Point, radius: f64, from: f64, to: f64) -> Vec<Point> {
    let sweep = swept(from, to);
    // A degree a piece, and enough for a flat arc of large radius that is drawn higher than wide.
    let pieces = (sweep / TAU * 360.0).ceil().clamp(32.0, 360.0);
    let mut points = Vec::new();
    let mut index = 0.0;
    while index <= pieces {
        let (sin, cos) = (from + sweep * index / pieces).sin_cos();
        points.push(Point::new(centre.x + radius * cos, centre.y + radius * sin));
        index += 1.0;
    }
    points
}

/// Angle from one direction anticlockwise to another, over 0 and up to a full turn.
pub(super) fn swept(from: f64, to: f64) -> f64 {
    let sweep = (to - from).rem_euclid(TAU);
    if sweep <= 1e-12 { TAU } else { sweep }
}

/// A dimension taken apart.
pub(super) struct Dimensioned {
    /// Extension lines and dimension line.
    pub(super) lines: Vec<(Point, Point)>,
    /// Arrow heads.
    pub(super) heads: Vec<Vec<Point>>,
    /// The words.
    pub(super) text: Text,
    /// Where the measured points lie.
    pub(super) measured: (Point, Point),
    /// End of the dimension line on the side of the second point.
    pub(super) end: Point,
    /// Direction of the dimension line, rad.
    pub(super) direction: f64,
}

impl Dimensioned {
    fn marks(self, layer: Layer) -> Vec<Mark> {
        let lines = self.lines.into_iter().map(|(a, b)| Mark::line(layer, a, b));
        let heads = self.heads.into_iter().map(|ring| Mark::area(layer, ring, Pattern::Solid));
        let text = Mark { layer, shape: Shape::Text(self.text) };
        lines.chain(heads).chain([text]).collect()
    }
}

/// Length of an arrow head and half its width, gap and overshoot of extension lines, distance of the words, mm.
const HEAD: (f64, f64) = (2.0, 0.33);
const GAP: f64 = 0.8;
const OVERSHOOT: f64 = 1.2;
const WORDS: f64 = 0.8;

fn along(p: Point, direction: f64, by: f64) -> Point {
    Point::new(p.x + direction.cos() * by, p.y + direction.sin() * by)
}

pub(super) fn dimensioned(dimension: &Dimension, onto: Onto<'_>) -> Dimensioned {
    let unit = onto.unit();
    let (from, to) = (onto.point(dimension.from), onto.point(dimension.to));
    let level = onto.level();
    let direction = match dimension.kind {
        DimensionKind::Across => level,
        DimensionKind::Up => level + FRAC_PI_2,
        DimensionKind::Aligned => (to.y - from.y).atan2(to.x - from.x),
    };
    // Offsets count upwards, to the right, or to the left of the direction.
    let side = match dimension.kind {
        DimensionKind::Across | DimensionKind::Aligned => direction + FRAC_PI_2,
        DimensionKind::Up => level,
    };
    let (sin, cos) = side.sin_cos();
    let apart = (to.x - from.x) * cos + (to.y - from.y) * sin;
    let offset = dimension.offset * unit;
    let start = along(from, side, offset);
    let end = along(to, side, offset - apart);
    let mut lines = Vec::new();
    for (point, reach) in [(from, offset), (to, offset - apart)] {
        let sign = if reach < 0.0 { -1.0 } else { 1.0 };
        if reach.abs() > GAP * unit {
            let begin = along(point, side, sign * GAP * unit);
            lines.push((begin, along(point, side, reach + sign * OVERSHOOT * unit)));
        }
    }
    let span = (end.x - start.x) * direction.cos() + (end.y - start.y) * direction.sin();
    let forward = if span < 0.0 { direction + PI } else { direction };
    let length = span.abs();
    let wide = width_mm(&dimension.words, dimension.height * unit, false);
    let inside = length >= (2.0 * HEAD.0 + 1.0) * unit;
    let head = |tip: Point, towards: f64| {
        let back = along(tip, towards, -HEAD.0 * unit);
        vec![
            tip,
            along(back, towards + FRAC_PI_2, HEAD.1 * unit),
            along(back, towards - FRAC_PI_2, HEAD.1 * unit),
        ]
    };
    let tail = 2.0 * HEAD.0 * unit;
    let beside = wide > length - 0.4 * unit;
    let heads = if inside {
        lines.push((start, end));
        vec![head(start, forward + PI), head(end, forward)]
    } else {
        let out = if beside { tail + wide } else { tail };
        lines.push((along(start, forward, -tail), along(end, forward, out)));
        vec![head(start, forward), head(end, forward + PI)]
    };
    let middle = if inside || !beside {
        Point::new(f64::midpoint(start.x, end.x), f64::midpoint(start.y, end.y))
    } else {
        along(end, forward, tail + wide / 2.0)
    };
    let turn = upright(direction - level) + level;
    let text = Text {
        at: along(middle, turn + FRAC_PI_2, WORDS * unit),
        words: dimension.words.clone(),
        height: dimension.height * unit,
        anchor: Anchor::Centre,
        turn,
        bold: false,
        on_patch: false,
    };
    Dimensioned { lines, heads, text, measured: (from, to), end, direction }
}

/// The direction in which words along a line are read from below or from the right.
fn upright(direction: f64) -> f64 {
    let turned = direction.rem_euclid(PI);
    if turned > FRAC_PI_2 + 1e-9 { turned - PI } else { turned }
}

/// A sign as lines and areas; `size` and place in the same unit.
fn symbol(layer: Layer, at: Point, kind: SymbolKind, size: f64, turn: f64) -> Vec<Mark> {
    let half = size / 2.0;
    let (sin, cos) = turn.sin_cos();
    let p = |x: f64, y: f64| {
        let (x, y) = (x * half, y * half);
        Point::new(at.x + x * cos - y * sin, at.y + x * sin + y * cos)
    };
    let filled = |points: Vec<Point>| Mark::area(layer, points, Pattern::Solid);
    match kind {
        SymbolKind::Tangent => vec![Mark::line(layer, p(0.0, -1.0), p(0.0, 1.0))],
        SymbolKind::End => {
            let ring = bend(at, half, 0.0, TAU);
            let core = bend(at, half * 0.4, 0.0, TAU);
            vec![
                Mark::area(layer, ring, Pattern::Blank),
                Mark::circle(layer, at, half),
                filled(core),
            ]
        }
        SymbolKind::Boring => {
            let quarter = |from: f64| {
                let mut points = bend(at, half, turn + from, turn + from + FRAC_PI_2);
                points.push(at);
                points
            };
            vec![
                Mark::area(layer, bend(at, half, 0.0, TAU), Pattern::Blank),
                Mark::circle(layer, at, half),
                filled(quarter(0.0)),
                filled(quarter(PI)),
            ]
        }
        SymbolKind::WaterLevel => vec![
            Mark::outline(layer, vec![at, p(-1.0, 1.7), p(1.0, 1.7)]),
            Mark::line(layer, p(-0.7, -0.45), p(0.7, -0.45)),
            Mark::line(layer, p(-0.35, -0.9), p(0.35, -0.9)),
        ],
        SymbolKind::Arrow => vec![filled(vec![at, p(-2.0, 0.45), p(-2.0, -0.45)])],
        SymbolKind::North => vec![
            filled(vec![p(0.0, 1.0), p(0.0, -0.6), p(-0.45, -1.0)]),
            Mark::outline(layer, vec![p(0.0, 1.0), p(0.45, -1.0), p(0.0, -0.6), p(-0.45, -1.0)]),
            Mark::text(layer, p(0.0, 1.2), "N", size * 0.3, Anchor::Centre).bold().turned(turn),
        ],
        SymbolKind::Joint => vec![
            Mark::area(
                layer,
                vec![p(-0.35, -1.0), p(0.35, -1.0), p(0.35, 1.0), p(-0.35, 1.0)],
                Pattern::Blank,
            ),
            Mark::outline(layer, vec![p(-0.35, -1.0), p(0.35, -1.0), p(0.35, 1.0), p(-0.35, 1.0)]),
        ],
        SymbolKind::NotMet => vec![
            Mark::area(
                layer,
                vec![p(0.0, 1.0), p(1.0, 0.0), p(0.0, -1.0), p(-1.0, 0.0)],
                Pattern::Blank,
            ),
            Mark::outline(layer, vec![p(0.0, 1.0), p(1.0, 0.0), p(0.0, -1.0), p(-1.0, 0.0)]),
            Mark::line(layer, p(0.0, 0.55), p(0.0, -0.15)),
            Mark::line(layer, p(0.0, -0.4), p(0.0, -0.5)),
        ],
    }
}

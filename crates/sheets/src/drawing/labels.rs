//! Places labels so that no two texts touch: near their thing where there is room, else further off with a leader.

use crate::scene::text::{LINE_FEED, clean, width_mm};
use crate::scene::{Anchor, Layer, Mark, Point, Rectangle};

/// Room that is taken on the paper, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Extent {
    pub(super) left: f64,
    pub(super) bottom: f64,
    pub(super) right: f64,
    pub(super) top: f64,
}

impl Extent {
    /// Room of a line of words; `turned` by a quarter anticlockwise.
    pub(super) fn of_words(
        at: Point,
        words: &str,
        height: f64,
        anchor: Anchor,
        bold: bool,
    ) -> Self {
        let width = width_mm(words, height, bold);
        let left = match anchor {
            Anchor::Left | Anchor::MiddleLeft | Anchor::TopLeft => at.x,
            Anchor::Centre | Anchor::Middle | Anchor::TopCentre => at.x - width / 2.0,
            Anchor::Right | Anchor::MiddleRight | Anchor::TopRight => at.x - width,
        };
        let bottom = match anchor {
            Anchor::Left | Anchor::Centre | Anchor::Right => at.y,
            Anchor::MiddleLeft | Anchor::Middle | Anchor::MiddleRight => at.y - height / 2.0,
            Anchor::TopLeft | Anchor::TopCentre | Anchor::TopRight => at.y - height,
        };
        Self { left, bottom, right: left + width, top: bottom + height }
    }

    fn grown(self, by: f64) -> Self {
        Self {
            left: self.left - by,
            bottom: self.bottom - by,
            right: self.right + by,
            top: self.top + by,
        }
    }

    /// Whether two rooms share more than an edge.
    pub(super) fn overlaps(&self, other: &Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.bottom < other.top
            && other.bottom < self.top
    }

    /// Whether it lies in a rectangle.
    pub(super) fn within(&self, r: &Rectangle) -> bool {
        self.left >= r.left()
            && self.right <= r.right()
            && self.bottom >= r.bottom()
            && self.top <= r.top()
    }

    /// Whether a straight line passes through it.
    pub(super) fn is_cut_by(&self, (a, b): (Point, Point)) -> bool {
        // Share of the line inside, cut side by side (Liang-Barsky).
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (p, q) in [
            (-dx, a.x - self.left),
            (dx, self.right - a.x),
            (-dy, a.y - self.bottom),
            (dy, self.top - a.y),
        ] {
            if p == 0.0 {
                if q < 0.0 {
                    return false;
                }
            } else if p < 0.0 {
                from = from.max(q / p);
            } else {
                to = to.min(q / p);
            }
        }
        from < to
    }
}

/// Where a label is looked for first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Prefer {
    Above,
    Below,
    /// On its thing, without a leader.
    On,
}

/// Some lines of words that belong to a place.
#[derive(Debug, Clone)]
pub(super) struct Label {
    /// The place, mm of paper.
    pub(super) at: Point,
    pub(super) lines: Vec<String>,
    pub(super) height: f64,
    /// How many of the lines are a heading.
    pub(super) heading: usize,
    pub(super) prefer: Prefer,
    /// How far off it may stand, mm.
    pub(super) reach: f64,
    /// Whether it is left out rather than put on a line that should stay free.
    pub(super) optional: bool,
}

/// The room of a drawing in which labels are placed.
#[derive(Debug, Clone)]
pub(super) struct Labels {
    bounds: Rectangle,
    taken: Vec<Extent>,
    leaders: Vec<(Point, Point)>,
    /// Lines that words should not cover, where there is another place.
    avoided: Vec<(Point, Point)>,
}

/// Air around words, in heights of a capital letter.
const AIR: f64 = 0.4;
/// Distances from the thing that are tried, mm.
const DISTANCES: [f64; 12] = [1.6, 3.0, 5.0, 8.0, 11.0, 15.0, 20.0, 26.0, 33.0, 42.0, 54.0, 70.0];
/// Up to here a place on the preferred side comes before all others, mm.
const FAVOURED: f64 = 20.0;
/// From here on a leader joins label and thing, mm.
const LEADER_FROM: f64 = 2.5;

impl Labels {
    pub(super) const fn new(bounds: Rectangle) -> Self {
        Self { bounds, taken: Vec::new(), leaders: Vec::new(), avoided: Vec::new() }
    }

    /// Takes room for something drawn.
    pub(super) fn take(&mut self, extent: Extent) {
        self.taken.push(extent);
    }

    /// Whether words in this room would touch nothing.
    pub(super) fn is_free(&self, extent: &Extent) -> bool {
        extent.within(&self.bounds)
            && !self.taken.iter().any(|t| t.overlaps(extent))
            && !self.leaders.iter().any(|l| extent.is_cut_by(*l))
    }

    /// Keeps labels off a line, where there is another place for them.
    pub(super) fn avoid(&mut self, points: &[Point]) {
        self.avoided.extend(
            points.windows(2).filter_map(|w| if let [a, b] = w { Some((*a, *b)) } else { None }),
        );
    }

    /// Marks of a label, in mm of paper; `None` where it finds no room.
    pub(super) fn place(&mut self, label: &Label, layer: Layer) -> Option<Vec<Mark>> {
        let lines: Vec<String> =
            label.lines.iter().map(|l| clean(l)).filter(|l| !l.is_empty()).collect();
        let heading = |i: usize| i < label.heading;
        let wide = |(i, l): (usize, &String)| width_mm(l, label.height, heading(i));
        let width = lines.iter().enumerate().map(wide).fold(0.0, f64::max);
        let count = f64::from(u32::try_from(lines.len()).ok()?);
        let height = label.height * (1.0 + LINE_FEED * (count - 1.0));
        if lines.is_empty() {
            return None;
        }
        let found = [true, label.optional].into_iter().find_map(|free_of_lines| {
            candidates(label, width, height).find(|(extent, distance)| {
                let air = extent.grown(AIR * label.height);
                self.is_free(&air)
                    && (*distance < LEADER_FROM || self.leader_is_free(label.at, extent))
                    && !(free_of_lines && self.avoided.iter().any(|l| air.is_cut_by(*l)))
            })
        });
        let (extent, distance) = found?;
        let mut marks = Vec::new();
        if distance >= LEADER_FROM {
            let end = nearest(&extent.grown(0.3), label.at);
            marks.push(Mark::line(Layer::Dimension, label.at, end));
            self.leaders.push((label.at, end));
        }
        let mut top = extent.top;
        for (i, line) in lines.into_iter().enumerate() {
            let at = Point::new(extent.left, top);
            let mark = Mark::text(layer, at, line, label.height, Anchor::TopLeft).on_patch();
            marks.push(if heading(i) { mark.bold() } else { mark });
            top -= label.height * LINE_FEED;
        }
        self.take(extent.grown(AIR * label.height));
        Some(marks)
    }

    fn leader_is_free(&self, from: Point, extent: &Extent) -> bool {
        let line = (from, nearest(extent, from));
        // A sign on the thing itself does not stand in the way.
        let own = |t: &Extent| {
            t.left <= from.x && from.x <= t.right && t.bottom <= from.y && from.y <= t.top
        };
        !self.taken.iter().any(|t| !own(t) && t.is_cut_by(line))
    }
}

fn nearest(extent: &Extent, from: Point) -> Point {
    Point::new(from.x.max(extent.left).min(extent.right), from.y.max(extent.bottom).min(extent.top))
}

/// Rooms for a label with their distance from its thing, the best first.
fn candidates(label: &Label, width: f64, height: f64) -> impl Iterator<Item = (Extent, f64)> {
    let vertical: &[f64] = match label.prefer {
        Prefer::Above => &[1.0, 0.0, -1.0],
        Prefer::Below => &[-1.0, 0.0, 1.0],
        Prefer::On => &[0.0],
    };
    let sideways: &[f64] = match label.prefer {
        Prefer::On => &[0.0],
        _ => &[0.0, 0.5, -0.5, 1.0, -1.0],
    };
    let on = label.prefer == Prefer::On;
    let (at, reach) = (label.at, label.reach);
    let distances: Vec<f64> = DISTANCES.into_iter().filter(|d| *d <= reach).collect();
    // A little further off on the right side is better than near on the wrong one.
    let near = |up: f64, d: f64| vertical.first() == Some(&up) && d <= FAVOURED;
    let tries = vertical.iter().flat_map(|up| distances.iter().map(move |d| (*up, *d)));
    let (mut first, mut rest): (Vec<_>, Vec<_>) = tries.partition(|(up, d)| near(*up, *d));
    first.sort_by(|a, b| a.1.total_cmp(&b.1));
    rest.sort_by(|a, b| a.1.total_cmp(&b.1));
    first.append(&mut rest);
    let mut list = Vec::new();
    for (up, distance) in first {
        for aside in sideways {
            if !on && up == 0.0 && aside.abs() < 1.0 {
                continue;
            }
            let off = if on { 0.0 } else { distance };
            // Straight up or down a sideways step alone does not leave the thing.
            let x = at.x + aside * (width / 2.0 + if aside.abs() < 1.0 { 0.0 } else { off });
            let y = at.y + up * (height / 2.0 + off);
            let extent = Extent {
                left: x - width / 2.0,
                right: x + width / 2.0,
                bottom: y - height / 2.0,
                top: y + height / 2.0,
            };
            list.push((extent, off));
        }
        if on {
            break;
        }
    }
    list.into_iter()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn label(words: &str, at: Point) -> Label {
        Label {
            at,
            lines: vec![words.to_owned()],
            height: 2.0,
            heading: 0,
            prefer: Prefer::Above,
            reach: 40.0,
            optional: false,
        }
    }

    #[test]
    fn labels_of_one_place_stand_apart_until_there_is_no_room() {
        let mut labels = Labels::new(Rectangle::new(0.0, 0.0, 60.0, 30.0));
        let at = Point::new(30.0, 15.0);
        let mut extents: Vec<Extent> = Vec::new();
        let mut placed = 0;
        for _ in 0..100 {
            let Some(marks) = labels.place(&label("boundary", at), Layer::Text) else { break };
            placed += 1;
            for mark in marks {
                if let crate::scene::Shape::Text(t) = mark.shape {
                    let extent = Extent::of_words(t.at, &t.words, t.height, t.anchor, t.bold);
                    assert!(extents.iter().all(|e| !e.overlaps(&extent)));
                    extents.push(extent);
                }
            }
        }
        assert!((4..100).contains(&placed), "{placed}");
    }

    #[test]
    fn a_line_is_avoided_where_there_is_another_place() {
        let mut labels = Labels::new(Rectangle::new(0.0, 0.0, 100.0, 60.0));
        let line = [Point::new(0.0, 33.0), Point::new(100.0, 33.0)];
        labels.avoid(&line);
        let marks = labels.place(&label("creek", Point::new(50.0, 30.0)), Layer::Text).unwrap();
        let text = marks.iter().find_map(|m| match &m.shape {
            crate::scene::Shape::Text(t) => Some(t.clone()),
            _ => None,
        });
        let t = text.unwrap();
        let extent = Extent::of_words(t.at, &t.words, t.height, t.anchor, t.bold);
        assert!(!extent.is_cut_by((line[0], line[1])), "{extent:?}");
    }
}

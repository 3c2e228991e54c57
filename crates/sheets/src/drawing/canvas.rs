//! A view with its labels: what is drawn in metres, and words placed in millimetres of paper.

use super::labels::{Extent, Label, Labels, Prefer};
use crate::scene::text::wrap_at_most;
use crate::scene::{Layer, Mark, Point, Rectangle, Shape, View};

/// Height of labels, mm.
pub(super) const SMALL: f64 = 1.8;
/// Widest label, mm.
const WIDEST: f64 = 46.0;

/// A view that is being drawn.
#[derive(Debug, Clone)]
pub(super) struct Canvas {
    pub(super) view: View,
    pub(super) labels: Labels,
}

impl Canvas {
    pub(super) fn new(view: View) -> Self {
        let labels = Labels::new(view.frame.inset(0.8));
        Self { view, labels }
    }

    pub(super) fn push(&mut self, mark: Mark) {
        self.view.marks.push(mark);
    }

    /// The point of the view that lies at a point of the paper.
    pub(super) fn real(&self, paper: Point) -> Point {
        let view = &self.view;
        let x = (paper.x - view.frame.corner.x) * view.scale_across / 1000.0;
        let y = (paper.y - view.frame.corner.y) * view.scale_up / 1000.0;
        let (sin, cos) = view.turn.sin_cos();
        Point::new(view.origin.x + x * cos + y * sin, view.origin.y - x * sin + y * cos)
    }

    /// A mark of the paper, brought into the view.
    pub(super) fn push_paper(&mut self, mut mark: Mark) {
        match &mut mark.shape {
            Shape::Text(text) => text.at = self.real(text.at),
            Shape::Path { points, .. } => points.iter_mut().for_each(|p| *p = self.real(*p)),
            Shape::Area { rings, .. } => {
                rings.iter_mut().flatten().for_each(|p| *p = self.real(*p));
            }
            Shape::Symbol { at, .. } => *at = self.real(*at),
            Shape::Circle { centre, radius } => {
                *centre = self.real(*centre);
                *radius *= self.view.scale_across / 1000.0;
            }
            Shape::Arc { .. } | Shape::Dimension(_) => {}
        }
        self.view.marks.push(mark);
    }

    /// Whether a point lies in the view.
    pub(super) fn shows(&self, real: Point) -> bool {
        let (p, f) = (self.view.on_paper(real), self.view.frame);
        p.x >= f.left() && p.x <= f.right() && p.y >= f.bottom() && p.y <= f.top()
    }

    /// Puts words near a place; says whether there was room. Long words are wrapped.
    pub(super) fn label(&mut self, at: Point, words: &[String], prefer: Prefer) -> bool {
        self.label_within(at, words, prefer, 70.0)
    }

    /// As [`Canvas::label`], no further off than `reach` mm.
    pub(super) fn label_within(
        &mut self,
        at: Point,
        words: &[String],
        prefer: Prefer,
        reach: f64,
    ) -> bool {
        if !self.shows(at) {
            return false;
        }
        let heading = words.len() > 1;
        let mut lines = Vec::new();
        let mut headed = 0;
        for (i, words) in words.iter().enumerate() {
            lines.extend(wrap_at_most(words, SMALL, WIDEST, heading && i == 0, 4));
            if heading && i == 0 {
                headed = lines.len();
            }
        }
        let at = self.view.on_paper(at);
        // What may stand only here is of little weight.
        let optional = reach <= 3.0;
        let label = Label { at, lines, height: SMALL, heading: headed, prefer, reach, optional };
        match self.labels.place(&label, Layer::Text) {
            Some(marks) => {
                marks.into_iter().for_each(|m| self.push_paper(m));
                true
            }
            None => false,
        }
    }

    /// Keeps labels off a line of the view.
    pub(super) fn avoid(&mut self, points: &[Point]) {
        let paper: Vec<Point> = points.iter().map(|p| self.view.on_paper(*p)).collect();
        self.labels.avoid(&paper);
    }

    /// Takes room around a sign of so many mm.
    pub(super) fn take_sign(&mut self, at: Point, size: f64) {
        let p = self.view.on_paper(at);
        let half = size / 2.0;
        self.labels.take(Extent {
            left: p.x - half,
            right: p.x + half,
            bottom: p.y - half,
            top: p.y + half,
        });
    }

    /// Chainages or eastings between which the view of a section lies.
    pub(super) fn across(&self) -> (f64, f64) {
        let from = self.view.origin.x;
        (from, from + self.view.frame.width * self.view.scale_across / 1000.0)
    }

    /// Levels between which the view of a section lies.
    pub(super) fn levels(&self) -> (f64, f64) {
        let from = self.view.origin.y;
        (from, from + self.view.frame.height * self.view.scale_up / 1000.0)
    }

    /// The frame.
    pub(super) const fn frame(&self) -> Rectangle {
        self.view.frame
    }
}

//! Short ways to make marks.

use super::{
    Anchor, Dimension, DimensionKind, Layer, Mark, Pattern, Point, Rectangle, Shape, SymbolKind,
    Text, View,
};

/// Height of the words of a dimension, mm of paper.
// Judgement: 1.8 mm is the least of the usual series 1.8, 2.5, 3.5; a section of many dimensions needs room.
pub const DIMENSION_HEIGHT: f64 = 1.8;

impl Mark {
    /// A straight line.
    #[must_use]
    pub fn line(layer: Layer, from: Point, to: Point) -> Self {
        Self::path(layer, vec![from, to])
    }

    /// Straight lines through points.
    #[must_use]
    pub fn path(layer: Layer, points: Vec<Point>) -> Self {
        Self { layer, shape: Shape::Path { points, closed: false } }
    }

    /// Straight lines through points and back to the first.
    #[must_use]
    pub fn outline(layer: Layer, points: Vec<Point>) -> Self {
        Self { layer, shape: Shape::Path { points, closed: true } }
    }

    /// Outline of a rectangle.
    #[must_use]
    pub fn rectangle(layer: Layer, rectangle: Rectangle) -> Self {
        Self::outline(layer, rectangle.corners())
    }

    /// A part of a circle, anticlockwise between two directions in rad.
    #[must_use]
    pub fn arc(layer: Layer, centre: Point, radius: f64, from: f64, to: f64) -> Self {
        Self { layer, shape: Shape::Arc { centre, radius, from, to } }
    }

    /// A circle.
    #[must_use]
    pub fn circle(layer: Layer, centre: Point, radius: f64) -> Self {
        Self { layer, shape: Shape::Circle { centre, radius } }
    }

    /// A filled area without holes.
    #[must_use]
    pub fn area(layer: Layer, ring: Vec<Point>, pattern: Pattern) -> Self {
        Self::area_with_holes(layer, vec![ring], pattern)
    }

    /// A filled area: outline, then holes.
    #[must_use]
    pub fn area_with_holes(layer: Layer, rings: Vec<Vec<Point>>, pattern: Pattern) -> Self {
        Self { layer, shape: Shape::Area { rings, pattern } }
    }

    /// Words; `height` of a capital letter in mm of paper. Level, upright and without patch unless said further.
    #[must_use]
    pub fn text(
        layer: Layer,
        at: Point,
        words: impl Into<String>,
        height: f64,
        anchor: Anchor,
    ) -> Self {
        let words = words.into();
        let shape = Shape::Text(Text {
            at,
            words,
            height,
            anchor,
            turn: 0.0,
            bold: false,
            on_patch: false,
        });
        Self { layer, shape }
    }

    /// A dimension; `offset` of its line in mm of paper.
    #[must_use]
    pub fn dimension(
        kind: DimensionKind,
        from: Point,
        to: Point,
        offset: f64,
        words: impl Into<String>,
    ) -> Self {
        let words = words.into();
        let shape =
            Shape::Dimension(Dimension { from, to, kind, offset, words, height: DIMENSION_HEIGHT });
        Self { layer: Layer::Dimension, shape }
    }

    /// A sign of fixed size on paper, not turned.
    #[must_use]
    pub fn symbol(layer: Layer, at: Point, kind: SymbolKind, size: f64) -> Self {
        Self { layer, shape: Shape::Symbol { at, kind, size, turn: 0.0 } }
    }

    /// The same words as a heading; other marks stay as they are.
    #[must_use]
    pub fn bold(mut self) -> Self {
        if let Shape::Text(text) = &mut self.shape {
            text.bold = true;
        }
        self
    }

    /// The same words on a patch of paper colour; other marks stay as they are.
    #[must_use]
    pub fn on_patch(mut self) -> Self {
        if let Shape::Text(text) = &mut self.shape {
            text.on_patch = true;
        }
        self
    }

    /// The same words or sign, turned anticlockwise on the paper by so many rad; other marks stay as they are.
    #[must_use]
    pub fn turned(mut self, by: f64) -> Self {
        match &mut self.shape {
            Shape::Text(Text { turn, .. }) | Shape::Symbol { turn, .. } => *turn = by,
            _ => {}
        }
        self
    }
}

impl Rectangle {
    /// A rectangle by its lower left corner and its size.
    #[must_use]
    pub const fn new(left: f64, bottom: f64, width: f64, height: f64) -> Self {
        Self { corner: Point::new(left, bottom), width, height }
    }

    /// Its left edge.
    #[must_use]
    pub const fn left(&self) -> f64 {
        self.corner.x
    }

    /// Its lower edge.
    #[must_use]
    pub const fn bottom(&self) -> f64 {
        self.corner.y
    }

    /// Its right edge.
    #[must_use]
    pub const fn right(&self) -> f64 {
        self.corner.x + self.width
    }

    /// Its upper edge.
    #[must_use]
    pub const fn top(&self) -> f64 {
        self.corner.y + self.height
    }

    /// Its middle.
    #[must_use]
    pub const fn centre(&self) -> Point {
        Point::new(self.corner.x + self.width / 2.0, self.corner.y + self.height / 2.0)
    }

    /// Its corners, anticlockwise from the lower left.
    #[must_use]
    pub fn corners(&self) -> Vec<Point> {
        let (left, bottom, right, top) = (self.left(), self.bottom(), self.right(), self.top());
        [(left, bottom), (right, bottom), (right, top), (left, top)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec()
    }

    /// The same with a margin taken off all around.
    #[must_use]
    pub const fn inset(&self, margin: f64) -> Self {
        Self::new(
            self.corner.x + margin,
            self.corner.y + margin,
            self.width - 2.0 * margin,
            self.height - 2.0 * margin,
        )
    }

    /// Its upper part of some height, and what is left below.
    #[must_use]
    pub const fn cut_top(&self, height: f64) -> (Self, Self) {
        let rest = self.height - height;
        (
            Self::new(self.corner.x, self.corner.y + rest, self.width, height),
            Self::new(self.corner.x, self.corner.y, self.width, rest),
        )
    }

    /// Its lower part of some height, and what is left above.
    #[must_use]
    pub const fn cut_bottom(&self, height: f64) -> (Self, Self) {
        let (above, below) = self.cut_top(self.height - height);
        (below, above)
    }

    /// Its left part of some width, and what is left of it to the right.
    #[must_use]
    pub const fn cut_left(&self, width: f64) -> (Self, Self) {
        (
            Self::new(self.corner.x, self.corner.y, width, self.height),
            Self::new(self.corner.x + width, self.corner.y, self.width - width, self.height),
        )
    }
}

impl View {
    /// An empty view at one scale across and upwards, not turned.
    #[must_use]
    pub fn new(name: &str, frame: Rectangle, origin: Point, scale: f64) -> Self {
        Self {
            name: name.to_owned(),
            frame,
            origin,
            scale_across: scale,
            scale_up: scale,
            turn: 0.0,
            marks: Vec::new(),
        }
    }

    /// The real distance across that some mm of paper stand for, m.
    #[must_use]
    pub const fn across(&self, paper_mm: f64) -> f64 {
        paper_mm * self.scale_across / 1000.0
    }

    /// The real height that some mm of paper stand for, m.
    #[must_use]
    pub const fn up(&self, paper_mm: f64) -> f64 {
        paper_mm * self.scale_up / 1000.0
    }
}

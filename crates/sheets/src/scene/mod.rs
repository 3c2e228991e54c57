//! What is drawn, before it becomes SVG, DXF or PDF.
//!
//! A [`Drawing`] has sheets of paper; a [`Sheet`] carries marks in millimetres of paper (frame, title block, tables) and
//! views. A [`View`] shows marks in real coordinates, in metres, through a rectangle of the paper at a scale, which
//! may differ across and up. Text is always sized in millimetres of paper. All y run upwards.

pub use self::build::DIMENSION_HEIGHT;
pub use self::mark::{Anchor, Dimension, DimensionKind, Mark, Shape, SymbolKind, Text};
pub use self::style::{Layer, Pattern};

pub mod dxf;
pub mod frame;
pub mod legend;
pub mod look;
pub mod scale;
pub mod svg;
pub mod text;

mod build;
mod flat;
mod mark;
mod style;

/// A point: x to the right, y upwards; metres in a view, millimetres on paper.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Upwards.
    pub y: f64,
}

impl Point {
    /// A point.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }
}

/// A rectangle by its lower left corner and its size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rectangle {
    /// Lower left corner.
    pub corner: Point,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// One drawing, on one sheet or several.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Name of its files without ending: `long-section`.
    pub id: String,
    /// What it is, in words.
    pub title: String,
    /// Its sheets, in order.
    pub sheets: Vec<Sheet>,
}

/// One sheet of paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// What it shows, in words.
    pub title: String,
    /// Width of the paper, mm.
    pub width: f64,
    /// Height of the paper, mm.
    pub height: f64,
    /// Views, drawn before the marks.
    pub views: Vec<View>,
    /// Marks in mm of paper from its lower left corner, drawn in order.
    pub marks: Vec<Mark>,
    /// What the sheet shows, in a sentence for those who cannot see it.
    pub description: String,
}

/// A window from the paper into real coordinates.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// What it shows: `long section`, `plan`.
    pub name: String,
    /// Where on the paper, mm; what lies outside is not drawn.
    pub frame: Rectangle,
    /// The point in real coordinates that lies on the lower left corner of the frame, m.
    pub origin: Point,
    /// Denominator of the scale across: 500 for 1:500.
    pub scale_across: f64,
    /// Denominator of the scale upwards.
    pub scale_up: f64,
    /// Turn of the real coordinates on the paper, anticlockwise, rad; 0 where the scales differ.
    pub turn: f64,
    /// Marks in metres, drawn in order.
    pub marks: Vec<Mark>,
}

impl View {
    /// Where a real point lies on the paper, mm.
    #[must_use]
    pub fn on_paper(&self, real: Point) -> Point {
        let (dx, dy) = (real.x - self.origin.x, real.y - self.origin.y);
        let (sin, cos) = self.turn.sin_cos();
        let (tx, ty) = (dx * cos - dy * sin, dx * sin + dy * cos);
        Point::new(
            self.frame.corner.x + tx * 1000.0 / self.scale_across,
            self.frame.corner.y + ty * 1000.0 / self.scale_up,
        )
    }
}

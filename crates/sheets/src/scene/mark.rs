//! Marks: lines, areas, words, dimensions.

use super::{Layer, Pattern, Point};

/// One thing that is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// What it belongs to.
    pub layer: Layer,
    /// What is drawn.
    pub shape: Shape,
}

/// What is drawn; lengths in the units of the view or paper, unless said otherwise.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Straight lines through points.
    Path {
        /// Corners.
        points: Vec<Point>,
        /// Whether the last is joined to the first.
        closed: bool,
    },
    /// A part of a circle, anticlockwise.
    Arc {
        /// Centre.
        centre: Point,
        /// Radius.
        radius: f64,
        /// Direction of its beginning from the x axis, anticlockwise, rad.
        from: f64,
        /// Direction of its end, rad.
        to: f64,
    },
    /// A whole circle.
    Circle {
        /// Centre.
        centre: Point,
        /// Radius.
        radius: f64,
    },
    /// A filled area; its outline is not drawn. Holes are further rings (even-odd rule).
    Area {
        /// Outline, then holes.
        rings: Vec<Vec<Point>>,
        /// Filling.
        pattern: Pattern,
    },
    /// Words.
    Text(Text),
    /// A dimension.
    Dimension(Dimension),
    /// A small sign of fixed size on paper.
    Symbol {
        /// Where.
        at: Point,
        /// Which.
        kind: SymbolKind,
        /// Size in mm of paper.
        size: f64,
        /// Turn on paper, anticlockwise, rad.
        turn: f64,
    },
}

/// Words on a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Where its anchor lies.
    pub at: Point,
    /// The words, one line.
    pub words: String,
    /// Height of a capital letter, mm of paper.
    pub height: f64,
    /// Which point of the words lies there.
    pub anchor: Anchor,
    /// Turn on paper, anticlockwise, rad.
    pub turn: f64,
    /// Whether it is a heading.
    pub bold: bool,
    /// Whether a patch of paper colour lies behind the words.
    pub on_patch: bool,
}

/// Which point of some words lies at their place: on the base line, at half height of a capital letter, or on top.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Anchor {
    /// Base line, left.
    Left,
    /// Base line, middle.
    Centre,
    /// Base line, right.
    Right,
    /// Half height, left.
    MiddleLeft,
    /// Half height, middle.
    Middle,
    /// Half height, right.
    MiddleRight,
    /// Top, left.
    TopLeft,
    /// Top, middle.
    TopCentre,
    /// Top, right.
    TopRight,
}

/// A dimension between two points.
#[derive(Debug, Clone, PartialEq)]
pub struct Dimension {
    /// From.
    pub from: Point,
    /// To.
    pub to: Point,
    /// What is measured.
    pub kind: DimensionKind,
    /// Distance of the dimension line from the first point, mm of paper; positive upwards or to the right, for an aligned
    /// dimension to the left of the direction from first to second point.
    pub offset: f64,
    /// The words on it, with their unit.
    pub words: String,
    /// Height of the words, mm of paper.
    pub height: f64,
}

/// What a dimension measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DimensionKind {
    /// The distance across.
    Across,
    /// The distance upwards.
    Up,
    /// The distance between the points.
    Aligned,
}

/// A small sign of fixed size on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum SymbolKind {
    /// A point of the line where straight and arc meet.
    Tangent,
    /// Entry or exit point.
    End,
    /// Top of a boring.
    Boring,
    /// Triangle on a water level.
    WaterLevel,
    /// Arrow head pointing along the turn.
    Arrow,
    /// Direction of grid north.
    North,
    /// A joint between two barrels.
    Joint,
    /// A check that is not met.
    NotMet,
}

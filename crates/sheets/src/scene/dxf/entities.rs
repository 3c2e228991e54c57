//! Lines, arcs, words, hatches, dimensions and viewports.

use super::codes::{Codes, Handles, line_of, paragraph_of, table_name};
use super::tables::{BOLD_STYLE, DIMENSION_STYLE, MASKS, STYLE, VIEWPORTS};
use crate::scene::flat::Dimensioned;
use crate::scene::look::Tile;
use crate::scene::svg::lie;
use crate::scene::{
    Dimension, DimensionKind, Layer, Mark, Pattern, Point, Rectangle, Shape, Text, View,
};

/// Where entities go.
#[derive(Debug)]
pub(super) struct Space {
    pub(super) codes: Codes,
    /// Handle of the record of its block.
    pub(super) owner: u64,
    pub(super) paper: bool,
    /// Length of one mm of paper in it, and the direction of what runs level on paper: they size and turn patterns.
    pub(super) unit: f64,
    pub(super) level: f64,
}

impl Space {
    pub(super) const fn new(owner: u64, paper: bool) -> Self {
        Self { codes: Codes { out: String::new() }, owner, paper, unit: 1.0, level: 0.0 }
    }

    fn begin(&mut self, kind: &str, layer: &str, handles: &mut Handles) -> &mut Codes {
        let (owner, paper) = (self.owner, self.paper);
        self.codes.text(0, kind).handle(5, handles.next()).handle(330, owner).class("AcDbEntity");
        if paper {
            self.codes.whole(67, 1);
        }
        self.codes.text(8, layer)
    }

    /// Writes a flattened mark.
    pub(super) fn mark(&mut self, mark: &Mark, handles: &mut Handles) {
        let layer = table_name(mark.layer.name());
        match &mark.shape {
            Shape::Path { points, closed } => self.path(points, *closed, &layer, handles),
            Shape::Circle { centre, radius } if sound(&[*centre]) && *radius > 0.0 => {
                let codes = self.begin("CIRCLE", &layer, handles).class("AcDbCircle");
                codes.point(10, centre.x, centre.y).real(40, *radius);
            }
            Shape::Arc { centre, radius, from, to } if sound(&[*centre]) && *radius > 0.0 => {
                let codes = self.begin("ARC", &layer, handles).class("AcDbCircle");
                codes.point(10, centre.x, centre.y).real(40, *radius).class("AcDbArc");
                codes.real(50, from.to_degrees()).real(51, to.to_degrees());
            }
            Shape::Area { rings, pattern } => self.area(rings, *pattern, mark.layer, handles),
            Shape::Text(text) => self.words(text, &layer, handles),
            _ => {}
        }
    }

    fn path(&mut self, points: &[Point], closed: bool, layer: &str, handles: &mut Handles) {
        let mut points = points.to_vec();
        points.dedup();
        if !sound(&points) {
            return;
        }
        match points.as_slice() {
            [] | [_] => {}
            [a, b] => {
                let codes = self.begin("LINE", layer, handles).class("AcDbLine");
                codes.point(10, a.x, a.y).point(11, b.x, b.y);
            }
            points => {
                let codes = self.begin("LWPOLYLINE", layer, handles).class("AcDbPolyline");
                let count = i64::try_from(points.len()).unwrap_or(0);
                codes.whole(90, count).whole(70, i64::from(closed)).real(43, 0.0);
                for p in points {
                    codes.flat(10, p.x, p.y);
                }
            }
        }
    }

    fn words(&mut self, text: &Text, layer: &str, handles: &mut Handles) {
        let words = line_of(&text.words);
        if words.is_empty() || !sound(&[text.at]) || text.height.is_nan() || text.height <= 0.0 {
            return;
        }
        let style = if text.bold { BOLD_STYLE } else { STYLE };
        let (down, across) = lie(text.anchor);
        let column = if across > 0.75 { 2 } else { i64::from(across > 0.25) };
        let (sin, cos) = text.turn.sin_cos();
        if text.on_patch {
            // Only a paragraph can hide what lies behind it.
            let rise = (0.5 - down) * text.height;
            let codes = self.begin("MTEXT", layer, handles).class("AcDbMText");
            codes.point(10, text.at.x - rise * sin, text.at.y + rise * cos).real(40, text.height);
            codes.real(41, 0.0).whole(71, 4 + column).whole(72, 5);
            codes.text(1, &paragraph_of(&text.words)).text(7, style).point(11, cos, sin);
            codes.whole(73, 1).real(44, 1.0).whole(90, 3).whole(63, 256).real(45, 1.2);
            return;
        }
        let codes = self.begin("TEXT", layer, handles).class("AcDbText");
        codes.point(10, text.at.x, text.at.y).real(40, text.height).text(1, &words);
        codes.real(50, text.turn.to_degrees()).text(7, style);
        let row = if down > 0.75 { 3 } else { i64::from(down > 0.25) * 2 };
        if (column, row) != (0, 0) {
            codes.whole(72, column).point(11, text.at.x, text.at.y);
        }
        codes.class("AcDbText");
        if row != 0 {
            codes.whole(73, row);
        }
    }

    fn area(
        &mut self,
        rings: &[Vec<Point>],
        pattern: Pattern,
        layer: Layer,
        handles: &mut Handles,
    ) {
        let rings: Vec<&Vec<Point>> = rings.iter().filter(|r| r.len() > 2 && sound(r)).collect();
        if rings.is_empty() {
            return;
        }
        let (unit, level) = (self.unit, self.level);
        let mask = pattern == Pattern::Blank;
        let layer = if mask { MASKS.to_owned() } else { table_name(layer.name()) };
        let tile = pattern.tile();
        let codes = self.begin("HATCH", &layer, handles);
        if tile.is_some() {
            // Thinner than any line; soils in grey, so that lines stand out before them.
            if !matches!(pattern, Pattern::Water | Pattern::Iron | Pattern::Fluid) {
                codes.whole(62, 8);
            }
            codes.whole(370, 9);
        }
        codes.class("AcDbHatch");
        codes.point(10, 0.0, 0.0).real(210, 0.0).real(220, 0.0).real(230, 1.0);
        let name = match tile {
            Some(_) => table_name(&pattern.name().to_uppercase().replace([',', ' '], "_")),
            None => "SOLID".to_owned(),
        };
        codes.text(2, &name).whole(70, i64::from(tile.is_none())).whole(71, 0);
        codes.whole(91, i64::try_from(rings.len()).unwrap_or(0));
        for (index, ring) in rings.iter().enumerate() {
            // Outermost of the list is the outside; all are closed lines.
            codes.whole(92, if index == 0 { 3 } else { 2 }).whole(72, 0).whole(73, 1);
            codes.whole(93, i64::try_from(ring.len()).unwrap_or(0));
            for p in ring.iter() {
                codes.flat(10, p.x, p.y);
            }
            codes.whole(97, 0);
        }
        codes.whole(75, 0).whole(76, if tile.is_some() { 2 } else { 1 });
        if let Some(tile) = tile {
            codes.real(52, 0.0).real(41, 1.0).whole(77, 0);
            families(codes, &tile, unit, level);
        }
        codes.whole(98, 0);
    }

    /// Writes a dimension that is drawn by a block.
    pub(super) fn dimension(
        &mut self,
        dimension: &Dimension,
        parts: &Dimensioned,
        block: &str,
        handles: &mut Handles,
    ) {
        let aligned = dimension.kind == DimensionKind::Aligned;
        let (from, to) = parts.measured;
        let (sin, cos) = parts.direction.sin_cos();
        let measured = ((to.x - from.x) * cos + (to.y - from.y) * sin).abs();
        let layer = table_name(Layer::Dimension.name());
        let codes = self.begin("DIMENSION", &layer, handles).class("AcDbDimension");
        codes.whole(280, 0).text(2, block).point(10, parts.end.x, parts.end.y);
        codes.point(11, parts.text.at.x, parts.text.at.y);
        codes.whole(70, 32 + 128 + i64::from(aligned)).text(1, &paragraph_of(&dimension.words));
        codes.whole(71, 5).real(42, measured).text(3, DIMENSION_STYLE);
        codes.class("AcDbAlignedDimension").point(13, from.x, from.y).point(14, to.x, to.y);
        if !aligned {
            codes.real(50, parts.direction.to_degrees()).class("AcDbRotatedDimension");
        }
    }

    /// Writes the window of a layout onto itself.
    pub(super) fn main_viewport(&mut self, width: f64, height: f64, handles: &mut Handles) -> u64 {
        let frame = Rectangle::new(0.0, 0.0, width, height);
        self.window(1, frame, frame.centre(), height * 1.05, 0.0, handles)
    }

    /// Writes a window onto the model for a view of even scale.
    pub(super) fn viewport(&mut self, id: i64, view: &View, handles: &mut Handles) {
        let metres = view.scale_across / 1000.0;
        let (sin, cos) = view.turn.sin_cos();
        // The middle of the frame in the turned coordinates of the screen.
        let corner = Point::new(
            view.origin.x * cos - view.origin.y * sin,
            view.origin.x * sin + view.origin.y * cos,
        );
        let middle = Point::new(
            corner.x + view.frame.width / 2.0 * metres,
            corner.y + view.frame.height / 2.0 * metres,
        );
        self.window(id, view.frame, middle, view.frame.height * metres, view.turn, handles);
    }

    fn window(
        &mut self,
        id: i64,
        frame: Rectangle,
        middle: Point,
        height: f64,
        turn: f64,
        handles: &mut Handles,
    ) -> u64 {
        let codes = self.begin("VIEWPORT", VIEWPORTS, handles).class("AcDbViewport");
        let centre = frame.centre();
        codes.point(10, centre.x, centre.y).real(40, frame.width).real(41, frame.height);
        codes.whole(68, id).whole(69, id).flat(12, middle.x, middle.y);
        codes.flat(13, 0.0, 0.0).flat(14, 10.0, 10.0).flat(15, 10.0, 10.0);
        codes.real(16, 0.0).real(26, 0.0).real(36, 1.0).point(17, 0.0, 0.0);
        codes.real(42, 50.0).real(43, 0.0).real(44, 0.0).real(45, height);
        codes.real(50, 0.0).real(51, turn.to_degrees()).whole(72, 1000);
        // On, without icon of the coordinates; locked, so that its scale stays.
        codes.whole(90, if id == 1 { 32_864 } else { 32_864 + 16_384 });
        codes.text(1, "").whole(281, 0).whole(71, 1).whole(74, 0);
        codes.point(110, 0.0, 0.0).real(111, 1.0).real(121, 0.0).real(131, 0.0);
        codes.real(112, 0.0).real(122, 1.0).real(132, 0.0).whole(79, 0).real(146, 0.0);
        handles.0
    }
}

fn sound(points: &[Point]) -> bool {
    points.iter().all(|p| p.x.is_finite() && p.y.is_finite())
}

/// Writes a tile as families of parallel dashed lines; together they repeat it on the whole plane.
fn families(codes: &mut Codes, tile: &Tile, unit: f64, level: f64) {
    let count = tile.strokes.len() + tile.dots.len();
    codes.whole(78, i64::try_from(count).unwrap_or(0));
    let (sin, cos) = level.sin_cos();
    let turned =
        |p: Point| Point::new((p.x * cos - p.y * sin) * unit, (p.x * sin + p.y * cos) * unit);
    let dots = tile.dots.iter().map(|&dot| (dot, dot));
    for (a, b) in tile.strokes.iter().copied().chain(dots) {
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let length = dx.hypot(dy);
        // Along a line the tile returns after its width, its height or its diagonal.
        let (period, next) = if dy == 0.0 {
            (tile.width, Point::new(0.0, tile.height))
        } else if dx == 0.0 {
            (tile.height, Point::new(tile.width, 0.0))
        } else {
            (tile.width.hypot(tile.height), Point::new(0.0, tile.height))
        };
        let (base, next) = (turned(a), turned(next));
        codes.real(53, (dy.atan2(dx) + level).to_degrees());
        codes.real(43, base.x).real(44, base.y).real(45, next.x).real(46, next.y);
        if period - length < 1e-9 {
            codes.whole(79, 0);
        } else {
            codes.whole(79, 2).real(49, length * unit).real(49, (length - period) * unit);
        }
    }
}

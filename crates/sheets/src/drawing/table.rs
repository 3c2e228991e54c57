//! A small table on paper.

use super::canvas::SMALL;
use crate::scene::text::width_mm;
use crate::scene::{Anchor, Layer, Mark, Point};

const ROW: f64 = 4.2;
const AIR: f64 = 1.6;

/// Size of a table of rows of cells, the first row being its head, mm.
pub(super) fn size(rows: &[Vec<String>]) -> (f64, f64) {
    let height = ROW * f64::from(u32::try_from(rows.len()).unwrap_or(0));
    (widths(rows).iter().sum(), height)
}

/// Marks of a table by its upper left corner; figures stand to the right of their cells.
pub(super) fn marks(rows: &[Vec<String>], at: Point) -> Vec<Mark> {
    let widths = widths(rows);
    let (width, height) = size(rows);
    let mut marks = Vec::new();
    let mut y = at.y;
    let rule = |y: f64| Mark::line(Layer::Frame, Point::new(at.x, y), Point::new(at.x + width, y));
    marks.push(rule(y));
    for (i, row) in rows.iter().enumerate() {
        let mut x = at.x;
        for (column, (cell, width)) in row.iter().zip(&widths).enumerate() {
            let middle = y - ROW / 2.0;
            let mark = if column == 0 {
                let place = Point::new(x + AIR, middle);
                Mark::text(Layer::Text, place, cell, SMALL, Anchor::MiddleLeft)
            } else {
                let place = Point::new(x + width - AIR, middle);
                Mark::text(Layer::Text, place, cell, SMALL, Anchor::MiddleRight)
            };
            marks.push(if i == 0 { mark.bold() } else { mark });
            x += width;
        }
        y -= ROW;
        if i == 0 {
            marks.push(rule(y));
        }
    }
    marks.push(rule(at.y - height));
    marks
}

fn widths(rows: &[Vec<String>]) -> Vec<f64> {
    let mut widths: Vec<f64> = Vec::new();
    for row in rows {
        for (column, cell) in row.iter().enumerate() {
            let wide = width_mm(cell, SMALL, true) + 2.0 * AIR;
            match widths.get_mut(column) {
                Some(width) => *width = width.max(wide),
                None => widths.push(wide),
            }
        }
    }
    widths
}

//! The key of a drawing: what its patterns, lines and signs stand for.

use super::canvas::SMALL;
use crate::scene::text::{shorten, width_mm};
use crate::scene::{Anchor, Layer, Mark, Pattern, Point, Rectangle, SymbolKind};

/// What stands before the words of an entry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Swatch {
    Filling(Layer, Pattern),
    Line(Layer),
    Sign(Layer, SymbolKind),
}

/// One entry of the key.
pub(super) type Entry = (Swatch, String);

const SWATCH: (f64, f64) = (8.0, 3.4);
const ROW: f64 = 4.6;
const GAP: f64 = 5.0;
const WIDEST: f64 = 84.0;

/// How many rows some entries take in a width.
pub(super) fn height(entries: &[Entry], width: f64) -> f64 {
    places(entries, width).last().map_or(0.0, |(_, row, _)| (row + 1.0) * ROW)
}

/// Marks of the key from the upper left corner of a rectangle; entries that do not fit below are left out.
pub(super) fn marks(entries: &[Entry], within: Rectangle) -> Vec<Mark> {
    let mut marks = Vec::new();
    for ((swatch, _), (x, row, words)) in entries.iter().zip(places(entries, within.width)) {
        let top = within.top() - row * ROW;
        if top - SWATCH.1 < within.bottom() {
            break;
        }
        let left = within.left() + x;
        let cell = Rectangle::new(left, top - SWATCH.1, SWATCH.0, SWATCH.1);
        match *swatch {
            Swatch::Filling(layer, pattern) => {
                marks.push(Mark::area(layer, cell.corners(), pattern));
                marks.push(Mark::rectangle(Layer::Frame, cell));
            }
            Swatch::Line(layer) => {
                let y = cell.centre().y;
                marks.push(Mark::line(layer, Point::new(left, y), Point::new(cell.right(), y)));
            }
            Swatch::Sign(layer, kind) => {
                marks.push(Mark::symbol(layer, cell.centre(), kind, 2.6));
            }
        }
        let at = Point::new(cell.right() + 1.8, cell.centre().y);
        marks.push(Mark::text(Layer::Text, at, words, SMALL, Anchor::MiddleLeft));
    }
    marks
}

/// Place across, row and words of every entry.
fn places(entries: &[Entry], width: f64) -> Vec<(f64, f64, String)> {
    let (mut x, mut row) = (0.0, 0.0);
    let mut list = Vec::new();
    for (_, words) in entries {
        let words = shorten(words, SMALL, WIDEST.min(width - SWATCH.0 - 2.0));
        let own = SWATCH.0 + 1.8 + width_mm(&words, SMALL, false);
        if x > 0.0 && x + own > width {
            (x, row) = (0.0, row + 1.0);
        }
        list.push((x, row, words));
        x += own + GAP;
    }
    list
}

//! What the lines, patterns and signs of some views mean.

use std::collections::BTreeMap;

use super::text::shorten;
use super::{Anchor, Layer, Mark, Pattern, Point, Rectangle, Shape, SymbolKind, View};

/// One entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Entry {
    /// A pattern.
    Pattern(Pattern),
    /// A line of a layer.
    Layer(Layer),
    /// A sign of a layer.
    Symbol(SymbolKind, Layer),
}

impl Entry {
    /// Its usual words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Entry::Pattern(pattern) => pattern.name(),
            Entry::Layer(layer) => layer.name(),
            Entry::Symbol(kind, _) => match kind {
                SymbolKind::Tangent => "Tangent point",
                SymbolKind::End => "Entry or exit point",
                SymbolKind::Boring => "Boring",
                SymbolKind::WaterLevel => "Water level",
                SymbolKind::Arrow => "Direction",
                SymbolKind::North => "Grid north",
                SymbolKind::Joint => "Joint",
                SymbolKind::NotMet => "Check not met",
            },
        }
    }
}

/// What some views show, each once, in the order patterns, lines, signs. Furniture of the paper, dimensions, words and
/// plain areas need no explanation.
#[must_use]
pub fn entries(views: &[View]) -> Vec<Entry> {
    let mut found = BTreeMap::new();
    for mark in views.iter().flat_map(|v| &v.marks) {
        let explained =
            !matches!(mark.layer, Layer::Frame | Layer::Grid | Layer::Dimension | Layer::Text);
        let entry = match &mark.shape {
            Shape::Area { pattern, .. } if pattern.tile().is_some() => Entry::Pattern(*pattern),
            Shape::Path { .. } | Shape::Arc { .. } | Shape::Circle { .. } if explained => {
                Entry::Layer(mark.layer)
            }
            Shape::Symbol { kind, .. }
                if !matches!(kind, SymbolKind::Arrow | SymbolKind::North) =>
            {
                Entry::Symbol(*kind, mark.layer)
            }
            _ => continue,
        };
        found.insert((entry.words(), entry), entry);
    }
    let mut list: Vec<Entry> = found.into_values().collect();
    list.sort();
    list.dedup_by(|a, b| a.words() == b.words());
    list
}

/// Height of a row, width of a sample, height of the words, mm.
const ROW: f64 = 5.6;
const SAMPLE: f64 = 12.0;
const WORDS: f64 = 1.8;
/// Width of a column, mm.
const COLUMN: f64 = 58.0;

/// A legend from the upper left corner of a rectangle, in columns; and the height it takes.
///
/// `names` replaces the usual words, as `(Entry::Pattern(Pattern::SoftClay), "Soft clay, from borings 1 and 2")`. A row
/// for which there is no room is not drawn; the height then says how much would be needed.
#[must_use]
pub fn legend(views: &[View], names: &[(Entry, String)], room: Rectangle) -> (Vec<Mark>, f64) {
    let list = entries(views);
    let mut marks = vec![
        Mark::text(
            Layer::Text,
            Point::new(room.left(), room.top()),
            "Legend",
            2.5,
            Anchor::TopLeft,
        )
        .bold(),
    ];
    let top = room.top() - 5.0;
    let columns = (room.width / COLUMN).floor().max(1.0);
    let width = room.width / columns;
    let count = f64::from(u32::try_from(list.len()).unwrap_or(u32::MAX));
    let rows = (count / columns).ceil();
    let (mut column, mut row) = (0.0, 0.0);
    for entry in list {
        let left = room.left() + column * width;
        let sample = Rectangle::new(left, top - (row + 1.0) * ROW + 1.0, SAMPLE, ROW - 1.2);
        if sample.bottom() >= room.bottom() {
            let given = names.iter().find(|(e, _)| *e == entry).map(|(_, words)| words.as_str());
            let words = shorten(given.unwrap_or(entry.words()), WORDS, width - SAMPLE - 5.0);
            let at = Point::new(sample.right() + 2.0, sample.centre().y);
            marks.extend(sampled(entry, sample));
            marks.push(Mark::text(Layer::Text, at, words, WORDS, Anchor::MiddleLeft));
        }
        row += 1.0;
        if row >= rows {
            (column, row) = (column + 1.0, 0.0);
        }
    }
    (marks, 5.0 + rows * ROW)
}

fn sampled(entry: Entry, sample: Rectangle) -> Vec<Mark> {
    let middle = sample.centre();
    match entry {
        Entry::Pattern(pattern) => vec![
            Mark::area(Layer::Strata, sample.corners(), pattern),
            Mark::rectangle(Layer::Strata, sample),
        ],
        Entry::Layer(layer) => {
            let (a, b) =
                (Point::new(sample.left(), middle.y), Point::new(sample.right(), middle.y));
            vec![Mark::line(layer, a, b)]
        }
        Entry::Symbol(kind, layer) => {
            // The tip of a water level lies below its body.
            let drop = if kind == SymbolKind::WaterLevel { 0.6 } else { 0.0 };
            vec![Mark::symbol(layer, Point::new(middle.x, middle.y - drop), kind, 3.0)]
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_thing_is_explained_once_and_in_the_users_words() {
        let room = Rectangle::new(0.0, 0.0, 120.0, 60.0);
        let mut view = View::new("section", room, Point::default(), 100.0);
        for _ in 0..2 {
            view.marks.push(Mark::area(Layer::Strata, room.corners(), Pattern::Sand));
            view.marks.push(Mark::line(Layer::Axis, room.corner, room.centre()));
            view.marks.push(Mark::line(Layer::Grid, room.corner, room.centre()));
            view.marks.push(Mark::symbol(Layer::Axis, room.corner, SymbolKind::Tangent, 3.0));
        }
        let views = [view];
        let expected = [
            Entry::Pattern(Pattern::Sand),
            Entry::Layer(Layer::Axis),
            Entry::Symbol(SymbolKind::Tangent, Layer::Axis),
        ];
        assert_eq!(entries(&views), expected);
        let names = [(expected[0], "Fine sand of the estuary".to_owned())];
        let (marks, height) = legend(&views, &names, room);
        let words: Vec<&str> = marks
            .iter()
            .filter_map(|m| match &m.shape {
                Shape::Text(text) => Some(text.words.as_str()),
                _ => None,
            })
            .collect();
        assert_eq!(words, ["Legend", "Fine sand of the estuary", "Bore axis", "Tangent point"]);
        assert!(height > 10.0 && height < 60.0);
        let (few, _) = legend(&views, &names, Rectangle::new(0.0, 0.0, 50.0, 12.0));
        assert!(few.len() < marks.len());
    }
}

//! Words and lines on the paper.

use sheets::scene::text::width_mm;
use sheets::scene::{Anchor, Mark, Point, Shape, Sheet, Text, View};

/// A text with the room it takes, mm: left, bottom, right, top.
#[derive(Debug, Clone)]
pub(crate) struct Words {
    pub(crate) words: String,
    pub(crate) room: [f64; 4],
    pub(crate) in_view: bool,
}

impl Words {
    fn of(text: &Text, at: Point, in_view: bool) -> Self {
        let width = width_mm(&text.words, text.height, text.bold);
        let left = match text.anchor {
            Anchor::Left | Anchor::MiddleLeft | Anchor::TopLeft => 0.0,
            Anchor::Centre | Anchor::Middle | Anchor::TopCentre => -width / 2.0,
            Anchor::Right | Anchor::MiddleRight | Anchor::TopRight => -width,
        };
        let bottom = match text.anchor {
            Anchor::Left | Anchor::Centre | Anchor::Right => 0.0,
            Anchor::MiddleLeft | Anchor::Middle | Anchor::MiddleRight => -text.height / 2.0,
            Anchor::TopLeft | Anchor::TopCentre | Anchor::TopRight => -text.height,
        };
        let (sin, cos) = text.turn.sin_cos();
        let corners = [(0.0, 0.0), (width, 0.0), (0.0, text.height), (width, text.height)]
            .map(|(x, y)| (left + x, bottom + y))
            .map(|(x, y)| (at.x + x * cos - y * sin, at.y + x * sin + y * cos));
        let least = |i: fn(&(f64, f64)) -> f64| corners.iter().map(i).fold(f64::MAX, f64::min);
        let most = |i: fn(&(f64, f64)) -> f64| corners.iter().map(i).fold(f64::MIN, f64::max);
        let room = [least(|c| c.0), least(|c| c.1), most(|c| c.0), most(|c| c.1)];
        Self { words: text.words.clone(), room, in_view }
    }

    pub(crate) fn touches(&self, other: &Self) -> bool {
        let (a, b) = (self.room, other.room);
        let slip = 1e-6;
        a[0] + slip < b[2] && b[0] + slip < a[2] && a[1] + slip < b[3] && b[1] + slip < a[3]
    }

    pub(crate) fn within(&self, left: f64, bottom: f64, right: f64, top: f64) -> bool {
        let r = self.room;
        r[0] >= left && r[1] >= bottom && r[2] <= right && r[3] <= top
    }
}

/// All words of a sheet.
pub(crate) fn words(sheet: &Sheet) -> Vec<Words> {
    let of = |mark: &Mark, view: Option<&View>| match &mark.shape {
        Shape::Text(text) => {
            let at = view.map_or(text.at, |v| v.on_paper(text.at));
            Some(Words::of(text, at, view.is_some()))
        }
        _ => None,
    };
    let own = sheet.marks.iter().filter_map(|m| of(m, None));
    let views = sheet.views.iter().flat_map(|v| v.marks.iter().filter_map(move |m| of(m, Some(v))));
    own.chain(views).collect()
}

/// All points of a mark.
pub(crate) fn points(mark: &Mark) -> Vec<Point> {
    match &mark.shape {
        Shape::Path { points, .. } => points.clone(),
        Shape::Area { rings, .. } => rings.concat(),
        Shape::Text(text) => vec![text.at],
        Shape::Symbol { at, .. } => vec![*at],
        Shape::Circle { centre, .. } | Shape::Arc { centre, .. } => vec![*centre],
        Shape::Dimension(d) => vec![d.from, d.to],
    }
}

//! What the detail drawings share: sheets in the making, tables, notes, legends, words that keep clear of each other.

use quantity::{Unit, unit};
use working::{Evidence, Source};

use crate::Subject;
use crate::scene::frame::{Paper, framed};
use crate::scene::text::{LINE_FEED, shorten, width_mm, wrap_as};
use crate::scene::{Anchor, Drawing, Layer, Mark, Pattern, Point, Rectangle, Shape, View};

/// Height of small words, mm.
pub(super) const SMALL: f64 = 1.8;
/// Height of headings, mm.
pub(super) const HEADING: f64 = 2.5;
/// Corners of a circle that is drawn as an area.
const CORNERS: u32 = 96;
/// Air beside and above words, mm.
const AIR: (f64, f64) = (1.3, 0.5);

/// A sheet before its number and the count of sheets are known.
pub(super) struct Draft {
    pub title: String,
    pub scale: String,
    pub views: Vec<View>,
    pub marks: Vec<Mark>,
    pub description: String,
}

impl Draft {
    pub fn new(title: impl Into<String>, scale: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            scale: scale.into(),
            views: Vec::new(),
            marks: Vec::new(),
            description: String::new(),
        }
    }

    /// A heading on the paper.
    pub fn heading(&mut self, at: Point, words: &str) {
        self.marks.push(Mark::text(Layer::Text, at, words, HEADING, Anchor::TopLeft).bold());
    }
}

/// What is free on a sheet of A3 within border and title block.
pub(super) fn free(subject: &Subject<'_>) -> Rectangle {
    framed(subject, "", (1, 1), Paper::A3, "").1
}

/// Frames every sheet.
pub(super) fn finish(subject: &Subject<'_>, id: &str, title: &str, drafts: Vec<Draft>) -> Drawing {
    let count = drafts.len();
    let sheets = drafts.into_iter().enumerate().map(|(i, draft)| {
        let (mut sheet, _) = framed(subject, &draft.title, (i + 1, count), Paper::A3, &draft.scale);
        sheet.views = draft.views;
        sheet.marks.extend(draft.marks);
        if !draft.description.is_empty() {
            sheet.description = format!("{} {}", sheet.description, draft.description);
        }
        sheet
    });
    Drawing { id: id.to_owned(), title: title.to_owned(), sheets: sheets.collect() }
}

/// One short word on how well a value is founded.
pub(super) const fn mark_of(source: &Source) -> &'static str {
    match source.evidence {
        Evidence::Given => "given",
        Evidence::Published => "published",
        Evidence::Derived => "derived",
        Evidence::Computed => "computed",
        Evidence::FromMemory => "from memory",
        Evidence::CommonPractice => "common practice",
        Evidence::Judgement => "judgement",
    }
}

/// A length in the unit of the reader that belongs to some unit.
pub(super) fn length(subject: &Subject<'_>, si: f64, unit: Unit) -> String {
    quantity::show_with(rounded(si), unit, subject.system)
}

/// Without the last bits that sums of lengths leave.
fn rounded(si: f64) -> f64 {
    (si * 1e9).round() / 1e9
}

/// An angle in degrees.
pub(super) fn degrees(subject: &Subject<'_>, si: f64) -> String {
    quantity::show_with(si, unit::DEG, subject.system).replace(" deg", "°")
}

/// Metres or feet with two decimals and without a unit, for columns that name it.
pub(super) fn two_decimals(subject: &Subject<'_>, si: f64) -> String {
    let text = format!("{:.2}", unit::M.in_system(subject.system).from_si(rounded(si)));
    if text == "-0.00" { "0.00".to_owned() } else { text }
}

/// The symbol of metres for the reader.
pub(super) fn metre_symbol(subject: &Subject<'_>) -> &'static str {
    unit::M.in_system(subject.system).symbol()
}

/// The real point of a view that lies at a place on the paper; the view is not turned.
pub(super) fn real(view: &View, paper: Point) -> Point {
    Point::new(
        view.origin.x + (paper.x - view.frame.corner.x) * view.scale_across / 1000.0,
        view.origin.y + (paper.y - view.frame.corner.y) * view.scale_up / 1000.0,
    )
}

/// The box that level words take on paper, when their anchor lies at a point of the paper.
pub(super) fn words_box(
    at: Point,
    words: &str,
    height: f64,
    anchor: Anchor,
    bold: bool,
) -> Rectangle {
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
    Rectangle::new(left, bottom, width, height)
}

/// The box of a text mark of a sheet or a view.
#[cfg(test)]
pub(super) fn box_of(text: &crate::scene::Text, at: Point) -> Rectangle {
    words_box(at, &text.words, text.height, text.anchor, text.bold)
}

/// Whether two boxes share more than their edges.
pub(super) fn meet(a: &Rectangle, b: &Rectangle) -> bool {
    a.left() < b.right() - 1e-9
        && b.left() < a.right() - 1e-9
        && a.bottom() < b.top() - 1e-9
        && b.bottom() < a.top() - 1e-9
}

/// Corners of a circle.
pub(super) fn round(centre: Point, radius: f64) -> Vec<Point> {
    ellipse(centre, radius, radius)
}

/// Corners of an ellipse.
pub(super) fn ellipse(centre: Point, across: f64, up: f64) -> Vec<Point> {
    let corner = |k: u32| {
        let angle = std::f64::consts::TAU * f64::from(k) / f64::from(CORNERS);
        Point::new(centre.x + across * angle.cos(), centre.y + up * angle.sin())
    };
    (0..CORNERS).map(corner).collect()
}

/// Words of one view that keep clear of each other.
pub(super) struct Labels {
    within: Rectangle,
    taken: Vec<Rectangle>,
}

/// Longest label, mm.
const LONGEST: f64 = 96.0;

impl Labels {
    pub const fn new(within: Rectangle) -> Self {
        Self { within, taken: Vec::new() }
    }

    /// Keeps the surroundings of a line free of words, in pieces.
    pub fn keep_along(&mut self, view: &View, points: &[Point], air: f64) {
        for two in points.windows(2) {
            let [a, b] = two else { continue };
            let (a, b) = (view.on_paper(*a), view.on_paper(*b));
            let pieces = ((b.x - a.x).abs().max((b.y - a.y).abs()) / 6.0).ceil().clamp(1.0, 200.0);
            let mut k = 0.0;
            while k < pieces {
                let at = |s: f64| Point::new(a.x + (b.x - a.x) * s, a.y + (b.y - a.y) * s);
                let (p, q) = (at(k / pieces), at((k + 1.0) / pieces));
                let bottom = p.y.min(q.y) - air;
                let height = (p.y - q.y).abs() + 2.0 * air;
                self.keep(Rectangle::new(p.x.min(q.x), bottom, (q.x - p.x).abs(), height));
                k += 1.0;
            }
        }
    }

    /// Keeps a box free of words.
    pub fn keep(&mut self, taken: Rectangle) {
        self.taken.push(taken);
    }

    fn is_free(&self, one: &Rectangle) -> bool {
        let inside = one.left() >= self.within.left()
            && one.right() <= self.within.right()
            && one.bottom() >= self.within.bottom()
            && one.top() <= self.within.top();
        inside && !self.taken.iter().any(|t| meet(t, one))
    }

    /// Writes words near a real point of a view: first on the side asked for, then further away with a line to the point.
    /// Long words are shortened: they stand in full in a list. Gives whether there was room.
    pub fn near(&mut self, view: &mut View, at: Point, words: &str, below: bool) -> bool {
        let paper = view.on_paper(at);
        let words = shorten(words, SMALL, LONGEST);
        let width = width_mm(&words, SMALL, false);
        let sides = if below { [-1.0, 1.0] } else { [1.0, -1.0] };
        for step in 0..26_u32 {
            for side in sides {
                let rise = side * (3.2 + f64::from(step) * 2.6);
                for shift in [0.0, 0.5, -0.5, 0.75, -0.75] {
                    let centre = Point::new(paper.x + shift * (width + 3.0), paper.y + rise);
                    let words_at = words_box(centre, &words, SMALL, Anchor::Middle, false);
                    let room = Rectangle::new(
                        words_at.left() - AIR.0,
                        words_at.bottom() - AIR.1,
                        words_at.width + 2.0 * AIR.0,
                        words_at.height + 2.0 * AIR.1,
                    );
                    if !self.is_free(&room) {
                        continue;
                    }
                    self.taken.push(room);
                    let foot = if side > 0.0 { room.bottom() } else { room.top() };
                    let foot_x = paper.x.clamp(room.left(), room.right());
                    let foot = real(view, Point::new(foot_x, foot));
                    view.marks.push(Mark::line(Layer::Dimension, at, foot));
                    let place = real(view, centre);
                    let text = Mark::text(Layer::Text, place, words, SMALL, Anchor::Middle);
                    view.marks.push(text.on_patch());
                    return true;
                }
            }
        }
        false
    }
}

/// Puts words last, so that no line crosses them.
pub(super) fn words_last(view: &mut View) {
    view.marks.sort_by_key(|m| matches!(m.shape, Shape::Text(_)));
}

/// A table that was drawn from the top of a box.
pub(super) struct Table {
    pub marks: Vec<Mark>,
    pub height: f64,
    /// Rows that found room.
    pub drawn: usize,
}

/// Rows with wrapped cells below a heading row; columns by shares of the width.
pub(super) fn table(area: Rectangle, shares: &[f64], head: &[&str], rows: &[Vec<String>]) -> Table {
    let mut marks = Vec::new();
    let mut top = area.top();
    let mut drawn = 0;
    let rule =
        |y: f64| Mark::line(Layer::Frame, Point::new(area.left(), y), Point::new(area.right(), y));
    marks.push(rule(top));
    let head: Vec<String> = head.iter().map(|h| (*h).to_owned()).collect();
    for (index, row) in std::iter::once(&head).chain(rows).enumerate() {
        let bold = index == 0;
        let cells: Vec<Vec<String>> = row
            .iter()
            .zip(shares)
            .map(|(cell, share)| wrap_as(cell, SMALL, (area.width * share - 2.4).max(4.0), bold))
            .collect();
        let lines = cells.iter().map(Vec::len).max().unwrap_or(1).max(1);
        #[expect(clippy::cast_precision_loss, reason = "lines of a cell are few")]
        let height = (lines as f64 - 1.0) * SMALL * LINE_FEED + SMALL + 2.4;
        if top - height < area.bottom() {
            break;
        }
        let mut left = area.left();
        for (cell, share) in cells.iter().zip(shares) {
            let mut y = top - 1.2;
            for line in cell {
                let at = Point::new(left + 1.2, y);
                let mark = Mark::text(Layer::Text, at, line.clone(), SMALL, Anchor::TopLeft);
                marks.push(if bold { mark.bold() } else { mark });
                y -= SMALL * LINE_FEED;
            }
            left += area.width * share;
        }
        top -= height;
        marks.push(rule(top));
        drawn = index;
    }
    Table { marks, height: area.top() - top, drawn }
}

/// A heading with notes below, from the top of a box; gives marks, height, and how many notes found room.
pub(super) fn notes(area: Rectangle, heading: &str, list: &[String]) -> Table {
    let mut marks = Vec::new();
    let at = Point::new(area.left(), area.top());
    marks.push(Mark::text(Layer::Text, at, heading, HEADING, Anchor::TopLeft).bold());
    let mut top = area.top() - HEADING - 2.0;
    let mut drawn = 0;
    for (i, note) in list.iter().enumerate() {
        let lines = wrap_as(note, SMALL, area.width - 5.0, false);
        #[expect(clippy::cast_precision_loss, reason = "lines of a note are few")]
        let height = (lines.len() as f64) * SMALL * LINE_FEED + 0.6;
        if top - height < area.bottom() {
            break;
        }
        let number = format!("{}", i + 1);
        let at = Point::new(area.left(), top);
        marks.push(Mark::text(Layer::Text, at, number, SMALL, Anchor::TopLeft));
        for line in lines {
            let at = Point::new(area.left() + 5.0, top);
            marks.push(Mark::text(Layer::Text, at, line, SMALL, Anchor::TopLeft));
            top -= SMALL * LINE_FEED;
        }
        top -= 0.6;
        drawn = i + 1;
    }
    Table { marks, height: area.top() - top, drawn }
}

/// Sheets with the rest of a list, as many as it takes.
pub(super) fn list_sheets(
    subject: &Subject<'_>,
    title: &str,
    shares: &[f64],
    head: &[&str],
    mut rows: &[Vec<String>],
) -> Vec<Draft> {
    let area = free(subject);
    let mut drafts = Vec::new();
    while !rows.is_empty() {
        let mut draft = Draft::new(title, "none");
        draft.heading(Point::new(area.left(), area.top()), title);
        let below = area.cut_top(6.0).1;
        let made = table(below, shares, head, rows);
        draft.marks.extend(made.marks);
        drafts.push(draft);
        // A row taller than a sheet cannot be: texts of the file are limited; stop rather than hang.
        if made.drawn == 0 {
            break;
        }
        rows = rows.get(made.drawn..).unwrap_or(&[]);
    }
    drafts
}

/// Sheets with notes that found no room.
pub(super) fn note_sheets(subject: &Subject<'_>, title: &str, left: &[String]) -> Vec<Draft> {
    let rows: Vec<Vec<String>> = left.iter().map(|n| vec![n.clone()]).collect();
    list_sheets(subject, title, &[1.0], &["Notes, continued"], &rows)
}

/// How an entry of a legend looks.
#[derive(Clone, Copy)]
pub(super) enum Sample {
    Line(Layer),
    Area(Layer, Pattern),
}

/// Entries in columns from the top of a box; gives the marks and the height used.
pub(super) fn legend(
    area: Rectangle,
    columns: u32,
    entries: &[(Sample, &str)],
) -> (Vec<Mark>, f64) {
    let mut marks = Vec::new();
    let at = Point::new(area.left(), area.top());
    marks.push(Mark::text(Layer::Text, at, "Legend", HEADING, Anchor::TopLeft).bold());
    let wide = area.width / f64::from(columns);
    let (mut column, mut top, mut lowest) = (0, area.top() - HEADING - 2.2, area.top());
    for (sample, words) in entries {
        let left = area.left() + f64::from(column) * wide;
        let middle = top - SMALL / 2.0;
        match sample {
            Sample::Line(layer) => marks.push(Mark::line(
                *layer,
                Point::new(left, middle),
                Point::new(left + 10.0, middle),
            )),
            Sample::Area(layer, pattern) => {
                let cell = Rectangle::new(left, middle - 1.5, 10.0, 3.0);
                marks.push(Mark::area(*layer, cell.corners(), *pattern));
                marks.push(Mark::rectangle(*layer, cell));
            }
        }
        let words = shorten(words, SMALL, wide - 14.0);
        let at = Point::new(left + 12.0, middle);
        marks.push(Mark::text(Layer::Text, at, words, SMALL, Anchor::MiddleLeft));
        lowest = f64::min(lowest, middle - 1.6);
        column += 1;
        if column == columns {
            column = 0;
            top -= 4.2;
        }
    }
    (marks, area.top() - lowest)
}

/// Small words cut to a width; they stand in full in a list.
pub(super) fn shortened(words: &str, width: f64) -> String {
    shorten(words, SMALL, width.max(0.0))
}

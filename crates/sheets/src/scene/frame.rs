//! Border and title block of a sheet.

use project::Technique;
use quantity::System;

use super::text::{LINE_FEED, shorten_as, wrap_at_most};
use super::{Anchor, Layer, Mark, Point, Rectangle, Sheet};
use crate::Subject;

/// Sizes of paper (ISO 216).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Paper {
    /// 210 × 297 mm.
    A4Portrait,
    /// 297 × 210 mm.
    A4,
    /// 420 × 297 mm.
    A3,
    /// 594 × 420 mm.
    A2,
    /// 841 × 594 mm.
    A1,
    /// 1189 × 841 mm.
    A0,
}

impl Paper {
    /// All, from small to large.
    pub const ALL: [Paper; 6] =
        [Paper::A4Portrait, Paper::A4, Paper::A3, Paper::A2, Paper::A1, Paper::A0];

    /// Width and height, mm.
    #[must_use]
    pub const fn size(self) -> (f64, f64) {
        match self {
            Paper::A4Portrait => (210.0, 297.0),
            Paper::A4 => (297.0, 210.0),
            Paper::A3 => (420.0, 297.0),
            Paper::A2 => (594.0, 420.0),
            Paper::A1 => (841.0, 594.0),
            Paper::A0 => (1189.0, 841.0),
        }
    }

    /// Its name: `A3`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Paper::A4Portrait | Paper::A4 => "A4",
            Paper::A3 => "A3",
            Paper::A2 => "A2",
            Paper::A1 => "A1",
            Paper::A0 => "A0",
        }
    }

    /// How much larger letters and boxes of the title block are than on A4 and A3.
    // Judgement: a plan of A1 is read from further away, a strip of 27 mm would look lost on it.
    const fn growth(self) -> f64 {
        match self {
            Paper::A4Portrait | Paper::A4 | Paper::A3 => 1.0,
            Paper::A2 => 1.15,
            Paper::A1 => 1.35,
            Paper::A0 => 1.6,
        }
    }
}

/// Margin of the border on the side where sheets are bound, mm (ISO 5457).
const BOUND: f64 = 20.0;
/// Margin of the border on the other sides, mm (ISO 5457).
const MARGIN: f64 = 10.0;
/// Air between border or title block and the drawing, mm.
const AIR: f64 = 4.0;

/// What the last line of every title block says.
pub const CAUTION: &str =
    "Checked by an aid to a qualified engineer; local codes and the authority decide.";

/// Stands where nothing was given.
const NOT_GIVEN: &str = "—";

/// A box of the title block.
struct Cell {
    rectangle: Rectangle,
    growth: f64,
}

impl Cell {
    const INSET: f64 = 1.6;
    const CAPTION: f64 = 1.4;

    fn caption(&self, words: &str, marks: &mut Vec<Mark>) -> f64 {
        let height = Self::CAPTION * self.growth;
        let top = self.rectangle.top() - Self::INSET * self.growth;
        marks.push(self.words(words, top, height));
        top - height - 1.5 * self.growth
    }

    fn words(&self, words: &str, top: f64, height: f64) -> Mark {
        let at = Point::new(self.rectangle.left() + Self::INSET * self.growth, top);
        Mark::text(Layer::Text, at, words, height, Anchor::TopLeft)
    }

    const fn room(&self) -> f64 {
        self.rectangle.width - 2.0 * Self::INSET * self.growth
    }

    /// Writes at most `most` lines below `top`; gives the top of the next.
    fn lines(
        &self,
        words: &str,
        top: f64,
        style: (f64, bool),
        most: usize,
        marks: &mut Vec<Mark>,
    ) -> f64 {
        let (height, bold) = (style.0 * self.growth, style.1);
        let mut top = top;
        for line in wrap_at_most(words, height, self.room(), bold, most) {
            let mark = self.words(&line, top, height);
            marks.push(if bold { mark.bold() } else { mark });
            top -= height * LINE_FEED;
        }
        top
    }

    /// A caption with one line of words below.
    fn field(&self, caption: &str, words: &str, marks: &mut Vec<Mark>) {
        let top = self.caption(caption, marks);
        let height = 2.0 * self.growth;
        marks.push(self.words(&shorten_as(words, height, self.room(), false), top, height));
    }
}

/// A sheet with border and title block, and the rectangle that is free for the drawing, mm of paper.
///
/// `title` is what the sheet shows, `number` its number and the count of sheets, `scale` the words on its scale.
#[must_use]
pub fn framed(
    subject: &Subject<'_>,
    title: &str,
    number: (usize, usize),
    paper: Paper,
    scale: &str,
) -> (Sheet, Rectangle) {
    let (width, height) = paper.size();
    let border = Rectangle::new(BOUND, MARGIN, width - BOUND - MARGIN, height - 2.0 * MARGIN);
    let mut marks = Vec::new();
    let block = title_block(subject, title, number, paper, scale, border, &mut marks);
    marks.push(Mark::rectangle(Layer::Frame, border));
    marks.extend(centring(width, height, border));
    let (_, free) = border.cut_bottom(block);
    let name = super::text::clean(subject.design.name());
    let title = super::text::clean(title);
    let sheet = Sheet {
        description: format!("{title} of {name}, sheet {} of {}, {scale}.", number.0, number.1),
        title,
        width,
        height,
        views: Vec::new(),
        marks,
    };
    (sheet, free.inset(AIR))
}

/// Short strokes from the edges of the paper to the middle of the border's sides, for cameras and copiers.
fn centring(width: f64, height: f64, border: Rectangle) -> [Mark; 4] {
    let stroke = |from: (f64, f64), to: (f64, f64)| {
        Mark::line(Layer::Frame, Point::new(from.0, from.1), Point::new(to.0, to.1))
    };
    let (x, y) = (width / 2.0, height / 2.0);
    [
        stroke((x, MARGIN - 5.0), (x, border.bottom())),
        stroke((x, border.top()), (x, height - MARGIN + 5.0)),
        stroke((BOUND - 5.0, y), (border.left(), y)),
        stroke((border.right(), y), (width - MARGIN + 5.0, y)),
    ]
}

/// Draws the title block along the lower side of the border; gives its height.
fn title_block(
    subject: &Subject<'_>,
    title: &str,
    number: (usize, usize),
    paper: Paper,
    scale: &str,
    border: Rectangle,
    marks: &mut Vec<Mark>,
) -> f64 {
    let growth = paper.growth();
    let (caution, row) = (4.6 * growth, 11.0 * growth);
    let rows = if paper == Paper::A4Portrait { 4.0 } else { 2.0 };
    let block = border.cut_bottom(caution + rows * row).0;
    let (foot, upper) = block.cut_bottom(caution);
    let rule = |a: Point, b: Point| Mark::line(Layer::Frame, a, b);
    marks.push(rule(Point::new(block.left(), block.top()), Point::new(block.right(), block.top())));
    marks.push(rule(Point::new(foot.left(), foot.top()), Point::new(foot.right(), foot.top())));

    // Two boxes for words of any length, then fields two high.
    let (tall, fields) = if paper == Paper::A4Portrait {
        let (above, below) = upper.cut_top(2.0 * row);
        let edge = above.bottom();
        marks.push(rule(Point::new(above.left(), edge), Point::new(above.right(), edge)));
        (above, below)
    } else {
        let fields = 118.0 * growth;
        upper.cut_left(upper.width - fields)
    };
    let (name, shows) = tall.cut_left(tall.width * 0.58);
    let widths = [0.4, 0.32, 0.28];
    let columns = widths.iter().scan(fields.left(), |left, share| {
        let column = Rectangle::new(*left, fields.bottom(), fields.width * share, fields.height);
        *left += column.width;
        Some(column)
    });
    let columns: Vec<Rectangle> = columns.collect();
    let mut upright = |edge: f64, of: Rectangle| {
        marks.push(rule(Point::new(edge, of.bottom()), Point::new(edge, of.top())));
    };
    upright(shows.left(), tall);
    for column in &columns {
        if column.left() > border.left() {
            upright(column.left(), fields);
        }
    }
    let half = fields.bottom() + row;
    marks.push(rule(Point::new(fields.left(), half), Point::new(fields.right(), half)));

    words_of(
        subject,
        title,
        &Cell { rectangle: name, growth },
        &Cell { rectangle: shows, growth },
        marks,
    );
    for (column, [upper, lower]) in columns.iter().zip(fields_of(subject, number, paper, scale)) {
        let (above, below) = column.cut_top(row);
        Cell { rectangle: above, growth }.field(upper.0, &upper.1, marks);
        Cell { rectangle: below, growth }.field(lower.0, &lower.1, marks);
    }
    foot_of(subject, &Cell { rectangle: foot, growth }, marks);
    block.height
}

/// Name and note of the design, title and technique.
fn words_of(subject: &Subject<'_>, title: &str, name: &Cell, shows: &Cell, marks: &mut Vec<Mark>) {
    let top = name.caption("Design", marks);
    let top = name.lines(subject.design.name(), top, (2.8, true), 2, marks);
    if let Some(note) = subject.design.note() {
        name.lines(note, top, (1.6, false), 2, marks);
    }
    let technique = match subject.design.technique() {
        Technique::Drilling => "Directional drilling, ductile iron string pulled in",
        Technique::Bursting => "Pipe bursting, ductile iron string pulled in",
    };
    let top = shows.caption("Drawing", marks);
    let top = shows.lines(title, top, (2.5, true), 2, marks);
    shows.lines(technique, top, (1.6, false), 2, marks);
}

/// Captions and words of the fields, by columns.
fn fields_of(
    subject: &Subject<'_>,
    number: (usize, usize),
    paper: Paper,
    scale: &str,
) -> [[(&'static str, String); 2]; 3] {
    let unit = match subject.system {
        System::Metric => "m",
        System::Customary => "ft",
    };
    let issue = &subject.issue;
    let or_dash = |given: Option<&String>| given.map_or_else(|| NOT_GIVEN.to_owned(), Clone::clone);
    let date = issue.date.map_or_else(|| NOT_GIVEN.to_owned(), |date| date.to_string());
    [
        [
            ("Scale", format!("{scale} on {}", paper.name())),
            ("Levels", format!("{unit} above datum of the design")),
        ],
        [("Author", or_dash(issue.author.as_ref())), ("Date", date)],
        [
            ("Sheet", format!("{} of {}", number.0, number.1)),
            ("Revision", or_dash(issue.revision.as_ref())),
        ],
    ]
}

/// Caution, file and program.
fn foot_of(subject: &Subject<'_>, foot: &Cell, marks: &mut Vec<Mark>) {
    let height = 1.5 * foot.growth;
    let middle = foot.rectangle.centre().y;
    let inset = Cell::INSET * foot.growth;
    let left = Point::new(foot.rectangle.left() + inset, middle);
    let right = Point::new(foot.rectangle.right() - inset, middle);
    marks.push(Mark::text(Layer::Text, left, CAUTION, height, Anchor::MiddleLeft));
    let program = format!("underhaul {}", subject.assessment.version);
    let taken = super::text::width_mm(CAUTION, height, false);
    let room =
        foot.room() - taken - super::text::width_mm(&program, height, false) - 8.0 * foot.growth;
    let file = super::text::shorten(&subject.file, height, room.max(0.0));
    let words = format!("{file}  ·  {program}");
    marks.push(Mark::text(Layer::Text, right, words, height, Anchor::MiddleRight));
}

//! The long section of a drilled crossing: ground, strata, water, obstacles and the bore, with a band of figures.

use project::Project;

pub(super) use self::borings::offset_words;
use self::extent::{Levels, exaggeration};
use super::band;
use super::canvas::{Canvas, SMALL};
use super::key::{self, Entry};
use super::pages::{Page, pages};
use super::reader::Reader;
use crate::Subject;
use crate::scene::frame::{Paper, framed};
use crate::scene::scale::{scale_bar, scale_words};
use crate::scene::text::wrap;
use crate::scene::{Anchor, Drawing, Layer, Mark, Point, Rectangle, Sheet, View};

mod bore;
mod borings;
mod extent;
mod obstacles;
mod strata;
mod surroundings;

/// Width of the captions of the band and the levels, left of the view, mm.
const CAPTIONS: f64 = 36.0;
/// Height above ground and water for names of obstacles and ends, mm.
const HEADROOM: f64 = 31.0;

/// Width beside key and notes that the scale bar takes, mm.
const BAR: f64 = 84.0;

/// What all parts of one sheet need.
pub(super) struct Section<'a> {
    pub(super) subject: &'a Subject<'a>,
    pub(super) project: &'a Project,
    pub(super) reader: Reader,
    pub(super) page: Page,
    pub(super) canvas: Canvas,
    /// What the key explains.
    pub(super) key: Vec<Entry>,
    /// Sentences below the key.
    pub(super) notes: Vec<String>,
}

/// The long section.
pub(super) fn drawing(subject: &Subject<'_>, project: &Project) -> Drawing {
    let reader = Reader { system: subject.system };
    let (_, free) = framed(subject, "Long section", (1, 1), Paper::A3, "1:1");
    let width = free.width - CAPTIONS;
    let pages = pages(project.line.run().si(), width, reader);
    let sheets = pages.into_iter().map(|page| sheet(subject, project, page, reader)).collect();
    Drawing { id: "long-section".to_owned(), title: "Long section".to_owned(), sheets }
}

/// Title of a sheet: what it is, and which part of the line it shows.
pub(super) fn title_of(what: &str, page: &Page, reader: Reader) -> String {
    if page.number.1 == 1 {
        what.to_owned()
    } else if page.overview {
        format!("{what}, overview")
    } else {
        format!("{what}, chainage {} to {}", reader.place(page.from), reader.place(page.to))
    }
}

fn sheet(subject: &Subject<'_>, project: &Project, page: Page, reader: Reader) -> Sheet {
    // The key is known after drawing; a first pass measures it.
    let (_, free) = framed(subject, "", page.number, Paper::A3, "");
    let first = painted(subject, project, page, reader, free, 12.0);
    let below = foot_height(&first, free.width);
    let section = painted(subject, project, page, reader, free, below);
    let scale = scale_words(section.canvas.view.scale_across, section.canvas.view.scale_up);
    let title = title_of("Long section", &page, reader);
    let (mut sheet, free) = framed(subject, &title, page.number, Paper::A3, &scale);
    let (foot, above) = free.cut_bottom(below);
    let (band_row, _) = above.cut_bottom(band::HEIGHT);
    let (_, band_row) = band_row.cut_left(CAPTIONS);
    let band = band::marks(project, &page, &section.canvas.view, band_row, CAPTIONS, reader);
    sheet.marks.extend(band);
    sheet.marks.extend(level_scale(&section));
    sheet.marks.extend(beside(&section, free, &scale));
    sheet.marks.extend(foot_marks(&section, foot));
    sheet.marks.push(Mark::rectangle(Layer::Frame, section.canvas.frame()));
    sheet.description = description(&section, &sheet.description);
    sheet.views.push(section.canvas.view);
    sheet
}

/// Height of key and notes, mm.
fn foot_height(section: &Section<'_>, width: f64) -> f64 {
    let width = width - BAR;
    let lines: usize = section.notes.iter().map(|n| wrap(n, SMALL, width).len()).sum();
    3.0 + key::height(&section.key, width) + f64::from(u32::try_from(lines).unwrap_or(0)) * 3.4
}

fn painted<'a>(
    subject: &'a Subject<'a>,
    project: &'a Project,
    page: Page,
    reader: Reader,
    free: Rectangle,
    below: f64,
) -> Section<'a> {
    let (_, above) = free.cut_bottom(below + band::HEIGHT);
    let (_, frame) = above.cut_left(CAPTIONS);
    let (levels, mut page) = (Levels::of(project, &page), page);
    let room = frame.height - HEADROOM - 6.0;
    // Very deep lines do not fit at the scale of their length.
    while levels.height() * 1000.0 / page.scale > room {
        page.scale = crate::scene::scale::standard_scale(page.scale * 1.01);
    }
    let up = exaggeration(project, &levels, page.scale, room);
    let mut view = View::new("long section", frame, Point::default(), page.scale);
    view.scale_up = page.scale / up;
    let length = page.to - page.from;
    let spare = view.across(frame.width) - length;
    // What is left of the height goes half above and half below.
    let slack = (view.up(room) - levels.height()).max(0.0) / 2.0;
    view.origin = Point::new(page.from - spare / 2.0, levels.low - slack - view.up(6.0));
    let mut section = Section {
        subject,
        project,
        reader,
        page,
        canvas: Canvas::new(view),
        key: Vec::new(),
        notes: Vec::new(),
    };
    strata::draw(&mut section);
    surroundings::grid(&mut section);
    surroundings::water(&mut section);
    surroundings::ground(&mut section);
    let names = obstacles::shapes(&mut section);
    borings::draw(&mut section);
    bore::draw(&mut section);
    surroundings::zones(&mut section);
    surroundings::match_lines(&mut section);
    // Words come last, the most needed first.
    bore::labels(&mut section);
    obstacles::labels(&mut section, names);
    borings::labels(&mut section);
    surroundings::labels(&mut section);
    strata::labels(&mut section);
    section
}

/// Levels to the left of the view.
fn level_scale(section: &Section<'_>) -> Vec<Mark> {
    let (view, reader) = (&section.canvas.view, section.reader);
    let step = surroundings::level_step(section);
    let mut marks: Vec<Mark> = surroundings::grid_levels(section)
        .into_iter()
        .filter_map(|level| {
            let y = view.on_paper(Point::new(view.origin.x, level)).y;
            let at = Point::new(view.frame.left() - 1.4, y);
            let inside = y > view.frame.bottom() + 1.0 && y < view.frame.top() - 8.0;
            let words = reader.round(level, step);
            inside.then(|| Mark::text(Layer::Text, at, words, SMALL, Anchor::MiddleRight))
        })
        .collect();
    let at = Point::new(view.frame.left() - 1.4, view.frame.top() - 0.5);
    let words = format!("level, {}", reader.unit().symbol());
    marks.push(Mark::text(Layer::Text, at, words, SMALL, Anchor::TopRight));
    marks
}

/// Scales and scale bar, left of the view.
fn beside(section: &Section<'_>, free: Rectangle, scale: &str) -> Vec<Mark> {
    let view = &section.canvas.view;
    let times = view.scale_across / view.scale_up;
    let mut y = view.frame.top() - 8.0;
    let mut marks = Vec::new();
    let mut lines = vec!["Scale".to_owned()];
    lines.extend(scale.split(", ").map(str::to_owned));
    lines.push(if times > 1.01 {
        format!("heights {} times", quantity::significant(times, 3))
    } else {
        "heights true".to_owned()
    });
    for (i, words) in lines.into_iter().enumerate() {
        let at = Point::new(free.left(), y);
        let mark = Mark::text(Layer::Text, at, words, SMALL, Anchor::TopLeft);
        marks.push(if i == 0 { mark.bold() } else { mark });
        y -= 3.6;
    }
    marks
}

fn foot_marks(section: &Section<'_>, foot: Rectangle) -> Vec<Mark> {
    let within = Rectangle::new(foot.left(), foot.bottom(), foot.width - BAR, foot.height - 3.0);
    let mut marks = key::marks(&section.key, within);
    let corner = Point::new(within.right() + 8.0, foot.bottom() + 1.0);
    let across = section.canvas.view.scale_across;
    marks.extend(scale_bar(corner, across, BAR - 20.0, section.reader.system).0);
    let mut y = within.top() - key::height(&section.key, within.width);
    for note in &section.notes {
        for line in wrap(note, SMALL, within.width) {
            let at = Point::new(within.left(), y);
            marks.push(Mark::text(Layer::Text, at, line, SMALL, Anchor::TopLeft));
            y -= 3.4;
        }
    }
    marks
}

fn description(section: &Section<'_>, before: &str) -> String {
    let (line, reader) = (&section.project.line, section.reader);
    let lowest = line.lowest();
    format!(
        "{before} The bore of {} runs over a chainage of {}; its axis is lowest at chainage {} on level {}. {} obstacles, {} borings.",
        reader.length(section.project.bore.final_diameter.si()),
        reader.place(line.run().si()),
        reader.place(lowest.chainage.si()),
        reader.place(lowest.level.si()),
        section.project.site.obstacles.len(),
        section.project.strata.as_ref().map_or(0, |g| g.borings().len()),
    )
}

//! The band of figures below a long section, on the same chainages.

use project::Project;
use std::f64::consts::FRAC_PI_2;

use super::canvas::SMALL;
use super::pages::Page;
use super::parts::{Stretch, md_at, plan_stretches, profile_stretches, tangent_points};
use super::reader::{Reader, degrees, fixed, multiples};
use crate::scene::text::width_mm;
use crate::scene::{Anchor, Layer, Mark, Point, Rectangle, View};

/// Height of the rows of figures, which stand upright, mm.
const FIGURES: f64 = 10.4;
/// Height of the rows of stretches, mm.
const STRETCHES: f64 = 5.0;
/// Height in which lines lead from the chainages to their columns, mm.
const LEAD: f64 = 4.0;
/// Height of the whole band, mm.
pub(super) const HEIGHT: f64 = LEAD + 7.0 * FIGURES + 2.0 * STRETCHES;
/// Least distance of two columns, mm.
const COLUMN: f64 = 3.4;
/// Distance of regular columns that is looked for, mm.
const REGULAR: f64 = 11.0;

/// A column: its chainage, and where its figures stand, mm of paper.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Column {
    md: f64,
    chainage: f64,
    x: f64,
    /// An end, a tangent point or the lowest place.
    mark: bool,
}

/// Marks of the band in a rectangle of paper; `captions` is the width to the left of the view.
pub(super) fn marks(
    project: &Project,
    page: &Page,
    view: &View,
    band: Rectangle,
    captions: f64,
    reader: Reader,
) -> Vec<Mark> {
    let mut marks = Vec::new();
    let unit = reader.unit().symbol();
    let rows = [
        format!("Chainage, {unit}"),
        format!("Measured distance, {unit}"),
        format!("Ground level, {unit}"),
        format!("Axis level, {unit}"),
        format!("Cover over crown, {unit}"),
        "Inclination, °".to_owned(),
        "Inclination, %".to_owned(),
    ];
    let left = band.left() - captions;
    let rule = |y: f64| Mark::line(Layer::Frame, Point::new(left, y), Point::new(band.right(), y));
    let caption = |words: &str, middle: f64| {
        let at = Point::new(left + 1.4, middle);
        Mark::text(Layer::Text, at, words, SMALL, Anchor::MiddleLeft)
    };
    let mut y = band.top() - LEAD;
    marks.push(rule(y));
    for words in &rows {
        marks.push(caption(words, y - FIGURES / 2.0));
        y -= FIGURES;
        marks.push(rule(y));
    }
    let stretches =
        [("Profile", profile_stretches(&project.line)), ("Plan", plan_stretches(&project.line))];
    for (words, list) in &stretches {
        marks.push(caption(words, y - STRETCHES / 2.0));
        let row = Rectangle::new(band.left(), y - STRETCHES, band.width, STRETCHES);
        stretch_row(list, page, view, row, *words == "Plan", reader, &mut marks);
        y -= STRETCHES;
        marks.push(rule(y));
    }
    for x in [left, band.left(), band.right()] {
        let top = Point::new(x, band.top() - LEAD);
        marks.push(Mark::line(Layer::Frame, top, Point::new(x, y)));
    }
    for column in columns(project, page, view, band, reader) {
        let x = view.on_paper(Point::new(column.chainage, view.origin.y)).x;
        let layer = if column.mark { Layer::Dimension } else { Layer::Grid };
        let lead = [(x, band.top()), (x, band.top() - 0.8), (column.x, band.top() - LEAD)];
        marks.push(Mark::path(layer, lead.map(|(x, y)| Point::new(x, y)).to_vec()));
        for (i, words) in figures(project, &column, reader).into_iter().enumerate() {
            let row = f64::from(u32::try_from(i).unwrap_or(0));
            let middle = band.top() - LEAD - (row + 0.5) * FIGURES;
            // Turned by a quarter the anchor of half height lies on the column.
            let at = Point::new(column.x, middle);
            let mark = Mark::text(Layer::Text, at, words, SMALL, Anchor::Middle).turned(FRAC_PI_2);
            marks.push(if i == 0 { mark.bold() } else { mark });
        }
    }
    marks
}

fn figures(project: &Project, column: &Column, reader: Reader) -> [String; 7] {
    let dash = || "–".to_owned();
    let station = project.line.sample(column.md);
    let ground = &project.site.ground;
    let level = ground.level_at(station.chainage).ok();
    let radius = project.bore.final_diameter / 2.0;
    let cover = ground::cover_at(&project.line, ground, radius, station.md).ok();
    let inclination = station.inclination.si();
    [
        reader.figure(column.chainage),
        reader.figure(column.md),
        level.map_or_else(dash, |l| reader.figure(l.si())),
        reader.figure(station.level.si()),
        cover.map_or_else(dash, |c| reader.figure(c.vertical.si())),
        degrees(inclination).trim_end_matches('°').to_owned(),
        fixed(inclination.tan() * 100.0, 2),
    ]
}

/// Columns at round chainages and at marked places, no two closer than words allow.
fn columns(
    project: &Project,
    page: &Page,
    view: &View,
    band: Rectangle,
    reader: Reader,
) -> Vec<Column> {
    let line = &project.line;
    let x_of = |chainage: f64| view.on_paper(Point::new(chainage, view.origin.y)).x;
    let column = |md: f64, mark: bool| {
        let chainage = line.sample(md).chainage.si();
        Column { md, chainage, x: x_of(chainage), mark }
    };
    let mut marked = vec![column(0.0, true), column(line.length().si(), true)];
    marked.push(column(line.lowest().md.si(), true));
    let points = tangent_points(line);
    marked.extend(points.iter().map(|p| column(p.md, true)));
    let inside = |c: &Column| c.chainage >= page.from - 1e-6 && c.chainage <= page.to + 1e-6;
    marked.retain(inside);
    marked.sort_by(|a, b| a.md.total_cmp(&b.md));
    marked.dedup_by(|a, b| (a.chainage - b.chainage).abs() < 1e-6);
    // So many marked places that they would push one another off: those are left out that crowd.
    let room = band.width / COLUMN * 0.7;
    if f64::from(u32::try_from(marked.len()).unwrap_or(u32::MAX)) > room {
        let mut last = f64::NEG_INFINITY;
        marked.retain(|c| {
            let keep = c.x - last >= 2.0 * COLUMN;
            last = if keep { c.x } else { last };
            keep
        });
    }
    let step = reader.step(REGULAR * view.scale_across / 1000.0);
    let regular = multiples(page.from, page.to, step)
        .into_iter()
        .map(|chainage| column(md_at(line, chainage), false))
        .filter(|c| marked.iter().all(|m| (m.x - c.x).abs() >= COLUMN));
    let mut all: Vec<Column> = regular.collect();
    all.extend(marked);
    all.sort_by(|a, b| a.md.total_cmp(&b.md));
    spread(&mut all, band);
    all
}

/// Moves columns apart along the paper; those at the edges stay inside.
fn spread(columns: &mut [Column], band: Rectangle) {
    let (low, high) = (band.left() + COLUMN / 2.0, band.right() - COLUMN / 2.0);
    let mut least = low;
    for column in columns.iter_mut() {
        column.x = column.x.max(least);
        least = column.x + COLUMN;
    }
    let mut most = high;
    for column in columns.iter_mut().rev() {
        column.x = column.x.min(most);
        most = column.x - COLUMN;
    }
}

/// A row of stretches with their radii; words that do not fit are shortened or left out, they stand in the drawing.
fn stretch_row(
    list: &[Stretch],
    page: &Page,
    view: &View,
    row: Rectangle,
    plan: bool,
    reader: Reader,
    marks: &mut Vec<Mark>,
) {
    let x_of = |chainage: f64| view.on_paper(Point::new(chainage, view.origin.y)).x;
    for stretch in list {
        let from = stretch.chainage.0.max(page.from);
        let to = stretch.chainage.1.min(page.to);
        if to - from < 1e-9 {
            continue;
        }
        let (a, b) = (x_of(from), x_of(to));
        for x in [a, b] {
            let ends = (Point::new(x, row.top()), Point::new(x, row.bottom()));
            marks.push(Mark::line(Layer::Grid, ends.0, ends.1));
        }
        let side = match (plan, stretch.radius) {
            (true, Some(_)) if stretch.turn > 0.0 => ", right",
            (true, Some(_)) => ", left",
            _ => "",
        };
        let full = format!("{}{side}", stretch.words(reader));
        let words = [full, stretch.brief(reader)]
            .into_iter()
            .find(|words| width_mm(words, SMALL, false) + 1.2 <= b - a);
        if let Some(words) = words {
            let at = Point::new(f64::midpoint(a, b), row.centre().y);
            marks.push(Mark::text(Layer::Text, at, words, SMALL, Anchor::Middle));
        }
    }
}

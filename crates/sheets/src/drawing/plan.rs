//! The plan of a drilled crossing in coordinates, turned so that the line runs from left to right.

use project::Project;

use self::content::Ground;
use super::canvas::{Canvas, SMALL};
use super::key::{self, Entry};
use super::pages::{BESIDE, Page, pages};
use super::parts::{MOST_NUMBERED, entry_in_grid, md_at, md_samples, tangent_points};
use super::reader::Reader;
use super::table;
use crate::Subject;
use crate::scene::frame::{Paper, framed};
use crate::scene::scale::{ratio, scale_bar, standard_scale};
use crate::scene::text::wrap;
use crate::scene::{Anchor, Drawing, Layer, Mark, Point, Rectangle, Sheet, SymbolKind, View};

mod content;
mod surroundings;

/// Height of the room below the view, for coordinates and key, mm.
const BELOW: f64 = 52.0;

/// The plan.
pub(super) fn drawing(subject: &Subject<'_>, project: &Project) -> Drawing {
    let reader = Reader { system: subject.system };
    let (_, free) = framed(subject, "Plan", (1, 1), Paper::A3, "1:1");
    let pages = pages(project.line.run().si(), free.width, reader);
    let sheets = pages.into_iter().map(|page| sheet(subject, project, page, reader)).collect();
    Drawing { id: "plan".to_owned(), title: "Plan".to_owned(), sheets }
}

fn sheet(subject: &Subject<'_>, project: &Project, page: Page, reader: Reader) -> Sheet {
    let (_, free) = framed(subject, "", page.number, Paper::A3, "");
    let (_, frame) = free.cut_bottom(BELOW);
    let view = view_of(project, &page, frame);
    let scale = ratio(view.scale_across);
    let title = super::long_section::title_of("Plan", &page, reader);
    let (mut sheet, _) = framed(subject, &title, page.number, Paper::A3, &scale);
    let mut ground = Ground { project, reader, page, canvas: Canvas::new(view), key: Vec::new() };
    surroundings::north(&mut ground);
    surroundings::draw_borings(&mut ground);
    surroundings::obstacles(&mut ground);
    content::draw(&mut ground);
    content::labels(&mut ground);
    surroundings::labels(&mut ground);
    surroundings::match_lines(&mut ground);
    content::ticks(&mut ground);
    surroundings::grid(&mut ground);
    let Ground { canvas, key, .. } = ground;
    let foot = free.cut_bottom(BELOW - 4.0).0;
    sheet.marks.extend(foot_marks(project, &page, reader, &canvas.view, &key, foot));
    sheet.marks.push(Mark::rectangle(Layer::Frame, frame));
    sheet.description = format!(
        "{} The line runs from left to right; its direction at the entry is {} from grid north.",
        sheet.description,
        super::reader::degrees(project.line.sample(0.0).azimuth.si())
    );
    sheet.views.push(canvas.view);
    sheet
}

/// The view of a stretch, turned so that the chord of the line lies level, at a scale at which the line fits.
fn view_of(project: &Project, page: &Page, frame: Rectangle) -> View {
    let line = &project.line;
    let entry = entry_in_grid(project);
    let place = |md: f64| {
        let p = line.sample(md).position;
        Point::new(entry.x + p.x, entry.y + p.y)
    };
    let (a, b) = (place(md_at(line, page.from)), place(md_at(line, page.to)));
    let turn = -(b.y - a.y).atan2(b.x - a.x);
    let (sin, cos) = turn.sin_cos();
    let turned = |p: Point| Point::new(p.x * cos - p.y * sin, p.x * sin + p.y * cos);
    let (mut low, mut high) = (turned(a), turned(a));
    for md in md_samples(line, page.from, page.to) {
        let p = turned(place(md));
        (low.x, low.y) = (low.x.min(p.x), low.y.min(p.y));
        (high.x, high.y) = (high.x.max(p.x), high.y.max(p.y));
    }
    let across = (high.x - low.x) * 1000.0 / (frame.width - 2.0 * BESIDE);
    // Room for obstacles, their names and the north arrow beside the line.
    let up = (high.y - low.y) * 1000.0 / (frame.height - 90.0);
    let scale = standard_scale(across.max(up)).max(page.scale);
    let mut view = View::new("plan", frame, Point::default(), scale);
    view.turn = turn;
    let middle = Point::new(
        f64::midpoint(low.x, high.x) - view.across(frame.width) / 2.0,
        f64::midpoint(low.y, high.y) - view.up(frame.height) / 2.0,
    );
    view.origin = Point::new(middle.x * cos + middle.y * sin, -middle.x * sin + middle.y * cos);
    view
}

/// Coordinates, key, notes and scale bar below the view.
fn foot_marks(
    project: &Project,
    page: &Page,
    reader: Reader,
    view: &View,
    key: &[Entry],
    foot: Rectangle,
) -> Vec<Mark> {
    let (bar, room) = scale_bar(
        Point::new(foot.left(), foot.bottom() + 0.5),
        view.scale_across,
        50.0,
        reader.system,
    );
    let mut marks = bar;
    let mut x = foot.left();
    let rows = coordinates(project, page, reader);
    // Long tables stand in several columns; what does not fit is in the data files.
    let (head, body) = rows.split_first().map_or((Vec::new(), &[][..]), |(h, b)| (h.clone(), b));
    for part in body.chunks(8).take(3) {
        let mut rows = vec![head.clone()];
        rows.extend_from_slice(part);
        marks.extend(table::marks(&rows, Point::new(x, foot.top())));
        x += table::size(&rows).0 + 6.0;
    }
    let right = Rectangle::new(x, foot.bottom(), (foot.right() - x).max(60.0), foot.height);
    marks.extend(key::marks(key, right));
    let mut y = right.top() - key::height(key, right.width) - 1.0;
    let unit = reader.unit().symbol();
    let origin = project.coordinates.as_ref().map_or_else(
        || format!("Coordinates in {unit} east and north of the entry point"),
        |c| format!("Coordinates in {unit} in the grid EPSG:{}", c.epsg),
    );
    let datum = project.coordinates.as_ref().and_then(|c| c.datum.as_deref());
    let notes = [
        format!("{origin}; levels in {unit} above {}.", datum.unwrap_or("project datum")),
        "Obstacles are drawn across the line at their chainages; their course beside it was not given.".to_owned(),
    ];
    for line in notes.iter().flat_map(|n| wrap(n, SMALL, right.width)) {
        if y - SMALL < room.top().min(right.bottom()) {
            break;
        }
        marks.push(Mark::text(Layer::Text, Point::new(x, y), line, SMALL, Anchor::TopLeft));
        y -= 3.4;
    }
    marks
}

/// Entry, bend points and exit with their coordinates.
fn coordinates(project: &Project, page: &Page, reader: Reader) -> Vec<Vec<String>> {
    let line = &project.line;
    let entry = entry_in_grid(project);
    let unit = reader.unit().symbol();
    let row = |name: &str, md: f64| {
        let station = line.sample(md);
        vec![
            name.to_owned(),
            reader.figure(station.chainage.si()),
            reader.figure(entry.x + station.position.x),
            reader.figure(entry.y + station.position.y),
            reader.figure(station.level.si()),
        ]
    };
    let head = ["Point", "Chainage", "East", "North", "Level"];
    let mut rows = vec![
        head.iter()
            .map(|h| if *h == "Point" { (*h).to_owned() } else { format!("{h}, {unit}") })
            .collect(),
    ];
    rows.push(row("Entry", 0.0));
    let points = tangent_points(line);
    if points.len() <= MOST_NUMBERED {
        let seen = points.iter().filter(|p| p.chainage >= page.from && p.chainage <= page.to);
        rows.extend(seen.take(22).map(|p| row(&p.name, p.md)));
    }
    rows.push(row("Exit", line.length().si()));
    rows
}

/// What the north arrow is called in the key.
const NORTH: (SymbolKind, f64) = (SymbolKind::North, 14.0);

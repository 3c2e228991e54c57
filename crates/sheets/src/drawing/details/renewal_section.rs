//! Long section of a main that is burst.

use ground::GroundLine;
use project::{Design, NeighbourPlace, Renewal};
use quantity::{Length, unit};

use super::kit::{
    self, Draft, Labels, SMALL, Sample, ellipse, finish, free, length, list_sheets, note_sheets,
    real, two_decimals, words_last,
};
use super::renewal_band;
use super::renewal_plan::empty;
use super::street::{
    HEAD, Page, SHARES, SIDE, bend_sign, extent, items, match_lines, pages, pits, rows, sign,
};
use crate::Subject;
use crate::scene::scale::{scale_words, standard_scale};
use crate::scene::{Anchor, Drawing, Layer, Mark, Pattern, Point, Rectangle, SymbolKind, View};

/// Width of the column with the heads of the band, mm.
pub(super) const HEADS: f64 = 40.0;
/// Height of the section, mm.
const SECTION: f64 = 122.0;
/// Room for words above and below what is drawn, mm.
const WORDS: (f64, f64) = (32.0, 24.0);
/// Groundwater further below than this is named and not drawn, m.
// Judgement: deeper water would squeeze the rest of the section.
const DEEP: f64 = 4.0;

/// The long section of the old main; `None` for a drilled crossing.
#[must_use]
pub fn renewal_section(subject: &Subject<'_>) -> Option<Drawing> {
    let Design::Renewal(renewal) = subject.design else { return None };
    Some(subject.for_reader(|subject| draw(subject, renewal)))
}

/// Lowest and highest level that a page must show.
fn levels(renewal: &Renewal, page: &Page) -> (f64, f64) {
    let pipe = &renewal.string.pipe;
    let half = pipe.largest_diameter().unwrap_or(pipe.barrel_diameter()).si() / 2.0;
    let whole = (page.from, page.to);
    let axis = along(&renewal.host.axis, whole, 0.0);
    let ground = along(&renewal.street.ground, whole, 0.0);
    let mut low = axis.iter().map(|p| p.y).fold(f64::INFINITY, f64::min) - half;
    let mut high = axis.iter().chain(&ground).map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
    for n in &renewal.street.neighbours {
        let shown = match n.place {
            NeighbourPlace::Crossing { at } => page.shows(at.si()),
            NeighbourPlace::Beside { from, to, .. } => page.part(from.si(), to.si()).is_some(),
        };
        if shown {
            let r = n.diameter.si() / 2.0;
            low = low.min(n.level.si() - r);
            high = high.max(n.level.si() + r);
        }
    }
    if let Some(water) = renewal.street.groundwater_level.map(Length::si)
        && water > low - DEEP
    {
        low = low.min(water);
        high = high.max(water);
    }
    (low, high.max(low + 0.5))
}

fn draw(subject: &Subject<'_>, renewal: &Renewal) -> Drawing {
    let area = free(subject);
    let (upper, foot) = area.cut_top(SECTION + renewal_band::HEIGHT);
    let (section, band) = upper.cut_top(SECTION);
    let frame = section.cut_left(HEADS).1;
    let all = pages(extent(renewal), frame.width);
    // One scale for all sheets, so that they can be laid side by side; levels follow the ground from sheet to sheet.
    let range = all.iter().map(|p| levels(renewal, p)).map(|(low, high)| high - low);
    let range = range.fold(0.5, f64::max);
    let scale_up = standard_scale(range * 1000.0 / (SECTION - WORDS.0 - WORDS.1));
    let mut notes = Vec::new();
    if let Some(water) = renewal.street.groundwater_level.map(Length::si) {
        if all.iter().any(|p| water < levels(renewal, p).0) {
            let level = length(subject, water, unit::M);
            notes.push(format!(
                "Groundwater stands at {level}, below some or all of what is drawn."
            ));
        }
    } else {
        notes.push("The level of the groundwater is not given.".to_owned());
    }
    if renewal.burst.expander_diameter.is_none() {
        notes.push("Expander not known: no distances to it.".to_owned());
    }
    notes.push("The new main is pulled into the axis of the old one. Forces are those for planning with the head at the chainage; a dash stands where none was computed.".to_owned());
    if !renewal.street.neighbours.is_empty() {
        notes.push(
            "Distances to the expander are the least along the runs, from edge to edge.".to_owned(),
        );
    }
    notes.extend(empty(renewal));
    let entries = [
        (Sample::Line(Layer::Ground), "ground line"),
        (Sample::Line(Layer::Water), "groundwater"),
        (Sample::Line(Layer::Host), "old main; triangle: bend"),
        (Sample::Area(Layer::Pipe, Pattern::Iron), "new main"),
        (Sample::Line(Layer::Site), "pit; service"),
        (Sample::Line(Layer::Obstacle), "neighbour; square: feature"),
    ];
    let table = rows(subject, &items(subject, renewal));
    let mut drafts = Vec::new();
    let mut further = Vec::new();
    for page in all {
        let (low, high) = levels(renewal, &page);
        // What is left of the height goes to both sides.
        let spare = (SECTION - WORDS.0 - WORDS.1 - (high - low) * 1000.0 / scale_up) / 2.0;
        let origin = Point::new(
            (page.from + page.to) / 2.0 - frame.width / 2.0 * page.scale / 1000.0,
            low - (WORDS.1 + spare) * scale_up / 1000.0,
        );
        let mut view = View::new("long section", frame, origin, page.scale);
        view.scale_up = scale_up;
        let left_out = fill(subject, renewal, &page, &mut view);
        let words = scale_words(page.scale, scale_up);
        let title = format!("Long section{}", page.words(subject));
        let mut draft = Draft::new(title.clone(), words);
        draft.heading(Point::new(section.left(), section.top()), &title);
        level_scale(subject, section, &view, &mut draft);
        renewal_band::draw(subject, renewal, &page, &view, band, &mut draft);
        draft.views.push(view);
        let foot = foot.cut_top(3.0).1;
        let (one, two) = foot.cut_left(foot.width * 0.55);
        let one = Rectangle::new(one.left(), one.bottom(), one.width - 5.0, one.height);
        let (legend, height) = kit::legend(one, 3, &entries);
        draft.marks.extend(legend);
        // The list stands below the first section where all of it fits.
        if page.number.0 == 0 {
            let made = kit::table(one.cut_top(height + 3.0).1, &SHARES, &HEAD, &table);
            if made.drawn == table.len() {
                draft.marks.extend(made.marks);
            } else {
                further.extend(list_sheets(
                    subject,
                    "Long section, list of what is numbered",
                    &SHARES,
                    &HEAD,
                    &table,
                ));
            }
        }
        let mut list = notes.clone();
        if !left_out.is_empty() {
            list.push(format!("Words that found no room on this sheet: {}.", left_out.join("; ")));
        }
        let made = kit::notes(two, "Notes", &list);
        draft.marks.extend(made.marks);
        further.extend(note_sheets(subject, "Notes", list.get(made.drawn..).unwrap_or(&[])));
        drafts.push(draft);
    }
    drafts.extend(further);
    finish(subject, "long-section", "Long section of the old main", drafts)
}

/// The part of a line of levels that a page shows.
fn along(line: &GroundLine, (from, to): (f64, f64), up: f64) -> Vec<Point> {
    let at = |x: f64| Point::new(x, line.level_extended(Length::from_si(x)).si() + up);
    let inside = line.points().map(|(x, _)| x.si()).filter(|x| *x > from && *x < to);
    std::iter::once(from).chain(inside).chain([to]).map(at).collect()
}

/// Everything in the view; gives the words that found no room.
fn fill(subject: &Subject<'_>, renewal: &Renewal, page: &Page, view: &mut View) -> Vec<String> {
    let frame = view.frame;
    let mut labels = Labels::new(frame.inset(1.5));
    labels.keep(Rectangle::new(frame.left(), frame.top() - 6.0, frame.width, 6.0));
    match_lines(subject, page, view, &mut labels);
    let ground = &renewal.street.ground;
    let axis = &renewal.host.axis;
    let whole = (page.from, page.to);
    let pipe = &renewal.string.pipe;
    let half = pipe.barrel_diameter().si() / 2.0;

    let ground_line = along(ground, whole, 0.0);
    labels.keep_along(view, &ground_line, 0.8);
    view.marks.push(Mark::path(Layer::Ground, ground_line));
    if let Some(water) = renewal.street.groundwater_level.map(Length::si)
        && water >= levels(renewal, page).0
    {
        let (a, b) = (Point::new(page.from, water), Point::new(page.to, water));
        view.marks.push(Mark::line(Layer::Water, a, b));
        labels.keep_along(view, &[a, b], 0.6);
        let at = Point::new(page.from + view.across(3.0), water);
        view.marks.push(Mark::symbol(Layer::Water, at, SymbolKind::WaterLevel, 3.0));
    }
    for run in &renewal.runs {
        let (from, to) = run.stretch();
        if let Some(part) = page.part(from.si(), to.si()) {
            let mut ring = along(axis, part, half);
            ring.extend(along(axis, part, -half).into_iter().rev());
            view.marks.push(Mark::area(Layer::Pipe, ring.clone(), Pattern::Iron));
            view.marks.push(Mark::outline(Layer::Pipe, ring));
        }
    }
    for s in &renewal.host.stretches {
        if let Some(part) = page.part(s.from.si(), s.to.si()) {
            let outside = s.inside_diameter.si() / 2.0 + s.wall.si();
            for side in [outside, -outside] {
                view.marks.push(Mark::path(Layer::Host, along(axis, part, side)));
            }
            for x in [part.0, part.1] {
                let z = axis.level_extended(Length::from_si(x)).si();
                let (a, b) = (Point::new(x, z - outside * 1.5), Point::new(x, z + outside * 1.5));
                view.marks.push(Mark::line(Layer::Host, a, b));
            }
        }
    }
    let axis_line = along(
        axis,
        (page.from.max(axis.from().si()), page.to.min(axis.to().si()).max(page.from)),
        0.0,
    );
    labels.keep_along(view, &axis_line, half * 1000.0 / view.scale_up + 0.6);
    view.marks.push(Mark::path(Layer::Axis, axis_line));
    draw_pits(subject, renewal, page, view, &mut labels);

    let lists = items(subject, renewal);
    let [features, bends, services, neighbours] = &lists;
    let level = |x: f64| axis.level_extended(Length::from_si(x)).si();
    let top = |x: f64| ground.level_extended(Length::from_si(x)).si();
    for s in services.iter().filter(|s| page.shows(s.at)) {
        let (a, b) = (Point::new(s.at, level(s.at)), Point::new(s.at, top(s.at)));
        view.marks.push(Mark::line(Layer::Site, a, b));
    }
    for n in &renewal.street.neighbours {
        if let NeighbourPlace::Beside { from, to, .. } = n.place
            && let Some((a, b)) = page.part(from.si(), to.si())
        {
            let air = n.diameter.si() / 2.0 * 1000.0 / view.scale_up + 0.6;
            let ends = [a, b].map(|x| Point::new(x, n.level.si()));
            labels.keep_along(view, &ends, air);
        }
    }
    let mut left_out = Vec::new();
    let mut write = |view: &mut View, at: Point, words: String, below: bool| {
        if !labels.near(view, at, &words, below) {
            left_out.push(words);
        }
    };
    for s in services.iter().filter(|s| page.shows(s.at)) {
        let b = Point::new(s.at, top(s.at));
        write(view, b, s.number.clone(), false);
    }
    for (n, one) in neighbours.iter().zip(&renewal.street.neighbours) {
        let z = one.level.si();
        let r = one.diameter.si() / 2.0;
        let x = match one.place {
            NeighbourPlace::Crossing { at } => {
                if !page.shows(at.si()) {
                    continue;
                }
                let centre = Point::new(at.si(), z);
                view.marks.push(Mark::area(Layer::Obstacle, ellipse(centre, r, r), Pattern::Blank));
                view.marks.push(Mark::outline(Layer::Obstacle, ellipse(centre, r, r)));
                at.si()
            }
            NeighbourPlace::Beside { from, to, .. } => {
                let Some((a, b)) = page.part(from.si(), to.si()) else { continue };
                for side in [r, -r] {
                    let ends = (Point::new(a, z + side), Point::new(b, z + side));
                    view.marks.push(Mark::line(Layer::Obstacle, ends.0, ends.1));
                }
                f64::midpoint(a, b)
            }
        };
        let clear = n.action.split("; ").nth(1).map_or(String::new(), |c| format!("; {c}"));
        let beside = match one.place {
            NeighbourPlace::Crossing { .. } => String::new(),
            NeighbourPlace::Beside { offset, .. } => {
                format!(", {} beside", length(subject, offset.si().abs(), unit::M))
            }
        };
        // The distance comes first: a long name may be cut, it stands in the list.
        let name = kit::shortened(&n.what, 40.0);
        write(view, Point::new(x, z), format!("{} {name}{beside}{clear}", n.number), z < level(x));
    }
    for f in features.iter().filter(|f| page.shows(f.at)) {
        let at = Point::new(f.at, level(f.at));
        sign(view, at, f.action == "dig out" || f.action == "reroute");
        write(view, at, format!("{} {}, {}", f.number, f.what, f.action), true);
    }
    for b in bends.iter().filter(|b| page.shows(b.at)) {
        let at = Point::new(b.at, level(b.at));
        bend_sign(view, at);
        write(view, at, format!("{} {}, {}", b.number, b.what, b.note), true);
    }
    words_last(view);
    left_out
}

/// Pits from the ground to the invert of the new main.
fn draw_pits(
    subject: &Subject<'_>,
    renewal: &Renewal,
    page: &Page,
    view: &mut View,
    labels: &mut Labels,
) {
    let half = renewal.string.pipe.barrel_diameter().si() / 2.0;
    for pit in pits(renewal) {
        let Some((from, to)) = page.part(pit.from - 1e-3, pit.to + 1e-3) else { continue };
        let at = Length::from_si(pit.at);
        let invert = renewal.host.axis.level_extended(at).si() - half;
        let top = |x: f64| renewal.street.ground.level_extended(Length::from_si(x)).si();
        let ring = [(from, top(from)), (from, invert), (to, invert), (to, top(to))];
        let ring = ring.map(|(x, z)| Point::new(x, z)).to_vec();
        view.marks.push(Mark::path(Layer::Site, ring));
        if page.shows(pit.at) {
            let depth = length(subject, top(pit.at) - invert, unit::M);
            let words = format!("{}, {depth} to invert", pit.words);
            let bottom = Point::new(f64::midpoint(from, to), invert);
            labels.near(view, bottom, &words, true);
        }
    }
}

/// Levels at the left of the section.
fn level_scale(subject: &Subject<'_>, section: Rectangle, view: &View, draft: &mut Draft) {
    let unit = unit::M.in_system(subject.system);
    let (low, high) =
        (real(view, view.frame.corner).y, real(view, Point::new(0.0, view.frame.top())).y);
    let step = renewal_band::step(view.up(9.0) / unit.to_si(1.0)) * unit.to_si(1.0);
    let edge = section.left() + HEADS - 1.0;
    let mut k = (low / step).ceil();
    while k * step <= high {
        let y = view.on_paper(Point::new(0.0, k * step)).y;
        let free = y > view.frame.bottom() + 1.5 && y < view.frame.top() - 9.0;
        if free {
            let (a, b) =
                (Point::new(edge - 2.0, y), Point::new(view.frame.right() - SIDE / 2.0, y));
            draft.marks.insert(0, Mark::line(Layer::Grid, a, b));
            let at = Point::new(edge - 3.0, y);
            let words = two_decimals(subject, k * step);
            draft.marks.push(Mark::text(Layer::Text, at, words, SMALL, Anchor::MiddleRight));
        }
        k += 1.0;
    }
    let (a, b) = (Point::new(edge, view.frame.bottom()), Point::new(edge, view.frame.top() - 8.0));
    draft.marks.push(Mark::line(Layer::Frame, a, b));
    let words = format!("Level, {}", unit.symbol());
    let at = Point::new(section.left(), view.frame.bottom() + 2.0);
    draft.marks.push(Mark::text(Layer::Text, at, words, SMALL, Anchor::Left));
}

//! What the drawings of a main that is burst share: sheets along the chainage, pits, names, the plan of the street.

use project::{Assembly, NeighbourPlace, Renewal};
use quantity::unit;

use super::kit::{Labels, length, real, words_last};
use crate::Subject;
use crate::scene::scale::standard_scale;
use crate::scene::{
    Anchor, DimensionKind, Layer, Mark, Pattern, Point, Rectangle, SymbolKind, View,
};

/// Smallest scale of a street.
const SMALLEST: f64 = 500.0;
/// Room at both sides of what a sheet shows, mm.
pub(super) const SIDE: f64 = 12.0;
/// Most sheets along the chainage; a longer main is drawn at a smaller scale.
const MOST_SHEETS: f64 = 24.0;

/// A sheet along the chainage, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Page {
    pub from: f64,
    pub to: f64,
    /// Number from 0, and how many there are.
    pub number: (usize, usize),
    pub scale: f64,
}

impl Page {
    pub fn shows(&self, chainage: f64) -> bool {
        chainage >= self.from - 1e-6 && chainage <= self.to + 1e-6
    }

    /// The part of a stretch that it shows.
    pub fn part(&self, from: f64, to: f64) -> Option<(f64, f64)> {
        let (a, b) = (from.max(self.from), to.min(self.to));
        (b - a > 1e-9).then_some((a, b))
    }

    /// `sheet 2 of 3, chainage 150 m to 300 m`, empty where there is one.
    pub fn words(&self, subject: &Subject<'_>) -> String {
        let m = |si: f64| length(subject, si, unit::M);
        if self.number.1 == 1 {
            String::new()
        } else {
            format!(", chainage {} to {}", m(self.from), m(self.to))
        }
    }
}

/// Sheets for a stretch, on so many mm of paper.
pub(super) fn pages((from, to): (f64, f64), width: f64) -> Vec<Page> {
    let room = width - 2.0 * SIDE;
    let total = (to - from).max(1.0);
    let whole = standard_scale(total * 1000.0 / room);
    if whole <= SMALLEST {
        return vec![Page { from, to, number: (0, 1), scale: whole }];
    }
    let scale = SMALLEST.max(standard_scale(total * 1000.0 / room / MOST_SHEETS));
    let each = (room * scale / 1000.0 / 10.0).floor() * 10.0;
    let mut list = Vec::new();
    let mut start = from;
    while start < to - 1e-6 {
        // The first sheet ends at a round chainage, so that all others begin and end at one.
        let end = (((start + each) / 10.0).floor() * 10.0).min(to);
        list.push((start, end));
        start = end;
    }
    let count = list.len();
    let numbered = list.into_iter().enumerate();
    numbered.map(|(i, (from, to))| Page { from, to, number: (i, count), scale }).collect()
}

/// A pit: where it lies along the chainage, and whose it is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PitPlace {
    pub at: f64,
    pub from: f64,
    pub to: f64,
    pub width: Option<f64>,
    /// Whether its length is known.
    pub known: bool,
    pub words: String,
    /// Whether runs lie at both sides of it.
    pub between: bool,
}

/// All pits, in the order of the chainage. A pit reaches outwards from its run; one between two runs lies about the
/// chainage.
pub(super) fn pits(renewal: &Renewal) -> Vec<PitPlace> {
    let mut ends: Vec<(f64, bool, &str, f64)> = Vec::new();
    for run in &renewal.runs {
        let onward = if run.machine > run.launch { 1.0 } else { -1.0 };
        ends.push((run.launch.si(), true, &run.name, -onward));
        ends.push((run.machine.si(), false, &run.name, onward));
    }
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut list: Vec<PitPlace> = Vec::new();
    let mut rest = &ends[..];
    while let Some(first) = rest.first() {
        let count = rest.iter().take_while(|e| (e.0 - first.0).abs() < 1e-6).count();
        let (group, after) = rest.split_at(count);
        rest = after;
        let size = |launch: bool| {
            if launch {
                (renewal.pit.launch_length, renewal.pit.launch_width)
            } else {
                (renewal.pit.machine_length, renewal.pit.machine_width)
            }
        };
        let long =
            group.iter().filter_map(|e| size(e.1).0).map(quantity::Length::si).reduce(f64::max);
        let wide =
            group.iter().filter_map(|e| size(e.1).1).map(quantity::Length::si).reduce(f64::max);
        let between = group.iter().any(|e| e.3 > 0.0) && group.iter().any(|e| e.3 < 0.0);
        let l = long.unwrap_or(0.0);
        let at = first.0;
        let (from, to) = match (between, first.3 > 0.0) {
            (true, _) => (at - l / 2.0, at + l / 2.0),
            (false, true) => (at, at + l),
            (false, false) => (at - l, at),
        };
        let names = |launch: bool| -> Vec<&str> {
            group.iter().filter(|e| e.1 == launch).map(|e| e.2).collect()
        };
        let mut words: Vec<String> = Vec::new();
        for (kind, launch) in [("launch pit", true), ("machine pit", false)] {
            let names = names(launch);
            if !names.is_empty() {
                words.push(format!("{kind} {}", names.join(", ")));
            }
        }
        let known = long.is_some();
        list.push(PitPlace {
            at,
            from,
            to,
            width: wide,
            known,
            words: words.join(" and "),
            between,
        });
    }
    list
}

/// Chainages that old main, runs and pits take.
pub(super) fn extent(renewal: &Renewal) -> (f64, f64) {
    let axis = (renewal.host.axis.from().si(), renewal.host.axis.to().si());
    pits(renewal).iter().fold(axis, |(a, b), p| (a.min(p.from), b.max(p.to)))
}

/// Where a chainage and an offset to the right lie in plan.
///
/// The one place where coordinates of the old main enter, where a design has them: without any the plan is developed along
/// the chainage.
pub(super) const fn on_plan(_renewal: &Renewal, chainage: f64, right: f64) -> Point {
    Point::new(chainage, -right)
}

/// One thing of the street with a number: `F2`.
pub(super) struct Item {
    pub number: String,
    pub at: f64,
    pub to: Option<f64>,
    pub what: String,
    pub action: String,
    pub note: String,
}

/// Features, bends, services and neighbours with their numbers, in the order of the file.
pub(super) fn items(subject: &Subject<'_>, renewal: &Renewal) -> [Vec<Item>; 4] {
    let host = &renewal.host;
    let item = |letter: &str,
                i: usize,
                at: f64,
                to: Option<f64>,
                what: String,
                action: String,
                note: String| {
        Item { number: format!("{letter}{}", i + 1), at, to, what, action, note }
    };
    let features = host.features.iter().enumerate().map(|(i, f)| {
        let action = f.action.unwrap_or("nothing decided").to_owned();
        let to = f.to.map(quantity::Length::si);
        item("F", i, f.at.si(), to, f.kind.to_owned(), action, f.note.clone().unwrap_or_default())
    });
    let bends = host.bends.iter().enumerate().map(|(i, b)| {
        let angle = super::kit::degrees(subject, b.angle.si());
        let note = b.radius.map_or_else(
            || "at one point".to_owned(),
            |r| format!("R {}", length(subject, r.si(), unit::M)),
        );
        item("B", i, b.at.si(), None, format!("bend {angle}"), String::new(), note)
    });
    let services = host.services.iter().enumerate().map(|(i, s)| {
        let action = match s.dug_up {
            Some(true) => "dig up, take off, connect again",
            Some(false) => "not dug up",
            None => "nothing said",
        };
        let note = s.name.clone().unwrap_or_default();
        item("S", i, s.at.si(), None, "service".to_owned(), action.to_owned(), note)
    });
    let neighbours = renewal.street.neighbours.iter().enumerate().map(|(i, n)| {
        let (at, to, place) = match n.place {
            NeighbourPlace::Crossing { at } => (at.si(), None, "crosses".to_owned()),
            NeighbourPlace::Beside { from, to, offset } => {
                let side = if offset.si() < 0.0 { "left" } else { "right" };
                let away = length(subject, offset.si().abs(), unit::M);
                (from.si(), Some(to.si()), format!("{away} to the {side}"))
            }
        };
        let clear = clear_of_expander(renewal, i).map_or(String::new(), |d| {
            format!("; {} from the expander", length(subject, d, unit::M))
        });
        let what = format!("{} ({})", n.name, n.kind);
        let level = length(subject, n.level.si(), unit::M);
        item("N", i, at, to, what, format!("{place}, level {level}{clear}"), String::new())
    });
    [features.collect(), bends.collect(), services.collect(), neighbours.collect()]
}

/// Least distance of a neighbour from the expander along the runs, m; negative where it would be struck.
pub(super) fn clear_of_expander(renewal: &Renewal, index: usize) -> Option<f64> {
    let n = renewal.street.neighbours.get(index)?;
    let expander = renewal.burst.expander_diameter?.si();
    let radii = (expander + n.diameter.si()) / 2.0;
    let rise =
        |x: f64| n.level.si() - renewal.host.axis.level_extended(quantity::Length::from_si(x)).si();
    let distances: Vec<f64> = match n.place {
        NeighbourPlace::Crossing { at } => {
            let met = renewal.runs.iter().any(|r| r.holds(at));
            if met { vec![rise(at.si()).abs()] } else { Vec::new() }
        }
        NeighbourPlace::Beside { from, to, offset } => {
            let mut list = Vec::new();
            for run in &renewal.runs {
                let (a, b) = run.stretch();
                let (a, b) = (a.max(from).si(), b.min(to).si());
                if a > b {
                    continue;
                }
                // Between its corners the axis is straight: the least lies at one of them, or where it meets the level.
                let mut places = vec![a, b];
                places.extend(
                    renewal.host.axis.points().map(|p| p.0.si()).filter(|x| *x > a && *x < b),
                );
                places.sort_by(f64::total_cmp);
                let rises: Vec<f64> = places.iter().map(|x| rise(*x)).collect();
                let meets = rises.windows(2).any(|w| matches!(w, [p, q] if p * q <= 0.0));
                list.extend(rises.iter().map(|r| offset.si().hypot(*r)));
                if meets {
                    list.push(offset.si().abs());
                }
            }
            list
        }
    };
    distances.into_iter().reduce(f64::min).map(|d| d - radii)
}

/// Rows of the list of all that stands on or near the old main.
pub(super) fn rows(subject: &Subject<'_>, lists: &[Vec<Item>; 4]) -> Vec<Vec<String>> {
    let m = |si: f64| length(subject, si, unit::M);
    let mut all: Vec<&Item> = lists.iter().flatten().collect();
    all.sort_by(|a, b| a.at.total_cmp(&b.at));
    all.into_iter()
        .map(|i| {
            let at = i.to.map_or_else(|| m(i.at), |to| format!("{} to {}", m(i.at), m(to)));
            vec![i.number.clone(), at, i.what.clone(), i.action.clone(), i.note.clone()]
        })
        .collect()
}

/// Columns of that list.
pub(super) const SHARES: [f64; 5] = [0.07, 0.16, 0.27, 0.28, 0.22];
/// Their heads.
pub(super) const HEAD: [&str; 5] = ["No.", "Chainage", "What", "Action, place", "Note"];

/// What lies ready behind a launch pit: words and length.
pub(super) fn laid(renewal: &Renewal, run: &project::Run) -> (String, f64) {
    let string = &renewal.string;
    let one = string.pipe.laying_length().si();
    let whole = (run.length().si() / one - 1e-9).ceil().max(1.0);
    match &string.assembly {
        Assembly::String => ("string".to_owned(), whole * one),
        Assembly::SubStrings(list) => {
            let most = list.iter().copied().max().unwrap_or(1);
            ("longest sub-string".to_owned(), f64::from(most) * one)
        }
        Assembly::PipeByPipe => ("one pipe".to_owned(), one),
    }
}

/// What a plan of the street shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shows {
    /// Main, material, bends, neighbours.
    Main,
    /// Pits, string outside, what is opened.
    Site,
}

/// Match lines of a page.
pub(super) fn match_lines(
    subject: &Subject<'_>,
    page: &Page,
    view: &mut View,
    labels: &mut Labels,
) {
    let frame = view.frame;
    for (x, other, anchor) in [
        (page.from, page.number.0.checked_sub(1), Anchor::TopLeft),
        (
            page.to,
            (page.number.0 + 1 < page.number.1).then_some(page.number.0 + 1),
            Anchor::TopRight,
        ),
    ] {
        let Some(other) = other else { continue };
        let at = view.on_paper(Point::new(x, 0.0)).x;
        let (a, b) = (Point::new(at, frame.bottom() + 8.0), Point::new(at, frame.top() - 6.0));
        let (a, b) = (real(view, a), real(view, b));
        view.marks.push(Mark::line(Layer::Frame, a, b));
        let words = format!("match line {}, sheet {}", length(subject, x, unit::M), other + 1);
        let side = if anchor == Anchor::TopLeft { 1.2 } else { -1.2 };
        let paper = Point::new(at + side, frame.top() - 8.0);
        labels.keep(super::kit::words_box(paper, &words, 1.8, anchor, false));
        let place = real(view, paper);
        view.marks.push(Mark::text(Layer::Text, place, words, 1.8, anchor).on_patch());
    }
}

/// The plan of a page in a frame; gives the view and the numbers that found no room.
pub(super) fn plan(
    subject: &Subject<'_>,
    renewal: &Renewal,
    page: &Page,
    frame: Rectangle,
    shows: Shows,
) -> (View, Vec<String>) {
    let origin = Point::new(
        (page.from + page.to) / 2.0 - frame.width / 2.0 * page.scale / 1000.0,
        -frame.height / 2.0 * page.scale / 1000.0,
    );
    let mut view = View::new("plan", frame, origin, page.scale);
    let mut labels = Labels::new(frame.inset(2.0));
    labels.keep(Rectangle::new(frame.left(), frame.top() - 6.0, frame.width, 6.0));
    match_lines(subject, page, &mut view, &mut labels);
    let lists = items(subject, renewal);
    let middle = frame.centre().y;
    labels.keep(Rectangle::new(frame.left(), middle - 1.6, frame.width, 3.2));
    neighbours(renewal, page, &mut view);
    main_line(renewal, page, &mut view);
    let pit_list = pits(renewal);
    let mut left_out = Vec::new();
    if shows == Shows::Site {
        laydown(subject, renewal, page, &mut view, &mut labels, &mut left_out);
    }
    for pit in &pit_list {
        if page.part(pit.from - 1e-3, pit.to + 1e-3).is_none() {
            continue;
        }
        draw_pit(subject, renewal, pit, shows, page, &mut view, &mut labels);
    }
    let [features, bends, services, neighbours] = &lists;
    let mut write = |view: &mut View, at: Point, words: String, below: bool| {
        if !labels.near(view, at, &words, below) {
            left_out.push(words);
        }
    };
    for f in features.iter().filter(|f| page.shows(f.at)) {
        let at = on_plan(renewal, f.at, 0.0);
        sign(&mut view, at, f.action == "dig out" || f.action == "reroute");
        write(&mut view, at, format!("{} {}, {}", f.number, f.what, f.action), false);
    }
    if shows == Shows::Main {
        for b in bends.iter().filter(|b| page.shows(b.at)) {
            let at = on_plan(renewal, b.at, 0.0);
            bend_sign(&mut view, at);
            write(&mut view, at, format!("{} {}, {}", b.number, b.what, b.note), true);
        }
        for s in &renewal.host.stretches {
            if let Some((a, b)) = page.part(s.from.si(), s.to.si()) {
                let words = format!(
                    "{} {}",
                    s.material.word(),
                    length(subject, s.inside_diameter.si(), unit::MM)
                );
                write(&mut view, on_plan(renewal, a + (b - a) * 0.3, 0.0), words, true);
            }
        }
    }
    for run in &renewal.runs {
        let (from, to) = run.stretch();
        if let Some((a, b)) = page.part(from.si(), to.si()) {
            let at = on_plan(renewal, a + (b - a) * 0.62, 0.0);
            let turn = if run.machine > run.launch { 0.0 } else { std::f64::consts::PI };
            view.marks.push(Mark::symbol(Layer::Site, at, SymbolKind::Arrow, 4.0).turned(turn));
            write(&mut view, at, format!("pull of run {}", run.name), true);
        }
    }
    for s in services.iter().filter(|s| page.shows(s.at)) {
        let at = on_plan(renewal, s.at, 0.0);
        service_sign(&mut view, at);
        write(&mut view, at, s.number.clone(), false);
    }
    for (n, one) in neighbours.iter().zip(&renewal.street.neighbours) {
        let (x, right) = match one.place {
            NeighbourPlace::Crossing { at } => {
                (page.shows(at.si()).then_some(at.si()), -view.across(9.0))
            }
            NeighbourPlace::Beside { from, to, offset } => {
                (page.part(from.si(), to.si()).map(|(a, b)| f64::midpoint(a, b)), offset.si())
            }
        };
        if let Some(x) = x {
            let at = on_plan(renewal, x, right);
            write(&mut view, at, format!("{} {}", n.number, n.what), right > 0.0);
        }
    }
    words_last(&mut view);
    (view, left_out)
}

fn main_line(renewal: &Renewal, page: &Page, view: &mut View) {
    for s in &renewal.host.stretches {
        let Some((a, b)) = page.part(s.from.si(), s.to.si()) else { continue };
        let half = (s.inside_diameter.si() / 2.0 + s.wall.si()).max(view.across(0.6));
        for side in [half, -half] {
            let ends = (on_plan(renewal, a, side), on_plan(renewal, b, side));
            view.marks.push(Mark::line(Layer::Host, ends.0, ends.1));
        }
        for x in [a, b] {
            let ends = (on_plan(renewal, x, half * 1.6), on_plan(renewal, x, -half * 1.6));
            view.marks.push(Mark::line(Layer::Host, ends.0, ends.1));
        }
    }
    for run in &renewal.runs {
        let (from, to) = run.stretch();
        if let Some((a, b)) = page.part(from.si(), to.si()) {
            let ends = (on_plan(renewal, a, 0.0), on_plan(renewal, b, 0.0));
            view.marks.push(Mark::line(Layer::Pipe, ends.0, ends.1));
        }
    }
}

fn neighbours(renewal: &Renewal, page: &Page, view: &mut View) {
    for n in &renewal.street.neighbours {
        let half = n.diameter.si() / 2.0;
        let lines: Vec<(Point, Point)> = match n.place {
            NeighbourPlace::Crossing { at } if page.shows(at.si()) => {
                let reach = view.across(10.0);
                let line = |x: f64| (on_plan(renewal, x, reach), on_plan(renewal, x, -reach));
                vec![line(at.si() - half), line(at.si() + half)]
            }
            NeighbourPlace::Crossing { .. } => Vec::new(),
            NeighbourPlace::Beside { from, to, offset } => {
                let part = page.part(from.si(), to.si());
                let line = |(a, b): (f64, f64), side: f64| {
                    let right = offset.si() + side;
                    (on_plan(renewal, a, right), on_plan(renewal, b, right))
                };
                part.map_or_else(Vec::new, |p| vec![line(p, half), line(p, -half)])
            }
        };
        view.marks.extend(lines.into_iter().map(|(a, b)| Mark::line(Layer::Obstacle, a, b)));
    }
}

/// The box of a pit in plan.
fn draw_pit(
    subject: &Subject<'_>,
    renewal: &Renewal,
    pit: &PitPlace,
    shows: Shows,
    page: &Page,
    view: &mut View,
    labels: &mut Labels,
) {
    let at = on_plan(renewal, pit.at, 0.0);
    let half = pit.width.map_or(view.across(3.0), |w| w / 2.0);
    let (from, to) = if pit.known { (pit.from, pit.to) } else { (pit.at, pit.at) };
    let corners = [(from, half), (to, half), (to, -half), (from, -half)];
    let corners = corners.map(|(x, r)| on_plan(renewal, x, r)).to_vec();
    view.marks.push(Mark::outline(Layer::Site, corners));
    let (a, b) =
        (view.on_paper(on_plan(renewal, from, half)), view.on_paper(on_plan(renewal, to, -half)));
    let taken = Rectangle::new(a.x, a.y, b.x - a.x, b.y - a.y);
    labels.keep(taken);
    let m = |si: f64| length(subject, si, unit::M);
    if shows == Shows::Site && pit.known {
        let words = m(pit.to - pit.from);
        let below =
            Rectangle::new(taken.left() - 8.0, taken.bottom() - 10.0, taken.width + 16.0, 10.0);
        labels.keep(below);
        let (p, q) = (on_plan(renewal, from, half), on_plan(renewal, to, half));
        view.marks.push(Mark::dimension(DimensionKind::Across, p, q, -6.0, words));
    }
    let size = match (pit.known, pit.width) {
        (true, Some(w)) => format!(", {} × {}", m(pit.to - pit.from), m(w)),
        (true, None) => format!(", {} long", m(pit.to - pit.from)),
        (false, _) => ", size not given".to_owned(),
    };
    if page.shows(pit.at) {
        let words = format!("{}{size}", pit.words);
        let top = Point::new(f64::midpoint(from, to), at.y + half);
        labels.near(view, top, &words, false);
    }
}

/// The string that lies ready behind each launch pit, beside the line.
fn laydown(
    subject: &Subject<'_>,
    renewal: &Renewal,
    page: &Page,
    view: &mut View,
    labels: &mut Labels,
    left_out: &mut Vec<String>,
) {
    for (i, run) in renewal.runs.iter().enumerate() {
        let onward = if run.machine > run.launch { 1.0 } else { -1.0 };
        let (words, long) = laid(renewal, run);
        let (a, b) = (run.launch.si(), run.launch.si() - onward * long);
        let Some((a, b)) = page.part(a.min(b), a.max(b)) else { continue };
        #[expect(clippy::cast_precision_loss, reason = "runs are few")]
        let right = view.across(20.0 + 4.0 * (i % 4) as f64);
        let (p, q) = (on_plan(renewal, a, right), on_plan(renewal, b, right));
        view.marks.push(Mark::line(Layer::Pipe, p, q));
        for end in [p, q] {
            view.marks.push(Mark::symbol(Layer::Site, end, SymbolKind::Joint, 2.0));
        }
        let (p_mm, q_mm) = (view.on_paper(p), view.on_paper(q));
        labels.keep(Rectangle::new(p_mm.x, p_mm.y - 1.2, q_mm.x - p_mm.x, 2.4));
        let words = format!("{words} of run {}, {}", run.name, length(subject, long, unit::M));
        let at = Point::new(f64::midpoint(p.x, q.x), p.y);
        if !labels.near(view, at, &words, true) {
            left_out.push(words);
        }
    }
}

/// A square on the main: filled where it is opened.
pub(super) fn sign(view: &mut View, at: Point, opened: bool) {
    let (x, y) = (view.across(1.3), view.up(1.3));
    let ring = [(-x, -y), (x, -y), (x, y), (-x, y)];
    let ring = ring.map(|(dx, dy)| Point::new(at.x + dx, at.y + dy)).to_vec();
    let pattern = if opened { Pattern::Solid } else { Pattern::Blank };
    view.marks.push(Mark::area(Layer::Obstacle, ring.clone(), pattern));
    view.marks.push(Mark::outline(Layer::Obstacle, ring));
}

/// A triangle on the main.
pub(super) fn bend_sign(view: &mut View, at: Point) {
    let (x, y) = (view.across(1.5), view.up(1.5));
    let ring = [(-x, -y), (x, -y), (0.0, y * 1.3)];
    let ring = ring.map(|(dx, dy)| Point::new(at.x + dx, at.y + dy)).to_vec();
    view.marks.push(Mark::area(Layer::Host, ring.clone(), Pattern::Blank));
    view.marks.push(Mark::outline(Layer::Host, ring));
}

/// A ring on the main with a stroke to both sides: which side the service goes is not known.
fn service_sign(view: &mut View, at: Point) {
    let reach = view.across(2.6);
    let ends = (Point::new(at.x, at.y - reach), Point::new(at.x, at.y + reach));
    view.marks.push(Mark::line(Layer::Site, ends.0, ends.1));
    view.marks.push(Mark::circle(Layer::Site, at, view.across(0.7)));
}

/// Whether any two boxes of a list meet; for tests of layout.
#[cfg(test)]
pub(super) fn first_meeting(boxes: &[Rectangle]) -> Option<(usize, usize)> {
    for (i, a) in boxes.iter().enumerate() {
        for (j, b) in boxes.iter().enumerate().skip(i + 1) {
            if super::kit::meet(a, b) {
                return Some((i, j));
            }
        }
    }
    None
}

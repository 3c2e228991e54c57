//! Old main, expander and new string across.

use std::f64::consts::{PI, TAU};

use project::{Renewal, Stretch, Yields};
use quantity::unit;

use super::cross_section::{
    Rows, STEP, barrel_cut, caption, centred, column, cross, pipe_sizes, scale_for, stack, wall,
};
use super::joint::{self, Joint};
use super::kit::{Draft, Sample, finish, free, length, mark_of, round, words_last};
use crate::Subject;
use crate::scene::scale::{ratio, standard_scale};
use crate::scene::{DimensionKind, Drawing, Layer, Mark, Pattern, Point, Rectangle, View};

/// Pieces into which a ring that breaks is drawn.
// Judgement: real fragments are irregular; eight show what happens.
const PIECES: u32 = 8;
/// How far fill is drawn, over what it surrounds.
const FILL: f64 = 1.15;
/// Corners along the arc of a piece.
const ALONG: u32 = 10;

/// Kinds of ring along the old main, each drawn once: the first stretch of each.
fn kinds(renewal: &Renewal) -> Vec<&Stretch> {
    let mut list: Vec<&Stretch> = Vec::new();
    for s in &renewal.host.stretches {
        let same = |o: &&Stretch| {
            o.material == s.material && o.inside_diameter == s.inside_diameter && o.wall == s.wall
        };
        if !list.iter().any(same) {
            list.push(s);
        }
    }
    list
}

/// A sheet for each kind of ring.
pub(super) fn draw(subject: &Subject<'_>, renewal: &Renewal) -> Drawing {
    let mut drafts = Vec::new();
    for stretch in kinds(renewal) {
        drafts.extend(sheet(subject, renewal, stretch));
    }
    finish(subject, "cross-section", "Cross section of old and new main", drafts)
}

/// Where the new string lies in the opened hole: on its lower side.
fn lying(hole: f64, diameter: f64) -> Point {
    Point::new(0.0, -((hole - diameter) / 2.0).max(0.0))
}

fn sheet(subject: &Subject<'_>, renewal: &Renewal, stretch: &Stretch) -> Vec<Draft> {
    let area = free(subject);
    let (left, right) = area.cut_left(area.width - 133.0);
    let right = right.cut_left(5.0).1;
    let (strip, upper) = left.cut_bottom(84.0);
    let (one, two) = upper.cut_left(upper.width / 2.0);
    let mm = |si: f64| length(subject, si, unit::MM);
    let pipe = &renewal.string.pipe;
    let inside = stretch.inside_diameter.si();
    let outside = inside + 2.0 * stretch.wall.si();
    let expander = renewal.burst.expander_diameter.map(quantity::Length::si);
    let barrel = pipe.barrel_diameter().si();
    let largest = pipe.largest_diameter().map(quantity::Length::si);
    let hole = expander.unwrap_or(outside).max(largest.unwrap_or(barrel));
    let centre = Point::new(0.0, 0.0);
    // Room for fragments outside the hole and a strip of fill around them.
    let seen = hole.max(outside) + 2.0 * stretch.wall.si();
    let rows = (2, 3);
    let scale = scale_for(seen * FILL, one, rows.0, rows.1);
    let words = stretch.material.word();
    let mut draft = Draft::new(format!("Cross section, old main of {words}"), ratio(scale));

    // Before.
    let mut view = centred("old main", one, centre, scale, rows);
    fill(&mut view, renewal, &[round(centre, outside / 2.0)], outside / 2.0 * FILL);
    ring(&mut view, inside, outside);
    cross(&mut view, centre, outside / 2.0);
    let list = [
        (centre, inside, format!("inside {}", mm(inside))),
        (centre, outside, format!("outside {}", mm(outside))),
    ];
    stack(&mut view, (centre, outside / 2.0 * FILL), false, &list);
    words_last(&mut view);
    draft.views.push(view);
    caption(&mut draft, one, "Before: old main");

    // After.
    let string = lying(hole, largest.unwrap_or(barrel));
    let mut view = centred("new main in place of the old one", two, centre, scale, rows);
    fill(&mut view, renewal, &[round(centre, hole / 2.0)], seen / 2.0 * FILL);
    view.marks.push(Mark::circle(Layer::Bore, centre, hole / 2.0));
    fragments(&mut view, renewal, stretch, hole / 2.0);
    joint::socket_cut(&mut view, string, pipe);
    barrel_cut(&mut view, string, pipe);
    view.marks.push(Mark::circle(Layer::Host, centre, outside / 2.0));
    cross(&mut view, centre, hole / 2.0);
    let edge = (centre, seen / 2.0 * FILL);
    let mut above = vec![(string, barrel, format!("barrel {}", mm(barrel)))];
    if let Some(d) = largest {
        above.push((string, d, format!("socket, protected {}", mm(d))));
    }
    stack(&mut view, edge, true, &above);
    let mut below = vec![(centre, outside, format!("old, outside {}", mm(outside)))];
    if let Some(d) = expander {
        below.push((centre, d, format!("expander {}", mm(d))));
    }
    stack(&mut view, edge, false, &below);
    if hole - largest.unwrap_or(barrel) > 1e-6 {
        let (top, crown) = (string.y + largest.unwrap_or(barrel) / 2.0, hole / 2.0);
        let offset = seen / 2.0 * FILL * 1000.0 / scale + 5.0;
        let words = mm(crown - top);
        let (a, b) = (Point::new(0.0, top), Point::new(0.0, crown));
        view.marks.push(Mark::dimension(DimensionKind::Up, a, b, offset, words));
    }
    words_last(&mut view);
    draft.views.push(view);
    caption(&mut draft, two, "After: new main at a joint, schematic in the ground");

    // The trench, if it is known, beside the joint.
    let mut scales = Vec::new();
    let strip = match renewal.fill.trench_width {
        None => strip,
        Some(width) => {
            let (trench, rest) = strip.cut_left(70.0);
            scales.push(self::trench(
                subject,
                renewal,
                trench,
                width.si(),
                (outside, hole, string),
                &mut draft,
            ));
            rest
        }
    };
    let angle = renewal.string.joint.allowable_angle.as_ref().map(|a| a.value);
    let made = joint::draw(subject, strip, &Joint { pipe, angle }, &mut draft);
    if (made.scale - scale).abs() > 1e-9 || !scales.is_empty() {
        draft.scale = format!("{}, others as shown", ratio(scale));
    }
    let mut notes = notes(subject, renewal, stretch, expander, largest);
    notes.extend(made.notes);
    draft.description = format!(
        "Old main of {words}, {} inside, {} outside; new barrel of {}.",
        mm(inside),
        mm(outside),
        mm(barrel)
    );
    let entries = [
        (Sample::Area(Layer::Host, Pattern::Solid), "old main, and what is left of it"),
        (Sample::Line(Layer::Bore), "hole that the expander opens"),
        (Sample::Area(Layer::Strata, Pattern::Fill), "fill of the old trench"),
        (Sample::Area(Layer::Pipe, Pattern::Iron), "iron, cut"),
        (Sample::Area(Layer::Pipe, Pattern::Mortar), "lining or coating, cut"),
        (Sample::Line(Layer::Clearance), "protection of the joint"),
        (Sample::Line(Layer::Axis), "axis; deflected axis"),
        (Sample::Line(Layer::Host), "old outline; deflected barrel"),
    ];
    let rows = sizes(subject, renewal, stretch);
    let right = wall(subject, pipe, right, &mut draft);
    let further = column(subject, right, &rows, &entries, &notes, &mut draft);
    let mut drafts = vec![draft];
    drafts.extend(further);
    drafts
}

/// Fill around holes, as far as the trench or the view reaches.
fn fill(view: &mut View, renewal: &Renewal, holes: &[Vec<Point>], reach: f64) {
    let half = renewal.fill.trench_width.map_or(reach, |w| reach.min(w.si() / 2.0));
    let widest = holes.iter().flatten().map(|p| p.x).fold(0.0, f64::max);
    if half <= widest {
        return;
    }
    let box_of = [(-half, -reach), (half, -reach), (half, reach), (-half, reach)];
    let mut rings = vec![box_of.map(|(x, y)| Point::new(x, y)).to_vec()];
    rings.extend(holes.iter().cloned());
    view.marks.push(Mark::area_with_holes(Layer::Strata, rings, Pattern::Fill));
}

/// The old pipe, whole.
fn ring(view: &mut View, inside: f64, outside: f64) {
    let centre = Point::new(0.0, 0.0);
    view.marks.push(Mark::area(Layer::Host, round(centre, outside / 2.0), Pattern::Blank));
    let rings = vec![round(centre, outside / 2.0), round(centre, inside / 2.0)];
    view.marks.push(Mark::area_with_holes(Layer::Host, rings, Pattern::Solid));
    for d in [inside, outside] {
        view.marks.push(Mark::circle(Layer::Host, centre, d / 2.0));
    }
}

/// How many pieces the ring becomes: none where it does not give way.
fn pieces(renewal: &Renewal, stretch: &Stretch) -> u32 {
    match stretch.material.yields() {
        Yields::Breaks | Yields::Doubtful => PIECES,
        Yields::Split => renewal.burst.cutters.clamp(1, PIECES),
        Yields::Not => 0,
    }
}

/// Pieces of the ring around the hole; together they are as long as the old ring at half its wall.
fn fragments(view: &mut View, renewal: &Renewal, stretch: &Stretch, hole: f64) {
    let count = pieces(renewal, stretch);
    if count == 0 {
        return;
    }
    let wall = stretch.wall.si();
    let old = stretch.inside_diameter.si() / 2.0 + wall / 2.0;
    let share = (old / (hole + wall / 2.0)).min(1.0);
    let angle = TAU / f64::from(count);
    for k in 0..count {
        let middle = PI / 2.0 + angle * (f64::from(k) + 0.5);
        let (from, to) = (middle - angle * share / 2.0, middle + angle * share / 2.0);
        let on = |r: f64, share: f64| {
            let a = from + (to - from) * share;
            Point::new(r * a.cos(), r * a.sin())
        };
        let shares = || (0..=ALONG).map(|i| f64::from(i) / f64::from(ALONG));
        let mut points: Vec<Point> = shares().map(|s| on(hole, s)).collect();
        points.extend(shares().map(|s| on(hole + wall, 1.0 - s)));
        view.marks.push(Mark::area(Layer::Host, points.clone(), Pattern::Solid));
        view.marks.push(Mark::outline(Layer::Host, points));
    }
}

/// The trench from the ground down at the middle of the stretch; gives its scale.
fn trench(
    subject: &Subject<'_>,
    renewal: &Renewal,
    frame: Rectangle,
    width: f64,
    (outside, hole, string): (f64, f64, Point),
    draft: &mut Draft,
) -> f64 {
    let at = (renewal.host.axis.from() + renewal.host.axis.to()) / 2.0;
    let axis = renewal.host.axis.level_extended(at).si();
    let depth = (renewal.street.ground.level_extended(at).si() - axis).max(hole);
    let below = hole / 2.0 + hole * 0.25;
    let scale = standard_scale(
        ((depth + below) * 1000.0 / (frame.height - 26.0))
            .max(width * 1000.0 / (frame.width - 36.0)),
    );
    let up = |mm: f64| mm * scale / 1000.0;
    let origin = Point::new(-up(frame.width / 2.0), -below - up(12.0));
    let mut view = View::new("old trench", frame, origin, scale);
    let half = width / 2.0;
    let centre = Point::new(0.0, 0.0);
    let area = [(-half, -below), (half, -below), (half, depth), (-half, depth)];
    let area = area.map(|(x, y)| Point::new(x, y)).to_vec();
    let rings = vec![area.clone(), round(centre, hole / 2.0)];
    view.marks.push(Mark::area_with_holes(Layer::Strata, rings, Pattern::Fill));
    view.marks.push(Mark::outline(Layer::Strata, area));
    let reach = half + up(8.0);
    view.marks.push(Mark::line(Layer::Ground, Point::new(-reach, depth), Point::new(reach, depth)));
    view.marks.push(Mark::circle(Layer::Bore, centre, hole / 2.0));
    view.marks.push(Mark::circle(Layer::Host, centre, outside / 2.0));
    let barrel = renewal.string.pipe.barrel_diameter().si();
    view.marks.push(Mark::circle(Layer::Pipe, string, barrel / 2.0));
    let metres = |si: f64| length(subject, si, unit::M);
    let (a, b) = (Point::new(-half, -below), Point::new(half, -below));
    let words = format!("trench {}", metres(width));
    view.marks.push(Mark::dimension(DimensionKind::Across, a, b, -6.0, words));
    let (a, b) = (centre, Point::new(0.0, depth));
    let offset = half * 1000.0 / scale + STEP + 3.0;
    let words = format!("axis {}", metres(depth));
    view.marks.push(Mark::dimension(DimensionKind::Up, a, b, offset, words));
    words_last(&mut view);
    draft.views.push(view);
    let words = format!("Old trench, {}", ratio(scale));
    caption(draft, frame, &words);
    scale
}

fn sizes(subject: &Subject<'_>, renewal: &Renewal, stretch: &Stretch) -> Rows {
    let mm = |si: f64| length(subject, si, unit::MM);
    let mut rows: Rows = Vec::new();
    let mut add = |what: &str, value: String, mark: &str| {
        rows.push(vec![what.to_owned(), value, mark.to_owned()]);
    };
    let outside = (stretch.inside_diameter + stretch.wall * 2.0).si();
    add("Old main, inside", mm(stretch.inside_diameter.si()), "given");
    add("Old main, wall", mm(stretch.wall.si()), "given");
    add("Old main, outside", mm(outside), "derived");
    match renewal.burst.expander_diameter {
        Some(d) => {
            add("Expander", mm(d.si()), mark_of(&renewal.source_of("/burst/expander_diameter")))
        }
        None => add("Expander", "not known".to_owned(), "—"),
    }
    let ratio = renewal.string.pipe.bore() / stretch.inside_diameter;
    add("New bore over old inside diameter", quantity::significant(ratio, 3), "derived");
    match renewal.fill.trench_width {
        Some(w) => add(
            "Old trench, width",
            length(subject, w.si(), unit::M),
            mark_of(&renewal.source_of("/ground/trench_width")),
        ),
        None => add("Old trench, width", "not known".to_owned(), "—"),
    }
    rows.extend(pipe_sizes(subject, &renewal.string.pipe, &renewal.string.joint));
    rows
}

fn notes(
    subject: &Subject<'_>,
    renewal: &Renewal,
    stretch: &Stretch,
    expander: Option<f64>,
    largest: Option<f64>,
) -> Vec<String> {
    let mut list = Vec::new();
    let places: Vec<String> = renewal
        .host
        .stretches
        .iter()
        .filter(|s| {
            s.material == stretch.material
                && s.inside_diameter == stretch.inside_diameter
                && s.wall == stretch.wall
        })
        .map(|s| {
            let m = |l: quantity::Length| length(subject, l.si(), unit::M);
            format!("{} to {}", m(s.from), m(s.to))
        })
        .collect();
    list.push(format!(
        "This section holds for the old main of {} at chainage {}.",
        stretch.material.word(),
        places.join(", ")
    ));
    list.push(match stretch.material.yields() {
        Yields::Breaks => "The ring breaks; its pieces are drawn pushed outwards around the hole, as long together as the old ring. Real fragments are irregular.".to_owned(),
        Yields::Split => "The ring is split by blades and opens; it stays in the ground around the hole as drawn.".to_owned(),
        Yields::Doubtful => "Whether the ring breaks must be tried on a test section; it is drawn broken.".to_owned(),
        Yields::Not => "This material cannot be burst: nothing of it is drawn around the hole.".to_owned(),
    });
    if expander.is_none() {
        list.push("The diameter of the expander is not known: the hole is drawn as wide as the widest of old main and new string.".to_owned());
    }
    if largest.is_none() {
        list.push(
            "The outside diameter of the socket is not given: the barrel alone is drawn."
                .to_owned(),
        );
    }
    if expander.zip(largest).is_some_and(|(e, l)| l > e) {
        list.push("The socket with its protection is wider than the expander: the hole is drawn as wide as the socket.".to_owned());
    }
    if renewal.fill.trench_width.is_none() {
        list.push("The width of the old trench is not given: its walls are not drawn.".to_owned());
    } else {
        list.push("The trench is drawn with the depth at half the length of the old main and upright walls; its bottom is not given.".to_owned());
    }
    list.push("The hole is centred on the axis of the old main; how far it closes and where the string comes to lie is not known before the work. The new string is drawn on the lower side of the hole.".to_owned());
    list
}

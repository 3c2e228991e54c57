//! One joint of the string: across, and cut along its axis.

use pipe::Pipe;
use quantity::{Angle, unit};

use super::kit::{Draft, HEADING, SMALL, degrees, length, round, words_last};
use crate::Subject;
use crate::scene::scale::{ratio, standard_scale};
use crate::scene::{Anchor, DimensionKind, Layer, Mark, Pattern, Point, Rectangle, View};

/// Length of the socket over the diameter of the barrel, and its ends in m, where it is drawn.
// Judgement: the file gives no length of a socket; these look like one, and the drawing says that they are no size.
const SOCKET: (f64, f64, f64) = (0.35, 0.1, 0.35);
/// Share of the socket that the spigot fills.
// Judgement: as above.
const INSERTED: f64 = 0.8;

/// What is drawn.
pub(super) struct Joint<'a> {
    pub pipe: &'a Pipe,
    pub angle: Option<Angle>,
}

/// What came of it.
pub(super) struct Made {
    pub scale: f64,
    pub notes: Vec<String>,
}

/// The socket across: iron between its outside and the coated barrel, protection around it.
pub(super) fn socket_cut(view: &mut View, centre: Point, pipe: &Pipe) {
    let Some(socket) = pipe.socket_outside_diameter() else { return };
    let largest = pipe.largest_diameter().map_or(socket.si(), quantity::Length::si);
    if largest - socket.si() > 1e-6 {
        view.marks.push(Mark::area(Layer::Clearance, round(centre, largest / 2.0), Pattern::Blank));
        view.marks.push(Mark::circle(Layer::Clearance, centre, largest / 2.0));
    }
    let rings =
        vec![round(centre, socket.si() / 2.0), round(centre, pipe.barrel_diameter().si() / 2.0)];
    view.marks.push(Mark::area(Layer::Pipe, round(centre, socket.si() / 2.0), Pattern::Blank));
    view.marks.push(Mark::area_with_holes(Layer::Pipe, rings, Pattern::Iron));
    view.marks.push(Mark::circle(Layer::Pipe, centre, socket.si() / 2.0));
}

/// Length of the socket as drawn, m.
fn socket_length(pipe: &Pipe) -> f64 {
    (pipe.outside_diameter().si() * SOCKET.0).clamp(SOCKET.1, SOCKET.2)
}

/// The cut along the axis; the socket of the pipe at the right takes the spigot of the one at the left.
pub(super) fn draw(
    subject: &Subject<'_>,
    frame: Rectangle,
    joint: &Joint<'_>,
    draft: &mut Draft,
) -> Made {
    let pipe = joint.pipe;
    let (over, iron) = (pipe.barrel_diameter().si() / 2.0, pipe.outside_diameter().si() / 2.0);
    let (inside, bore) = (pipe.iron_bore().si() / 2.0, pipe.bore().si() / 2.0);
    let socket = pipe.socket_outside_diameter().map(|d| d.si() / 2.0);
    let largest = pipe.largest_diameter().map(|d| d.si() / 2.0);
    let long = socket_length(pipe);
    let widest = largest.unwrap_or(over);
    let scale = standard_scale(widest * 2.0 * 1000.0 / (frame.height - 26.0));
    let origin = Point::new(
        -frame.width * 0.5 * scale / 1000.0,
        -(frame.height / 2.0 - 1.0) * scale / 1000.0,
    );
    let mut view = View::new("joint cut along the axis", frame, origin, scale);
    let half = frame.width * 0.5 * scale / 1000.0;
    let (from, to) = (-half * 0.72, half * 0.72);
    let end = long * INSERTED;

    for side in [1.0, -1.0] {
        let slab = |x0: f64, x1: f64, y0: f64, y1: f64| {
            [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(|(x, y)| Point::new(x, y * side)).to_vec()
        };
        let mut put = |ring: Vec<Point>, pattern: Pattern| {
            view.marks.push(Mark::area(Layer::Pipe, ring.clone(), pattern));
            view.marks.push(Mark::outline(Layer::Pipe, ring));
        };
        let layers = [(bore, inside, Pattern::Mortar), (inside, iron, Pattern::Iron)];
        for (inner, outer, pattern) in layers {
            if outer - inner > 1e-6 {
                put(slab(from, end, inner, outer), pattern);
                put(slab(long, to, inner, outer), pattern);
            }
        }
        if over - iron > 1e-6 {
            put(slab(from, 0.0, iron, over), Pattern::Mortar);
            put(slab(long + (widest - iron) * 0.8, to, iron, over), Pattern::Mortar);
        }
        if let Some(socket) = socket {
            let hollow = iron + (socket - iron) * 0.25;
            let shoulder = long + (socket - iron) * 0.8;
            let ring = [
                (0.0, hollow),
                (0.0, socket),
                (long * 0.9, socket),
                (shoulder, iron),
                (long, inside),
                (long, hollow),
            ];
            put(ring.map(|(x, y)| Point::new(x, y * side)).to_vec(), Pattern::Iron);
            if let Some(largest) = largest
                && largest - socket > 1e-6
            {
                let ring = [
                    (-long * 0.35, over),
                    (-long * 0.1, largest),
                    (long * 0.95, largest),
                    (shoulder + long * 0.2, over),
                ];
                let ring = ring.map(|(x, y)| Point::new(x, y * side)).to_vec();
                view.marks.push(Mark::path(Layer::Clearance, ring));
            }
        }
    }
    // Broken ends of the pipes.
    for (x, turn) in [(from, 1.0), (to, -1.0)] {
        let tip = view.across(2.0) * turn;
        let points = [(x, -over), (x + tip, -over / 3.0), (x - tip, over / 3.0), (x, over)];
        let points = points.map(|(x, y)| Point::new(x, y)).to_vec();
        view.marks.push(Mark::path(Layer::Dimension, points));
    }
    let beyond = view.across(6.0);
    view.marks.push(Mark::line(
        Layer::Axis,
        Point::new(from - beyond, 0.0),
        Point::new(to + beyond, 0.0),
    ));
    let mut notes = Vec::new();
    let name = match (socket, joint.angle) {
        (Some(_), Some(angle)) => {
            deflected(subject, &mut view, angle, over, from, long / 2.0);
            "One joint cut along its axis, with the allowable angle"
        }
        (Some(_), None) => {
            notes.push(
                "The allowable angle of the joint is not known: no deflected barrel is drawn."
                    .to_owned(),
            );
            "One joint cut along its axis"
        }
        (None, _) => {
            notes
                .push("The joint is drawn without socket, whose diameter is not given.".to_owned());
            "One joint cut along its axis, socket not known"
        }
    };
    sizes(subject, &mut view, pipe, to);
    notes.push("The joint is drawn to scale in its diameters; length and shape of the socket, seal and lock are schematic, and no thickness of the socket is given.".to_owned());
    words_last(&mut view);
    draft.views.push(view);
    let at = Point::new(frame.left(), frame.top());
    let words = format!("{name}, {}", ratio(scale));
    draft.marks.push(Mark::text(Layer::Text, at, words, HEADING, Anchor::TopLeft).bold());
    Made { scale, notes }
}

/// The spigot's barrel turned in the joint to either side by the allowable angle.
fn deflected(
    subject: &Subject<'_>,
    view: &mut View,
    angle: Angle,
    over: f64,
    from: f64,
    pivot: f64,
) {
    let turned = |x: f64, y: f64, by: f64| {
        let (sin, cos) = by.sin_cos();
        let dx = x - pivot;
        Point::new(pivot + dx * cos - y * sin, dx * sin + y * cos)
    };
    for side in [1.0, -1.0] {
        let by = angle.si() * side;
        let beyond = from - view.across(6.0);
        view.marks.push(Mark::line(Layer::Axis, turned(pivot, 0.0, by), turned(beyond, 0.0, by)));
    }
    for y in [over, -over] {
        let line = [turned(-0.02, y, angle.si()), turned(from, y, angle.si())];
        view.marks.push(Mark::path(Layer::Host, line.to_vec()));
    }
    // The angle is written beyond the broken end, where nothing else stands.
    let words = format!("± {}", degrees(subject, angle.si()));
    let at = Point::new(from - view.across(8.0), view.up(4.0));
    let place = Mark::text(Layer::Text, at, words, SMALL, Anchor::Right);
    view.marks.push(place.on_patch());
    let radius = pivot - from + view.across(3.0);
    let pi = std::f64::consts::PI;
    let arc = Mark::arc(
        Layer::Dimension,
        Point::new(pivot, 0.0),
        radius,
        pi - angle.si(),
        pi + angle.si(),
    );
    view.marks.push(arc);
}

/// Diameters upright at the right, beyond the broken end.
fn sizes(subject: &Subject<'_>, view: &mut View, pipe: &Pipe, to: f64) {
    let mm = |si: f64| length(subject, si, unit::MM);
    let mut list = vec![(pipe.barrel_diameter().si(), "barrel")];
    if let Some(d) = pipe.socket_outside_diameter() {
        list.push((d.si(), "socket"));
    }
    if let Some(d) = pipe.largest_diameter() {
        list.push((d.si(), "with protection"));
    }
    list.dedup_by(|a, b| (a.0 - b.0).abs() < 1e-6);
    for (k, (d, what)) in (0_u32..).zip(list) {
        let x = if k == 0 { to } else { 0.0 };
        let line = view.on_paper(Point::new(to, 0.0)).x + 6.0 + f64::from(k) * 6.0;
        let offset = line - view.on_paper(Point::new(x, 0.0)).x;
        let (a, b) = (Point::new(x, -d / 2.0), Point::new(x, d / 2.0));
        let words = format!("{what} {}", mm(d));
        view.marks.push(Mark::dimension(DimensionKind::Up, a, b, offset, words));
    }
}

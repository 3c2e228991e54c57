//! The string in its bore, or in the place of the old main, cut across; one joint cut along.

use pipe::{Contents, Pipe};
use project::{Design, Project};
use quantity::unit;

use super::burst_section;
use super::joint::{self, Joint};
use super::kit::{
    self, Draft, Sample, finish, free, length, list_sheets, mark_of, note_sheets, round, words_last,
};
use crate::Subject;
use crate::scene::scale::{ratio, standard_scale};
use crate::scene::{Anchor, DimensionKind, Drawing, Layer, Mark, Pattern, Point, Rectangle, View};

/// Width of the column with sizes, notes and legend, mm.
const COLUMN: f64 = 128.0;
/// Height of the strip with the joint, mm.
const STRIP: f64 = 84.0;
/// Distance of dimension lines that stand above each other, mm.
pub(super) const STEP: f64 = 5.0;

/// The cross section: the bore with the string in it, or the old main, the expander and the new string.
#[must_use]
pub fn cross_section(subject: &Subject<'_>) -> Drawing {
    subject.for_reader(|subject| match subject.design {
        Design::Crossing(project) => drilled(subject, project),
        Design::Renewal(renewal) => burst_section::draw(subject, renewal),
    })
}

/// Rows of a table of sizes: what, value, how well founded.
pub(super) type Rows = Vec<Vec<String>>;

/// Sizes of the pipe, those of both techniques.
pub(super) fn pipe_sizes(subject: &Subject<'_>, pipe: &Pipe, joint: &pipe::Joint) -> Rows {
    let data = pipe.data();
    let mut rows = Vec::new();
    let mut add = |what: &str, value: String, mark: &str| {
        rows.push(vec![what.to_owned(), value, mark.to_owned()]);
    };
    let mm = |si: f64| length(subject, si, unit::MM);
    add("Pipe", format!("{} {} {}", pipe.standard(), pipe.nominal(), pipe.class()), "given");
    add(
        "Barrel, iron, outside",
        mm(data.outside_diameter.value.si()),
        mark_of(&data.outside_diameter.source),
    );
    add(
        "Wall of iron, nominal",
        mm(data.wall_nominal.value.si()),
        mark_of(&data.wall_nominal.source),
    );
    add("Lining", mm(data.lining.value.thickness.si()), mark_of(&data.lining.source));
    add("Coating", mm(data.coating.value.thickness.si()), mark_of(&data.coating.source));
    add("Barrel over coating", mm(pipe.barrel_diameter().si()), "derived");
    add("Bore within lining", mm(pipe.bore().si()), "derived");
    match &data.socket_outside_diameter {
        Some(v) => add("Socket, outside", mm(v.value.si()), mark_of(&v.source)),
        None => add("Socket, outside", "not known".to_owned(), "—"),
    }
    add(
        "Protection, on the diameter",
        mm(data.joint_protection.value.si()),
        mark_of(&data.joint_protection.source),
    );
    if let Some(d) = pipe.largest_diameter() {
        add("Socket with protection", mm(d.si()), "derived");
    }
    add(
        "Laying length",
        length(subject, data.laying_length.value.si(), unit::M),
        mark_of(&data.laying_length.source),
    );
    match &joint.allowable_angle {
        Some(v) => {
            let angle = kit::degrees(subject, v.value.si());
            add("Joint, allowable angle", angle, mark_of(&v.source));
            if let Ok(aside) = pipe::joint_offset(pipe.laying_length(), v.value) {
                add("Far end of a pipe aside at that angle", mm(aside.si()), "derived");
            }
        }
        None => add("Joint, allowable angle", "not known".to_owned(), "—"),
    }
    rows
}

/// Cut of the barrel: coating, iron, lining, bore.
pub(super) fn barrel_cut(view: &mut View, centre: Point, pipe: &Pipe) {
    let radius = |d: quantity::Length| d.si() / 2.0;
    let (over, iron) = (radius(pipe.barrel_diameter()), radius(pipe.outside_diameter()));
    let (inside, bore) = (radius(pipe.iron_bore()), radius(pipe.bore()));
    view.marks.push(Mark::area(Layer::Pipe, round(centre, over), Pattern::Blank));
    for (outer, inner, pattern) in [
        (over, iron, Pattern::Mortar),
        (iron, inside, Pattern::Iron),
        (inside, bore, Pattern::Mortar),
    ] {
        if outer - inner > 1e-6 {
            let rings = vec![round(centre, outer), round(centre, inner)];
            view.marks.push(Mark::area_with_holes(Layer::Pipe, rings, pattern));
        }
    }
    let mut last = f64::NAN;
    for r in [over, iron, inside, bore] {
        if (r - last).abs() > 1e-6 || last.is_nan() {
            view.marks.push(Mark::circle(Layer::Pipe, centre, r));
        }
        last = r;
    }
}

/// Height of the detail of the wall, mm.
const WALL: f64 = 46.0;

/// The wall of the barrel, enlarged, at the foot of a column; gives what is left above.
pub(super) fn wall(
    subject: &Subject<'_>,
    pipe: &Pipe,
    area: Rectangle,
    draft: &mut Draft,
) -> Rectangle {
    let (frame, rest) = area.cut_bottom(WALL);
    let layers = [
        ("lining", pipe.lining().thickness.si(), Pattern::Mortar),
        ("iron, nominal", pipe.wall_nominal().si(), Pattern::Iron),
        ("coating", pipe.coating().thickness.si(), Pattern::Mortar),
    ];
    let thick: f64 = layers.iter().map(|l| l.1).sum();
    let needed = thick * 1000.0 / (WALL - 16.0);
    let scale = [1.0, 2.0].into_iter().find(|s| *s >= needed).unwrap_or(standard_scale(needed));
    let mm = |paper: f64| paper * scale / 1000.0;
    let mut view = View::new("wall of the barrel", frame, Point::new(-mm(4.0), -mm(4.0)), scale);
    let (mut from, mut last) = (0.0, f64::NEG_INFINITY);
    let wide = mm(40.0);
    for (name, thickness, pattern) in layers {
        if thickness < 1e-6 {
            continue;
        }
        let to = from + thickness;
        let ring = [(0.0, from), (wide, from), (wide, to), (0.0, to)];
        let ring = ring.map(|(x, y)| Point::new(x, y)).to_vec();
        view.marks.push(Mark::area(Layer::Pipe, ring.clone(), pattern));
        view.marks.push(Mark::outline(Layer::Pipe, ring));
        // Words of thin layers keep their distance.
        let y = f64::midpoint(from, to).max(last + mm(3.6));
        last = y;
        let (a, b) = (Point::new(wide, f64::midpoint(from, to)), Point::new(wide + mm(5.0), y));
        view.marks.push(Mark::line(Layer::Dimension, a, b));
        let words = format!("{name} {}", length(subject, thickness, unit::MM));
        let at = Point::new(wide + mm(6.0), y);
        view.marks.push(Mark::text(Layer::Text, at, words, kit::SMALL, Anchor::MiddleLeft));
        from = to;
    }
    words_last(&mut view);
    draft.views.push(view);
    caption(draft, frame, &format!("Wall of the barrel, drawn flat, outside up, {}", ratio(scale)));
    rest.cut_bottom(3.0).1
}

/// Axes of a circle, a little longer than it.
pub(super) fn cross(view: &mut View, centre: Point, radius: f64) {
    let r = radius + view.across(3.0);
    let at = |x: f64, y: f64| Point::new(centre.x + x, centre.y + y);
    view.marks.push(Mark::line(Layer::Axis, at(-r, 0.0), at(r, 0.0)));
    view.marks.push(Mark::line(Layer::Axis, at(0.0, -r), at(0.0, r)));
}

/// Diameters as dimensions stacked above or below a circle that holds all of them; each by its centre, size and words.
pub(super) fn stack(
    view: &mut View,
    outermost: (Point, f64),
    above: bool,
    list: &[(Point, f64, String)],
) {
    let mut sorted: Vec<&(Point, f64, String)> = list.iter().collect();
    sorted.sort_by(|a, b| a.1.total_cmp(&b.1));
    let (centre, radius) = outermost;
    for (k, (at, diameter, words)) in (0_u32..).zip(sorted) {
        let side = if above { 1.0 } else { -1.0 };
        let edge = view.on_paper(Point::new(centre.x, centre.y + side * radius)).y;
        let line = edge + side * (6.0 + f64::from(k) * STEP);
        let from = Point::new(at.x - diameter / 2.0, at.y);
        let to = Point::new(at.x + diameter / 2.0, at.y);
        let offset = line - view.on_paper(from).y;
        view.marks.push(Mark::dimension(DimensionKind::Across, from, to, offset, words.clone()));
    }
}

/// Scale at which a diameter fits, with rows of dimensions above and below.
pub(super) fn scale_for(diameter: f64, frame: Rectangle, above: usize, below: usize) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "rows of dimensions are few")]
    let rows = (above + below) as f64;
    let room = (frame.height - 18.0 - rows * STEP).min(frame.width - 28.0).max(10.0);
    standard_scale(diameter * 1000.0 / room)
}

/// A view with a real point at the middle of the frame, shifted by half the difference of the rows above and below.
pub(super) fn centred(
    name: &str,
    frame: Rectangle,
    centre: Point,
    scale: f64,
    rows: (usize, usize),
) -> View {
    #[expect(clippy::cast_precision_loss, reason = "rows of dimensions are few")]
    let shift = (rows.1 as f64 - rows.0 as f64) * STEP / 2.0;
    let origin = Point::new(
        centre.x - frame.width / 2.0 * scale / 1000.0,
        centre.y - (frame.height / 2.0 + shift) * scale / 1000.0,
    );
    View::new(name, frame, origin, scale)
}

/// Column at the right: sizes, legend, notes; what finds no room goes to further sheets.
pub(super) fn column(
    subject: &Subject<'_>,
    area: Rectangle,
    rows: &[Vec<String>],
    entries: &[(Sample, &str)],
    list: &[String],
    first: &mut Draft,
) -> Vec<Draft> {
    let head = ["Size", "Value", "Source"];
    let shares = [0.5, 0.28, 0.22];
    let (legend, legend_height) = kit::legend(area, 2, entries);
    first.marks.extend(legend);
    let below = area.cut_top(legend_height + 4.0).1;
    let sizes = kit::table(below, &shares, &head, rows);
    let mut further = list_sheets(
        subject,
        "Sizes, continued",
        &shares,
        &head,
        rows.get(sizes.drawn..).unwrap_or(&[]),
    );
    first.marks.extend(sizes.marks);
    let rest = below.cut_top((sizes.height + 4.0).min(below.height)).1;
    let made = kit::notes(rest, "Notes", list);
    if made.drawn > 0 {
        first.marks.extend(made.marks);
    }
    further.extend(note_sheets(subject, "Notes", list.get(made.drawn..).unwrap_or(&[])));
    further
}

/// Where a ring lies in the bore: on its lower wall, or at its upper one where it floats.
fn resting(bore: f64, diameter: f64, floats: bool) -> Point {
    let shift = ((bore - diameter) / 2.0).max(0.0);
    Point::new(0.0, if floats { shift } else { -shift })
}

fn drilled(subject: &Subject<'_>, project: &Project) -> Drawing {
    let area = free(subject);
    let (left, right) = area.cut_left(area.width - COLUMN - 5.0);
    let right = right.cut_left(5.0).1;
    let (strip, upper) = left.cut_bottom(STRIP);
    let (one, two) = upper.cut_left(upper.width / 2.0);
    let pipe = &project.string.pipe;
    let bore = project.bore.final_diameter.si();
    let mm = |si: f64| length(subject, si, unit::MM);
    let weight = pipe.net_weight(project.fluid.density, project.string.contents).ok();
    let floats = weight.is_some_and(|w| w.si() < 0.0);
    let largest = pipe.largest_diameter().map(quantity::Length::si);
    let barrel = pipe.barrel_diameter().si();
    let string = resting(bore, largest.unwrap_or(barrel), floats);
    let centre = Point::new(0.0, 0.0);

    let mut passes: Vec<(Point, f64, String)> = Vec::new();
    let mut rows: Rows = Vec::new();
    if let Some(pilot) = project.bore.pilot_diameter {
        passes.push((centre, pilot.si(), format!("pilot {}", mm(pilot.si()))));
        rows.push(vec!["Pilot bore".into(), mm(pilot.si()), "given".into()]);
    }
    for (i, ream) in project.bore.ream_diameters.iter().enumerate() {
        if (ream.si() - bore).abs() > 1e-9 {
            passes.push((centre, ream.si(), format!("ream {} {}", i + 1, mm(ream.si()))));
        }
        rows.push(vec![format!("Ream pass {}", i + 1), mm(ream.si()), "given".into()]);
    }
    passes.push((centre, bore, format!("bore {}", mm(bore))));
    let source = project.source_of("/bore/final_diameter");
    rows.push(vec!["Final bore".into(), mm(bore), mark_of(&source).into()]);
    rows.extend(pipe_sizes(subject, pipe, &project.string.joint));

    let mut sockets: Vec<(Point, f64, String)> = Vec::new();
    if let (Some(socket), Some(largest)) = (pipe.socket_outside_diameter(), largest) {
        sockets.push((string, socket.si(), format!("socket {}", mm(socket.si()))));
        if largest - socket.si() > 1e-6 {
            sockets.push((string, largest, format!("with protection {}", mm(largest))));
        }
    }
    let barrels = [
        (string, pipe.bore().si(), format!("bore {}", mm(pipe.bore().si()))),
        (
            string,
            pipe.outside_diameter().si(),
            format!("iron {}", mm(pipe.outside_diameter().si())),
        ),
        (string, barrel, format!("over coating {}", mm(barrel))),
    ];
    let barrels =
        if barrel - pipe.outside_diameter().si() > 1e-6 { &barrels[..] } else { &barrels[..2] };

    let counts = (barrels.len().max(sockets.len()), passes.len());
    let scale = scale_for(bore, one, counts.0, counts.1);
    let mut draft = Draft::new("Cross section of bore and string", ratio(scale));
    let mut notes =
        drilled_notes(subject, project, weight.map(quantity::ForcePerLength::si), largest);

    // At a joint.
    let mut view = centred("cross section at a joint", one, centre, scale, counts);
    annulus(&mut view, bore, string, largest.unwrap_or(barrel));
    joint::socket_cut(&mut view, string, pipe);
    barrel_cut(&mut view, string, pipe);
    for (_, d, _) in &passes {
        view.marks.push(Mark::circle(Layer::Bore, centre, d / 2.0));
    }
    cross(&mut view, centre, bore / 2.0);
    stack(&mut view, (centre, bore / 2.0), true, &sockets);
    stack(&mut view, (centre, bore / 2.0), false, &passes);
    gaps(subject, &mut view, bore, string, largest.unwrap_or(barrel));
    words_last(&mut view);
    draft.views.push(view);
    let caption = if largest.is_some() { "At a joint" } else { "At a joint (socket not known)" };
    draft.heading(Point::new(one.left(), one.top()), caption);

    // Between two joints.
    let mut view = centred("cross section between two joints", two, centre, scale, counts);
    annulus(&mut view, bore, string, barrel);
    view.marks.push(Mark::circle(Layer::Bore, centre, bore / 2.0));
    if let Some(largest) = largest {
        view.marks.push(Mark::circle(Layer::Clearance, string, largest / 2.0));
    }
    barrel_cut(&mut view, string, pipe);
    cross(&mut view, centre, bore / 2.0);
    stack(&mut view, (centre, bore / 2.0), true, barrels);
    gaps(subject, &mut view, bore, string, barrel);
    words_last(&mut view);
    draft.views.push(view);
    draft.heading(Point::new(two.left(), two.top()), "Between two joints, sockets behind");

    let made = joint::draw(
        subject,
        strip,
        &Joint { pipe, angle: project.string.joint.allowable_angle.as_ref().map(|a| a.value) },
        &mut draft,
    );
    notes.extend(made.notes);
    if (made.scale - scale).abs() > 1e-9 {
        draft.scale = format!("{}, joint {}", ratio(scale), ratio(made.scale));
    }
    draft.description = format!(
        "Bore of {} with a barrel of {} that {}.",
        mm(bore),
        mm(barrel),
        if floats { "floats up to the upper wall" } else { "lies on the lower wall" }
    );
    let entries = [
        (Sample::Line(Layer::Bore), "bore: pilot, ream passes, final"),
        (Sample::Area(Layer::Bore, Pattern::Fluid), "drilling fluid"),
        (Sample::Area(Layer::Pipe, Pattern::Iron), "iron, cut"),
        (Sample::Area(Layer::Pipe, Pattern::Mortar), "lining or coating, cut"),
        (Sample::Line(Layer::Clearance), "protection; socket behind"),
        (Sample::Line(Layer::Axis), "axis; deflected axis"),
    ];
    let right = wall(subject, pipe, right, &mut draft);
    let further = column(subject, right, &rows, &entries, &notes, &mut draft);
    let mut drafts = vec![draft];
    drafts.extend(further);
    finish(subject, "cross-section", "Cross section of bore and string", drafts)
}

/// Fluid between the wall and what is in it.
fn annulus(view: &mut View, bore: f64, at: Point, diameter: f64) {
    let mut rings = vec![round(Point::new(0.0, 0.0), bore / 2.0)];
    if diameter < bore {
        rings.push(round(at, diameter / 2.0));
    }
    view.marks.push(Mark::area_with_holes(Layer::Bore, rings, Pattern::Fluid));
}

/// Gaps above and below what lies in the bore, at its right and left.
fn gaps(subject: &Subject<'_>, view: &mut View, bore: f64, at: Point, diameter: f64) {
    let (top, bottom) = (at.y + diameter / 2.0, at.y - diameter / 2.0);
    let edge = bore / 2.0;
    let side = view.on_paper(Point::new(edge, 0.0)).x - view.on_paper(Point::new(0.0, 0.0)).x + 8.0;
    for (from, to, offset) in [(top, edge, side), (-edge, bottom, -side)] {
        if to - from > 1e-6 {
            let words = length(subject, to - from, unit::MM);
            let (from, to) = (Point::new(0.0, from), Point::new(0.0, to));
            view.marks.push(Mark::dimension(DimensionKind::Up, from, to, offset, words));
        }
    }
}

fn drilled_notes(
    subject: &Subject<'_>,
    project: &Project,
    weight: Option<f64>,
    largest: Option<f64>,
) -> Vec<String> {
    let mut list = Vec::new();
    let contents = match project.string.contents {
        Contents::Empty => "empty".to_owned(),
        Contents::Water => "full of water".to_owned(),
        Contents::Part(share) => {
            format!(
                "with water in {} of its bore",
                quantity::show_with(share, unit::PERCENT, subject.system)
            )
        }
    };
    list.push(match weight {
        Some(w) => format!(
            "The string is pulled {contents}: net weight in the fluid {} ({}). It is drawn {}.",
            quantity::show_with(w, unit::KN_PER_M, subject.system),
            if w < 0.0 { "it floats" } else { "it sinks" },
            if w < 0.0 { "at the upper wall" } else { "on the lower wall" }
        ),
        None => {
            "The net weight of the string in the fluid is not known: it is drawn on the lower wall."
                .to_owned()
        }
    });
    match largest {
        None => list.push("The outside diameter of the socket is not given: no socket is drawn, and the barrel rests on the wall.".to_owned()),
        Some(d) if d > project.bore.final_diameter.si() => {
            list.push("The socket with its protection is wider than the bore.".to_owned());
        }
        Some(_) => list.push("Sockets touch the wall; between two joints the barrel hangs free as drawn, without bending.".to_owned()),
    }
    if project.bore.pilot_diameter.is_none() {
        list.push("The diameter of the pilot bore is not given.".to_owned());
    }
    if project.bore.ream_diameters.is_empty() {
        list.push("No ream passes are given.".to_owned());
    }
    list.push(
        "The bore is drawn round, at its nominal diameters, without cuttings in it.".to_owned(),
    );
    list
}

/// Where a caption of a view begins.
pub(super) fn caption(draft: &mut Draft, frame: Rectangle, words: &str) {
    let at = Point::new(frame.left(), frame.top());
    draft.marks.push(Mark::text(Layer::Text, at, words, kit::HEADING, Anchor::TopLeft).bold());
}

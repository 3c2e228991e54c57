//! Site layout of a drilled crossing: bore, end zones, what is crossed, and the string behind the exit point.

use ground::Shape as Extent;
use project::{Assembly, Project};
use quantity::{Length, unit};

use super::kit::{
    self, Draft, Labels, Sample, finish, free, length, list_sheets, note_sheets, words_last,
};
use crate::Subject;
use crate::scene::scale::{ratio, scale_bar, standard_scale};
use crate::scene::{
    DimensionKind, Drawing, Layer, Mark, Pattern, Point, Rectangle, SymbolKind, View,
};

/// Points of the bore in plan.
const SAMPLES: u32 = 200;

/// The bore in plan, turned so that entry and exit point lie level, entry at the left and at the origin.
pub(super) struct Plan {
    pub bore: Vec<Point>,
    pub exit: Point,
    /// Direction of the bore at its exit.
    pub onward: Point,
}

impl Plan {
    pub fn new(project: &Project) -> Self {
        let line = &project.line;
        let total = line.length().si();
        let stations: Vec<_> =
            (0..=SAMPLES).map(|k| line.sample(total * f64::from(k) / f64::from(SAMPLES))).collect();
        let raw: Vec<Point> =
            stations.iter().map(|s| Point::new(s.position.x, s.position.y)).collect();
        let first = raw.first().copied().unwrap_or_default();
        let last = raw.last().copied().unwrap_or_default();
        let (dx, dy) = (last.x - first.x, last.y - first.y);
        let span = dx.hypot(dy);
        let (cos, sin) = if span > 1e-9 { (dx / span, dy / span) } else { (1.0, 0.0) };
        let turn = |x: f64, y: f64| Point::new(x * cos + y * sin, y * cos - x * sin);
        let onward = stations.last().map_or(Point::new(1.0, 0.0), |s| {
            let (east, north) = s.azimuth.si().sin_cos();
            turn(east, north)
        });
        Self {
            bore: raw.iter().map(|p| turn(p.x - first.x, p.y - first.y)).collect(),
            exit: Point::new(span, 0.0),
            onward,
        }
    }

    /// The point at a share of the measured distance, and the direction there.
    fn at(&self, share: f64) -> (Point, Point) {
        let last = self.bore.len().saturating_sub(1);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "an index of a list of 201 points"
        )]
        let (place, index) = {
            let place = share.clamp(0.0, 1.0) * last as f64;
            (place, (place.floor() as usize).min(last.saturating_sub(1)))
        };
        let a = self.bore.get(index).copied().unwrap_or_default();
        let b = self.bore.get(index + 1).copied().unwrap_or(a);
        #[expect(clippy::cast_precision_loss, reason = "as above")]
        let rest = place - index as f64;
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let long = dx.hypot(dy).max(1e-12);
        (Point::new(a.x + dx * rest, a.y + dy * rest), Point::new(dx / long, dy / long))
    }
}

/// What must lie ready behind the exit point: words, length, pipes.
fn laid(project: &Project, pipes: u32) -> (&'static str, f64, u32) {
    let one = project.string.pipe.laying_length().si();
    let (words, count) = match &project.string.assembly {
        Assembly::String => ("whole string", pipes),
        Assembly::SubStrings(list) => {
            ("longest sub-string", list.iter().copied().max().unwrap_or(1))
        }
        Assembly::PipeByPipe => ("one pipe", 1),
    };
    (words, one * f64::from(count), count)
}

pub(super) fn draw(subject: &Subject<'_>, project: &Project) -> Drawing {
    let area = free(subject);
    let (drawn, foot) = area.cut_top(area.height * 0.56);
    let plan = Plan::new(project);
    let pipes = project.string.pipes_for(project.line.length());
    let (laid_words, laid_length, laid_pipes) = laid(project, pipes);
    let metres = |si: f64| length(subject, si, unit::M);
    let tail = Point::new(
        plan.exit.x + plan.onward.x * laid_length,
        plan.exit.y + plan.onward.y * laid_length,
    );
    let all = || plan.bore.iter().chain([&plan.exit, &tail]);
    let (left, right) = all().fold((0.0, 0.0), |(a, b), p| (p.x.min(a), p.x.max(b)));
    let (low, high) = all().fold((0.0, 0.0), |(a, b), p| (p.y.min(a), p.y.max(b)));
    let scale = standard_scale(
        ((right - left) * 1000.0 / (drawn.width - 40.0))
            .max((high - low) * 1000.0 / (drawn.height - 86.0)),
    );
    let m = |mm: f64| mm * scale / 1000.0;
    let origin = Point::new(
        (left + right) / 2.0 - m(drawn.width / 2.0),
        (low + high) / 2.0 - m(drawn.height / 2.0),
    );
    let mut view = View::new("site layout", drawn, origin, scale);
    let mut labels = Labels::new(drawn.inset(6.0));
    labels.keep(Rectangle::new(drawn.left(), drawn.top() - 10.0, drawn.width, 10.0));
    let total = project.line.length();

    labels.keep_along(&view, &plan.bore, 4.6);
    labels.keep_along(&view, &[plan.exit, tail], 1.6);
    crossed(project, &plan, &mut view);
    end_zones(project, &plan, &mut view);
    view.marks.push(Mark::path(Layer::Axis, plan.bore.clone()));
    rollers(&plan, laid_length, &mut view);
    for at in [Point::new(0.0, 0.0), plan.exit] {
        view.marks.push(Mark::symbol(Layer::Axis, at, SymbolKind::End, 3.0));
    }
    let arrow = plan.bore.get(plan.bore.len() / 2).copied().unwrap_or_default();
    let pull =
        Mark::symbol(Layer::Site, arrow, SymbolKind::Arrow, 4.0).turned(std::f64::consts::PI);
    view.marks.push(pull);

    // Dimensions below everything that is drawn.
    let depth =
        (view.on_paper(Point::new(0.0, low)).y - view.on_paper(Point::new(0.0, 0.0)).y) - 22.0;
    let span = format!("{} in plan", metres(plan.exit.x));
    view.marks.push(Mark::dimension(
        DimensionKind::Across,
        Point::new(0.0, 0.0),
        plan.exit,
        depth,
        span,
    ));
    let y = |p: Point| view.on_paper(p).y;
    let level = y(Point::new(0.0, 0.0)) + depth;
    keep_line(&mut labels, &view, level);
    let offset = level - y(plan.exit);
    let words = metres(laid_length);
    view.marks.push(Mark::dimension(DimensionKind::Aligned, plan.exit, tail, offset, words));

    labels.near(&mut view, Point::new(0.0, 0.0), "entry point, rig side", true);
    labels.near(&mut view, plan.exit, "exit point, pipe side", true);
    let middle = Point::new((plan.exit.x + tail.x) / 2.0, (plan.exit.y + tail.y) / 2.0);
    let words = format!("{laid_words}, {laid_pipes} × laying length");
    let mut missing = Vec::new();
    let mut write = |view: &mut View, at: Point, words: &str, below: bool| {
        if !labels.near(view, at, words, below) {
            missing.push(words.to_owned());
        }
    };
    write(&mut view, middle, &words, false);
    write(&mut view, arrow, "direction of the pull", true);
    for (at, words) in zone_words(subject, project, &plan) {
        write(&mut view, at, &words, false);
    }
    for o in &project.site.obstacles {
        let at = match o.shape {
            Extent::Above { from, to, .. } => (from + to) / 2.0,
            Extent::Round { at, .. } => at,
        };
        if let Some(at) = at_chainage(project, &plan, at) {
            write(&mut view, at.0, &o.name, false);
        }
    }
    words_last(&mut view);

    let mut draft = Draft::new("Site layout", ratio(scale));
    draft.views.push(view);
    draft.heading(
        Point::new(drawn.left(), drawn.top()),
        "Plan, turned so that entry and exit point lie level",
    );
    let bar = Point::new(drawn.left() + 2.0, drawn.bottom() + 2.0);
    draft.marks.extend(scale_bar(bar, scale, 60.0, subject.system).0);
    draft.description = format!(
        "Bore of {} from entry to exit; {laid_words} of {} behind the exit point.",
        metres(total.si()),
        metres(laid_length)
    );
    let rows = sizes(subject, project, &plan, pipes, (laid_words, laid_length));
    let notes = notes(subject, project, &missing);
    let further = foot_of(subject, project, foot, &rows, &notes, &mut draft);
    let mut drafts = vec![draft];
    drafts.extend(further);
    finish(subject, "site-layout", "Site layout", drafts)
}

/// Keeps a line of dimensions with its words free, and all that lies below.
fn keep_line(labels: &mut Labels, view: &View, level: f64) {
    let frame = view.frame;
    let height = (level + 5.0 - frame.bottom()).max(0.0);
    labels.keep(Rectangle::new(frame.left(), frame.bottom(), frame.width, height));
}

/// Place in plan at a chainage, with the direction of the bore.
fn at_chainage(project: &Project, plan: &Plan, chainage: Length) -> Option<(Point, Point)> {
    let md = project.line.md_at_chainage(chainage).ok()?;
    Some(plan.at(md / project.line.length()))
}

/// Strips across the bore where something is crossed.
fn crossed(project: &Project, plan: &Plan, view: &mut View) {
    let half = view.across(9.0);
    for o in &project.site.obstacles {
        let (from, to) = match o.shape {
            Extent::Above { from, to, .. } => (from, to),
            Extent::Round { at, diameter, .. } => (at - diameter / 2.0, at + diameter / 2.0),
        };
        for end in [from, to] {
            if let Some((p, d)) = at_chainage(project, plan, end) {
                let line = across(p, d, half);
                view.marks.push(Mark::path(Layer::Obstacle, line.to_vec()));
            }
        }
    }
}

/// Two points to both sides of the line.
fn across(at: Point, direction: Point, half: f64) -> [Point; 2] {
    [
        Point::new(at.x - direction.y * half, at.y + direction.x * half),
        Point::new(at.x + direction.y * half, at.y - direction.x * half),
    ]
}

/// Ends of the end zones.
fn zones(project: &Project) -> [(Length, Length, Length); 2] {
    let run = project.line.run();
    let (entry, exit) = (project.site.end_zone_entry, project.site.end_zone_exit);
    [(Length::ZERO, entry, entry), (run - exit, run, exit)]
}

fn end_zones(project: &Project, plan: &Plan, view: &mut View) {
    let half = view.across(4.0);
    for (from, to, size) in zones(project) {
        if size.si() <= 0.0 {
            continue;
        }
        let ends = [from, to].map(|x| at_chainage(project, plan, x));
        if let [Some((a, da)), Some((b, db))] = ends {
            let [al, ar] = across(a, da, half);
            let [bl, br] = across(b, db, half);
            view.marks.push(Mark::outline(Layer::Clearance, vec![al, bl, br, ar]));
        }
    }
}

fn zone_words(subject: &Subject<'_>, project: &Project, plan: &Plan) -> Vec<(Point, String)> {
    let words = |(from, to, size): (Length, Length, Length)| {
        let at = at_chainage(project, plan, (from + to) / 2.0)?.0;
        (size.si() > 0.0).then(|| (at, format!("end zone {}", length(subject, size.si(), unit::M))))
    };
    zones(project).into_iter().filter_map(words).collect()
}

/// The string outside, on rollers where it lies on them.
fn rollers(plan: &Plan, long: f64, view: &mut View) {
    let half = view.across(1.0);
    let (e, d) = (plan.exit, plan.onward);
    let at = |along: f64, side: f64| {
        Point::new(e.x + d.x * along - d.y * side, e.y + d.y * along + d.x * side)
    };
    let ring = vec![at(0.0, half), at(long, half), at(long, -half), at(0.0, -half)];
    view.marks.push(Mark::area(Layer::Site, ring.clone(), Pattern::Blank));
    view.marks.push(Mark::outline(Layer::Site, ring));
    view.marks.push(Mark::line(Layer::Pipe, at(0.0, 0.0), at(long, 0.0)));
}

/// Rows of the table: what, value, how it is known.
fn sizes(
    subject: &Subject<'_>,
    project: &Project,
    plan: &Plan,
    pipes: u32,
    (laid_words, laid_length): (&str, f64),
) -> Vec<Vec<String>> {
    let metres = |si: f64| length(subject, si, unit::M);
    let degrees = |si: f64| kit::degrees(subject, si);
    let string = &project.string;
    let (entry, exit) = (project.line.sample(0.0), project.line.sample(project.line.length().si()));
    let row =
        |what: &str, value: String, source: &str| vec![what.to_owned(), value, source.to_owned()];
    let mut rows = vec![
        row("Entry to exit point, straight in plan", metres(plan.exit.x), "computed"),
        row("Bore along its axis", metres(project.line.length().si()), "computed"),
        row("Level of the entry point", metres(entry.level.si()), "given"),
        row("Level of the exit point", metres(exit.level.si()), "computed"),
        row("Entry angle", degrees(entry.inclination.si().abs()), "computed"),
        row("Exit angle", degrees(exit.inclination.si().abs()), "computed"),
        row(
            "Direction at the exit, clockwise from grid north",
            degrees(exit.azimuth.si()),
            "computed",
        ),
        row("Pipes in the string", pipes.to_string(), "computed"),
        row(
            "Length of all pipes",
            metres(string.pipe.laying_length().si() * f64::from(pipes)),
            "computed",
        ),
        row(&format!("Ready behind the exit point: {laid_words}"), metres(laid_length), "computed"),
        row(
            "Slope of the string outside",
            degrees(string.ramp_slope.si()),
            kit::mark_of(&project.source_of("/string/ramp_slope")),
        ),
    ];
    if let Assembly::SubStrings(list) = &string.assembly {
        let list: Vec<String> = list.iter().map(u32::to_string).collect();
        rows.push(row("Pipes in the sub-strings, in order", list.join(", "), "given"));
    }
    rows
}

fn notes(subject: &Subject<'_>, project: &Project, missing: &[String]) -> Vec<String> {
    let mut list = vec![
        "Only what the design file tells is drawn: it holds no areas for the rig and the pipe side, no pits, no fences and no access. None are invented here.".to_owned(),
        "The string lies straight in the direction of the bore at its exit; whether the ground there allows it is not known to the file.".to_owned(),
        "The pull goes from the exit point to the entry point. Bends of the string on the way to the exit point must keep the allowable angle of the joint.".to_owned(),
        format!(
            "The string needs {} beyond the bore ({}).",
            length(subject, project.string.extra_length.si(), unit::M),
            project.source_of("/string/extra_length")
        ),
    ];
    if project.site.obstacles.is_empty() {
        list.push("No obstacles are given.".to_owned());
    } else {
        list.push(
            "What is crossed is drawn square to the bore: its true direction is not in the file."
                .to_owned(),
        );
    }
    if !missing.is_empty() {
        list.push(format!("Words that found no room on the plan: {}.", missing.join("; ")));
    }
    list
}

/// Table, obstacles, legend and notes below the plan; what finds no room goes to further sheets.
fn foot_of(
    subject: &Subject<'_>,
    project: &Project,
    foot: Rectangle,
    rows: &[Vec<String>],
    notes: &[String],
    draft: &mut Draft,
) -> Vec<Draft> {
    let (one, rest) = foot.cut_left(foot.width * 0.36);
    let (two, three) = rest.cut_left(rest.width * 0.5);
    let one = Rectangle::new(one.left(), one.bottom(), one.width - 4.0, one.height);
    let two = Rectangle::new(two.left(), two.bottom(), two.width - 4.0, two.height);
    let shares = [0.6, 0.2, 0.2];
    let head = ["Size", "Value", "Source"];
    let made = kit::table(one, &shares, &head, rows);
    let mut further = list_sheets(
        subject,
        "Site layout, sizes",
        &shares,
        &head,
        rows.get(made.drawn..).unwrap_or(&[]),
    );
    draft.marks.extend(made.marks);
    let crossing: Vec<Vec<String>> = project
        .site
        .obstacles
        .iter()
        .map(|o| {
            let m = |l: Length| length(subject, l.si(), unit::M);
            let at = match o.shape {
                Extent::Above { from, to, .. } => format!("{} to {}", m(from), m(to)),
                Extent::Round { at, .. } => m(at),
            };
            vec![at, o.kind.word().to_owned(), o.name.clone()]
        })
        .collect();
    let shares = [0.3, 0.2, 0.5];
    let head = ["Chainage", "Crossed", "Name"];
    let made = kit::table(two, &shares, &head, &crossing);
    further.extend(list_sheets(
        subject,
        "Site layout, what is crossed",
        &shares,
        &head,
        crossing.get(made.drawn..).unwrap_or(&[]),
    ));
    draft.marks.extend(made.marks);
    let entries = [
        (Sample::Line(Layer::Axis), "axis of the bore"),
        (Sample::Line(Layer::Clearance), "end zone"),
        (Sample::Line(Layer::Obstacle), "edge of what is crossed"),
        (Sample::Line(Layer::Pipe), "string outside the bore"),
    ];
    let (marks, height) = kit::legend(three, 2, &entries);
    draft.marks.extend(marks);
    let made = kit::notes(three.cut_top(height + 4.0).1, "Notes", notes);
    draft.marks.extend(made.marks);
    further.extend(note_sheets(subject, "Notes", notes.get(made.drawn..).unwrap_or(&[])));
    further
}

//! The alignment of a design: parts of the plan and of the profile, each exact where it can be.

use project::{Design, Project, Renewal};

use super::land_xml::where_it_lies;
use super::plan::{Places, steps};
use crate::Subject;

/// How far a part may lie from the straight or arc that stands for it, m.
const EXACT: f64 = 1e-4;

/// A part of the plan; x east, y north.
pub(super) enum PlanPart {
    Line { from: Point, to: Point },
    Curve { from: Point, to: Point, centre: Point, radius: f64, right: bool },
}

pub(super) type Point = (f64, f64);

/// A point of the profile.
pub(super) enum ProfilePart {
    Pvi { station: f64, level: f64 },
    Curve { station: f64, level: f64, length: f64, radius: f64 },
}

/// Plan and profile along stations.
pub(super) struct Alignment {
    /// Station of its beginning.
    pub(super) start: f64,
    /// Length in plan.
    pub(super) length: f64,
    pub(super) plan: Vec<PlanPart>,
    pub(super) profile: Vec<ProfilePart>,
    /// What it rests on: label and words.
    pub(super) remarks: Vec<(&'static str, String)>,
}

impl Alignment {
    /// The alignment, or why there is none.
    pub(super) fn of(subject: &Subject<'_>) -> Result<Self, String> {
        match subject.design {
            Design::Crossing(project) => of_crossing(project, subject),
            Design::Renewal(renewal) => of_renewal(renewal, subject),
        }
    }
}

fn of_crossing(project: &Project, subject: &Subject<'_>) -> Result<Alignment, String> {
    let line = &project.line;
    let places = Places::new(subject.design);
    let place = |md: f64| {
        let p = line.sample(md).position;
        project.coordinates.as_ref().map_or((p.x, p.y), |c| {
            let [x, y] = [p.x, p.y].map(quantity::Length::from_si);
            let (e, n) = c.of(x, y);
            (e.si(), n.si())
        })
    };
    let (mut plan, mut profile) = (Vec::new(), Vec::new());
    let (mut chains, mut chains_up) = (Vec::new(), Vec::new());
    let first = line.sample(0.0);
    profile.push(ProfilePart::Pvi { station: 0.0, level: first.level.si() });
    for segment in line.segments() {
        let (from, to) = (segment.md_start().si(), segment.md_end().si());
        let (a, b) = (line.sample(from), line.sample(to));
        let along = (b.chainage - a.chainage).si();
        if along <= 0.0 {
            return Err(
                "a part of the line stands upright, which an alignment by stations cannot hold"
                    .to_owned(),
            );
        }
        let turn = segment.plan_turn().si();
        match plan_part(&place, (from, to), along, turn, a.azimuth.si()) {
            Some(part) => plan.push(part),
            None => {
                chains.push((from, to));
                let mut before = place(from);
                for md in steps(from, to, segment.turn().si()) {
                    let now = place(md);
                    plan.push(PlanPart::Line { from: before, to: now });
                    before = now;
                }
            }
        }
        let (p, q) = (a.inclination.si(), b.inclination.si());
        let end = ProfilePart::Pvi { station: b.chainage.si(), level: b.level.si() };
        let middle = line.sample(0.5 * (from + to));
        match arc_up(&a, &b) {
            Some((radius, station, level)) if on_arc(&a, &middle, radius) => {
                profile.push(ProfilePart::Curve {
                    station,
                    level,
                    length: along,
                    radius: radius.abs(),
                });
            }
            None if off_chord(&a, &b, &middle) <= EXACT && (q - p).abs() < 1e-9 => {
                profile.push(end)
            }
            _ => {
                chains_up.push((from, to));
                for md in steps(from, to, segment.turn().si()) {
                    let s = line.sample(md);
                    profile
                        .push(ProfilePart::Pvi { station: s.chainage.si(), level: s.level.si() });
                }
            }
        }
    }
    let last = line.sample(line.length().si());
    if !matches!(profile.last(), Some(ProfilePart::Pvi { .. })) {
        profile.push(ProfilePart::Pvi { station: last.chainage.si(), level: last.level.si() });
    }
    let remarks = vec![
        ("plan", how_exact(&chains)),
        ("profile", how_exact(&chains_up)),
        (
            "circCurve",
            "length is the horizontal one, radius that in the developed profile".to_owned(),
        ),
        ("stations", "horizontal distance along the line from the entry point".to_owned()),
        ("coordinates", where_it_lies(&places)),
    ];
    Ok(Alignment { start: 0.0, length: line.run().si(), plan, profile, remarks })
}

/// Where short straights stand for the line, stretches that touch taken together.
fn how_exact(chains: &[(f64, f64)]) -> String {
    let mut joined: Vec<(f64, f64)> = Vec::new();
    for (from, to) in chains {
        match joined.last_mut() {
            Some(last) if (last.1 - from).abs() < 1e-6 => last.1 = *to,
            _ => joined.push((*from, *to)),
        }
    }
    if joined.is_empty() {
        return "exact: straights and circular arcs".to_owned();
    }
    let list: Vec<String> =
        joined.iter().map(|(from, to)| format!("{from:.3} m to {to:.3} m")).collect();
    format!(
        "short straights within 1 mm of the line at measured distances {}, elsewhere exact",
        list.join(", ")
    )
}

/// A straight, or an arc of the plan line that holds at three places between its ends.
fn plan_part(
    place: &impl Fn(f64) -> Point,
    (from, to): (f64, f64),
    along: f64,
    turn: f64,
    azimuth: f64,
) -> Option<PlanPart> {
    let (a, b) = (place(from), place(to));
    let inner = [0.25, 0.5, 0.75].map(|share| place(from + share * (to - from)));
    let chord = (b.0 - a.0).hypot(b.1 - a.1);
    let off = |p: Point| ((p.0 - a.0) * (b.1 - a.1) - (p.1 - a.1) * (b.0 - a.0)).abs() / chord;
    if inner.iter().all(|p| off(*p) <= EXACT) && turn.abs() < 1e-6 {
        return Some(PlanPart::Line { from: a, to: b });
    }
    if turn.abs() < 1e-9 {
        return None;
    }
    let radius = along / turn;
    let (sin, cos) = azimuth.sin_cos();
    let centre = (a.0 + radius * cos, a.1 - radius * sin);
    let away = |p: Point| ((p.0 - centre.0).hypot(p.1 - centre.1) - radius.abs()).abs();
    let holds = inner.iter().chain([&b]).all(|p| away(*p) <= EXACT);
    holds.then_some(PlanPart::Curve {
        from: a,
        to: b,
        centre,
        radius: radius.abs(),
        right: turn > 0.0,
    })
}

/// Radius (positive where it turns upwards) and point of intersection of an arc in the developed profile.
fn arc_up(a: &line::Station, b: &line::Station) -> Option<(f64, f64, f64)> {
    let (p, q) = (a.inclination.si(), b.inclination.si());
    if (q - p).abs() < 1e-9 {
        return None;
    }
    let radius = (b.chainage - a.chainage).si() / (q.sin() - p.sin());
    let tangent = (radius * (0.5 * (q - p)).tan()).abs();
    let station = a.chainage.si() + tangent * p.cos();
    Some((radius, station, a.level.si() + tangent * p.sin()))
}

fn on_arc(a: &line::Station, middle: &line::Station, radius: f64) -> bool {
    let (sin, cos) = a.inclination.si().sin_cos();
    let centre = (a.chainage.si() - radius * sin, a.level.si() + radius * cos);
    let away = (middle.chainage.si() - centre.0).hypot(middle.level.si() - centre.1);
    (away - radius.abs()).abs() <= EXACT
}

fn off_chord(a: &line::Station, b: &line::Station, middle: &line::Station) -> f64 {
    let share = (middle.chainage - a.chainage) / (b.chainage - a.chainage);
    (middle.level.si() - a.level.si() - share * (b.level - a.level).si()).abs()
}

fn of_renewal(renewal: &Renewal, subject: &Subject<'_>) -> Result<Alignment, String> {
    let places = Places::new(subject.design);
    let corners = places.axis();
    if corners.len() < 2 {
        return Err(
            "the design has no [coordinates]: the plan of the old main is not known".to_owned()
        );
    }
    let start = corners.first().map_or(0.0, |c| c.0);
    // Stations follow the plan, which may be a little longer or shorter than the chainage.
    let mut stations = vec![(start, start)];
    let mut plan = Vec::new();
    let mut station = start;
    for pair in corners.windows(2) {
        let [a, b] = pair else { continue };
        plan.push(PlanPart::Line { from: (a.1, a.2), to: (b.1, b.2) });
        station += (b.1 - a.1).hypot(b.2 - a.2);
        stations.push((b.0, station));
    }
    let station_of = |x: f64| {
        stations.windows(2).find_map(|pair| {
            let [a, b] = pair else { return None };
            (x >= a.0 && x <= b.0).then(|| a.1 + (x - a.0) / (b.0 - a.0) * (b.1 - a.1))
        })
    };
    let axis = &renewal.host.axis;
    let mut chainages: Vec<f64> =
        axis.points().map(|(x, _)| x.si()).chain(corners.iter().map(|c| c.0)).collect();
    chainages.sort_by(f64::total_cmp);
    chainages.dedup();
    let profile = chainages.into_iter().filter_map(|x| {
        let level = axis.level_at(quantity::Length::from_si(x)).ok()?.si();
        Some(ProfilePart::Pvi { station: station_of(x)?, level })
    });
    let remarks = vec![
        (
            "plan",
            "straights between the points of [coordinates]; bends of the main have no curve"
                .to_owned(),
        ),
        ("profile", "straights between the points of the old main's axis".to_owned()),
        (
            "stations",
            format!(
                "along the plan from chainage {start} m; the end, chainage {} m, has station {station:.3} m",
                axis.to().si()
            ),
        ),
        ("coordinates", where_it_lies(&places)),
    ];
    Ok(Alignment { start, length: station - start, plan, profile: profile.collect(), remarks })
}

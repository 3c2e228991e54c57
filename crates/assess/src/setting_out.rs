//! The table that the line is set out by: rod by rod of a bore, pipe by pipe of a renewal.

use ground::{GroundLine, Obstacle};
use line::{Line, SegmentKind};
use project::{Design, Project, Renewal, Run};
use quantity::{Length, show, unit};

/// Spacing of the rows where the length of the rods is not known, m.
// Judgement: rods of large rigs are some 3 m to 10 m long.
const WITHOUT_RODS: f64 = 5.0;
/// Lengths that are taken as none, m.
const NOTHING: f64 = 1e-6;
/// Radius from which a rod is straight, m: the file takes no larger one.
const STRAIGHT: f64 = 1e6;

/// The table that a line is set out by.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingOut {
    /// What one row ends: `rod`, `station` where the length of the rods is not known, `pipe`.
    pub unit: &'static str,
    /// Length of a rod or pipe, or spacing of the stations, m.
    pub spacing: f64,
    /// EPSG code of the grid in which `east` and `north` count; they count from the entry point without one, and are left
    /// out of a renewal without one.
    pub epsg: Option<u32>,
    /// How the table was made and what it takes for granted, a sentence each.
    pub notes: Vec<String>,
    /// The rows, in the order of the bore, of a renewal run by run from the launch pit.
    pub rows: Vec<SettingOutRow>,
}

/// The end of one rod or pipe; lengths and levels in m, angles in rad.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingOutRow {
    /// Run of a renewal.
    pub run: Option<String>,
    /// Rods or pipes up to here; 0 at the entry point or launch pit.
    pub number: u32,
    /// Distance along the bore from the entry point, of a renewal along the run from the launch pit.
    pub md: f64,
    /// Chainage.
    pub chainage: f64,
    /// Level of the axis.
    pub level: f64,
    /// Inclination, positive where the line rises from row to row; of a renewal over the pipe that ends here.
    pub inclination: Option<f64>,
    /// Change of the inclination over the rod or pipe that ends here.
    pub change: Option<f64>,
    /// Azimuth from grid north; of a renewal only with coordinates.
    pub azimuth: Option<f64>,
    /// Change of the azimuth over the rod that ends here, positive to the right; of a bore only.
    pub azimuth_change: Option<f64>,
    /// Offset in plan from the straight line between entry and exit point, positive to the right; of a bore only.
    pub offset: Option<f64>,
    /// Easting, or distance east of the entry point.
    pub east: Option<f64>,
    /// Northing, or distance north of the entry point.
    pub north: Option<f64>,
    /// Mean radius over the rod that ends here; none where it is straight.
    pub radius: Option<f64>,
    /// Level of the ground.
    pub ground: Option<f64>,
    /// Ground above the crown of the final bore, of a renewal above the new barrel.
    pub cover: Option<f64>,
    /// What lies between the row before and this one.
    pub remark: String,
}

/// The table that the line of a design is set out by.
#[must_use]
pub fn setting_out(design: &Design) -> SettingOut {
    match design {
        Design::Crossing(project) => of_crossing(project),
        Design::Renewal(renewal) => of_renewal(renewal),
    }
}

fn of_crossing(project: &Project) -> SettingOut {
    let line = &project.line;
    let length = line.length().si();
    let rod = project.bore.rods.length.map(Length::si).filter(|l| *l > NOTHING);
    let spacing = rod.unwrap_or(WITHOUT_RODS);
    let mut notes = vec![match rod {
        Some(rod) => format!("rods of {}; the last row is the exit point", show(rod, unit::M)),
        None => format!(
            "the length of the rods is not given: a row every {} and at the exit point",
            show(spacing, unit::M)
        ),
    }];
    notes.push(match &project.coordinates {
        Some(c) => format!(
            "east and north are coordinates of the grid EPSG:{}; distances of the line are taken as distances of the grid",
            c.epsg
        ),
        None => "east and north count from the entry point, north along grid north".to_owned(),
    });
    notes.push(format!(
        "cover is counted above the crown of the final bore, {}",
        show(project.bore.final_diameter.si(), unit::MM)
    ));
    let events = events(line, &project.site.obstacles);
    let (entry, exit) = (line.sample(0.0).position, line.sample(length).position);
    let chord = (exit.x - entry.x, exit.y - entry.y);
    let chord_length = chord.0.hypot(chord.1);
    let mut rows: Vec<SettingOutRow> = Vec::new();
    let mut before = 0.0;
    for (number, md) in ends(length, spacing) {
        let s = line.sample(md);
        let (dx, dy) = (s.position.x - entry.x, s.position.y - entry.y);
        let place = project.coordinates.as_ref().map_or((s.position.x, s.position.y), |c| {
            let (e, n) = c.of(Length::from_si(s.position.x), Length::from_si(s.position.y));
            (e.si(), n.si())
        });
        let ground = project.site.ground.level_at(s.chainage).ok().map(Length::si);
        let last = line.sample(before);
        let first = number == 0;
        let turned = signed(s.azimuth.si() - last.azimuth.si());
        rows.push(SettingOutRow {
            run: None,
            number,
            md,
            chainage: s.chainage.si(),
            level: s.level.si(),
            inclination: Some(s.inclination.si()),
            change: (!first).then(|| s.inclination.si() - last.inclination.si()),
            azimuth: Some(s.azimuth.si()),
            azimuth_change: (!first).then_some(turned),
            offset: (chord_length > NOTHING).then(|| (dx * chord.1 - dy * chord.0) / chord_length),
            east: Some(place.0),
            north: Some(place.1),
            radius: line
                .radius_over(Length::from_si(before), Length::from_si(md))
                .map(Length::si)
                .filter(|r| !first && *r < STRAIGHT),
            ground,
            cover: cover(project, md),
            remark: remark(&events, before, md, first),
        });
        before = md;
    }
    let epsg = project.coordinates.as_ref().map(|c| c.epsg);
    SettingOut { unit: if rod.is_some() { "rod" } else { "station" }, spacing, epsg, notes, rows }
}

/// Cover over the crown as the check on it has it: upwards from the crown, also where the bore slopes.
fn cover(project: &Project, md: f64) -> Option<f64> {
    let radius = project.bore.final_diameter / 2.0;
    let md = Length::from_si(md);
    ground::cover_at(&project.line, &project.site.ground, radius, md).ok().map(|c| c.vertical.si())
}

/// An angle brought into −π up to π.
fn signed(angle: f64) -> f64 {
    let turned = angle.rem_euclid(std::f64::consts::TAU);
    if turned > std::f64::consts::PI { turned - std::f64::consts::TAU } else { turned }
}

/// Number and place of the ends of rods or pipes, the beginning first; the last may be shorter.
fn ends(length: f64, spacing: f64) -> impl Iterator<Item = (u32, f64)> {
    (0..)
        .map(move |k: u32| (k, f64::from(k) * spacing, f64::from(k.saturating_sub(1)) * spacing))
        .take_while(move |(k, _, before)| *k == 0 || length - before > NOTHING)
        .map(move |(k, md, _)| (k, if length - md > NOTHING { md } else { length }))
}

/// What happens on a stretch of the line.
struct Event {
    from: f64,
    to: f64,
    words: String,
}

fn events(line: &Line, obstacles: &[Obstacle]) -> Vec<Event> {
    let at = |md: f64, words: String| Event { from: md, to: md, words };
    let m = |v: f64| show(v, unit::M);
    let mut list = vec![at(0.0, "entry point".to_owned())];
    let mut bending: Option<bool> = None;
    let mut curved: Option<(SegmentKind, Option<f64>)> = None;
    for segment in line.segments() {
        let md = segment.md_start().si();
        let right = segment.plan_turn().si();
        let in_plan = right.abs() > 1e-9;
        let kind = (segment.kind(), segment.minimum_radius().map(Length::si));
        if curved.is_some_and(|k| k.0 != kind.0 || k.1 != kind.1) {
            let words = match kind {
                (SegmentKind::Straight, _) => format!("tangent point at {}: straight", m(md)),
                (SegmentKind::Arc, Some(r)) => {
                    format!("tangent point at {}: radius {}", m(md), m(r))
                }
                (_, Some(r)) => {
                    format!("tangent point at {}: smallest radius in space {}", m(md), m(r))
                }
                (_, None) => format!("tangent point at {}", m(md)),
            };
            list.push(at(md, words));
        } else if curved.is_none() && kind.0 != SegmentKind::Straight {
            let words = kind.1.map_or_else(String::new, |r| format!("curve of radius {}", m(r)));
            list.push(at(md, words));
        }
        if in_plan && bending != Some(right > 0.0) {
            let side = if right > 0.0 { "right" } else { "left" };
            list.push(at(md, format!("bend to the {side} begins at {}", m(md))));
        } else if !in_plan && bending.is_some() {
            list.push(at(md, format!("bend ends at {}", m(md))));
        }
        bending = in_plan.then_some(right > 0.0);
        curved = Some(kind);
    }
    let lowest = line.lowest();
    list.push(at(
        lowest.md.si(),
        format!("lowest, {} at {}", m(lowest.level.si()), m(lowest.md.si())),
    ));
    for obstacle in obstacles {
        let (from, to) = obstacle.shape.stretch();
        let run = line.run();
        if to < Length::ZERO || from > run {
            continue;
        }
        let md = |x: Length| line.md_at_chainage(x.max(Length::ZERO).min(run)).map(Length::si);
        let (Ok(a), Ok(b)) = (md(from), md(to)) else { continue };
        let middle = line.sample(0.5 * (a + b)).level;
        let word = match obstacle.shape {
            ground::Shape::Round { level, .. } if middle > level => "over",
            _ => "under",
        };
        list.push(Event { from: a, to: b, words: format!("{word} {}", obstacle.name) });
    }
    list.push(at(line.length().si(), "exit point".to_owned()));
    list
}

/// What happens behind a place up to the next one; at the beginning also what happens there.
fn remark(events: &[Event], before: f64, md: f64, first: bool) -> String {
    let holds = |e: &&Event| {
        if first { e.from <= NOTHING } else { e.to > before + NOTHING && e.from <= md + NOTHING }
    };
    let words: Vec<&str> =
        events.iter().filter(holds).map(|e| e.words.as_str()).filter(|w| !w.is_empty()).collect();
    words.join("; ")
}

fn of_renewal(renewal: &Renewal) -> SettingOut {
    let spacing = renewal.string.pipe.laying_length().si();
    let diameter = renewal.string.pipe.barrel_diameter();
    let mut notes = vec![
        format!(
            "pipes of {}, counted in each run from the launch pit along the axis of the old main; the last row is the machine pit",
            show(spacing, unit::M)
        ),
        "the pipe pulled in first comes to lie at the machine pit: joints shift by what the string is pulled beyond it"
            .to_owned(),
        format!("cover is counted above the new barrel, {}", show(diameter.si(), unit::MM)),
    ];
    notes.push(match &renewal.coordinates {
        Some(c) => format!("east and north are coordinates of the grid EPSG:{}", c.epsg),
        None => "without [coordinates] the main has no place in plan".to_owned(),
    });
    let rows = renewal.runs.iter().flat_map(|run| of_run(renewal, run, spacing, diameter.si()));
    SettingOut {
        unit: "pipe",
        spacing,
        epsg: renewal.coordinates.as_ref().map(|c| c.epsg),
        rows: rows.collect(),
        notes,
    }
}

fn of_run(renewal: &Renewal, run: &Run, spacing: f64, diameter: f64) -> Vec<SettingOutRow> {
    let sign = if run.machine >= run.launch { 1.0 } else { -1.0 };
    let length = run.length().si();
    let events = events_of_run(renewal, run, sign);
    let level = |axis: &GroundLine, x: f64| axis.level_at(Length::from_si(x)).ok().map(Length::si);
    let mut rows: Vec<SettingOutRow> = Vec::new();
    let mut place_before: Option<(f64, f64)> = None;
    for (number, md) in ends(length, spacing) {
        let chainage = run.launch.si() + sign * md;
        let Some(axis) = level(&renewal.host.axis, chainage) else { continue };
        let ground = level(&renewal.street.ground, chainage);
        let place = renewal.coordinates.as_ref().and_then(|c| c.at(Length::from_si(chainage)));
        let place = place.map(|(e, n)| (e.si(), n.si()));
        let azimuth = place_before
            .zip(place)
            .map(|((e0, n0), (e, n))| (e - e0).atan2(n - n0).rem_euclid(std::f64::consts::TAU));
        let last = rows.last();
        let inclination = last.map(|r| (axis - r.level).atan2(md - r.md));
        let before = last.map_or(0.0, |r| r.md);
        rows.push(SettingOutRow {
            run: Some(run.name.clone()),
            number,
            md,
            chainage,
            level: axis,
            inclination,
            change: inclination.zip(last.and_then(|r| r.inclination)).map(|(a, b)| a - b),
            azimuth,
            azimuth_change: None,
            offset: None,
            east: place.map(|p| p.0),
            north: place.map(|p| p.1),
            radius: None,
            ground,
            cover: ground.map(|g| g - axis - 0.5 * diameter),
            remark: remark(&events, before, md, number == 0),
        });
        place_before = place;
    }
    rows
}

/// What a run meets; distances from its launch pit.
fn events_of_run(renewal: &Renewal, run: &Run, sign: f64) -> Vec<Event> {
    let m = |v: f64| show(v, unit::M);
    let md = |x: Length| sign * (x - run.launch).si();
    let mut list = vec![Event { from: 0.0, to: 0.0, words: "launch pit".to_owned() }];
    let mut between = |a: Length, b: Length, words: String| {
        let (from, to) = (md(a).min(md(b)), md(a).max(md(b)));
        if to >= -NOTHING && from <= run.length().si() + NOTHING {
            list.push(Event { from, to, words });
        }
    };
    for bend in &renewal.host.bends {
        let half = bend.radius.map_or(Length::ZERO, |r| r * (0.5 * bend.angle.si()));
        let turn = show(bend.angle.si(), unit::DEG);
        let radius = bend.radius.map_or_else(String::new, |r| format!(", radius {}", m(r.si())));
        let words = format!("bend of {turn} at {}{radius}", m(bend.at.si()));
        between(bend.at - half, bend.at + half, words);
    }
    for f in &renewal.host.features {
        let action = f.action.map_or_else(|| "undecided".to_owned(), str::to_owned);
        let words = format!("{} at {}: {action}", f.kind, m(f.at.si()));
        between(f.at, f.to.unwrap_or(f.at), words);
    }
    for s in &renewal.host.services {
        let name = s.name.as_ref().map_or_else(String::new, |n| format!(" {n}"));
        between(s.at, s.at, format!("service{name} at {}", m(s.at.si())));
    }
    list.sort_by(|a, b| a.from.total_cmp(&b.from));
    let length = run.length().si();
    list.push(Event { from: length, to: length, words: "machine pit".to_owned() });
    list
}

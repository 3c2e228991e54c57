//! The alignment in LandXML 1.2: points are northing, easting; stations are chainages; lengths in metres, angles in radians.
//!
//! In plan a straight is a `Line` and a circular arc a `Curve`; where a part's plan is neither, it is a chain of short lines
//! within some 0.2 mm of it. In profile a straight slope runs between points of intersection and an arc in the developed
//! profile is a `CircCurve` with its radius (its length is the horizontal one); else a chain of points. A `Feature` says of
//! every part which of them holds.

use project::{Design, Project, Renewal};
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};

use super::grid::Grid;
use super::plan::{Places, steps};
use crate::Subject;

const SPACE: &str = "http://www.landxml.org/schema/LandXML-1.2";
/// How far a part may lie from the straight or arc that stands for it, m.
const EXACT: f64 = 1e-4;
/// The day that a file without day of issue has: the format asks for one.
const NO_DAY: &str = "1900-01-01";

/// A part of the plan; x east, y north.
enum PlanPart {
    Line { from: Point, to: Point },
    Curve { from: Point, to: Point, centre: Point, radius: f64, right: bool },
}

type Point = (f64, f64);

/// A point of the profile.
enum ProfilePart {
    Pvi { station: f64, level: f64 },
    Curve { station: f64, level: f64, length: f64, radius: f64 },
}

struct Alignment {
    start: f64,
    length: f64,
    plan: Vec<PlanPart>,
    profile: Vec<ProfilePart>,
    remarks: Vec<(&'static str, String)>,
}

pub(super) fn xml(subject: &Subject<'_>) -> Result<Vec<u8>, String> {
    let mut alignment = match subject.design {
        Design::Crossing(project) => of_crossing(project, subject)?,
        Design::Renewal(renewal) => of_renewal(renewal, subject)?,
    };
    if subject.issue.date.is_none() {
        let words = "the design has no day of issue: date and time of this file mean nothing";
        alignment.remarks.push(("date", words.to_owned()));
    }
    write(subject, &alignment).map_err(|e| e.to_string())
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
                chains.push(format!("{from:.3} m to {to:.3} m"));
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
                chains_up.push(format!("{from:.3} m to {to:.3} m"));
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
    let how = |chains: &[String]| {
        if chains.is_empty() {
            "exact: straights and circular arcs".to_owned()
        } else {
            format!(
                "short straights within 0.2 mm at measured distances {}, elsewhere exact",
                chains.join(", ")
            )
        }
    };
    let remarks = vec![
        ("plan", how(&chains)),
        ("profile", how(&chains_up)),
        (
            "circCurve",
            "length is the horizontal one, radius that in the developed profile".to_owned(),
        ),
        ("stations", "horizontal distance along the line from the entry point".to_owned()),
        ("coordinates", where_it_lies(&places)),
    ];
    Ok(Alignment { start: 0.0, length: line.run().si(), plan, profile, remarks })
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

fn where_it_lies(places: &Places<'_>) -> String {
    match places.epsg() {
        None => "local: the entry point lies at 0, 0; north is grid north".to_owned(),
        Some(epsg) => match Grid::find(epsg) {
            Ok(grid) if (grid.metres() - 1.0).abs() > 1e-12 => format!(
                "{}, which does not count in metres: here all coordinates are turned into metres, so that no code is given",
                grid.title()
            ),
            Ok(grid) => grid.title(),
            Err(_) => format!("EPSG:{epsg} as the design has it"),
        },
    }
}

fn write(subject: &Subject<'_>, alignment: &Alignment) -> std::io::Result<Vec<u8>> {
    let mut out = Writer::new_with_indent(Vec::new(), b' ', 2);
    out.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    let day = subject.issue.date.map_or_else(|| NO_DAY.to_owned(), |d| d.to_string());
    let location = format!("{SPACE} {SPACE}/LandXML-1.2.xsd");
    let root = [
        ("xmlns", SPACE),
        ("xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance"),
        ("xsi:schemaLocation", &location),
        ("version", "1.2"),
        ("date", &day),
        ("time", "00:00:00"),
        ("language", "English"),
        ("readOnly", "false"),
    ];
    open(&mut out, "LandXML", &root)?;
    open(&mut out, "Units", &[])?;
    let units = [
        ("areaUnit", "squareMeter"),
        ("linearUnit", "meter"),
        ("volumeUnit", "cubicMeter"),
        ("temperatureUnit", "celsius"),
        ("pressureUnit", "milliBars"),
        ("angularUnit", "radians"),
        ("directionUnit", "radians"),
    ];
    empty(&mut out, "Metric", &units)?;
    close(&mut out, "Units")?;
    system(&mut out, &Places::new(subject.design))?;
    let name = clean(subject.design.name());
    empty(&mut out, "Project", &[("name", &name)])?;
    let version = subject.assessment.version;
    empty(&mut out, "Application", &[("name", "underhaul"), ("version", version)])?;
    open(&mut out, "Alignments", &[("name", &name)])?;
    let (length, start) = (number(alignment.length), number(alignment.start));
    let head = [
        ("name", name.as_str()),
        ("length", &length),
        ("staStart", &start),
        ("desc", "axis of the main"),
    ];
    open(&mut out, "Alignment", &head)?;
    open(&mut out, "CoordGeom", &[])?;
    for part in &alignment.plan {
        plan(&mut out, part)?;
    }
    close(&mut out, "CoordGeom")?;
    open(&mut out, "Profile", &[("name", &name)])?;
    open(&mut out, "ProfAlign", &[("name", &name)])?;
    for part in &alignment.profile {
        match part {
            ProfilePart::Pvi { station, level } => {
                text(&mut out, "PVI", &[], &format!("{} {}", number(*station), number(*level)))?;
            }
            ProfilePart::Curve { station, level, length, radius } => {
                let (length, radius) = (number(*length), number(*radius));
                let at = format!("{} {}", number(*station), number(*level));
                text(&mut out, "CircCurve", &[("length", &length), ("radius", &radius)], &at)?;
            }
        }
    }
    close(&mut out, "ProfAlign")?;
    close(&mut out, "Profile")?;
    open(&mut out, "Feature", &[("code", "basis")])?;
    for (label, value) in &alignment.remarks {
        empty(&mut out, "Property", &[("label", label), ("value", &clean(value))])?;
    }
    close(&mut out, "Feature")?;
    for tag in ["Alignment", "Alignments", "LandXML"] {
        close(&mut out, tag)?;
    }
    let mut bytes = out.into_inner();
    bytes.push(b'\n');
    Ok(bytes)
}

type Out = Writer<Vec<u8>>;

fn system(out: &mut Out, places: &Places<'_>) -> std::io::Result<()> {
    let description = where_it_lies(places);
    let datum = places.datum().map(clean);
    // A code beside metres would lie where the grid counts in feet.
    let in_metres =
        |epsg: &u32| Grid::find(*epsg).map_or(true, |g| (g.metres() - 1.0).abs() < 1e-12);
    let code = places.epsg().filter(in_metres).map(|c| c.to_string());
    let mut attributes = vec![("desc", description.as_str())];
    attributes.extend(code.as_deref().map(|c| ("epsgCode", c)));
    attributes.extend(datum.as_deref().map(|d| ("verticalDatum", d)));
    empty(out, "CoordinateSystem", &attributes)
}

fn plan(out: &mut Out, part: &PlanPart) -> std::io::Result<()> {
    let point = |(east, north): Point| format!("{} {}", number(north), number(east));
    match part {
        PlanPart::Line { from, to } => {
            open(out, "Line", &[])?;
            text(out, "Start", &[], &point(*from))?;
            text(out, "End", &[], &point(*to))?;
            close(out, "Line")
        }
        PlanPart::Curve { from, to, centre, radius, right } => {
            let (radius, rot) = (number(*radius), if *right { "cw" } else { "ccw" });
            open(out, "Curve", &[("rot", rot), ("crvType", "arc"), ("radius", &radius)])?;
            text(out, "Start", &[], &point(*from))?;
            text(out, "Center", &[], &point(*centre))?;
            text(out, "End", &[], &point(*to))?;
            close(out, "Curve")
        }
    }
}

fn number(value: f64) -> String {
    // Micrometres: more digits are rounding of the computation.
    let rounded = (value * 1e6).round() / 1e6;
    format!("{}", rounded + 0.0)
}

/// A text without what XML 1.0 does not allow.
fn clean(text: &str) -> String {
    let allowed = |c: char| !c.is_control() && !matches!(c, '\u{FFFE}' | '\u{FFFF}');
    text.chars().map(|c| if allowed(c) { c } else { char::REPLACEMENT_CHARACTER }).collect()
}

fn element<'e>(name: &'e str, attributes: &[(&'e str, &'e str)]) -> BytesStart<'e> {
    BytesStart::new(name).with_attributes(attributes.iter().copied())
}

fn open(out: &mut Out, name: &str, attributes: &[(&str, &str)]) -> std::io::Result<()> {
    out.write_event(Event::Start(element(name, attributes)))
}

fn empty(out: &mut Out, name: &str, attributes: &[(&str, &str)]) -> std::io::Result<()> {
    out.write_event(Event::Empty(element(name, attributes)))
}

fn close(out: &mut Out, name: &str) -> std::io::Result<()> {
    out.write_event(Event::End(BytesEnd::new(name)))
}

fn text(
    out: &mut Out,
    name: &str,
    attributes: &[(&str, &str)],
    words: &str,
) -> std::io::Result<()> {
    out.write_event(Event::Start(element(name, attributes)))?;
    out.write_event(Event::Text(BytesText::new(words)))?;
    close(out, name)
}

//! LandXML, read back by a reader of its own and compared with the line.

use project::Design;
use quantity::Length;
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

use crate::{
    CREEK, GRID, HOST_GRID, STREET, TILTED, design, every_line, hostile, one, with, with_line,
};

#[derive(Debug, Default)]
struct Part {
    curve: bool,
    clockwise: bool,
    radius: f64,
    start: [f64; 2],
    centre: [f64; 2],
    end: [f64; 2],
}

#[derive(Debug, Default)]
struct Alignment {
    parts: Vec<Part>,
    /// Station, level, radius; 0 for a plain point.
    profile: Vec<[f64; 3]>,
    attributes: Vec<(String, String, String)>,
}

fn read(xml: &str) -> Alignment {
    let mut reader = Reader::from_str(xml);
    let mut found = Alignment::default();
    let mut open: Vec<String> = Vec::new();
    let mut radius = 0.0;
    loop {
        let event = reader.read_event().unwrap();
        let mut note = |e: &BytesStart<'_>| {
            let name = e.name().as_ref().to_owned();
            for a in e.attributes() {
                let a = a.unwrap();
                let key = a.key.as_ref().to_owned();
                let value =
                    a.normalized_value(quick_xml::XmlVersion::Implicit1_0).unwrap().into_owned();
                found.attributes.push((name.clone(), key, value));
            }
            name
        };
        match event {
            Event::Start(e) => {
                let name = note(&e);
                let of = |key: &str| {
                    found
                        .attributes
                        .iter()
                        .rev()
                        .find(|(n, k, _)| *n == name && k == key)
                        .map(|a| a.2.clone())
                };
                radius = of("radius").and_then(|r| r.parse().ok()).unwrap_or(0.0);
                if name == "Line" || name == "Curve" {
                    let clockwise = of("rot").as_deref() == Some("cw");
                    let curve = name == "Curve";
                    let radius = if curve { radius } else { 0.0 };
                    found.parts.push(Part { curve, clockwise, radius, ..Part::default() });
                }
                open.push(name);
            }
            Event::Empty(e) => {
                note(&e);
            }
            Event::End(e) => assert_eq!(open.pop().unwrap(), e.name().as_ref()),
            Event::Text(t) => {
                let numbers: Vec<f64> =
                    t.split_whitespace().filter_map(|w| w.parse().ok()).collect();
                let [a, b] = numbers.as_slice() else { continue };
                let part = found.parts.last_mut();
                match open.last().map(String::as_str) {
                    // Northing comes first.
                    Some("Start") => part.unwrap().start = [*b, *a],
                    Some("Center") => part.unwrap().centre = [*b, *a],
                    Some("End") => part.unwrap().end = [*b, *a],
                    Some("PVI") => found.profile.push([*a, *b, 0.0]),
                    Some("CircCurve") => found.profile.push([*a, *b, radius]),
                    other => panic!("{other:?}"),
                }
            }
            Event::Eof => break,
            _ => {}
        }
    }
    assert!(open.is_empty());
    found
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

impl Part {
    fn turn(&self) -> f64 {
        2.0 * (0.5 * distance(self.start, self.end) / self.radius).min(1.0).asin()
    }

    fn length(&self) -> f64 {
        if self.curve { self.radius * self.turn() } else { distance(self.start, self.end) }
    }

    fn at(&self, along: f64) -> [f64; 2] {
        let [x, y] = self.start;
        if !self.curve {
            let share = along / self.length();
            return [x + share * (self.end[0] - x), y + share * (self.end[1] - y)];
        }
        let [cx, cy] = self.centre;
        let by = along / self.radius * if self.clockwise { -1.0 } else { 1.0 };
        let (sin, cos) = by.sin_cos();
        let (dx, dy) = (x - cx, y - cy);
        [cx + dx * cos - dy * sin, cy + dx * sin + dy * cos]
    }
}

impl Alignment {
    fn place(&self, station: f64) -> [f64; 2] {
        let mut left = station;
        for part in &self.parts {
            if left <= part.length() {
                return part.at(left);
            }
            left -= part.length();
        }
        assert!(left < 1e-3, "{left} beyond the end");
        self.parts.last().unwrap().end
    }

    fn level(&self, station: f64) -> f64 {
        for triple in self.profile.windows(3) {
            let [a, b, c] = triple else { continue };
            if b[2] == 0.0 {
                continue;
            }
            let (p, q) = ((b[1] - a[1]).atan2(b[0] - a[0]), (c[1] - b[1]).atan2(c[0] - b[0]));
            let tangent = b[2] * (0.5 * (q - p)).tan().abs();
            let (from, to) = (b[0] - tangent * p.cos(), b[0] + tangent * q.cos());
            if station >= from && station <= to {
                let r = b[2] * (q - p).signum();
                let (x, z) = (from - r * p.sin(), b[1] - tangent * p.sin() + r * p.cos());
                return z - r.signum() * (r * r - (station - x).powi(2)).sqrt();
            }
        }
        let pair = self.profile.windows(2).find(|w| station <= w[1][0] + 2e-6).unwrap();
        let share = (station - pair[0][0]) / (pair[1][0] - pair[0][0]);
        pair[0][1] + share * (pair[1][1] - pair[0][1])
    }

    fn value(&self, element: &str, key: &str) -> Option<&str> {
        self.attributes.iter().find(|(e, k, _)| e == element && k == key).map(|a| a.2.as_str())
    }
}

#[test]
fn the_alignment_is_the_line_to_a_millimetre() {
    for (i, text) in every_line().iter().flat_map(|t| [t.clone(), with(t, GRID)]).enumerate() {
        let Design::Crossing(project) = design(&text) else { panic!() };
        let found = read(&one(&text, "alignment.xml"));
        let origin = project.coordinates.as_ref().map_or([0.0, 0.0], |_| [500_000.0, 100_000.0]);
        let length = project.line.length().si();
        for k in 0..=400 {
            let s = project.line.sample(length * f64::from(k) / 400.0);
            let [x, y] = found.place(s.chainage.si());
            let off = distance([x - origin[0], y - origin[1]], [s.position.x, s.position.y]);
            assert!(off < 1e-3, "{i}: plan {off} at {:?}", s.chainage);
            let off = (found.level(s.chainage.si()) - s.level.si()).abs();
            assert!(off < 1e-3, "{i}: level {off} at {:?}", s.chainage);
        }
    }
}

#[test]
fn a_line_by_levels_and_radii_is_exact_and_a_tilted_arc_says_that_it_is_not() {
    let found = read(&one(CREEK, "alignment.xml"));
    assert_eq!(found.parts.iter().filter(|p| p.curve).map(|p| p.radius).fold(0.0, f64::max), 500.0);
    assert!(found.parts.len() < 12 && found.profile.len() < 20, "{found:?}");
    let properties = |f: &Alignment| {
        f.attributes
            .iter()
            .filter(|(e, k, _)| e == "Property" && k == "value")
            .map(|a| a.2.clone())
            .collect::<Vec<_>>()
    };
    assert!(
        properties(&found)[..2].iter().all(|v| v.starts_with("exact")),
        "{:?}",
        properties(&found)
    );
    assert!(properties(&found).iter().any(|v| v.starts_with("local: the entry point")));
    let tilted = read(&one(&with_line(TILTED), "alignment.xml"));
    assert!(
        properties(&tilted)[..2].iter().all(|v| v.contains("short straights")),
        "{:?}",
        properties(&tilted)
    );
}

#[test]
fn the_grid_is_named_where_there_is_one() {
    let found = read(&one(&with(CREEK, GRID), "alignment.xml"));
    assert_eq!(found.value("CoordinateSystem", "epsgCode"), Some("32631"));
    assert_eq!(found.value("CoordinateSystem", "verticalDatum"), Some("a < b"));
    assert_eq!(found.value("Metric", "linearUnit"), Some("meter"));
    assert_eq!(found.value("LandXML", "version"), Some("1.2"));
    let local = read(&one(CREEK, "alignment.xml"));
    assert_eq!(local.value("CoordinateSystem", "epsgCode"), None);
}

#[test]
fn a_renewal_runs_through_its_points() {
    let text = with(STREET, HOST_GRID);
    let Design::Renewal(renewal) = design(&text) else { panic!() };
    let found = read(&one(&text, "alignment.xml"));
    for (station, chainage) in [(0.0, 0.0), (60.0, 60.0), (60.0 + 29.0 * 60.3 / 60.0, 89.0)] {
        let (e, n) = renewal.coordinates.as_ref().unwrap().at(Length::from_si(chainage)).unwrap();
        assert!(distance(found.place(station), [e.si(), n.si()]) < 1e-3, "{station}");
        let level = renewal.host.axis.level_at(Length::from_si(chainage)).unwrap().si();
        assert!((found.level(station) - level).abs() < 1e-3, "{station}");
    }
}

#[test]
fn no_name_breaks_the_file() {
    for text in hostile() {
        let found = read(&one(&text, "alignment.xml"));
        let name = found.value("Alignment", "name").unwrap();
        assert!(name.starts_with("=cmd|") && name.contains("\"<&>]]>\""), "{name}");
        assert!(!name.contains('\u{7}'));
    }
}

//! The alignment in LandXML 1.2: points are northing, easting; stations are chainages; lengths in metres, angles in radians.
//!
//! In plan a straight is a `Line` and a circular arc a `Curve`; where a part's plan is neither, it is a chain of short lines
//! within 1 mm of it. In profile a straight slope runs between points of intersection and an arc in the developed
//! profile is a `CircCurve` with its radius (its length is the horizontal one); else a chain of points. A `Feature` says of
//! every part which of them holds.

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};

use super::alignment::{Alignment, PlanPart, Point, ProfilePart};
use super::grid::Grid;
use super::plan::Places;
use crate::Subject;

const SPACE: &str = "http://www.landxml.org/schema/LandXML-1.2";
/// The day that a file without day of issue has: the format asks for one.
const NO_DAY: &str = "1900-01-01";

pub(super) fn xml(subject: &Subject<'_>) -> Result<Vec<u8>, String> {
    let mut alignment = Alignment::of(subject)?;
    if subject.issue.date.is_none() {
        let words = "the design has no day of issue: date and time of this file mean nothing";
        alignment.remarks.push(("date", words.to_owned()));
    }
    write(subject, &alignment).map_err(|e| e.to_string())
}

/// Grid, or what the coordinates count from.
pub(super) fn where_it_lies(places: &Places<'_>) -> String {
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

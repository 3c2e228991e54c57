//! Data files read back by readers of their own, and held against the line.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on may stop where it stands")]

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

use project::{Design, no_files, read_design};
use quantity::System;
use sheets::data::{Omitted, files};
use sheets::{Issue, NamedFile, Subject};

mod alignment;
mod map;
mod tables;

pub(crate) const CREEK: &str = include_str!("../../../../demo/creek.toml");
pub(crate) const STREET: &str = include_str!("../../../../demo/street.toml");

/// A place in the open sea.
pub(crate) const GRID: &str = "[coordinates]\nepsg = 32631\neasting = 500000\nnorthing = 100000\ndatum = \"a < b\"\n\n[string]\n";
pub(crate) const HOST_GRID: &str = "[coordinates]\nepsg = 32631\npoints = [[-1, 500000, 100000], \
                                    [60, 500061, 100000], [120, 500061, 100060.3]]\n\n[string]\n";

pub(crate) fn design(text: &str) -> Design {
    let list = |l: Vec<project::Diagnostic>| l.iter().map(|d| format!("{d}\n")).collect::<String>();
    read_design("x.toml", text, &no_files).unwrap_or_else(|l| panic!("{}", list(l))).design
}

pub(crate) fn with(text: &str, table: &str) -> String {
    text.replacen("[string]\n", table, 1)
}

/// The creek with its line described in another way, without obstacles and borings.
pub(crate) fn with_line(line: &str) -> String {
    let mut text = CREEK.replace("\"30 m\" # no", "\"3 m\" # no").replace("\"40 m\"", "\"3 m\"");
    for (from, to) in [
        ("# What the bore must keep", "# The bore axis"),
        ("[line]", "# The soils and where"),
        ("[[ground.soil]]", "# The pipes, and how"),
    ] {
        let range = text.find(from).unwrap()..text.find(to).unwrap();
        let new = if from == "[line]" { format!("[line]\n{line}\n\n") } else { String::new() };
        text.replace_range(range, &new);
    }
    text
}

pub(crate) const SHORT: &str = "entry_angle = 5\nazimuth = 200\n[[line.element]]\nlength = 3.4\n[[line.element]]\n\
                                radius = 30\nturn = 10\ntoward = \"up\"\n[[line.element]]\nlength = 3.4";
pub(crate) const TILTED: &str = "entry_angle = 12\nazimuth = 64\n[[line.element]]\nlength = 30\n[[line.element]]\n\
                                 radius = 250\nturn = 12\ntoward = \"up\"\n[[line.element]]\nlength = 60\n\
                                 [[line.element]]\nradius = 300\nturn = 9\ntoward = \"40 deg\"\n[[line.element]]\nlength = 61";
pub(crate) const SURVEY: &str = "survey = [[0, -12, 64], [30, -12, 64], [100, 0, 68], [215, 0, 64], [250, 9, 61], [291, 9, 61]]";

pub(crate) fn long() -> String {
    CREEK.replace("run = \"290 m\"", "run = \"3000 m\"").replace("[300, 3.6]", "[3100, 3.6]")
}

type Made = (Vec<NamedFile>, Vec<Omitted>);

/// Files of a design; kept, because tests look at the same ones.
pub(crate) fn made(text: &str) -> Made {
    static KEPT: Mutex<BTreeMap<String, Made>> = Mutex::new(BTreeMap::new());
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    kept.entry(text.to_owned()).or_insert_with(|| fresh(text)).clone()
}

fn fresh(text: &str) -> Made {
    let design = design(text);
    files(&Subject::new(&design, "x.toml", Issue::default(), System::Metric))
}

pub(crate) fn one(text: &str, name: &str) -> String {
    let (made, omitted) = made(text);
    let file = made.into_iter().find(|f| f.name == name);
    String::from_utf8(file.unwrap_or_else(|| panic!("{name}: {omitted:?}")).bytes).unwrap()
}

pub(crate) fn every_line() -> Vec<String> {
    let left = CREEK.replace("angle = \"5 deg\"", "angle = \"-5 deg\"");
    [CREEK.to_owned(), left, long(), with_line(SHORT), with_line(TILTED), with_line(SURVEY)].into()
}

#[test]
fn the_same_design_gives_the_same_files() {
    for text in [with(CREEK, GRID), with(STREET, HOST_GRID)] {
        let (a, omitted) = made(&text);
        assert_eq!(a, fresh(&text).0);
        assert_eq!(a.len(), 6, "{omitted:?}");
    }
}

#[test]
fn what_cannot_be_made_is_named_with_the_reason() {
    let (files, omitted) = made(CREEK);
    assert_eq!(files.len(), 5);
    assert_eq!(omitted.iter().map(|o| o.name.as_str()).collect::<Vec<_>>(), ["line.geojson"]);
    assert!(omitted[0].reason.contains("[coordinates]"), "{omitted:?}");
    let (_, omitted) = made(STREET);
    let names: Vec<_> = omitted.iter().map(|o| o.name.as_str()).collect();
    assert_eq!(names, ["line.geojson", "alignment.xml"]);
    for (code, words) in
        [("1024", "no grid with the code EPSG:1024"), ("4326", "no projected grid")]
    {
        let (_, omitted) = made(&with(CREEK, &GRID.replace("32631", code)));
        assert!(omitted.len() == 1 && omitted[0].reason.contains(words), "{omitted:?}");
    }
}

#[test]
fn the_assessment_is_the_object_that_check_prints() {
    for text in [CREEK, STREET] {
        let design = design(text);
        let mut assessment = assess::assess_design(&design);
        assessment.file = Some("x.toml".to_owned());
        let expected = serde_json::to_string_pretty(&assessment).unwrap() + "\n";
        assert_eq!(one(text, "assessment.json"), expected);
        let value: serde_json::Value = serde_json::from_str(&expected).unwrap();
        assert_eq!(value["format"], assess::FORMAT);
    }
}

#[test]
fn units_of_the_reader_change_no_number_of_a_file() {
    let design = design(&with(CREEK, GRID));
    let of = |system| files(&Subject::new(&design, "x.toml", Issue::default(), system)).0;
    let (metric, customary) = (of(System::Metric), of(System::Customary));
    for name in ["line.geojson", "alignment.xml", "profiles.csv", "profiles-list.csv"] {
        let bytes =
            |list: &[NamedFile]| list.iter().find(|f| f.name == name).map(|f| f.bytes.clone());
        assert!(bytes(&metric).is_some_and(|b| Some(b) == bytes(&customary)), "{name}");
    }
}

/// A name that no format may stumble over.
pub(crate) const HOSTILE: &str =
    "=cmd|' /C calc'!A0 \\\"<&>]]>\\\",;\\n\\u0007\\u202e\u{1f6b0} --> ";

pub(crate) fn hostile() -> [String; 2] {
    let name = format!("name = \"{HOSTILE}{}\"", "x".repeat(3_000));
    let creek = with(CREEK, GRID)
        .replace("name = \"Tidal creek\"", &name)
        .replace("name = \"flood bank\"", &name)
        .replace("name = \"BH2\"", &name)
        .replace("datum = \"a < b\"", &format!("datum = \"{HOSTILE}\""));
    let street = with(STREET, HOST_GRID)
        .replace("name = \"Street with an old main\"", &name)
        .replace("name = \"A\"", &name)
        .replace("name = \"storm drain\"", &name);
    [creek, street]
}

//! Where a design lies: read whole or not at all, every fault at its place.

use project::{Design, Diagnostic, Technique, no_files, read_design, starter};

const CREEK: &str = include_str!("../../../demo/creek.toml");
const STREET: &str = include_str!("../../../demo/street.toml");

fn with(text: &str, table: &str) -> String {
    text.replacen("[string]\n", &format!("[coordinates]\n{table}\n\n[string]\n"), 1)
}

fn read(text: &str) -> Result<Design, Vec<Diagnostic>> {
    read_design("x.toml", text, &no_files).map(|r| r.design)
}

fn codes(text: &str) -> Vec<(&'static str, String)> {
    let list = read_design("x.toml", text, &no_files).map_or_else(|l| l, |r| r.warnings);
    list.into_iter().map(|d| (d.code, d.path)).collect()
}

fn one(code: &'static str, path: &str) -> Vec<(&'static str, String)> {
    vec![(code, path.to_owned())]
}

const ENTRY: &str =
    "epsg = 32631\neasting = \"10000000 m\"\nnorthing = 100000.125\ndatum = \"sea\"";

#[test]
fn a_crossing_has_the_grid_and_its_entry_point() {
    let Ok(Design::Crossing(project)) = read(&with(CREEK, ENTRY)) else { panic!() };
    let found = project.coordinates.unwrap();
    assert_eq!((found.epsg, found.datum.as_deref()), (32631, Some("sea")));
    assert_eq!((found.easting.si(), found.northing.si()), (1e7, 100_000.125));
    let (east, north) = found.of(quantity::Length::from_si(3.0), quantity::Length::from_si(-4.0));
    assert_eq!((east.si(), north.si()), (10_000_003.0, 99_996.125));
    for text in [CREEK.to_owned(), starter(Technique::Drilling)] {
        let Ok(Design::Crossing(project)) = read(&text) else { panic!() };
        assert!(project.coordinates.is_none());
    }
    let feet = with(CREEK, "epsg = 2225\neasting = \"6000000 ft\"\nnorthing = \"2000000 ft\"");
    let Ok(Design::Crossing(project)) = read(&feet) else { panic!() };
    assert!((project.coordinates.unwrap().easting.si() - 1_828_800.0).abs() < 1e-6);
}

#[test]
fn a_crossing_is_given_all_of_it_or_nothing() {
    assert_eq!(
        codes(&with(CREEK, "epsg = 32631\neasting = 500000")),
        one("missing", "/coordinates/northing")
    );
    assert_eq!(
        codes(&with(CREEK, "easting = 500000\nnorthing = 1")),
        one("missing", "/coordinates/epsg")
    );
    assert_eq!(codes(&with(CREEK, "datum = \"sea\"")).len(), 3);
    let path = "/coordinates/epsg";
    for (code, fault) in [
        ("4", "out_of_range"),
        ("\"32631\"", "wrong_type"),
        ("-1", "out_of_range"),
        ("99999999999", "out_of_range"),
    ] {
        let text = ENTRY.replace("32631", code);
        assert_eq!(codes(&with(CREEK, &text)), one(fault, path), "{code}");
    }
    let far = ENTRY.replace("\"10000000 m\"", "1e9");
    assert_eq!(codes(&with(CREEK, &far)), one("out_of_range", "/coordinates/easting"));
    let slip = ENTRY.replace("easting", "eastings");
    let list = read(&with(CREEK, &slip)).unwrap_err();
    let unknown = list.iter().find(|d| d.code == "unknown_key").unwrap();
    assert_eq!(unknown.hint.as_deref(), Some("did you mean easting?"));
}

#[test]
fn the_entry_point_lies_at_one_place() {
    let line = |east: &str| {
        let keys = format!("[line]\nentry_easting = {east}\nentry_northing = 100000.125\n");
        with(&CREEK.replacen("[line]\n", &keys, 1), ENTRY)
    };
    assert_eq!(codes(&line("10000000.0005")), []);
    let list = read(&line("10000000.25")).unwrap_err();
    assert_eq!(
        (list.len(), list[0].code, list[0].path.as_str()),
        (1, "conflict", "/line/entry_easting")
    );
    assert!(list[0].message.contains("10000000.25 m"), "{}", list[0]);
}

#[test]
fn borings_are_placed_by_the_coordinates_of_the_crossing() {
    let start = CREEK.find("[[ground.boring]]").unwrap();
    let end = CREEK.find("# The pipes, and how").unwrap();
    let text =
        format!("{}[ground]\nfile = \"creek-ground.ags\"\n\n{}", &CREEK[..start], &CREEK[end..]);
    let load = |_: &str| Ok(include_bytes!("../../../demo/creek-ground.ags").to_vec());
    let read = |text: &str| read_design("x.toml", text, &load).map(|r| r.design);
    let line =
        text.replacen("[line]\n", "[line]\nentry_easting = 500000\nentry_northing = 200000\n", 1);
    let grid = with(&text, "epsg = 32631\neasting = 500000\nnorthing = 200000");
    let (Ok(Design::Crossing(a)), Ok(Design::Crossing(b))) = (read(&line), read(&grid)) else {
        panic!("{:?}", read(&grid).map(|_| ()));
    };
    let places = |p: &project::Project| {
        let list = p.strata.as_ref().unwrap().borings().iter();
        list.map(|b| (b.name.clone(), b.chainage, b.offset)).collect::<Vec<_>>()
    };
    assert!(places(&a).len() > 1);
    assert_eq!(places(&a), places(&b));
    let without = read(&text).unwrap_err();
    assert!(
        without
            .iter()
            .any(|d| d.code == "no_place" && d.hint.as_deref().unwrap().contains("[coordinates]"))
    );
}

fn street(points: &str) -> String {
    with(STREET, &format!("epsg = 32631\npoints = {points}"))
}

#[test]
fn an_old_main_has_points_along_its_axis() {
    let points = "[[-2, 500000, 100000], [60, \"500000 m\", 100062.2], [120, 500060, 100062]]";
    let Ok(Design::Renewal(renewal)) = read(&street(points)) else { panic!() };
    let found = renewal.coordinates.unwrap();
    assert_eq!((found.epsg, found.points.len(), found.datum.as_deref()), (32631, 3, None));
    let (east, north) = found.at(quantity::Length::from_si(90.0)).unwrap();
    assert!((east.si() - 500_030.0).abs() < 1e-6);
    assert!((north.si() - 100_062.1).abs() < 1e-6);
    for text in [STREET.to_owned(), starter(Technique::Bursting)] {
        let Ok(Design::Renewal(renewal)) = read(&text) else { panic!() };
        assert!(renewal.coordinates.is_none());
    }
}

#[test]
fn points_of_an_old_main_rise_cover_it_and_agree_with_the_chainage() {
    let cases = [
        ("[[0, 500000, 100000]]", "too_few", "/coordinates/points"),
        ("[]", "empty", "/coordinates/points"),
        ("[[0, 500000], [118, 500118, 100000]]", "wrong_type", "/coordinates/points/0"),
        ("[[0, 0, 0], [118, 118, 0], [118, 118, 0]]", "not_rising", "/coordinates/points/2/0"),
        ("[[0, 0, 0], [60, 60, 0], [118, 58, 0]]", "plan_off_chainage", "/coordinates/points/2/1"),
        ("[[0, 0, 0], [118, 119.49, 0]]", "plan_off_chainage", "/coordinates/points/1/1"),
        ("[[0, 0, 0], [118, 1e9, 0]]", "out_of_range", "/coordinates/points/1/1"),
        ("[[1, 0, 0], [118, 117, 0]]", "points_too_short", "/coordinates/points"),
        ("[[0, 0, 0], [117, 117, 0]]", "points_too_short", "/coordinates/points"),
    ];
    for (points, code, path) in cases {
        assert_eq!(codes(&street(points)), one(code, path), "{points}");
    }
    // 118 m by chainage bear 1.48 m more or less.
    assert_eq!(codes(&street("[[0, 0, 0], [118, 119.47, 0]]")), []);
    assert_eq!(codes(&with(STREET, "epsg = 32631")), one("missing", "/coordinates/points"));
    assert_eq!(
        codes(&with(STREET, "points = [[0, 0, 0], [118, 118, 0]]")),
        one("missing", "/coordinates/epsg")
    );
    assert!(
        codes(&with(STREET, ENTRY)).contains(&("unknown_key", "/coordinates/easting".to_owned()))
    );
}

#[test]
fn what_the_starters_show_can_be_used() {
    for technique in Technique::ALL {
        let text = starter(technique);
        let (before, rest) = text.split_once("#[coordinates]").unwrap();
        let end = rest.find("\n\n").unwrap();
        let (table, after) = rest.split_at(end);
        let table: String = table
            .lines()
            .map(|l| if l.starts_with("# ") { l } else { l.trim_start_matches('#') })
            .map(|l| format!("{l}\n"))
            .collect();
        let found = read(&format!("{before}[coordinates]\n{table}{after}"));
        let given = match found.unwrap_or_else(|l| panic!("{}", l[0])) {
            Design::Crossing(p) => p.coordinates.is_some(),
            Design::Renewal(r) => r.coordinates.is_some(),
        };
        assert!(given, "{technique:?}");
    }
}

//! The files that come with the program read as they should.

use project::{Diagnostic, Project, Reading, read_with_warnings, schema, starter};

const CREEK: &str = include_str!("../../../demo/creek.toml");
const CREEK_FAILS: &str = include_str!("../../../demo/creek-fails.toml");

fn read(name: &str, text: &str) -> Reading {
    read_with_warnings(name, text).unwrap_or_else(|list| panic!("{}", shown(&list)))
}

fn shown(list: &[Diagnostic]) -> String {
    list.iter().map(|d| format!("{d}\n")).collect()
}

fn json(text: &str) -> serde_json::Value {
    let table: toml::Table = toml::from_str(text).expect("TOML");
    serde_json::to_value(table).expect("JSON")
}

fn assert_valid(name: &str, text: &str) {
    let validator =
        jsonschema::validator_for(&schema(project::Technique::Drilling)).expect("schema");
    let instance = json(text);
    let faults: Vec<_> =
        validator.iter_errors(&instance).map(|e| format!("{}: {e}", e.instance_path)).collect();
    assert!(faults.is_empty(), "{name}: {faults:#?}");
}

#[test]
fn the_demo_reads_without_a_warning_and_assumes_little_but_factors_and_typical_soils() {
    let Reading { project, warnings } = read("creek.toml", CREEK);
    assert!(warnings.is_empty(), "{}", shown(&warnings));
    let others: Vec<_> = project
        .assumptions
        .iter()
        .map(|a| a.path.as_str())
        .filter(|path| !path.starts_with("/factors/") && !path.starts_with("/ground/soil/"))
        .collect();
    assert_eq!(
        others,
        [
            "/bore/final_diameter",
            "/bore/pilot/motor_loss",
            "/bore/reaming/outlet",
            "/bore/pulling/outlet",
            "/fluid/fresh_density",
            "/fluid/model",
            "/fluid/eccentricity",
            "/fluid/tanker_volume",
            "/rig/pump/efficiency"
        ]
    );
    assert!(project.note.unwrap().contains("Invented"));
}

/// Share of the clearance left that is asked for, with the position allowance counted from the
/// entry point.
fn clearances_used(project: &Project) -> Vec<(String, f64)> {
    let radius = project.bore.final_diameter / 2.0;
    let factors = &project.factors;
    project
        .site
        .obstacles
        .iter()
        .map(|obstacle| {
            let found = ground::clearance(&project.line, obstacle, radius).expect("a clearance");
            let allowance = found.md * (factors.position_spread * factors.position_multiple);
            let required = obstacle.clearance.expect("a required clearance");
            (obstacle.name.clone(), required / (found.gap - allowance))
        })
        .collect()
}

#[test]
fn the_demo_clears_its_obstacles_with_room_and_the_failing_one_does_not() {
    let good = clearances_used(&read("creek.toml", CREEK).project);
    assert_eq!(good.len(), 4);
    assert!(good.iter().all(|(_, used)| (0.5..0.85).contains(used)), "{good:#?}");
    let bad = clearances_used(&read("creek-fails.toml", CREEK_FAILS).project);
    assert!(bad.iter().any(|(name, used)| name == "creek" && *used > 1.0), "{bad:#?}");
}

#[test]
fn the_failing_demo_is_a_valid_file() {
    let Reading { warnings, .. } = read("creek-fails.toml", CREEK_FAILS);
    assert!(warnings.is_empty(), "{}", shown(&warnings));
}

#[test]
fn the_failing_demo_differs_in_the_lines_that_it_marks() {
    let data = |text: &'static str| text.lines().skip_while(|l| !l.starts_with("format"));
    let others: Vec<_> =
        data(CREEK).zip(data(CREEK_FAILS)).filter(|(a, b)| a != b).map(|(_, b)| b).collect();
    assert_eq!(data(CREEK).count(), data(CREEK_FAILS).count());
    assert_eq!(others.len(), 4, "{others:#?}");
    assert!(others[1..].iter().all(|line| line.contains("# mistake")), "{others:#?}");
}

#[test]
fn the_starter_reads_and_lists_what_it_leaves_out() {
    let text = starter(project::Technique::Drilling);
    let Reading { project, warnings } = read("starter.toml", &text);
    assert!(warnings.is_empty(), "{}", shown(&warnings));
    assert!(project.assumptions.len() > 30, "{}", project.assumptions.len());
    assert!(project.line.length().si() > project.line.run().si());
}

#[test]
fn the_schema_accepts_the_files_that_the_reader_accepts() {
    assert_valid("creek.toml", CREEK);
    assert_valid("creek-fails.toml", CREEK_FAILS);
    assert_valid("starter.toml", &starter(project::Technique::Drilling));
}

#[test]
fn the_schema_refuses_what_the_reader_refuses() {
    let validator = jsonschema::validator_for(&schema(project::Technique::Drilling)).unwrap();
    for (from, to) in [
        ("format = 1", "format = 2"),
        ("run = \"290 m\"", "run = -290"),
        ("kind = \"road\"", "kind = \"rode\""),
        ("[rig]", "[rigg]"),
        ("dn = 400", "dn = 400.5"),
        ("[0, 4.2],", "[0],"),
        ("pullback = \"600 kN\"", "pullback = true"),
    ] {
        let text = CREEK.replace(from, to);
        assert_ne!(text, CREEK, "{from}");
        assert!(!validator.is_valid(&json(&text)), "schema accepts {to}");
        assert!(project::read("x.toml", &text).is_err(), "reader accepts {to}");
    }
}

#[test]
fn every_assumption_names_its_place_its_value_and_its_source() {
    for text in [CREEK.to_owned(), starter(project::Technique::Drilling)] {
        for a in read("x.toml", &text).project.assumptions {
            assert!(a.path.starts_with('/') && !a.value.is_empty(), "{a:?}");
            assert!(!a.source.text.is_empty() && a.source.text != "given", "{a:?}");
        }
    }
}

#[test]
fn the_same_file_gives_the_same_project() {
    let once = |text: &str| format!("{:?}", read("x.toml", text).project);
    assert_eq!(once(CREEK), once(CREEK));
    assert_eq!(once(CREEK), once(&CREEK.replace('\n', "\r\n")));
    assert_eq!(once(CREEK), once(&format!("\u{feff}{CREEK}")));
}

fn change(from: &str, to: &str) -> Project {
    let text = CREEK.replace(from, to);
    assert_ne!(text, CREEK, "{from}");
    read("x.toml", &text).project
}

#[test]
fn units_are_read_as_written() {
    let feet = change("run = \"290 m\"", "run = \"951 ft 5.3 in\"");
    assert!((feet.line.run().si() - 290.0).abs() < 0.01);
    let bare = change("socket_diameter = \"510 mm\"", "socket_diameter = 510");
    assert_eq!(bare.string.pipe.socket_outside_diameter().unwrap().to_millimetres(), 510.0);
    let quoted = change("socket_diameter = \"510 mm\"", "socket_diameter = \"510\"");
    assert_eq!(quoted.string.pipe.socket_outside_diameter().unwrap().to_millimetres(), 510.0);
    let grade = change("entry_angle = \"12 deg\"", "entry_angle = \"21.2557 %\"");
    let inclination = grade.line.sample(0.0).inclination.to_degrees();
    assert!((inclination + 12.0).abs() < 1e-4, "{inclination}");
}

#[test]
fn very_small_and_very_large_crossings_are_read() {
    let small = r#"
format = 1
name = "short"
[site]
ground = [[0, 0], [12, 0]]
[line]
run = 12
entry_angle = "25 %"
exit_angle = "25 %"
entry_radius = 9
exit_radius = 9
lowest_level = -1.2
[string]
standard = "EN 545"
dn = 80
class = "C40"
coating = "polyethylene"
[bore]
ream = [250]
"#;
    assert!(read("small.toml", small).project.line.run().si() == 12.0);
    let large = small
        .replace("[12, 0]", "[3000, 0]")
        .replace("run = 12", "run = 3000")
        .replace("radius = 9", "radius = 1200")
        .replace("-1.2", "-60")
        .replace("dn = 80", "dn = 2000")
        .replace("C40", "K9")
        .replace("[250]", "[900, 1800, 3200]");
    assert!(read("large.toml", &large).project.string.pipe.outside_diameter().si() > 2.0);
}

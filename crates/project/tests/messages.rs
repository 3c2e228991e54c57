//! What the reader says on faulty files, word by word.

use project::{Diagnostic, Severity, read, read_bytes, read_with_warnings};

const CREEK: &str = include_str!("../../../demo/creek.toml");

fn shown(list: &[Diagnostic]) -> String {
    list.iter().map(|d| format!("{d}\n")).collect()
}

/// Messages on the demo file with some of its text replaced.
fn after(changes: &[(&str, &str)]) -> Vec<Diagnostic> {
    let mut text = CREEK.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    match read_with_warnings("creek.toml", &text) {
        Ok(reading) => reading.warnings,
        Err(list) => list,
    }
}

/// Codes and paths of the messages, which scripts rely on.
fn codes(list: &[Diagnostic]) -> Vec<(&str, &str)> {
    list.iter().map(|d| (d.code, d.path.as_str())).collect()
}

#[test]
fn every_fault_of_a_broken_file_is_reported_in_one_pass() {
    let list = read("broken.toml", include_str!("broken.toml")).unwrap_err();
    assert!(list.len() >= 12);
    insta::assert_snapshot!(shown(&list));
}

#[test]
fn every_fault_of_syntax_is_reported_and_nothing_that_follows_from_it() {
    let text = "format = 1\nname = \"open\n[site\nground = [[0, 1], [2, 3]\n[line]\nrun = 12 \
                m\nrun = -3\n";
    insta::assert_snapshot!(shown(&read("syntax.toml", text).unwrap_err()));
}

#[test]
fn an_infeasible_line_is_reported_with_numbers_that_would_do() {
    let list = after(&[("lowest_level = \"-7 m\"", "lowest_level = \"1 m\"")]);
    insta::assert_snapshot!(shown(&list));
}

#[test]
fn json_holds_the_same_in_fields() {
    let list = after(&[("entry_radius = \"250 m\"", "entry_radius = \"-120 m\"")]);
    insta::assert_snapshot!(serde_json::to_string_pretty(&list).unwrap());
}

#[test]
fn a_newer_format_is_named_and_nothing_else() {
    let list = after(&[("format = 1", "format = 2"), ("[rig]", "[something_new]")]);
    insta::assert_snapshot!(shown(&list));
    assert_eq!(codes(&after(&[("format = 1", "format = 0")])), [("unknown_format", "/format")]);
    assert_eq!(codes(&after(&[("format = 1\n", "")])), [("missing", "/format")]);
    assert_eq!(codes(&after(&[("format = 1", "format = \"1\"")])), [("wrong_type", "/format")]);
}

#[test]
fn files_that_are_no_text_are_refused_with_the_place() {
    let list =
        read_bytes("creek.toml", b"format = 1\nname = \"\xff\"\n", &project::no_files).unwrap_err();
    insta::assert_snapshot!(shown(&list));
    let list = read_bytes("creek.toml", &vec![b'#'; project::LARGEST_FILE + 1], &project::no_files)
        .unwrap_err();
    assert_eq!(codes(&list), [("too_large", "")]);
    assert!(read_bytes("creek.toml", CREEK.as_bytes(), &project::no_files).is_ok());
}

#[test]
fn an_empty_file_is_told_what_it_needs() {
    let list = read("empty.toml", "").unwrap_err();
    assert_eq!(
        codes(&list),
        [
            ("missing", "/bore"),
            ("missing", "/format"),
            ("missing", "/line"),
            ("missing", "/name"),
            ("missing", "/site"),
            ("missing", "/string"),
        ]
    );
}

#[test]
fn the_line_is_described_in_one_way_only() {
    let survey = "survey = [[0, \"-12 deg\", 64], [300, \"9 deg\", 64]]\nazimuth = \"64 deg\"";
    let list = after(&[("azimuth = \"64 deg\"", survey)]);
    let conflicts = list.iter().filter(|d| d.code == "conflict").count();
    assert_eq!(conflicts, 9, "{}", shown(&list));
    let element = "[[line.element]]\nlength = 5\nradius = 3\n[[line.element]]\n[[line.bend]]";
    let list = after(&[("[[line.bend]]", element)]);
    assert!(codes(&list).contains(&("conflict", "/line/element/0/radius")), "{}", shown(&list));
    assert!(codes(&list).contains(&("missing", "/line/element/1/length")), "{}", shown(&list));
}

#[test]
fn the_ground_line_must_reach_over_the_bore() {
    let list = after(&[("[0, 4.2], ", ""), ("[249, 3.7], [300, 3.6]", "[249, 3.7]")]);
    insta::assert_snapshot!(shown(&list));
    let list = after(&[("[60, 4.1]", "[90, 4.1]")]);
    assert_eq!(codes(&list), [("not_rising", "/site/ground/2/0")]);
}

#[test]
fn sub_strings_must_add_up_to_the_pipes_of_the_bore() {
    let some = ("assembly = \"string\"", "assembly = \"sub-strings\"\nsub_strings = [20, 20]");
    let list = after(&[some]);
    insta::assert_snapshot!(shown(&list));
    let fits = ("assembly = \"string\"", "assembly = \"sub-strings\"\nsub_strings = [24, 26]");
    assert_eq!(codes(&after(&[fits])), []);
}

#[test]
fn unknown_sizes_and_classes_come_with_what_there_is() {
    let list = after(&[("dn = 400", "dn = 420")]);
    let hint = list[0].hint.as_deref().unwrap();
    assert!(hint.contains("DN 400") && hint.contains("DN 450"), "{hint}");
    let list = after(&[("\"K9\"", "\"Q9\"")]);
    assert_eq!(codes(&list), [("unknown_class", "/string/class")]);
    assert!(list[0].allowed.as_deref().unwrap().contains("C40"));
    let awwa =
        ("standard = \"EN 545\"\ndn = 400\nclass = \"K9\"", "standard = \"AWWA C151\"\nsize = 16");
    let list = after(&[awwa]);
    assert_eq!(codes(&list), [("missing", "/string/class")]);
}

#[test]
fn own_data_need_three_dimensions_that_go_together() {
    let own = ("standard = \"EN 545\"\ndn = 400", "standard = \"own\"");
    let list = after(&[own]);
    assert_eq!(
        codes(&list),
        [("missing", "/string/outside_diameter"), ("missing", "/string/wall")]
    );
    let given = "standard = \"own\"\noutside_diameter = 429\nwall = 8.1";
    let own = ("standard = \"EN 545\"\ndn = 400", given);
    assert_eq!(codes(&after(&[own])), []);
    let thick = (own.0, "standard = \"own\"\noutside_diameter = 120\nwall = \"2.5 in\"");
    assert_eq!(codes(&after(&[thick])), [("wall_too_thick", "/string/wall")]);
    let narrow = ("socket_diameter = \"510 mm\"", "socket_diameter = \"430 mm\"");
    assert_eq!(codes(&after(&[narrow])), [("order", "/string/socket_diameter")]);
    let least = ("laying_length = \"6 m\"", "laying_length = \"6 m\"\nwall_min = \"9 mm\"");
    assert_eq!(codes(&after(&[least])), [("order", "/string/wall_min")]);
}

#[test]
fn a_given_mass_replaces_the_computed_one_when_it_can_be_meant() {
    let with = |mass: &str| {
        let to = format!("socket_mass = \"43 kg\"\nmass_per_length = \"{mass}\"");
        CREEK.replace("socket_mass = \"43 kg\"", &to)
    };
    let project = read("creek.toml", &with("120 kg/m")).unwrap();
    assert!((project.string.pipe.mass_per_length().si() - 120.0).abs() < 1e-9);
    let far = read_with_warnings("creek.toml", &with("150 kg/m")).unwrap();
    assert_eq!(codes(&far.warnings), [("mass_differs", "/string/mass_per_length")]);
    let list = read("creek.toml", &with("1 kg/m")).unwrap_err();
    assert_eq!(codes(&list), [("implausible", "/string/mass_per_length")]);
}

#[test]
fn what_may_be_meant_is_a_warning() {
    let list = after(&[("entry_level = \"4.2 m\"", "entry_level = \"3.4 m\"")]);
    assert_eq!(codes(&list), [("end_off_ground", "/line/entry_level")]);
    assert_eq!(list[0].severity, Severity::Warning);
    let list = after(&[("end_zone_entry = \"30 m\"", "end_zone_entry = \"250 m\"")]);
    assert_eq!(codes(&list), [("cover_nowhere", "/site/end_zone_entry")]);
    let zinc = "coating = \"zinc and finishing layer\"";
    let list = after(&[("coating = \"fibre mortar\"", zinc)]);
    assert_eq!(codes(&list), [("coating_not_for_pulling", "/string/coating")]);
}

#[test]
fn text_of_the_file_cannot_steer_the_terminal() {
    let list = read("x.toml", "format = 1\n\"\\u001b[2J\" = 3\n").unwrap_err();
    assert!(list.iter().any(|d| d.code == "unknown_key"));
    assert!(shown(&list).chars().all(|c| c == '\n' || !c.is_control()));
}

#[test]
fn faults_of_syntax_say_what_to_do() {
    let hint = |line: &str| {
        let list = read("x.toml", &format!("format = 1\n{line}\n")).unwrap_err();
        let first = list.into_iter().find(|d| d.code == "syntax").unwrap();
        assert!(first.line >= 2, "{first}");
        first.hint.unwrap()
    };
    assert!(hint("run = 12 m").contains("double quotes"));
    assert!(hint("run = 120,5").contains("point"));
    assert!(hint("run = .5").contains("digit"));
    assert!(hint("run = 1\nrun = 2").contains("once"));
    assert!(hint("[line").contains("]"));
    assert!(hint("name = \"x").contains("quote"));
}

#[test]
fn other_techniques_are_refused_and_bursting_asks_for_its_own_sections() {
    let list = after(&[("format = 1", "format = 1\ntechnique = \"ploughing\"")]);
    assert_eq!(codes(&list), [("not_a_choice", "/technique")]);
    assert_eq!(codes(&after(&[("format = 1", "format = 1\ntechnique = \"drilling\"")])), []);
    let burst = after(&[("format = 1", "format = 1\ntechnique = \"Bursting\"")]);
    let codes = codes(&burst);
    assert!(codes.contains(&("unknown_key", "/line")), "{codes:?}");
    assert!(codes.contains(&("missing", "/host")), "{codes:?}");
}

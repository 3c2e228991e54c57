//! One fault of a file does not hide another, and no file is refused without a word.

use project::{Diagnostic, Severity, read_with_warnings, starter};

const CREEK: &str = include_str!("../../../demo/creek.toml");

fn messages(text: &str) -> Vec<Diagnostic> {
    match read_with_warnings("x.toml", text) {
        Ok(reading) => reading.warnings,
        Err(list) => list,
    }
}

fn changed(text: &str, changes: &[(&str, &str)]) -> Vec<Diagnostic> {
    let mut text = text.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    messages(&text)
}

fn codes(list: &[Diagnostic]) -> Vec<(&str, &str)> {
    list.iter().map(|d| (d.code, d.path.as_str())).collect()
}

fn shown(list: &[Diagnostic]) -> String {
    list.iter().map(|d| format!("{d}\n")).collect()
}

#[test]
fn a_ground_line_shorter_than_the_run_is_named_although_the_exit_level_rests_on_it() {
    let list =
        changed(&starter(project::Technique::Drilling), &[("run = \"220 m\"", "run = \"240 m\"")]);
    insta::assert_snapshot!(shown(&list));
    let begins_late = ("ground = [[0, 4.0]", "ground = [[5, 4.0]");
    assert_eq!(
        codes(&changed(&starter(project::Technique::Drilling), &[begins_late])),
        [("ground_too_short", "/site/ground")]
    );
}

#[test]
fn faults_of_the_line_hide_no_others() {
    let list = changed(
        CREEK,
        &[
            ("lowest_level = \"-7 m\"", "lowest_level = \"1 m\""),
            (", [300, 3.6]", ""),
            ("at = \"253 m\"", "at = \"2530 m\""),
            ("assembly = \"string\"", "assembly = \"sub-strings\"\nsub_strings = [20, 20]"),
            ("class = \"K9\"", "class = \"K99\""),
            ("ballast_share = \"50 %\"", ""),
            ("free_water_level = \"2.9 m\"", "free_water_level = \"29 m\""),
        ],
    );
    assert_eq!(
        codes(&list),
        [
            ("ground_too_short", "/site/ground"),
            ("water_above_ends", "/site/free_water_level"),
            ("outside_line", "/site/obstacle/3/at"),
            ("curve_needs_depth", "/line/entry_radius"),
            ("curve_needs_depth", "/line/exit_radius"),
            ("missing", "/string/ballast_share"),
            ("unknown_class", "/string/class"),
            ("sub_strings_do_not_fit", "/string/sub_strings"),
        ]
    );
    let fit = list.iter().find(|d| d.code == "sub_strings_do_not_fit").unwrap();
    assert_eq!(fit.allowed.as_deref(), Some("a sum of 50 to 51"));
}

#[test]
fn an_unknown_size_hides_no_other_fault_of_the_string() {
    let list = changed(
        CREEK,
        &[
            ("dn = 400", "dn = 410"),
            ("class = \"K9\"", "class = \"K99\""),
            ("coating = \"fibre mortar\"", "coating = \"none\""),
            ("assembly = \"string\"", "assembly = \"sub-strings\"\nsub_strings = [20, 20]"),
            ("laying_length = \"6 m\"", "laying_length = \"6 m\"\nwall = 8\nwall_min = 9"),
        ],
    );
    assert_eq!(
        codes(&list),
        [
            ("unknown_size", "/string/dn"),
            ("unknown_class", "/string/class"),
            ("order", "/string/wall_min"),
            ("conflict", "/string/coating_thickness"),
            ("conflict", "/string/coating_density"),
            ("sub_strings_do_not_fit", "/string/sub_strings"),
        ]
    );
    // What stands in for an unknown pipe is held against nothing.
    for dn in ["dn = 1001", "dn = 79", "dn = \"large\"", ""] {
        let list = changed(CREEK, &[("dn = 400", dn), ("diameter = \"510 mm\"", "diameter = 60")]);
        assert_eq!(list.len(), 1, "{}", shown(&list));
    }
}

const SURVEY: &str = "survey = [[0, -12, 64], [30, -12, 64], [100, 0, 64], [215, 0, 64], \
                      [250, 9, 64], [291, 9, 64]]\n";

fn with_survey(change: impl Fn(&str) -> String) -> Vec<Diagnostic> {
    let start = CREEK.find("[line]").expect("the line");
    let end = CREEK.find("[string]").expect("the string");
    messages(&format!("{}[line]\n{}\n{}", &CREEK[..start], change(SURVEY), &CREEK[end..]))
}

#[test]
fn a_survey_that_does_not_go_down_is_told_so() {
    assert_eq!(codes(&with_survey(str::to_owned)), [("end_off_ground", "/line/survey")]);
    for (first, how) in [("12", "rises"), ("0", "is level")] {
        let list = with_survey(|s| s.replacen("[0, -12,", &format!("[0, {first},"), 1));
        assert_eq!(codes(&list), [("rises_at_entry", "/line/survey/0/1")]);
        assert!(list[0].message.contains(how) && list[0].message.contains("negative downwards"));
    }
    let list =
        with_survey(|s| s.replace("-12", "78").replace(" 0,", " 90,").replace(" 9,", " 89,"));
    assert_eq!(codes(&list), [("rises_at_entry", "/line/survey/0/1")]);
    assert!(list[0].hint.as_deref().unwrap().contains("from the vertical"), "{}", list[0]);
}

#[test]
fn a_survey_counted_from_the_vertical_gets_one_message() {
    let list =
        with_survey(|s| s.replace("-12", "78").replace(" 0,", " 90,").replace(" 9,", " 99,"));
    insta::assert_snapshot!(shown(&list));
}

#[test]
fn a_bare_number_out_of_range_is_told_its_unit() {
    let ream = "ream = [\"450 mm\", \"650 mm\", \"800 mm\"]";
    for (from, to, path) in [
        (ream, "final_diameter = 1.3", "/bore/final_diameter"),
        (ream, "ream = [0.8]", "/bore/ream/0"),
        ("pilot_diameter = \"250 mm\"", "pilot_diameter = 0.2", "/bore/pilot_diameter"),
        ("socket_diameter = \"510 mm\"", "socket_diameter = 0.51", "/string/socket_diameter"),
        ("class = \"K9\"", "class = \"K9\"\noutside_diameter = 0.429", "/string/outside_diameter"),
    ] {
        let list = changed(CREEK, &[(from, to)]);
        assert_eq!(codes(&list), [("out_of_range", path)]);
        let hint = list[0].hint.as_deref().unwrap();
        assert!(hint.starts_with("a bare number is in mm; "), "{hint}");
    }
    let list = changed(CREEK, &[(ream, "final_diameter = \"1.3 mm\"")]);
    assert!(!list[0].hint.as_deref().unwrap().contains("bare number"));
}

#[test]
fn a_comma_in_a_number_is_told_what_to_write() {
    let list = changed(CREEK, &[("run = \"290 m\"", "run = \"951,5 ft\"")]);
    assert_eq!(codes(&list), [("separator", "/line/run")]);
    assert_eq!(list[0].hint.as_deref(), Some("write \"951.5 ft\""));
    let list = changed(CREEK, &[("pullback = \"600 kN\"", "pullback = \"135,000 lbf\"")]);
    assert_eq!(list[0].hint.as_deref(), Some("write \"135000 lbf\" or \"135.000 lbf\""));
}

/// Every line of a file that sets a value; lists over several lines count as one.
fn settings(text: &str) -> Vec<std::ops::Range<usize>> {
    let mut out = Vec::new();
    let (mut start, mut from, mut depth) = (0, 0, 0);
    for line in text.split_inclusive('\n') {
        let code = line.split('#').next().unwrap_or_default();
        let is_setting = depth > 0 || code.contains(" = ");
        if is_setting {
            if depth == 0 {
                from = start;
            }
            let brackets = |c| code.matches(c).count();
            depth = depth + brackets('[') - brackets(']');
            if depth == 0 {
                out.push(from..start + line.len());
            }
        }
        start += line.len();
    }
    out
}

/// What must hold for any file: refused with an error, or read without one.
fn assert_told(text: &str) {
    match read_with_warnings("x.toml", text) {
        Ok(reading) => {
            assert!(reading.warnings.iter().all(|d| d.severity == Severity::Warning), "{text}");
        }
        Err(list) => assert!(list.iter().any(|d| d.severity == Severity::Error), "{text}"),
    }
}

#[test]
fn a_file_without_any_one_or_two_of_its_values_is_read_or_told_why_not() {
    for text in [CREEK.to_owned(), starter(project::Technique::Drilling)] {
        let all = settings(&text);
        assert!(all.len() > 25, "{}", all.len());
        for (i, one) in all.iter().enumerate() {
            let mut without = text.clone();
            without.replace_range(one.clone(), "");
            assert_told(&without);
            for other in all[..i].iter().rev().take(12) {
                let mut less = without.clone();
                less.replace_range(other.clone(), "");
                assert_told(&less);
            }
        }
    }
}

/// The first number of a setting, as bytes of the file.
fn number(text: &str, setting: &std::ops::Range<usize>) -> Option<std::ops::Range<usize>> {
    let part = &text[setting.clone()];
    let value = part.find(" = ")? + 3;
    let from = value + part[value..].find(|c: char| c.is_ascii_digit() || c == '-')?;
    let length = part[from..]
        .find(|c: char| !matches!(c, '0'..='9' | '.' | '-'))
        .unwrap_or(part.len() - from);
    Some(setting.start + from..setting.start + from + length)
}

#[test]
fn a_file_with_any_one_number_changed_is_read_or_told_why_not() {
    for text in [CREEK.to_owned(), starter(project::Technique::Drilling)] {
        for setting in settings(&text) {
            let Some(place) = number(&text, &setting) else { continue };
            for value in ["0", "-1", "0.01", "1", "3", "5", "89", "240", "1001", "-250", "19000"] {
                let mut other = text.clone();
                other.replace_range(place.clone(), value);
                assert_told(&other);
            }
        }
    }
}

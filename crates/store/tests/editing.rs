//! One value is changed, and nothing else is.

use project::{no_files, read_design};
use proptest::prelude::*;
use store::edit::{Change, EditError, Value, set};
use toml::Table;

const CREEK: &str = include_str!("../../../demo/creek.toml");
const STREET: &str = include_str!("../../../demo/street.toml");

fn text(value: &str) -> Change {
    Change::To(Value::Text(value.to_owned()))
}

fn number(value: f64) -> Change {
    Change::To(Value::Number(value))
}

fn changed(source: &str, path: &str, change: &Change) -> String {
    set(source, path, change).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// Lines of the first text only, and of the second only.
fn differing<'a>(a: &'a str, b: &'a str) -> (Vec<&'a str>, Vec<&'a str>) {
    let start = a.lines().zip(b.lines()).take_while(|(a, b)| a == b).count();
    let (a, b): (Vec<_>, Vec<_>) =
        (a.lines().skip(start).collect(), b.lines().skip(start).collect());
    let end = a.iter().rev().zip(b.iter().rev()).take_while(|(a, b)| a == b).count();
    (a[..a.len() - end].to_vec(), b[..b.len() - end].to_vec())
}

#[test]
fn a_value_changes_on_its_line_and_the_comment_stays() {
    let path = "/site/free_water_level";
    let out = changed(CREEK, path, &text("3.1 m"));
    assert_eq!(
        differing(CREEK, &out),
        (
            vec!["free_water_level = \"2.9 m\" # mean high water of spring tides"],
            vec!["free_water_level = \"3.1 m\" # mean high water of spring tides"]
        )
    );
    assert_eq!(changed(&out, path, &text("2.9 m")), CREEK);
    let out = changed(CREEK, "/site/obstacle/2/clearance", &number(3.25));
    assert_eq!(differing(CREEK, &out), (vec!["clearance = \"3.2 m\""], vec!["clearance = 3.25"]));
    let out = changed(CREEK, "/site/ground/3/1", &number(0.5));
    assert_eq!(
        differing(CREEK, &out).1,
        ["    [104, 0.5], [112, -1.5], [132, -1.5], [140, 0.3], # creek"]
    );
    let out = changed(CREEK, "/ground/boring/1/strata/2/0", &text("river sand"));
    assert!(differing(CREEK, &out).1[0].contains("[\"river sand\", 2.1]"));
    let out =
        changed(STREET, "/host/axis", &Change::To(Value::List(vec![Value::numbers(&[0.0, 29.0])])));
    assert_eq!(differing(STREET, &out).1, ["axis = [[0, 29]]"]);
    let windows = CREEK.replace('\n', "\r\n");
    let out = changed(&windows, "/rig/pullback", &text("700 kN"));
    assert_eq!(out, windows.replace("pullback = \"600 kN\"", "pullback = \"700 kN\""));
    let marked = format!("\u{feff}{CREEK}");
    let out = changed(&marked, "/string/dn", &Change::To(Value::Integer(500)));
    assert_eq!(out, marked.replace("dn = 400", "dn = 500"));
}

#[test]
fn a_missing_key_stands_where_the_reference_has_it() {
    let out = changed(CREEK, "/factors/restart", &number(1.5));
    assert!(out.ends_with("[factors]\nrestart = 1.5\n"), "{}", &out[out.len() - 80..]);
    let out = changed(CREEK, "/site/obstacle/0/heave_limit", &text("5 mm"));
    assert_eq!(differing(CREEK, &out), (vec![], vec!["heave_limit = \"5 mm\""]));
    let again: Table = toml::from_str(&out).unwrap();
    assert_eq!(again["site"]["obstacle"][0]["heave_limit"].as_str(), Some("5 mm"));
    // `note` has a key before and a key behind it.
    let without = changed(STREET, "/note", &Change::Remove);
    assert_eq!(differing(STREET, &without).1, Vec::<&str>::new());
    assert!(changed(&without, "/note", &text("n")).contains("old main\"\nnote = \"n\"\ntechnique"));
    let windows = CREEK.replace('\n', "\r\n");
    let out = changed(&windows, "/factors/restart", &number(1.5));
    assert!(out.ends_with("[factors]\r\nrestart = 1.5\r\n"));
    assert_eq!(changed("", "/name", &text("a")), "name = \"a\"\n");
    assert_eq!(changed("name = \"a\"", "/note", &text("b")), "name = \"a\"\nnote = \"b\"");
    assert_eq!(changed("# c\n\n[rig]\n", "/name", &text("a")), "# c\n\nname = \"a\"\n[rig]\n");
    assert_eq!(changed("[rig]", "/rig/pullback", &number(1e20)), "[rig]\npullback = 1e20");
}

#[test]
fn a_missing_section_stands_where_the_reference_has_it() {
    let without = changed(CREEK, "/rig/pump", &Change::Remove);
    assert!(
        !without.contains("[rig.pump]") && without.contains("# Pressures of the finished main.")
    );
    let out = changed(&without, "/rig/pump/capacity", &text("900 l/min"));
    let expected =
        "reamer_force = \"20 kN\"\n\n[rig.pump]\ncapacity = \"900 l/min\"\n\n# Pressures of";
    assert!(out.contains(expected), "{out}");
    let out = changed(CREEK, "/ground/file", &text("creek-ground.ags"));
    let expected = "[ground]\nfile = \"creek-ground.ags\"\n\n# The soils and where they lie.";
    assert!(out.contains(expected), "{out}");
    assert_eq!(changed("a = 1", "/rig/pullback", &number(1.0)), "a = 1\n\n[rig]\npullback = 1\n");
    // Braces and dotted keys are kept as such.
    let braces = "site = { a = 1 } # c\n";
    assert_eq!(changed(braces, "/site/b", &number(2.0)), "site = { a = 1, b = 2 } # c\n");
    assert_eq!(changed("site = {}\n", "/site/b/c", &number(2.0)), "site = { b.c = 2 }\n");
    let dotted = "[bore]\nrods.length = 3\npilot_diameter = 4\n";
    assert_eq!(
        changed(dotted, "/bore/rods/diameter", &number(2.0)),
        "[bore]\nrods.length = 3\nrods.diameter = 2\npilot_diameter = 4\n"
    );
}

#[test]
fn tables_of_lists_are_added_behind_the_last_and_taken_out() {
    let entries = [("start", "150 m"), ("radius", "400 m"), ("angle", "3 deg")]
        .map(|(key, value)| (key.to_owned(), Value::Text(value.to_owned())));
    let out = changed(CREEK, "/line/bend", &Change::Append(entries.to_vec()));
    let expected = "angle = \"5 deg\"\n\n[[line.bend]]\nstart = \"150 m\"\nradius = \"400 m\"\nangle = \"3 deg\"\n\n# The soils";
    assert!(out.contains(expected), "{out}");
    assert_eq!(changed(&out, "/line/bend/1", &Change::Remove), CREEK);
    let without = changed(CREEK, "/line/bend", &Change::Remove);
    assert!(!without.contains("[[line.bend]]"));
    let out = changed(&without, "/line/bend", &Change::Append(entries.to_vec()));
    assert!(out.find("[[line.bend]]") > out.find("[line]"));
    assert!(out.find("[[line.bend]]") < out.find("[[ground.soil]]"));
    let list = changed(
        "a = [{ b = 1 }]\n",
        "/a",
        &Change::Append(vec![("b".to_owned(), Value::Integer(2))]),
    );
    assert_eq!(list, "a = [{ b = 1 }, { b = 2 }]\n");
    let service = vec![("at".to_owned(), Value::Text("115 m".to_owned()))];
    let out = changed(STREET, "/host/service", &Change::Append(service));
    assert!(out.contains("at = \"111 m\"\ndug_up = \"yes\"\n\n[[host.service]]\nat = \"115 m\"\n"));
    assert!(read_design("street.toml", &out, &no_files).is_ok());
}

#[test]
fn values_and_entries_are_taken_out_with_their_own_bytes_only() {
    let out = changed(CREEK, "/site/low_water_level", &Change::Remove);
    let line = "low_water_level = \"0.2 m\" # mean low water of spring tides";
    assert_eq!(differing(CREEK, &out), (vec![line], vec![]));
    let rows = "a = [ # first\n  1, 2, # two\n  3 # three\n]\n";
    assert_eq!(
        changed(rows, "/a/0", &Change::Remove),
        "a = [ # first\n  2, # two\n  3 # three\n]\n"
    );
    assert_eq!(
        changed(rows, "/a/1", &Change::Remove),
        "a = [ # first\n  1, # two\n  3 # three\n]\n"
    );
    let last = changed(rows, "/a/2", &Change::Remove);
    assert!(last.contains("# two") && last.contains("# three"), "{last}");
    assert_eq!(changed("a = { b = 1, c = 2 }", "/a/c", &Change::Remove), "a = { b = 1  }");
    let out = changed(CREEK, "/site/obstacle/1", &Change::Remove);
    assert_eq!(differing(CREEK, &out).1, Vec::<&str>::new());
    assert!(!out.contains("flood bank\"") && out.contains("# What the bore must keep clear of"));
}

#[test]
fn what_cannot_be_done_is_refused_with_its_reason() {
    let code = |path: &str, change: &Change| {
        let error = set(CREEK, path, change).unwrap_err();
        assert!(!error.hint().is_empty());
        error.code()
    };
    let one = number(1.0);
    for path in ["", "line", "/", "/line//x", "/line/"] {
        assert_eq!(code(path, &one), "path", "{path}");
    }
    assert_eq!(code("/line", &one), "wrong_kind");
    assert_eq!(code("/site/obstacle", &one), "wrong_kind");
    assert_eq!(code("/line/run/x", &one), "wrong_kind");
    assert_eq!(code("/site/obstacle/9/clearance", &one), "nothing_there");
    assert_eq!(code("/site/ground/99", &one), "nothing_there");
    assert_eq!(code("/line/nothing", &Change::Remove), "nothing_there");
    assert_eq!(code("/line/run", &number(f64::NAN)), "not_finite");
    assert_eq!(code("/line", &Change::Append(vec![])), "wrong_kind");
    assert_eq!(code("/site/ground", &Change::Append(vec![])), "wrong_kind");
    let deep = (0..9).fold(Value::Integer(1), |inner, _| Value::List(vec![inner]));
    assert_eq!(code("/line/run", &Change::To(deep)), "too_deep");
    assert!(matches!(set("a = ", "/a", &one), Err(EditError::NotToml(_))));
}

/// Paths of all single values of a tree.
fn leaves(value: &toml::Value, path: &str, out: &mut Vec<String>) {
    match value {
        toml::Value::Table(table) => {
            table.iter().for_each(|(key, value)| leaves(value, &format!("{path}/{key}"), out));
        }
        toml::Value::Array(list) => {
            list.iter()
                .enumerate()
                .for_each(|(i, value)| leaves(value, &format!("{path}/{i}"), out));
        }
        _ => out.push(path.to_owned()),
    }
}

fn at<'a>(root: &'a Table, path: &str) -> Option<&'a toml::Value> {
    let mut keys = path.split('/').skip(1);
    keys.clone().next()?;
    let mut at = root.get(keys.next()?)?;
    for key in keys {
        at = match at {
            toml::Value::Table(table) => table.get(key)?,
            toml::Value::Array(list) => list.get(key.parse::<usize>().ok()?)?,
            _ => return None,
        };
    }
    Some(at)
}

#[test]
fn every_value_of_both_demos_can_be_changed_and_changed_back() {
    for demo in [CREEK, STREET] {
        let table: Table = toml::from_str(demo).unwrap();
        let mut paths = Vec::new();
        leaves(&toml::Value::Table(table), "", &mut paths);
        assert!(paths.len() > 60);
        for path in paths {
            let out = changed(demo, &path, &text("changed"));
            let (before, after) = differing(demo, &out);
            assert_eq!((before.len(), after.len()), (1, 1), "{path}");
            let again: Table = toml::from_str(&out).unwrap();
            assert_eq!(at(&again, &path).and_then(toml::Value::as_str), Some("changed"), "{path}");
        }
    }
}

#[test]
fn every_field_of_the_reference_can_be_added_to_a_file_that_lacks_it() {
    for (demo, technique) in
        [(CREEK, project::Technique::Drilling), (STREET, project::Technique::Bursting)]
    {
        let table: Table = toml::from_str(demo).unwrap();
        for section in technique.sections() {
            for field in section.fields {
                let path = format!("{}/{}", section.path(), field.key);
                let array = section.shape == project::fields::Shape::Array;
                if array || at(&table, &path).is_some() {
                    continue;
                }
                let out = changed(demo, &path, &text("added"));
                let again: Table = toml::from_str(&out).unwrap();
                assert_eq!(
                    at(&again, &path).and_then(toml::Value::as_str),
                    Some("added"),
                    "{path}"
                );
                let kept = demo.lines().filter(|line| !line.trim().is_empty());
                let mut lines = out.lines();
                assert!(kept.into_iter().all(|line| lines.any(|l| l == line)), "{path}");
                let gone = changed(&out, &path, &Change::Remove);
                let back: Table = toml::from_str(&gone).unwrap();
                assert!(at(&back, &path).is_none(), "{path}");
            }
        }
    }
}

proptest! {
    #[test]
    fn any_text_and_number_is_read_back_and_other_lines_stay(
        words in ".{0,60}", value in proptest::num::f64::NORMAL | proptest::num::f64::ZERO,
        whole: i64, which in 0_usize..1000, demo in prop_oneof![Just(CREEK), Just(STREET)]
    ) {
        let table: Table = toml::from_str(demo).unwrap();
        let mut paths = Vec::new();
        leaves(&toml::Value::Table(table), "", &mut paths);
        let path = &paths[which % paths.len()];
        for new in [Value::Text(words.clone()), Value::Number(value), Value::Integer(whole)] {
            let out = set(demo, path, &Change::To(new.clone())).unwrap();
            let again: Table = toml::from_str(&out).unwrap();
            let found = at(&again, path).unwrap();
            match &new {
                Value::Text(text) => prop_assert_eq!(found.as_str(), Some(text.as_str())),
                Value::Integer(n) => prop_assert_eq!(found.as_integer(), Some(*n)),
                _ => {
                    let read = found.as_float().or(found.as_integer().map(|n| n as f64));
                    prop_assert_eq!(read, Some(value));
                }
            }
            let (before, after) = differing(demo, &out);
            prop_assert!(before.len() <= 1 && after.len() == before.len());
        }
    }

    #[test]
    fn the_reader_takes_an_angle_as_it_was_set(angle in 6.0..16.0_f64, comment in "[ -~]{0,30}") {
        let with_comment = CREEK.replace(
            "entry_angle = \"12 deg\"", &format!("entry_angle = \"12 deg\" #{comment}"),
        );
        let out = set(&with_comment, "/line/entry_angle", &text(&format!("{angle} deg"))).unwrap();
        let line = format!("entry_angle = \"{angle} deg\" #{comment}\n");
        prop_assert!(out.contains(&line));
        if let Ok(reading) = read_design("creek.toml", &out, &no_files) {
            let project::Design::Crossing(crossing) = reading.design else { panic!("a crossing") };
            let project::LineDesign::Level(level) = crossing.design else { panic!("a level line") };
            prop_assert!((level.entry_angle.si() - angle.to_radians()).abs() < 1e-12);
        }
    }

    #[test]
    fn no_text_and_no_path_make_it_panic(source in "\\PC{0,80}", path in "(/[a-z0-9~]{0,3}){0,4}", cut in 0_usize..9000) {
        let _ = set(&source, &path, &number(1.0));
        let part: String = CREEK.chars().take(cut).collect();
        for change in [number(1.0), Change::Remove, Change::Append(vec![])] {
            let _ = set(&part, "/site/obstacle/0/clearance", &change);
            let _ = set(&part, "/site/obstacle", &change);
            let _ = set(&part, &path, &change);
        }
    }
}

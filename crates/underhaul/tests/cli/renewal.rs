//! A main renewed by pipe bursting, as its user meets it.

use insta::assert_snapshot;
use serde_json::Value;
use unicode_width::UnicodeWidthStr;

use crate::terminal::{Shown, Terminal, root};

const DEMOS: [&str; 2] = ["demo/street.toml", "demo/lane-asbestos.toml"];
const STREET: &str = include_str!("../../../../demo/street.toml");

fn json(shown: &Shown) -> Value {
    serde_json::from_str(&shown.out).unwrap_or_else(|e| panic!("{e}\n{shown}"))
}

fn ids(terminal: &Terminal, file: &str) -> Vec<String> {
    let assessment = json(&terminal.run(&format!("check {file} --json")));
    let checks = assessment["checks"].as_array().unwrap();
    checks.iter().map(|c| c["id"].as_str().unwrap().to_owned()).collect()
}

fn widest(shown: &Shown) -> usize {
    shown.out.lines().chain(shown.err.lines()).map(UnicodeWidthStr::width).max().unwrap_or(0)
}

/// In a folder with the street, with some of its text replaced.
fn with(from: &str, to: &str) -> Terminal {
    let text = STREET.replacen(from, to, 1);
    assert_ne!(text, STREET, "{from}");
    let terminal = Terminal::new();
    terminal.write("street.toml", text);
    terminal
}

#[test]
fn check_of_the_street() {
    let shown = Terminal::at_root().run("check demo/street.toml");
    assert_eq!(shown.code, 0, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn check_of_the_lane_waits_for_the_authority() {
    let shown = Terminal::at_root().run("check demo/lane-asbestos.toml");
    assert_eq!(shown.code, 1, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn check_of_the_street_in_brief_and_in_feet() {
    let shown = Terminal::at_root().run("check demo/street.toml --brief --units us");
    assert_eq!(shown.code, 0, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn check_of_a_broken_street() {
    let broken = STREET
        .replacen("grey cast iron", "gray cast iron", 1)
        .replacen("launch = \"118 m\"", "launch = \"218 m\"", 1)
        .replacen("offset = \"2.6 m\"", "ofset = \"2.6 m\"", 1);
    let terminal = Terminal::new();
    terminal.write("street.toml", broken);
    let shown = terminal.run("check street.toml");
    assert_eq!((shown.code, shown.out.as_str()), (2, ""), "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn explain_the_force_on_the_machine() {
    let shown = Terminal::at_root().run("explain demo/street.toml burst.force.rig");
    assert_eq!(shown.code, 0, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn exit_codes_follow_the_verdict() {
    for (from, to, code) in [
        ("name = \"A\"", "name = \"B\"", 0),
        ("permitted_pull = \"350 kN\"", "permitted_pull = \"100 kN\"", 1),
        ("heave_limit = \"40 mm\"\n", "", 1),
        ("action = \"cutter\"\n", "", 1),
        ("launch = \"118 m\"", "launch = \"0 m\"", 2),
        ("technique = \"bursting\"", "technique = \"burst\"", 2),
        ("technique = \"bursting\"\n", "", 2),
    ] {
        let terminal = with(from, to);
        for line in ["check street.toml", "check street.toml --brief", "check street.toml --json"] {
            let shown = terminal.run(line);
            assert_eq!(shown.code, code, "{to}: {shown}");
        }
    }
}

#[test]
fn nothing_is_wider_than_80_columns_and_no_line_ends_in_a_space() {
    let terminal = Terminal::at_root();
    let mut lines = vec!["explain demo/street.toml nonsense".to_owned()];
    for file in DEMOS {
        lines.extend(["", " --brief", " --units us"].map(|how| format!("check {file}{how}")));
        for id in ids(&terminal, file) {
            lines.push(format!("explain {file} {id}"));
            lines.push(format!("explain {file} {id} --units us"));
        }
    }
    assert!(lines.len() > 80, "{}", lines.len());
    for line in lines {
        let shown = terminal.run(&line);
        assert!(widest(&shown) <= 80, "{} columns: {shown}", widest(&shown));
        assert_eq!(shown.out.lines().find(|l| l.ends_with(' ')), None, "{line}");
        assert!(!shown.out.contains('\u{1b}') && !shown.err.contains('\u{1b}'), "{shown}");
        assert!(!shown.out.contains("NaN") && !shown.out.contains("inf "), "{shown}");
    }
}

#[test]
fn every_check_can_be_explained_on_paper_and_as_json() {
    let terminal = Terminal::at_root();
    for file in DEMOS {
        for id in ids(&terminal, file) {
            let text = terminal.run(&format!("explain {file} {id}"));
            assert_eq!(text.code, 0, "{text}");
            assert!(text.out.contains(&id), "{text}");
            let explained = json(&terminal.run(&format!("explain {file} {id} --json")));
            assert_eq!(explained["check"]["id"], *id);
            let made = explained["check"]["status"] != "not-assessed";
            assert_eq!(!explained["working"].as_array().unwrap().is_empty(), made, "{id}");
        }
    }
}

#[test]
fn an_unknown_check_is_refused_with_the_nearest() {
    let shown = Terminal::at_root().run("explain demo/street.toml burst.force.rigg");
    assert_eq!((shown.code, shown.out.as_str()), (2, ""), "{shown}");
    assert!(shown.err.contains("burst.force.rig"), "{shown}");
}

#[test]
fn the_json_of_an_assessment_is_whole_and_the_same_each_time() {
    let terminal = Terminal::at_root();
    for file in DEMOS {
        let line = format!("check {file} --json");
        let (first, second) = (terminal.run(&line), terminal.run(&line));
        assert_eq!(first.out, second.out);
        let a = json(&first);
        assert_eq!((a["technique"].as_str(), a["file"].as_str()), (Some("bursting"), Some(file)));
        for key in ["checks", "forces", "runs", "profiles", "assumptions", "cautions"] {
            assert!(!a[key].as_array().unwrap().is_empty(), "{key}");
        }
        for key in ["methods", "passes"] {
            assert!(a[key].as_array().unwrap().is_empty(), "{key}");
        }
        let met = a["checks"].as_array().unwrap().iter();
        let met = met.clone().all(|c| matches!(c["status"].as_str(), Some("pass" | "attention")));
        assert_eq!(met, first.code == 0, "{file}");
    }
}

#[test]
fn errors_of_a_file_are_an_object_with_json() {
    let terminal = with("launch = \"118 m\"", "launch = \"118 kg\"");
    for line in ["check street.toml --json", "explain street.toml burst.heave --json"] {
        let shown = terminal.run(line);
        assert_eq!(shown.code, 2, "{shown}");
        assert_eq!(json(&shown)["errors"][0]["path"], "/run/0/launch", "{shown}");
    }
}

#[test]
fn standard_input_is_read_like_a_file() {
    let text = std::fs::read_to_string(root().join("demo/street.toml")).unwrap();
    let terminal = Terminal::at_root();
    let from_input = terminal.run_with("check - --json", |c| {
        c.write_stdin(text);
    });
    let from_file = terminal.run("check demo/street.toml --json");
    assert_eq!(from_input.out.replace("standard input", "demo/street.toml"), from_file.out);
}

#[test]
fn the_demo_can_be_written_and_checked() {
    let terminal = Terminal::new();
    assert_eq!(terminal.run("new --technique bursting --demo street.toml").code, 0);
    let written = std::fs::read_to_string(terminal.folder().join("street.toml")).unwrap();
    assert_eq!(written, STREET);
    let shown = terminal.run("check street.toml");
    assert_eq!(shown.code, 0, "{shown}");
    assert_eq!(terminal.run("new --technique bursting --demo street.toml").code, 2);
}

#[test]
fn the_starter_names_its_technique_and_every_section() {
    let terminal = Terminal::new();
    let starter = terminal.run("new --technique bursting");
    assert_eq!((starter.code, starter.err.as_str()), (0, ""));
    for line in
        ["technique = \"bursting\"", "[host]", "[[host.stretch]]", "[[run]]", "[pit]", "[burst]"]
    {
        assert!(starter.out.lines().any(|l| l == line), "{line}: {starter}");
    }
    assert!(
        !starter.out.lines().any(|l| l.starts_with("[bore") || l.starts_with("[fluid")),
        "{starter}"
    );
    assert_eq!(terminal.run("new --technique burst").code, 2);
}

#[test]
fn the_schema_takes_the_demos_and_refuses_a_crossing() {
    let schema = json(&Terminal::new().run("schema --technique bursting"));
    let validator = jsonschema::validator_for(&schema).unwrap();
    let read = |file: &str| -> Value {
        let text = std::fs::read_to_string(root().join(file)).unwrap();
        serde_json::to_value(text.parse::<toml::Table>().unwrap()).unwrap()
    };
    for file in DEMOS {
        let instance = read(file);
        let errors: Vec<_> = validator.iter_errors(&instance).map(|e| e.to_string()).collect();
        assert!(errors.is_empty(), "{file}: {errors:?}");
    }
    assert!(!validator.is_valid(&read("demo/creek.toml")));
    let drilling = json(&Terminal::new().run("schema"));
    assert!(!jsonschema::validator_for(&drilling).unwrap().is_valid(&read(DEMOS[0])));
}

#[test]
fn completions_know_the_checks_and_the_technique() {
    let terminal = Terminal::at_root();
    for shell in ["bash", "zsh", "fish"] {
        let script = terminal.run(&format!("completions {shell}")).out;
        for word in ["burst.force.rig", "burst.reaction-wall", "host.material", "bursting"] {
            assert!(script.contains(word), "{shell}: {word}");
        }
        assert!(!script.contains("storm-drain"), "{shell} knows the neighbours of the demo");
    }
}

#[test]
fn long_and_foreign_names_stay_in_the_lines() {
    let long = "横断 ".repeat(40) + "\\u001b[31m \\u202e";
    let terminal = with("name = \"gas main\"", &format!("name = \"{long}\""));
    let shown = terminal.run("check street.toml");
    assert_eq!(shown.code, 0, "{shown}");
    assert!(widest(&shown) <= 80, "{} columns: {shown}", widest(&shown));
    assert!(!shown.out.contains(['\u{1b}', '\u{202e}']), "{shown}");
}

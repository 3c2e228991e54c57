//! What holds for everything that is printed: width, determinism, JSON that parses, no colour in pipes.

use serde_json::Value;
use unicode_width::UnicodeWidthStr;

use crate::terminal::{Shown, Terminal};

const DEMO: &str = include_str!("../../../../demo/creek.toml");

fn json(shown: &Shown) -> Value {
    serde_json::from_str(&shown.out).unwrap_or_else(|e| panic!("{e}\n{shown}"))
}

fn widest(shown: &Shown) -> usize {
    shown.out.lines().chain(shown.err.lines()).map(UnicodeWidthStr::width).max().unwrap_or(0)
}

/// Ids of worksheets or names of tables, as their list says.
fn listed(terminal: &Terminal, command: &str) -> Vec<String> {
    let list = json(&terminal.run(&format!("{command} --json")));
    let ids = list.as_array().unwrap().iter().map(|w| w["id"].as_str().unwrap().to_owned());
    ids.collect()
}

#[test]
fn no_line_in_a_pipe_is_wider_than_80_columns() {
    let terminal = Terminal::at_root();
    let opened = terminal.serve("").printed.clone();
    assert!(opened.lines().all(|l| l.width() <= 80), "{opened}");
    let mut lines: Vec<String> = [
        "--help",
        "dossier --help",
        "book --help",
        "drawings --help",
        "workbook --help",
        "data --help",
        "serve --help",
        "backup --help",
        "restore --help",
        "check --help",
        "explain --help",
        "worksheet --help",
        "tables --help",
        "new --help",
        "schema --help",
        "completions --help",
        "check demo/creek.toml",
        "check demo/creek.toml --units us",
        "check demo/creek-fails.toml",
        "check demo/creek-fails.toml --brief",
        "check there-is-no-such-file-although-its-name-goes-on-and-on-until-the-line-is-full.toml",
        "explain demo/creek.toml nonsense",
        "worksheet",
        "worksheet nonsense",
        "tables",
        "tables nonsense",
    ]
    .map(str::to_owned)
    .to_vec();
    let checks = json(&terminal.run("check demo/creek-fails.toml --json"));
    for check in checks["checks"].as_array().unwrap() {
        lines.push(format!("explain demo/creek-fails.toml {}", check["id"].as_str().unwrap()));
    }
    lines.extend(listed(&terminal, "worksheet").iter().map(|id| format!("worksheet {id}")));
    lines.extend(listed(&terminal, "tables").iter().map(|id| format!("tables {id}")));
    for line in lines {
        let shown = terminal.run(&line);
        assert!(widest(&shown) <= 80, "{} columns: {shown}", widest(&shown));
        assert!(!shown.out.contains('\u{1b}') && !shown.err.contains('\u{1b}'), "{shown}");
        let trailing = shown.out.lines().find(|l| l.ends_with(' ') && !line.contains("--help"));
        assert_eq!(trailing, None, "{line}");
    }
}

#[test]
fn the_example_of_every_worksheet_can_be_typed_as_printed() {
    let terminal = Terminal::new();
    for id in listed(&terminal, "worksheet") {
        let help = terminal.run(&format!("worksheet {id}")).out;
        let (_, example) = help.split_once("\nExample\n").unwrap_or_else(|| panic!("{help}"));
        let typed = example.replace("\\\n", " ");
        let typed = typed.trim().strip_prefix("underhaul ").unwrap();
        let shown = terminal.run(typed);
        assert_eq!(shown.code, 0, "{shown}");
        assert!(widest(&shown) <= 80, "{} columns: {shown}", widest(&shown));
        let outputs = json(&terminal.run(&format!("{typed} --json")));
        assert_eq!(outputs["id"], *id);
        assert!(!outputs["outputs"].as_object().unwrap().is_empty(), "{outputs}");
    }
}

#[test]
fn columns_set_the_width() {
    let terminal = Terminal::at_root();
    let at = |columns: &str| {
        terminal.run_with("check demo/creek-fails.toml --brief", |c| {
            c.env("COLUMNS", columns);
        })
    };
    assert!(widest(&at("50")) <= 50, "{}", at("50"));
    assert!(widest(&at("200")) > 80);
    for nonsense in ["", "0", "-3", "wide"] {
        assert_eq!(at(nonsense).out, terminal.run("check demo/creek-fails.toml --brief").out);
    }
}

#[test]
fn colour_never_stands_alone() {
    let terminal = Terminal::at_root();
    let plain = terminal.run("check demo/creek-fails.toml");
    let coloured = terminal.run_with("check demo/creek-fails.toml", |c| {
        c.env("CLICOLOR_FORCE", "1");
    });
    assert!(coloured.out.contains("\u{1b}[31m") || coloured.out.contains("\u{1b}[1m"));
    assert_eq!(anstream::adapter::strip_str(&coloured.out).to_string(), plain.out);
    let refused = terminal.run_with("check demo/creek-fails.toml", |c| {
        c.env("NO_COLOR", "1");
    });
    assert_eq!(refused.out, plain.out);
}

#[test]
fn names_that_are_long_foreign_or_steer_the_terminal_stay_harmless() {
    let terminal = Terminal::new();
    let bridge = "橋の下の横断 ".repeat(40) + "\\u001b[31m \\u202e";
    let named = DEMO
        .replace("name = \"Tidal creek\"", &format!("name = \"{bridge}\""))
        .replace("name = \"lane\"", "name = \"Straße hinter dem Deich und noch weiter hinaus\"");
    assert_ne!(named, DEMO);
    terminal.write("creek.toml", named);
    let shown = terminal.run("check creek.toml");
    assert_eq!(shown.code, 0, "{shown}");
    assert!(widest(&shown) <= 80, "{} columns: {shown}", widest(&shown));
    assert!(shown.out.lines().take(5).any(|l| l.ends_with('…')), "{shown}");
    assert!(!shown.out.contains(['\u{1b}', '\u{202e}']), "{shown}");
}

#[test]
fn an_assessment_is_the_same_byte_for_byte() {
    let terminal = Terminal::at_root();
    for file in ["demo/creek.toml", "demo/creek-fails.toml"] {
        let first = terminal.run(&format!("check {file} --json"));
        let second = terminal.run(&format!("check {file} --json"));
        assert_eq!(first.out, second.out);
        let assessment = json(&first);
        let met = assessment["checks"]
            .as_array()
            .unwrap()
            .iter()
            .all(|c| matches!(c["status"].as_str(), Some("pass" | "attention")));
        assert_eq!(met, first.code == 0, "{file}");
    }
}

#[test]
fn a_tighter_entry_curve_moves_the_checks() {
    let terminal = Terminal::new();
    terminal.write("creek.toml", DEMO);
    let before = json(&terminal.run("check creek.toml --json"));
    let tight = DEMO.replace("entry_radius = \"250 m\"", "entry_radius = \"140 m\"");
    assert_ne!(tight, DEMO);
    terminal.write("creek.toml", tight);
    let after = terminal.run("check creek.toml --json");
    assert_eq!(after.code, 1, "{after}");
    let used = |a: &Value, id: &str| {
        let checks = a["checks"].as_array().unwrap().clone();
        let check = checks.into_iter().find(|c| c["id"] == id).unwrap();
        check["utilisation"].as_f64().unwrap()
    };
    let after = json(&after);
    for id in ["line.radius-pipe", "line.radius-rods", "line.joint-angle"] {
        assert!(used(&after, id) > used(&before, id), "{id}");
    }
    assert!((used(&after, "line.exit-angle") - used(&before, "line.exit-angle")).abs() < 1e-12);
}

#[test]
fn every_check_of_the_demo_can_be_explained() {
    let terminal = Terminal::at_root();
    let assessment = json(&terminal.run("check demo/creek.toml --json"));
    for check in assessment["checks"].as_array().unwrap() {
        let id = check["id"].as_str().unwrap();
        let text = terminal.run(&format!("explain demo/creek.toml {id}"));
        assert_eq!(text.code, 0, "{text}");
        let explanation = json(&terminal.run(&format!("explain demo/creek.toml {id} --json")));
        assert_eq!(explanation["check"]["id"], *id);
        assert!(!explanation["working"].as_array().unwrap().is_empty(), "{id}");
    }
}

#[test]
fn errors_of_a_file_are_an_object_with_json() {
    let terminal = Terminal::new();
    terminal.write("creek.toml", DEMO.replace("run = \"290 m\"", "run = \"290 kg\""));
    for command in ["check creek.toml --json", "explain creek.toml line.cover --json"] {
        let shown = terminal.run(command);
        assert_eq!(shown.code, 2, "{shown}");
        let errors = json(&shown);
        assert_eq!(errors["errors"][0]["path"], "/line/run", "{errors}");
        assert!(shown.err.contains("error["), "{shown}");
    }
}

#[test]
fn every_table_is_rectangular_in_csv_and_complete_in_json() {
    let terminal = Terminal::new();
    for name in listed(&terminal, "tables") {
        let table = json(&terminal.run(&format!("tables {name} --json")));
        let shown = terminal.run(&format!("tables {name} --csv"));
        let mut reader = csv::Reader::from_reader(shown.out.as_bytes());
        let rows: Vec<_> = reader.records().collect::<Result<_, _>>().unwrap();
        assert_eq!(rows.len(), table["rows"].as_array().unwrap().len(), "{name}");
        assert!(table["source"].as_str().is_some_and(|s| !s.is_empty()), "{name}");
    }
}

#[test]
fn the_schema_accepts_the_demo_and_refuses_an_unknown_key() {
    let schema = json(&Terminal::new().run("schema"));
    let validator = jsonschema::validator_for(&schema).unwrap();
    let as_json = |text: &str| -> Value {
        let table: toml::Table = text.parse().unwrap();
        serde_json::to_value(table).unwrap()
    };
    let demo = as_json(DEMO);
    let errors: Vec<_> = validator.iter_errors(&demo).map(|e| e.to_string()).collect();
    assert!(errors.is_empty(), "{errors:?}");
    assert!(!validator.is_valid(&as_json(&format!("{DEMO}\nnonsense = 1\n"))));
}

#[test]
fn completions_know_every_command() {
    let terminal = Terminal::new();
    for shell in ["bash", "zsh", "fish"] {
        let shown = terminal.run(&format!("completions {shell}"));
        assert_eq!((shown.code, shown.err.as_str()), (0, ""), "{shown}");
        for command in ["check", "explain", "worksheet", "tables", "new", "schema"] {
            assert!(shown.out.contains(command), "{shell}: {command}");
        }
    }
    assert_eq!(terminal.run("completions none").code, 2);
}

#[test]
fn completions_know_the_names_and_help_does_not_list_them() {
    let terminal = Terminal::new();
    for shell in ["bash", "zsh", "fish"] {
        let script = terminal.run(&format!("completions {shell}")).out;
        for name in ["joint-radius", "en545-classes", "pull.joint-force"] {
            assert!(script.contains(name), "{shell}: {name}");
        }
        assert!(!script.contains("line.clearance"), "{shell} knows the obstacles of the demo");
    }
    for command in ["worksheet --help", "tables --help", "explain --help"] {
        assert!(!terminal.run(command).out.contains("possible values: joint"), "{command}");
    }
    let lists = listed(&terminal, "worksheet");
    let script = terminal.run("completions bash").out;
    assert!(lists.iter().all(|id| script.contains(id.as_str())));
}

#[test]
fn a_limit_says_on_which_side_the_value_must_stay() {
    let terminal = Terminal::at_root();
    let table = terminal.run("check demo/creek-fails.toml").out;
    let row = |id: &str| {
        let found = table.lines().find(|l| l.trim_start().starts_with(&format!("{id} ")));
        found.unwrap_or_else(|| panic!("{id}: {table}")).to_owned()
    };
    for (id, sign) in [("line.entry-angle", "≤"), ("line.radius-rods", "≥"), ("line.cover", "≥")]
    {
        assert!(row(id).contains(sign), "{}", row(id));
        let explained = terminal.run(&format!("explain demo/creek-fails.toml {id}")).out;
        assert!(explained.contains(&format!("limit {sign} ")), "{explained}");
    }
    // A rule that is kept has no share; one that fails has.
    assert!(row("line.entry-angle").contains("rule"), "{table}");
    assert!(row("bore.diameter").contains("122 %"), "{table}");
}

#[test]
fn warnings_on_a_file_are_counted_under_the_verdict_and_stand_in_the_json() {
    let terminal = Terminal::new();
    terminal.write("plain.toml", DEMO);
    let raised = DEMO.replacen("entry_level = \"4.2 m\"", "entry_level = \"5.2 m\"", 1);
    assert_ne!(raised, DEMO);
    terminal.write("raised.toml", raised);
    for command in ["check raised.toml", "check raised.toml --brief"] {
        let shown = terminal.run(command);
        let verdict = shown.out.find("easible").unwrap();
        let line = shown.out.find("! 1 warning on the file, see above (standard error)").unwrap();
        assert!(verdict < line, "{shown}");
        assert!(shown.err.contains("warning[end_off_ground]"), "{shown}");
    }
    let listed = json(&terminal.run("check raised.toml --json"));
    let text = listed["warnings"][0].as_str().unwrap();
    assert!(text.contains("/line/entry_level: the entry point lies"), "{text}");
    let shown = terminal.run("check plain.toml");
    assert!(!shown.out.contains("on the file"), "{shown}");
    assert_eq!(json(&terminal.run("check plain.toml --json"))["warnings"], serde_json::json!([]));
}

#[test]
fn the_suggested_command_can_be_typed_whatever_the_file() {
    let terminal = Terminal::new();
    terminal.write("my creek.toml", DEMO);
    let shown = terminal.run("check \"my creek.toml\"");
    assert!(shown.out.contains("underhaul explain 'my creek.toml' "), "{shown}");
    let from_input = terminal.run_with("check -", |c| {
        c.write_stdin(DEMO);
    });
    assert!(from_input.out.contains("underhaul explain FILE "), "{from_input}");
    assert!(from_input.out.contains(", standard input\n"), "{from_input}");
}

#[test]
fn a_fresh_build_suggests_cargo_in_the_sources_only() {
    let typed_in = |folder: &std::path::Path| {
        let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_underhaul"));
        let out = command.arg("worksheet").current_dir(folder).output().unwrap().stdout;
        String::from_utf8(out).unwrap()
    };
    // Only a build in cargo's usual folder is known as one.
    let fresh = env!("CARGO_BIN_EXE_underhaul").split(['/', '\\']).any(|part| part == "target");
    let at_root = typed_in(&crate::terminal::root());
    assert_eq!(at_root.contains("cargo run --release -- worksheet ID"), fresh, "{at_root}");
    let elsewhere = typed_in(Terminal::new().folder());
    assert!(elsewhere.contains(": underhaul worksheet ID"), "{elsewhere}");
}

#[test]
fn a_closed_pipe_ends_quietly() {
    use std::io::Read;
    use std::process::{Command, Stdio};
    for arguments in [&["check", "demo/creek.toml", "--json"][..], &["completions", "bash"]] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_underhaul"))
            .args(arguments)
            .current_dir(crate::terminal::root())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // Closed after the first byte, while there is more to come than the pipe holds or has yet been written.
        let mut out = child.stdout.take().unwrap();
        out.read_exact(&mut [0]).unwrap();
        drop(out);
        let mut complaints = String::new();
        child.stderr.take().unwrap().read_to_string(&mut complaints).unwrap();
        assert_eq!(child.wait().unwrap().code(), Some(0));
        assert_eq!(complaints, "");
    }
}

#[test]
fn the_version_is_that_of_the_package() {
    let shown = Terminal::new().run("--version");
    assert_eq!(shown.out, format!("underhaul {}\n", env!("CARGO_PKG_VERSION")));
}

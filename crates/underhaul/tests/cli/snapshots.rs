//! What a reader sees, word by word.

use insta::assert_snapshot;

use crate::terminal::Terminal;

/// The demo crossing with one change.
fn changed(from: &str, to: &str) -> String {
    let demo = include_str!("../../../../demo/creek.toml");
    let text = demo.replacen(from, to, 1);
    assert_ne!(demo, text, "the demo holds no {from}");
    text
}

#[test]
fn without_a_command_in_a_clone() {
    let terminal = Terminal::at_root();
    assert_snapshot!(terminal.serve("").printed);
}

#[test]
fn without_a_command_elsewhere() {
    let terminal = Terminal::new();
    assert_snapshot!(terminal.serve("").printed);
}

#[test]
fn check_of_the_demo() {
    let shown = Terminal::at_root().run("check demo/creek.toml");
    assert_eq!(shown.code, 0, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn check_of_the_demo_in_feet() {
    assert_snapshot!(Terminal::at_root().run("check demo/creek.toml --brief --units us"));
}

#[test]
fn check_of_the_failing_demo() {
    let shown = Terminal::at_root().run("check demo/creek-fails.toml");
    assert_eq!(shown.code, 1, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn check_of_the_failing_demo_in_brief() {
    let shown = Terminal::at_root().run("check demo/creek-fails.toml --brief");
    assert_eq!(shown.code, 1, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn check_of_a_crossing_with_values_missing() {
    let terminal = Terminal::new();
    let without = changed("\npullback = ", "\n# pullback = ");
    terminal.write("creek.toml", without);
    let shown = terminal.run("check creek.toml --brief");
    assert_eq!(shown.code, 1, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn check_of_a_broken_file() {
    let terminal = Terminal::new();
    let broken = changed("entry_radius = \"250 m\"", "entry_radiu = \"250 m\"")
        .replacen("\nrun = \"290 m\"", "\nrun = \"290 kg\"", 1)
        .replacen("\npullback = \"", "\npullback = \"-", 1);
    assert!(broken.contains("290 kg") && broken.contains("pullback = \"-"));
    terminal.write("creek.toml", broken);
    let shown = terminal.run("check creek.toml");
    assert_eq!((shown.code, shown.out.as_str()), (2, ""), "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn explain_one_check() {
    let shown = Terminal::at_root().run("explain demo/creek.toml line.radius-pipe");
    assert_eq!(shown.code, 0, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn explain_a_failing_check_is_a_success() {
    let shown = Terminal::at_root().run("explain demo/creek-fails.toml line.cover");
    assert_eq!(shown.code, 0, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn explain_an_unknown_check() {
    let shown = Terminal::at_root().run("explain demo/creek.toml pull.joint-forc");
    assert_eq!((shown.code, shown.out.as_str()), (2, ""), "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn worksheet_shown() {
    assert_snapshot!(Terminal::new().run("worksheet joint-radius"));
}

#[test]
fn worksheet_computed() {
    let shown =
        Terminal::new().run("worksheet joint-radius laying_length=\"6 m\" joint_angle=3deg");
    assert_eq!(shown.code, 0, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn worksheet_as_json() {
    let line = "worksheet joint-radius laying_length=6 joint_angle=3deg --json";
    assert_snapshot!(Terminal::new().run(line));
}

#[test]
fn worksheet_with_all_its_errors() {
    let line = "worksheet joint-radius laying_length=-6m joint_angel=3deg joint_angle=3kg radius";
    let shown = Terminal::new().run(line);
    assert_eq!((shown.code, shown.out.as_str()), (2, ""), "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn worksheet_with_all_its_errors_as_json() {
    let line = "worksheet joint-radius laying_length=-6m joint_angel=3deg --json";
    let shown = Terminal::new().run(line);
    assert_eq!(shown.code, 2, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn worksheet_unknown() {
    let shown = Terminal::new().run("worksheet join-radius laying_length=6");
    assert_eq!(shown.code, 2, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn tables_listed() {
    assert_snapshot!(Terminal::new().run("tables"));
}

#[test]
fn table_printed() {
    assert_snapshot!(Terminal::new().run("tables joints"));
}

#[test]
fn table_as_csv() {
    assert_snapshot!(Terminal::new().run("tables en545-classes --csv"));
}

#[test]
fn table_unknown() {
    let shown = Terminal::new().run("tables en54");
    assert_eq!(shown.code, 2, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn help() {
    assert_snapshot!(Terminal::new().run("--help"));
}

#[test]
fn help_of_check() {
    assert_snapshot!(Terminal::new().run("check --help"));
}

#[test]
fn an_unknown_command() {
    let shown = Terminal::new().run("chek creek.toml");
    assert_eq!((shown.code, shown.out.as_str()), (2, ""), "{shown}");
    assert_snapshot!(shown);
}

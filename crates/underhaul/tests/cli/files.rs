//! Files that are missing, unfit or in the way.

use insta::assert_snapshot;

use crate::terminal::{Terminal, root};

#[test]
fn a_missing_file() {
    let shown = Terminal::new().run("check creek.toml");
    assert_eq!((shown.code, shown.out.as_str()), (2, ""), "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn a_missing_file_as_json() {
    let shown = Terminal::new().run("check creek.toml --json");
    assert_eq!(shown.code, 2, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn a_folder_instead_of_a_file() {
    let terminal = Terminal::new();
    std::fs::create_dir(terminal.folder().join("creek")).unwrap();
    let shown = terminal.run("check creek");
    assert_eq!(shown.code, 2, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn a_file_that_is_not_text() {
    let terminal = Terminal::new();
    terminal.write("creek.toml", b"format = 1\nname = \"\xff\xfe\"\n");
    let shown = terminal.run("check creek.toml");
    assert_eq!(shown.code, 2, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn a_file_that_is_too_large() {
    let terminal = Terminal::new();
    terminal.write("creek.toml", vec![b'#'; 5_000_001]);
    let shown = terminal.run("check creek.toml");
    assert_eq!(shown.code, 2, "{shown}");
    assert_snapshot!(shown);
}

#[test]
fn an_empty_file() {
    let terminal = Terminal::new();
    terminal.write("creek.toml", "");
    let shown = terminal.run("check creek.toml");
    assert_eq!((shown.code, shown.out.as_str()), (2, ""), "{shown}");
    assert!(shown.err.contains("error["), "{shown}");
}

#[test]
fn standard_input_is_read_like_a_file() {
    let terminal = Terminal::at_root();
    let text = std::fs::read_to_string(root().join("demo/creek.toml")).unwrap();
    let from_input = terminal.run_with("check - --json", |c| {
        c.write_stdin(text);
    });
    let from_file = terminal.run("check demo/creek.toml --json");
    assert_eq!(from_input.code, from_file.code);
    assert!(from_input.out.contains("\"file\": \"standard input\""));
    assert_eq!(from_input.out.replace("standard input", "demo/creek.toml"), from_file.out);
}

#[test]
fn the_starter_is_written_once_and_never_over_a_file() {
    let terminal = Terminal::new();
    let first = terminal.run("new crossing.toml");
    assert_eq!(first.code, 0, "{first}");
    let written = std::fs::read_to_string(terminal.folder().join("crossing.toml")).unwrap();
    assert_eq!(written, terminal.run("new").out);
    assert_eq!(written, terminal.run("new -").out);
    terminal.write("crossing.toml", "mine");
    let second = terminal.run("new crossing.toml");
    assert_eq!(second.code, 2, "{second}");
    let kept = std::fs::read_to_string(terminal.folder().join("crossing.toml")).unwrap();
    assert_eq!(kept, "mine");
    assert_snapshot!(format!("{first}\n{second}"));
}

#[test]
fn the_starter_and_the_demo_can_be_checked() {
    let terminal = Terminal::new();
    assert_eq!(terminal.run("new crossing.toml").code, 0);
    let starter = terminal.run("check crossing.toml");
    assert!(starter.code < 2, "{starter}");
    assert_eq!(terminal.run("new --demo creek.toml").code, 0);
    let demo = terminal.run("check creek.toml");
    assert_eq!(demo.code, 0, "{demo}");
}

#[test]
fn a_folder_that_does_not_exist_is_named() {
    let shown = Terminal::new().run("new none/crossing.toml");
    assert_eq!(shown.code, 2, "{shown}");
    assert_snapshot!(shown);
}

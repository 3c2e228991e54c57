//! Speed of whole processes, as a user waits for them: start, read, compute, print.

use std::path::Path;
use std::process::{Command, Stdio};

fn main() {
    divan::main();
}

/// Runs the program from the project's root and throws its output away.
fn run(arguments: &[&str]) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let status = Command::new(env!("CARGO_BIN_EXE_underhaul"))
        .args(arguments)
        .current_dir(root)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .expect("the program starts");
    assert!(status.code().is_some_and(|code| code < 2), "exit {status} for {arguments:?}");
}

#[divan::bench(args = [
    "check demo/creek.toml",
    "check demo/creek.toml --json",
    "check demo/creek-fails.toml",
    "explain demo/creek.toml pull.joint-force",
    "worksheet joint-radius laying_length=6 joint_angle=0.05",
])]
fn process(arguments: &str) {
    run(&arguments.split(' ').collect::<Vec<_>>());
}

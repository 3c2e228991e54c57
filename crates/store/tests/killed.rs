//! A writer that is killed at any moment loses nothing that it was told is saved.

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use store::{Files, NewProject, Save, Saved, Store};

const KILLS: usize = 50;
/// The rest of the kills is left out on a machine so slow that they take longer; some must have been made.
const LONGEST: Duration = Duration::from_secs(9);
const FILE: &str = "UNDERHAUL_STORE_OF_THE_WRITER";

fn text(number: u32) -> String {
    format!("name = \"killed\"\n# revision {number}\n# {}", "x".repeat(number as usize * 37 % 9000))
}

/// Runs as a process of its own, started by the test below: saves and tells each number once it is saved.
#[test]
#[ignore = "the writer that is killed"]
fn writer() {
    let Some(path) = std::env::var_os(FILE) else { return };
    let mut store = Store::open(path).unwrap();
    let mut base = store.current(1).unwrap().number;
    let mut out = std::io::stdout();
    loop {
        let text = text(base + 1);
        let files = Files::AsBefore;
        let (what_changed, who, at) = ("", "writer", i64::from(base));
        let save =
            Save { project: 1, base, text: &text, files, what_changed, who, at, set_aside: false };
        let Saved::Revision(number) = store.save(&save).unwrap() else { panic!("conflict") };
        writeln!(out, "saved {number}").unwrap();
        out.flush().unwrap();
        base = number;
    }
}

/// Starts the writer, kills it after a while, and gives the last number that it told.
fn run_and_kill(path: &Path, after: Duration) -> Option<u32> {
    let mut child = Command::new(std::env::current_exe().expect("the helper works"))
        .args(["--exact", "writer", "--ignored", "--nocapture"])
        .env(FILE, path)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the helper works");
    std::thread::sleep(after);
    child.kill().expect("the helper works");
    let mut last = None;
    for line in BufReader::new(child.stdout.take().expect("the helper works")).lines() {
        // The harness writes a line of its own before the first one, perhaps without an end.
        let line = line.expect("the helper works");
        if let Some((_, number)) = line.split_once("saved ") {
            last = number.parse().ok();
        }
    }
    child.wait().expect("the helper works");
    last
}

#[test]
fn every_acknowledged_revision_survives_a_killed_writer() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("killed.store");
    let first = text(1);
    let project = NewProject { text: &first, files: &[], who: "A", at: 0 };
    Store::open(&path).unwrap().create(&project).unwrap();
    let start = Instant::now();
    let (mut told, mut kills, mut effective) = (1, 0, 0);
    // Knuth's multiplicative congruence: any spread of moments will do.
    let mut random = 12_345_u64;
    while kills < KILLS && start.elapsed() < LONGEST {
        random =
            random.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let after = Duration::from_micros(10_000 + (random >> 33) % 110_000);
        if let Some(number) = run_and_kill(&path, after) {
            assert!(number > told, "{number} was told after {told}");
            told = number;
            effective += 1;
        }
        kills += 1;
        let store = Store::open(&path).unwrap();
        store.check().unwrap();
        let current = store.current(1).unwrap();
        assert!(current.number >= told, "{told} was told, {} is there", current.number);
        assert_eq!(current.text, text(current.number));
        // A revision that was written when the kill came and not told is there whole; the next one builds on it.
        told = told.max(current.number);
    }
    assert!(effective >= 3, "only {effective} of {kills} writers got to write");
    let store = Store::open(&path).unwrap();
    let history = store.history(1).unwrap();
    assert!(history.len() >= told as usize);
    for line in history {
        assert_eq!(store.revision(1, line.number).unwrap().text, text(line.number));
    }
}

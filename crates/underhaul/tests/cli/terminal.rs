//! Runs the program in a folder of its own, as installed.

use std::fmt;
use std::path::{Path, PathBuf};
use std::process::Output;

use assert_cmd::Command;
use tempfile::TempDir;

/// A folder with the program in it.
///
/// The program is linked to a place outside of cargo's output folder, so that the commands it suggests do not depend on
/// how the tests were started.
pub struct Terminal {
    place: TempDir,
    program: PathBuf,
    folder: PathBuf,
}

/// What a run printed.
pub struct Shown {
    typed: String,
    pub code: i32,
    pub out: String,
    pub err: String,
}

/// The root of the workspace, where a stranger runs the first commands.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap()
}

impl Terminal {
    /// In an empty folder.
    pub fn new() -> Self {
        let place = tempfile::tempdir().unwrap();
        let built = Path::new(env!("CARGO_BIN_EXE_underhaul"));
        let program = place.path().join("bin");
        std::fs::create_dir(&program).unwrap();
        let program = program.join(built.file_name().unwrap());
        if std::fs::hard_link(built, &program).is_err() {
            std::fs::copy(built, &program).unwrap();
        }
        let folder = place.path().join("here");
        std::fs::create_dir(&folder).unwrap();
        Self { place, program, folder }
    }

    /// In the root of the workspace, with the demo files.
    pub fn at_root() -> Self {
        let mut terminal = Self::new();
        terminal.folder = root();
        terminal
    }

    /// The folder in which the program runs.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Writes a file into the folder.
    pub fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        assert!(self.folder.starts_with(self.place.path()), "the sources stay as they are");
        std::fs::write(self.folder.join(name), bytes).unwrap();
    }

    /// Types a line; words may stand in double quotation marks.
    pub fn run(&self, line: &str) -> Shown {
        self.run_with(line, |_| {})
    }

    /// The same with more settings: standard input, environment.
    pub fn run_with(&self, line: &str, set: impl FnOnce(&mut Command)) -> Shown {
        let mut command = Command::new(&self.program);
        for name in ["COLUMNS", "NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE"] {
            command.env_remove(name);
        }
        command.current_dir(&self.folder).args(words(line));
        set(&mut command);
        let Output { status, stdout, stderr } = command.output().unwrap();
        Shown {
            typed: format!("underhaul {line}").trim().to_owned(),
            code: status.code().expect("ends by itself"),
            out: String::from_utf8(stdout).unwrap(),
            err: String::from_utf8(stderr).unwrap(),
        }
    }
}

/// A program that serves the workbench, until it is dropped.
pub struct Served {
    child: std::process::Child,
    /// Where it listens, as `127.0.0.1:7380`.
    pub address: String,
    /// What it printed up to the line that says how to stop it; address and file replaced by words.
    pub printed: String,
}

impl Terminal {
    /// Runs until the workbench listens; its designs go into the folder of this terminal.
    pub fn serve(&self, line: &str) -> Served {
        use std::io::BufRead;
        let data = self.place.path().join("data");
        let mut child = std::process::Command::new(&self.program)
            .current_dir(&self.folder)
            .args(words(line))
            .env("XDG_DATA_HOME", &data)
            .env_remove("COLUMNS")
            .stdout(std::process::Stdio::piped())
            .spawn()
            .unwrap();
        let mut lines = std::io::BufReader::new(child.stdout.take().unwrap()).lines();
        let (mut printed, mut address) = (String::new(), String::new());
        for line in lines.by_ref() {
            let line = line.unwrap();
            if let Some(found) = line.strip_prefix("workbench: http://") {
                address = found.trim_end_matches('/').to_owned();
            }
            printed.push_str(&line);
            printed.push('\n');
            if printed.contains("Ctrl-C") {
                break;
            }
        }
        // The file's name is long enough to be wrapped at any place: all that follows the address is replaced.
        let (before, _) = printed.split_once("  designs are kept in").unwrap_or((&printed, ""));
        let printed = before.replace(&address, "ADDRESS");
        Served { child, address, printed }
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn words(line: &str) -> Vec<String> {
    let mut words = vec![];
    let mut word = String::new();
    let (mut quoted, mut begun) = (false, false);
    for c in line.chars() {
        match c {
            '"' => (quoted, begun) = (!quoted, true),
            ' ' if !quoted => {
                if begun {
                    words.push(std::mem::take(&mut word));
                }
                begun = false;
            }
            c => {
                word.push(c);
                begun = true;
            }
        }
    }
    if begun {
        words.push(word);
    }
    words
}

/// Exit code and both streams together, as snapshots keep them.
impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "$ {}", self.typed)?;
        writeln!(f, "--- exit code {}", self.code)?;
        write!(f, "--- standard output\n{}", self.out)?;
        write!(f, "--- standard error\n{}", self.err)
    }
}

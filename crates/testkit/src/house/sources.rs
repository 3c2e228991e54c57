use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Files under version control, from the root of the workspace; without version control every file that a fresh tree
/// would hold.
#[must_use]
pub fn tracked_files(root: &Path) -> Vec<PathBuf> {
    listed(root).filter(|files| !files.is_empty()).unwrap_or_else(|| {
        let mut files = Vec::new();
        walk(root, Path::new(""), &mut files);
        files.sort();
        files
    })
}

/// Files that version control knows, as far as they still exist.
fn listed(root: &Path) -> Option<Vec<PathBuf>> {
    let output = Command::new("git").args(["ls-files", "-z"]).current_dir(root).output().ok()?;
    output.status.success().then(|| {
        String::from_utf8_lossy(&output.stdout)
            .split('\0')
            .filter(|name| !name.is_empty())
            .map(PathBuf::from)
            .filter(|path| root.join(path).is_file())
            .collect()
    })
}

fn walk(root: &Path, below: &Path, files: &mut Vec<PathBuf>) {
    let Ok(entries) = fs::read_dir(root.join(below)) else { return };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let path = below.join(&name);
        let hidden = name == ".git" || (below == Path::new("") && name == "target");
        match entry.file_type() {
            Ok(kind) if kind.is_dir() && !hidden => walk(root, &path, files),
            Ok(kind) if kind.is_file() => files.push(path),
            _ => {}
        }
    }
}

/// Source files of more than `most` lines.
#[must_use]
pub fn long_files(root: &Path, files: &[PathBuf], most: usize) -> Vec<String> {
    files
        .iter()
        .filter(|path| path.extension().is_some_and(|e| e == "rs"))
        .filter_map(|path| {
            let lines = fs::read_to_string(root.join(path)).ok()?.lines().count();
            (lines > most).then(|| format!("{}: {lines} lines", path.display()))
        })
        .collect()
}

/// Lines of text files that hold an absolute path of a user's or a build machine.
#[must_use]
pub fn machine_paths(root: &Path, files: &[PathBuf]) -> Vec<String> {
    let mut found = Vec::new();
    for path in files {
        // What is not text holds no line to report.
        let Ok(text) = fs::read_to_string(root.join(path)) else { continue };
        for (index, line) in text.lines().enumerate() {
            if let Some(folder) = machine_folder(line) {
                found.push(format!("{}:{}: {folder}", path.display(), index + 1));
            }
        }
    }
    found
}

/// The first folder of a machine that a line names. A folder of this name inside a longer path is none.
fn machine_folder(line: &str) -> Option<String> {
    // Put together here so that this file does not break its own rule.
    ["home", "root", "work", "Users"].into_iter().find_map(|name| {
        let folder = format!("/{name}/");
        let starts_a_path = |at: usize| {
            let before = line[..at].chars().next_back();
            !before.is_some_and(|c| c.is_alphanumeric() || "._-~}>)]*".contains(c))
        };
        line.match_indices(&folder).any(|(at, _)| starts_a_path(at)).then_some(folder)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn machine_paths_are_found_and_others_are_not() {
        let slashed = |name: &str| format!("/{name}/");
        for line in [
            format!("see {}main/notes", slashed("work")),
            format!("\"{}someone\"", slashed("home")),
            slashed("root"),
            format!("file://{}x", slashed("Users")),
        ] {
            assert!(machine_folder(&line).is_some(), "{line}");
        }
        for line in ["docs/work/page", "https://example.org/home/x", "/homework/x", "a / b"] {
            assert_eq!(machine_folder(line), None, "{line}");
        }
    }

    #[test]
    fn only_long_source_files_are_named() {
        let root = crate::workspace_root();
        let this = vec![PathBuf::from("crates/testkit/src/house/sources.rs")];
        assert!(long_files(&root, &this, 600).is_empty());
        assert_eq!(long_files(&root, &this, 10).len(), 1);
        assert!(long_files(&root, &[PathBuf::from("Cargo.toml")], 1).is_empty());
    }

    #[test]
    fn walk_finds_this_file_and_leaves_out_what_is_built() {
        let mut files = Vec::new();
        walk(&crate::workspace_root(), Path::new(""), &mut files);
        assert!(files.iter().any(|f| f.ends_with("house/sources.rs")));
        assert!(!files.iter().any(|f| f.starts_with("target") || f.starts_with(".git")));
    }
}

//! How the reader calls this program, so that suggested commands can be typed as they stand.

use std::path::Path;

/// The words before the subcommand: the program's name, or the call through cargo for a fresh build whose reader stands
/// in the sources.
pub(crate) fn invocation() -> &'static str {
    let exe = std::env::current_exe().unwrap_or_default();
    let through_cargo = is_fresh_build(&exe) && is_checkout(Path::new("."));
    if through_cargo { "cargo run --release --" } else { "underhaul" }
}

/// A file's name as a word of a suggested command: quoted where a shell would split or change it. Standard input has no
/// name that a second command could read.
pub(crate) fn file_word(path: &Path) -> String {
    let name = path.display().to_string();
    let plain = |c: char| c.is_alphanumeric() || "./_-+,:@%\\".contains(c);
    match name.as_str() {
        "-" => "FILE".to_owned(),
        _ if name.chars().all(plain) => name,
        _ if name.contains('\'') => format!("\"{name}\""),
        _ => format!("'{name}'"),
    }
}

/// Whether the program runs from cargo's output folder instead of a place on the search path.
fn is_fresh_build(exe: &Path) -> bool {
    exe.components().any(|part| part.as_os_str() == "target")
}

/// Whether cargo, called in this folder, would run this program.
fn is_checkout(folder: &Path) -> bool {
    folder.join("Cargo.toml").is_file() && folder.join("crates/underhaul").is_dir()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fresh_build_is_told_by_its_folder() {
        assert!(is_fresh_build(Path::new("underhaul/target/release/underhaul")));
        assert!(!is_fresh_build(Path::new("bin/underhaul")));
    }

    #[test]
    fn cargo_runs_the_program_from_the_root_of_the_sources_only() {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        assert!(is_checkout(&here.join("../..")));
        assert!(!is_checkout(here));
    }

    #[test]
    fn a_suggested_command_names_a_file_that_a_shell_reads_as_one_word() {
        let word = |name: &str| file_word(Path::new(name));
        assert_eq!(word("demo/creek.toml"), "demo/creek.toml");
        assert_eq!(word("-"), "FILE");
        assert_eq!(word("my creek.toml"), "'my creek.toml'");
        assert_eq!(word("o'creek.toml"), "\"o'creek.toml\"");
    }
}

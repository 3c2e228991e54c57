//! How the reader calls this program, so that suggested commands can be typed as they stand.

use std::path::Path;

/// The words before the subcommand: the program's name, or the call through cargo for a fresh build.
pub(crate) fn invocation() -> &'static str {
    let exe = std::env::current_exe().unwrap_or_default();
    if is_fresh_build(&exe) { "cargo run --release --" } else { "underhaul" }
}

/// Whether the program runs from cargo's output folder instead of a place on the search path.
fn is_fresh_build(exe: &Path) -> bool {
    exe.components().any(|part| part.as_os_str() == "target")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fresh_build_is_told_by_its_folder() {
        assert!(is_fresh_build(Path::new("underhaul/target/release/underhaul")));
        assert!(!is_fresh_build(Path::new("bin/underhaul")));
    }
}

//! The rules of the house hold.

use std::fs;
use std::path::Path;

use testkit::house::{
    Metadata, allowed_licences, broken_imports, broken_licences, long_files, machine_paths,
    normal_imports, read_metadata, table_of, tracked_files,
};
use testkit::workspace_root;

/// Lines beyond which a source file holds more than one thing.
const MOST_LINES: usize = 600;

fn metadata() -> Metadata {
    read_metadata(Path::new(env!("CARGO")), &workspace_root()).unwrap_or_else(|e| panic!("{e}"))
}

fn text(name: &str) -> String {
    fs::read_to_string(workspace_root().join(name)).unwrap_or_else(|e| panic!("{name}: {e}"))
}

#[test]
fn crates_import_only_what_the_architecture_allows() {
    let metadata = metadata();
    let own: Vec<String> = metadata.own().map(|p| p.name.clone()).collect();
    let table = table_of(&text("ARCHITECTURE.md"), &own);
    let broken = broken_imports(&table, &own, &normal_imports(&metadata));
    assert!(broken.is_empty(), "ARCHITECTURE.md:\n{}", broken.join("\n"));
}

#[test]
fn licences_of_all_dependencies_are_allowed() {
    let allowed = allowed_licences(&text("deny.toml")).unwrap();
    let broken = broken_licences(&metadata(), &allowed);
    assert!(broken.is_empty(), "deny.toml does not allow:\n{}", broken.join("\n"));
}

#[test]
fn source_files_are_short() {
    let root = workspace_root();
    let long = long_files(&root, &tracked_files(&root), MOST_LINES);
    assert!(long.is_empty(), "more than {MOST_LINES} lines:\n{}", long.join("\n"));
}

#[test]
fn no_file_names_a_folder_of_a_machine() {
    let root = workspace_root();
    let files = tracked_files(&root);
    assert!(files.iter().any(|f| f == Path::new("Cargo.toml")), "the list of files is incomplete");
    let found = machine_paths(&root, &files);
    assert!(found.is_empty(), "paths of a machine:\n{}", found.join("\n"));
}

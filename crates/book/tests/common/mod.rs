//! What the tests share.
#![allow(dead_code)]

use project::Design;
use quantity::System;
use sheets::{Issue, Subject};

pub fn demo(name: &str) -> (String, String) {
    let path = format!("{}/../../demo/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    (format!("{name}.toml"), std::fs::read_to_string(path).unwrap())
}

/// Ground files of the demos lie beside them.
pub fn design(file: &str, text: &str) -> Design {
    let near = |name: &str| std::fs::read(format!("{}/../../demo/{name}", env!("CARGO_MANIFEST_DIR"))).map_err(|e| e.to_string());
    project::read_design(file, text, &near).unwrap().design
}

pub fn book(design: &Design, file: &str, issue: Issue) -> Vec<u8> {
    book_in(design, file, issue, System::Metric)
}

pub fn book_in(design: &Design, file: &str, issue: Issue, system: System) -> Vec<u8> {
    let subject = Subject::new(design, file, issue, system);
    let drawings = sheets::drawing::drawings(&subject);
    book::calculation_book(&subject, &drawings, &assess::setting_out(design)).unwrap()
}

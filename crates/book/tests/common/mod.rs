//! What the tests share: designs, books, and their pages read back by the tools of poppler.
#![allow(dead_code, clippy::unwrap_used)]

use std::process::Command;

use project::{Design, Technique};
use quantity::System;
use sheets::{Issue, Subject};

pub fn demo(name: &str) -> (String, String) {
    let path = format!("{}/../../demo/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    (format!("{name}.toml"), std::fs::read_to_string(path).unwrap())
}

pub fn starter(technique: Technique) -> String {
    project::starter(technique)
}

/// Ground files of the demos lie beside them.
pub fn design(file: &str, text: &str) -> Design {
    let folder = format!("{}/../../demo", env!("CARGO_MANIFEST_DIR"));
    let near = |name: &str| std::fs::read(format!("{folder}/{name}")).map_err(|e| e.to_string());
    project::read_design(file, text, &near).unwrap().design
}

pub fn subject<'a>(design: &'a Design, file: &str, issue: Issue, system: System) -> Subject<'a> {
    Subject::new(design, file, issue, system)
}

pub fn bytes(subject: &Subject<'_>) -> Vec<u8> {
    let drawings = sheets::drawing::drawings(subject);
    let setting_out = subject.for_reader(|s| assess::setting_out(s.design));
    book::calculation_book(subject, &drawings, &setting_out).unwrap()
}

/// What a tool of poppler says of a PDF.
pub fn tool(name: &str, options: &[&str], pdf: &[u8]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book.pdf");
    std::fs::write(&path, pdf).unwrap();
    let mut command = Command::new(name);
    command.args(options).arg(&path);
    if name == "pdftotext" {
        command.arg("-");
    }
    let output = command.output().unwrap_or_else(|e| {
        panic!("{name} cannot be started ({e}): install poppler-utils to run these tests")
    });
    assert!(output.status.success(), "{name}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// The text of a book.
pub struct Pages {
    pub text: String,
    /// Without any space, so that a line break says nothing.
    pub squeezed: String,
    pub count: usize,
}

impl Pages {
    pub fn of(pdf: &[u8]) -> Self {
        let text = tool("pdftotext", &["-raw"], pdf);
        let count = text.matches('\u{c}').count();
        Self { squeezed: squeezed(&text), text, count }
    }

    pub fn must_hold(&self, text: &str) {
        assert!(self.squeezed.contains(&squeezed(text)), "the book does not hold: {text}");
    }
}

fn squeezed(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_whitespace() && *c != '\u{200b}')
        .collect::<String>()
        .replace('³', "3")
        .replace('²', "2")
}

/// Page width, left and right side of every word, points.
pub fn word_boxes(pdf: &[u8]) -> Vec<(f64, f64, f64, String)> {
    let text = tool("pdftotext", &["-bbox"], pdf);
    let value = |line: &str, key: &str| -> Option<f64> {
        line.split_once(&format!("{key}=\""))?.1.split('"').next()?.parse().ok()
    };
    let mut width = 0.0;
    let mut list = Vec::new();
    for line in text.lines() {
        if line.contains("<page ") {
            width = value(line, "width").unwrap();
        } else if line.contains("<word ") {
            list.push((
                width,
                value(line, "xMin").unwrap(),
                value(line, "xMax").unwrap(),
                line.to_owned(),
            ));
        }
    }
    list
}

/// Titles of the bookmarks.
pub fn outline(pdf: &[u8]) -> Vec<String> {
    // Poppler prints bookmarks in the page tree of its HTML only.
    let folder = tempfile::tempdir().unwrap();
    let (path, out) = (folder.path().join("book.pdf"), folder.path().join("book"));
    std::fs::write(&path, pdf).unwrap();
    let status = Command::new("pdftohtml")
        .args(["-q", "-i", "-xml"])
        .arg(&path)
        .arg(&out)
        .status()
        .expect("pdftohtml cannot be started: install poppler-utils to run these tests");
    assert!(status.success());
    let text = std::fs::read_to_string(folder.path().join("book.xml")).unwrap();
    let from = text.find("<outline>").unwrap_or(text.len());
    text[from..].lines().filter(|l| l.contains("<item ")).map(ToOwned::to_owned).collect()
}

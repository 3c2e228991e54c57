//! The street of the demo, and ways to change and read it.

use project::{Design, Diagnostic, Renewal, no_files, read_design};

pub(crate) const STREET: &str = include_str!("../../../../demo/street.toml");

pub(crate) fn renewal(text: &str) -> Renewal {
    match read_design("x.toml", text, &no_files).map(|r| r.design) {
        Ok(Design::Renewal(renewal)) => *renewal,
        Ok(Design::Crossing(_)) => panic!("a file on bursting was read as a crossing"),
        Err(list) => panic!("{}", shown(&list)),
    }
}

/// Every message on a text.
pub(crate) fn messages(text: &str) -> Vec<Diagnostic> {
    match read_design("x.toml", text, &no_files) {
        Ok(reading) => reading.warnings,
        Err(list) => list,
    }
}

pub(crate) fn shown(list: &[Diagnostic]) -> String {
    list.iter().map(|d| format!("{d}\n")).collect()
}

pub(crate) fn changed(text: &str, changes: &[(&str, &str)]) -> String {
    let mut text = text.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    text
}

/// Codes and paths of the errors on the street with some of its text replaced.
pub(crate) fn codes(changes: &[(&str, &str)]) -> Vec<(&'static str, String)> {
    let list = messages(&changed(STREET, changes));
    list.iter().map(|d| (d.code, d.path.clone())).collect()
}

pub(crate) fn one(code: &'static str, path: &str) -> Vec<(&'static str, String)> {
    vec![(code, path.to_owned())]
}

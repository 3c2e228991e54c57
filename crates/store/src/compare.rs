//! What differs between two texts: lines, and values of the file.

use std::collections::{BTreeMap, BTreeSet};

use similar::{Algorithm, DiffOp, capture_diff_slices};
use toml::{Table, Value};

/// Most lines that are matched one by one; beyond that the stretch that differs is one removed and one added block.
/// Judgement: a crossing file has a few hundred lines, and the time grows with the square.
const MOST_LINES: usize = 20_000;

/// What differs between two texts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Comparison {
    /// Lines that were taken away or added, in the order of the texts; of a replaced stretch the old ones first.
    pub lines: Vec<LineChange>,
    /// Values that were taken away, added or changed, by path; empty where a text is not TOML.
    pub fields: Vec<FieldChange>,
    /// Whether `fields` could be made: both texts are TOML.
    pub fields_compared: bool,
    /// Whether the stretch that differs was too long to match its lines.
    pub as_one_block: bool,
}

/// A line that only one of the texts has.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineChange {
    /// The text that has it.
    pub side: Side,
    /// Its number there, from 1.
    pub line: usize,
    /// The line, without its end.
    pub text: String,
}

/// One of two texts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The first: the line was taken away.
    From,
    /// The second: the line was added.
    To,
}

/// A value that differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldChange {
    /// Place in the data, as `/site/obstacle/2/clearance`; of a value that was taken away the place that it had. A `/` in
    /// a key is written `~1` and a `~` is written `~0`.
    pub path: String,
    /// Value before, as TOML; nothing where it was added.
    pub from: Option<String>,
    /// Value after; nothing where it was taken away.
    pub to: Option<String>,
}

/// Compares two texts.
///
/// Tables of a list, as obstacles, are matched by their names where each has one of its own, otherwise by their order. A
/// change of order alone shows in the lines only. An end of line of another kind is a difference of the line.
#[must_use]
pub fn compare(from: &str, to: &str) -> Comparison {
    let mut out = Comparison::default();
    out.as_one_block = lines(from, to, &mut out.lines);
    if let (Ok(from), Ok(to)) = (toml::from_str(from), toml::from_str(to)) {
        out.fields_compared = true;
        tables(&from, &to, "", &mut out.fields);
    }
    out
}

/// Notes the lines that differ; whether they were too many to be matched.
fn lines(from: &str, to: &str, out: &mut Vec<LineChange>) -> bool {
    let (old, new): (Vec<&str>, Vec<&str>) =
        (from.split_inclusive('\n').collect(), to.split_inclusive('\n').collect());
    let start = old.iter().zip(&new).take_while(|(a, b)| a == b).count();
    let (old_rest, new_rest) =
        (old.get(start..).unwrap_or_default(), new.get(start..).unwrap_or_default());
    let end = old_rest.iter().rev().zip(new_rest.iter().rev()).take_while(|(a, b)| a == b).count();
    let old_mid = old_rest.get(..old_rest.len() - end).unwrap_or_default();
    let new_mid = new_rest.get(..new_rest.len() - end).unwrap_or_default();
    let block = old_mid.len() + new_mid.len() > MOST_LINES;
    let ops = if block {
        vec![DiffOp::Replace {
            old_index: 0,
            old_len: old_mid.len(),
            new_index: 0,
            new_len: new_mid.len(),
        }]
    } else {
        capture_diff_slices(Algorithm::Myers, old_mid, new_mid)
    };
    for op in ops.iter().filter(|op| !matches!(op, DiffOp::Equal { .. })) {
        for (side, range, texts) in
            [(Side::From, op.old_range(), old_mid), (Side::To, op.new_range(), new_mid)]
        {
            let first = start + range.start + 1;
            let stretch = texts.get(range).unwrap_or_default();
            out.extend(stretch.iter().enumerate().map(|(i, text)| LineChange {
                side,
                line: first + i,
                text: text.trim_end_matches(['\n', '\r']).to_owned(),
            }));
        }
    }
    block
}

fn tables(from: &Table, to: &Table, path: &str, out: &mut Vec<FieldChange>) {
    for (key, old) in from {
        values(Some(old), to.get(key), &below(path, key), out);
    }
    for (key, new) in to.iter().filter(|(key, _)| !from.contains_key(*key)) {
        values(None, Some(new), &below(path, key), out);
    }
}

fn values(from: Option<&Value>, to: Option<&Value>, path: &str, out: &mut Vec<FieldChange>) {
    let empty = Table::new();
    match (from, to) {
        (Some(Value::Table(a)), Some(Value::Table(b))) => tables(a, b, path, out),
        (Some(Value::Table(a)), None) if !a.is_empty() => tables(a, &empty, path, out),
        (None, Some(Value::Table(b))) if !b.is_empty() => tables(&empty, b, path, out),
        _ => match (from.map_or(Some(Vec::new()), list), to.map_or(Some(Vec::new()), list)) {
            (Some(a), Some(b)) if !(a.is_empty() && b.is_empty()) => lists(&a, &b, path, out),
            _ => {
                let shown = |value: Option<&Value>| value.map(ToString::to_string);
                let (from, to) = (shown(from), shown(to));
                if from != to {
                    out.push(FieldChange { path: path.to_owned(), from, to });
                }
            }
        },
    }
}

/// The tables of a list that holds nothing else.
fn list(value: &Value) -> Option<Vec<&Table>> {
    let array = value.as_array().filter(|a| !a.is_empty())?;
    array.iter().map(Value::as_table).collect()
}

fn lists(from: &[&Table], to: &[&Table], path: &str, out: &mut Vec<FieldChange>) {
    let empty = Table::new();
    let partner: Vec<Option<usize>> = match (names(from), names(to)) {
        (Some(old), Some(new)) => {
            let places: BTreeMap<_, _> =
                old.iter().enumerate().map(|(i, name)| (*name, i)).collect();
            new.iter().map(|name| places.get(name).copied()).collect()
        }
        _ => (0..to.len()).map(|i| (i < from.len()).then_some(i)).collect(),
    };
    for (i, new) in to.iter().enumerate() {
        let old = partner.get(i).copied().flatten().and_then(|j| from.get(j)).copied();
        tables(old.unwrap_or(&empty), new, &below(path, &i.to_string()), out);
    }
    for (j, old) in from.iter().enumerate().filter(|(j, _)| !partner.contains(&Some(*j))) {
        tables(old, &empty, &below(path, &j.to_string()), out);
    }
}

/// Names of all tables, where each has one of its own.
fn names<'a>(list: &[&'a Table]) -> Option<Vec<&'a str>> {
    let names: Option<Vec<&str>> =
        list.iter().map(|t| t.get("name").and_then(Value::as_str)).collect();
    names.filter(|names| names.iter().collect::<BTreeSet<_>>().len() == names.len())
}

fn below(path: &str, key: &str) -> String {
    format!("{path}/{}", key.replace('~', "~0").replace('/', "~1"))
}

#[cfg(test)]
mod tests {
    use super::*;

    const CREEK: &str = include_str!("../../../demo/creek.toml");

    fn fields(from: &str, to: &str) -> Vec<(String, Option<String>, Option<String>)> {
        compare(from, to).fields.into_iter().map(|f| (f.path, f.from, f.to)).collect()
    }

    fn some(text: &str) -> Option<String> {
        Some(text.to_owned())
    }

    #[test]
    fn one_value_is_one_field_and_two_lines() {
        let changed = CREEK.replace("entry_angle = \"12 deg\"", "entry_angle = \"11 deg\"");
        let found = compare(CREEK, &changed);
        let number = CREEK.lines().position(|l| l.starts_with("entry_angle")).unwrap() + 1;
        let lines: Vec<_> = found.lines.iter().map(|l| (l.side, l.line, l.text.as_str())).collect();
        assert_eq!(
            lines,
            [
                (Side::From, number, "entry_angle = \"12 deg\""),
                (Side::To, number, "entry_angle = \"11 deg\"")
            ]
        );
        assert!(found.fields_compared && !found.as_one_block);
        let expected = ("/line/entry_angle".to_owned(), some("\"12 deg\""), some("\"11 deg\""));
        assert_eq!(fields(CREEK, &changed), [expected]);
        assert_eq!(compare(CREEK, CREEK).lines, []);
    }

    #[test]
    fn obstacles_are_matched_by_name_and_nameless_tables_by_order() {
        let two = "[[o]]\nname = \"a\"\nc = 1\n[[o]]\nname = \"b\"\nc = 2\n";
        let three = "[[o]]\nname = \"new\"\nc = 9\n[[o]]\nname = \"a\"\nc = 1\n[[o]]\nname = \"b\"\nc = 3\n";
        assert_eq!(
            fields(two, three),
            [
                ("/o/0/name".to_owned(), None, some("\"new\"")),
                ("/o/0/c".to_owned(), None, some("9")),
                ("/o/2/c".to_owned(), some("2"), some("3")),
            ]
        );
        assert_eq!(
            fields(two, "[[o]]\nname = \"b\"\nc = 2\n"),
            [("/o/0/name".to_owned(), some("\"a\""), None), ("/o/0/c".to_owned(), some("1"), None)]
        );
        let nameless = fields("[[o]]\nc = 1\n[[o]]\nc = 2\n", "[[o]]\nc = 1\n");
        assert_eq!(nameless, [("/o/1/c".to_owned(), some("2"), None)]);
        assert_eq!(fields("", "[t]\n\"a/b\" = 1")[0].0, "/t/a~1b");
        assert_eq!(
            fields("a = 1", "[a]\nb = 1"),
            [("/a".to_owned(), some("1"), some("{ b = 1 }"))]
        );
    }

    #[test]
    fn what_is_not_toml_has_lines_only() {
        let found = compare("a = 1", "a = ");
        assert!(!found.fields_compared && found.fields.is_empty());
        assert_eq!(found.lines.len(), 2);
    }

    #[test]
    fn a_stretch_too_long_to_match_is_one_block() {
        let (old, new) = ("a\n".repeat(MOST_LINES), "b\n".repeat(10));
        let found = compare(&format!("x\n{old}y\n"), &format!("x\n{new}y\n"));
        assert!(found.as_one_block);
        assert_eq!(found.lines.len(), MOST_LINES + 10);
        assert_eq!(found.lines[0].line, 2);
    }
}

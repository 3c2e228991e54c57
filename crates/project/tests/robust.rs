//! The reader never panics, always says where, and uses every value of a file.

use std::ops::Range;

use proptest::prelude::*;
use toml::de::{DeTable, DeValue};

const CREEK: &str = include_str!("../../../demo/creek.toml");

/// Reads and checks what must hold for any bytes.
fn survive(bytes: &[u8]) {
    let list = match project::read_bytes("x.toml", bytes, &project::no_files) {
        Ok(reading) => reading.warnings,
        Err(list) => {
            assert!(list.iter().any(|d| d.severity == project::Severity::Error));
            list
        }
    };
    let lines = bytes.iter().filter(|b| **b == b'\n').count() + 1;
    for d in list {
        assert!(d.line >= 1 && d.line <= lines, "line {} of {lines}: {d}", d.line);
        assert!(d.column >= 1 && d.end_column > d.column, "{d}");
        assert!(!d.to_string().contains('\u{1b}'));
    }
}

/// Bytes of every value of the file that is not a table.
fn values(text: &str) -> Vec<(Range<usize>, String)> {
    fn walk(value: &toml::Spanned<DeValue<'_>>, text: &str, out: &mut Vec<(Range<usize>, String)>) {
        match value.get_ref() {
            DeValue::Table(table) => table.values().for_each(|v| walk(v, text, out)),
            DeValue::Array(list) => list.iter().for_each(|v| walk(v, text, out)),
            _ => out.push((value.span(), text[value.span()].to_owned())),
        }
    }
    let mut out = Vec::new();
    let table = DeTable::parse(text).expect("TOML");
    table.get_ref().values().for_each(|v| walk(v, text, &mut out));
    out.sort_by_key(|(span, _)| span.start);
    out
}

/// The text with the number of a value made one per cent larger; `None` for words.
fn one_per_cent_more(value: &str) -> Option<String> {
    let bare = value.trim_matches('"');
    let end = bare.find(|c: char| !matches!(c, '0'..='9' | '.' | '-')).unwrap_or(bare.len());
    let number: f64 = bare[..end].parse().ok()?;
    let more = if number == 0.0 { 0.01 } else { number * 1.01 };
    let whole = !value.starts_with('"') && !bare[..end].contains('.');
    let shown =
        if whole && number != 0.0 { format!("{}", number + 1.0) } else { format!("{more}") };
    let quotes = if value.starts_with('"') { "\"" } else { "" };
    Some(format!("{quotes}{shown}{}{quotes}", &bare[end..]))
}

#[test]
fn every_number_of_the_demo_makes_a_difference() {
    let with_more = format!("{CREEK}friction_bore = 0.28\nrestart = \"140 %\"\nrig_share = 0.7\n");
    // A warning alone is no use of a value.
    let debug = |mut project: project::Project| {
        project.warnings.clear();
        format!("{project:?}")
    };
    let before = debug(project::read("x.toml", &with_more).unwrap());
    let mut tried = 0;
    for (span, value) in values(&with_more) {
        let Some(more) = one_per_cent_more(&value) else { continue };
        let mut text = with_more.clone();
        text.replace_range(span.clone(), &more);
        if let Ok(project) = project::read("x.toml", &text) {
            assert_ne!(debug(project), before, "{value} at byte {}", span.start);
        }
        tried += 1;
    }
    assert!(tried > 100, "{tried}");
}

#[test]
fn a_file_of_many_faults_is_read_in_reasonable_time() {
    let mut text = "format = 1\nsite = {".to_owned();
    for i in 0..20_000 {
        text.push_str(&format!("k{i} = {i}, "));
    }
    text.push('}');
    let list = project::read("x.toml", &text).unwrap_err();
    assert!(list.len() <= 201);
    assert!(list.last().unwrap().message.contains("more messages"));
    survive(format!("ground = {}", "[".repeat(100_000)).as_bytes());
    survive("[a.".repeat(50_000).as_bytes());
}

fn token() -> impl Strategy<Value = String> {
    prop_oneof![
        Just("\"\"".to_owned()),
        Just("[[]]".to_owned()),
        Just("{}".to_owned()),
        Just("nan".to_owned()),
        Just("-inf".to_owned()),
        Just("1e308".to_owned()),
        Just("-0.0".to_owned()),
        Just("true".to_owned()),
        Just("1979-05-27".to_owned()),
        Just("99999999999999999999".to_owned()),
        Just("\"1e308 km\"".to_owned()),
        Just("\"0 deg\"".to_owned()),
        Just("\"own\"".to_owned()),
        Just("\"90 deg\"".to_owned()),
        any::<i64>().prop_map(|n| n.to_string()),
        any::<f64>().prop_map(|n| format!("{n:?}").to_lowercase()),
        (-500.0..500.0f64).prop_map(|n| format!("{n:.2}")),
        (-9.0..9.0f64).prop_map(|n| format!("\"{n:.3} m\"")),
        "[a-z=\"\\[\\]{}#\u{e9}\u{1f980}\t\r\n. 0-9-]{0,12}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        survive(&bytes);
    }

    #[test]
    fn a_cut_file_is_read_or_refused(at in 0..CREEK.len()) {
        survive(&CREEK.as_bytes()[..at]);
        survive(&CREEK.as_bytes()[at..]);
    }

    #[test]
    fn a_file_with_changed_bytes_is_read_or_refused(
        changes in proptest::collection::vec((0..CREEK.len(), any::<u8>()), 1..6)
    ) {
        let mut bytes = CREEK.as_bytes().to_vec();
        for (at, byte) in changes {
            bytes[at] = byte;
        }
        survive(&bytes);
    }

    #[test]
    fn a_file_with_other_values_is_read_or_refused(
        changes in proptest::collection::vec((any::<prop::sample::Index>(), token()), 1..8)
    ) {
        let mut places = values(CREEK);
        let mut chosen: Vec<_> = changes
            .into_iter()
            .map(|(index, token)| (index.index(places.len()), token))
            .collect();
        chosen.sort_by_key(|(i, _)| std::cmp::Reverse(*i));
        chosen.dedup_by_key(|(i, _)| *i);
        let mut text = CREEK.to_owned();
        for (i, token) in chosen {
            let (span, _) = places.swap_remove(i);
            text.replace_range(span, &token);
            places = values(CREEK);
        }
        survive(text.as_bytes());
    }

    #[test]
    fn a_file_with_lines_in_another_order_is_read_or_refused(
        order in Just(CREEK.lines().collect::<Vec<_>>()).prop_shuffle(),
        take in 0usize..140,
    ) {
        survive(order.into_iter().take(take).collect::<Vec<_>>().join("\n").as_bytes());
    }
}

//! No bytes make the reader panic, hang or answer with numbers that are none.

mod common;

use common::{AGS, TABLE};
use exchange::{GroundData, Severity, read_ground};
use proptest::prelude::*;

const CREEK_AGS: &[u8] = include_bytes!("../../../demo/creek-ground.ags");
const CREEK_CSV: &[u8] = include_bytes!("../../../demo/creek-ground.csv");

/// Reads and checks what must hold for any bytes.
fn survive(bytes: &[u8]) {
    let list = match read_ground("x", bytes) {
        Ok(data) => {
            hold(&data);
            assert!(data.warnings.iter().all(|i| i.severity == Severity::Warning));
            data.warnings
        }
        Err(list) => {
            assert!(list.iter().any(|i| i.severity == Severity::Error));
            list
        }
    };
    let lines = bytes.iter().filter(|b| matches!(b, b'\n' | b'\r')).count() + 1;
    let mut before = 0;
    for issue in &list {
        assert!((1..=lines).contains(&issue.line), "line {} of {lines}: {issue}", issue.line);
        assert!(issue.column != Some(0), "{issue}");
        assert!(!issue.message.is_empty() && !issue.message.ends_with('.'), "{issue}");
        assert!(!issue.to_string().chars().any(char::is_control), "{issue:?}");
        assert!(issue.line >= before, "{list:?}");
        before = issue.line;
    }
    assert!(list.len() <= 402);
}

/// What every file that is read promises.
fn hold(data: &GroundData) {
    assert!(!data.borings.is_empty());
    let mut names: Vec<_> = data.borings.iter().map(|b| b.id.as_str()).collect();
    names.sort_unstable();
    assert!(names.windows(2).all(|pair| pair[0] != pair[1]));
    for boring in &data.borings {
        assert!(!boring.id.is_empty());
        assert_eq!(boring.easting.is_some(), boring.northing.is_some());
        let numbers = [
            boring.easting,
            boring.northing,
            boring.chainage,
            boring.offset,
            boring.ground_level,
            boring.final_depth,
            boring.water_depth,
        ];
        assert!(numbers.into_iter().flatten().all(f64::is_finite));
        assert!(boring.water_depth.is_none_or(|depth| depth >= 0.0));
        assert!(boring.water_strikes.is_sorted());
        assert!(boring.strata.iter().all(|s| s.top >= 0.0 && s.base > s.top && s.base.is_finite()));
        assert!(boring.strata.windows(2).all(|pair| pair[1].top > pair[0].base - 2e-3));
        assert!(
            boring.spt.is_sorted_by_key(|t| t.depth) && boring.cpt.is_sorted_by_key(|r| r.depth)
        );
        let blows = boring.spt.iter().filter_map(|t| t.blows);
        assert!(blows.into_iter().all(|n| n.is_finite() && n >= 0.0));
        let readings = boring.cpt.iter().map(|r| r.cone_resistance);
        assert!(readings.into_iter().all(|q| q.is_finite() && q >= 0.0));
    }
}

fn sample() -> impl Strategy<Value = Vec<u8>> {
    prop_oneof![
        Just(CREEK_AGS.to_vec()),
        Just(CREEK_CSV.to_vec()),
        Just(AGS.as_bytes().to_vec()),
        Just(TABLE.as_bytes().to_vec()),
    ]
}

fn token() -> impl Strategy<Value = Vec<u8>> {
    prop_oneof![
        Just(b"\"".to_vec()),
        Just(b"\"\"".to_vec()),
        Just(b",".to_vec()),
        Just(b";;;;".to_vec()),
        Just(b"\r\n".to_vec()),
        Just(b"\r".to_vec()),
        Just(b"\n\"GROUP\",\"GEOL\"\n".to_vec()),
        Just(b"\"GROUP\"".to_vec()),
        Just(b"HEADING".to_vec()),
        Just(b"\"DATA\",".to_vec()),
        Just(b"**PROJ".to_vec()),
        Just(b"-1e308".to_vec()),
        Just(b"1e-320".to_vec()),
        Just(b"NaN".to_vec()),
        Just(b"N=50/75 mm for for 12".to_vec()),
        Just(b"\xff\xfe\x80".to_vec()),
        Just("\u{feff}\u{1f980}ß".as_bytes().to_vec()),
        Just(b"#".to_vec()),
        "[A-Z_0-9.,\";\t -]{0,12}".prop_map(String::into_bytes),
        prop::collection::vec(any::<u8>(), 0..8),
    ]
}

#[test]
fn every_truncation_of_the_samples_is_read_or_refused() {
    for bytes in [AGS.as_bytes(), TABLE.as_bytes()] {
        for end in 0..=bytes.len() {
            survive(&bytes[..end]);
            survive(&bytes[end..]);
        }
    }
}

#[test]
fn every_line_of_the_samples_may_be_missing_twice_or_swapped() {
    for text in [AGS, TABLE] {
        let lines: Vec<_> = text.lines().collect();
        for at in 0..lines.len() {
            let mut without = lines.clone();
            let line = without.remove(at);
            survive(without.join("\n").as_bytes());
            let mut twice = lines.clone();
            twice.insert(at, line);
            survive(twice.join("\r\n").as_bytes());
            let mut swapped = lines.clone();
            swapped.swap(at, (at * 7 + 3) % lines.len());
            survive(swapped.join("\r").as_bytes());
        }
    }
}

#[test]
fn large_files_of_one_fault_are_read_in_time_that_grows_with_their_size() {
    survive(&b"\"".repeat(1_000_000));
    survive("\"a\n".repeat(300_000).as_bytes());
    survive(format!("row,boring\n{}", "\"a\nb\"x,\"\n".repeat(100_000)).as_bytes());
    survive(format!("{AGS}{}", "\"GROUP\",\"GEOL\"\n".repeat(100_000)).as_bytes());
    survive(format!("{AGS}{}", "\"DATA\",\"B\",\"1\"\n".repeat(100_000)).as_bytes());
    let header = format!("row,boring,{}\n", "x,".repeat(3_000));
    survive(header.as_bytes());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        survive(&bytes);
    }

    #[test]
    fn any_text_is_read_or_refused(text in "[A-Z_\"',;\r\n\t #0-9./-]{0,200}") {
        survive(text.as_bytes());
        survive(format!("row,boring,depth [m],n\n{text}").as_bytes());
        survive(format!("\"GROUP\",\"LOCA\"\n{text}").as_bytes());
    }

    #[test]
    fn damaged_samples_are_read_or_refused(
        sample in sample(),
        damages in prop::collection::vec((any::<prop::sample::Index>(), 0..40usize, token()), 1..6),
    ) {
        let mut bytes = sample;
        for (at, length, token) in damages {
            let from = at.index(bytes.len() + 1);
            let to = (from + length).min(bytes.len());
            bytes.splice(from..to, token);
        }
        survive(&bytes);
    }

    #[test]
    fn truncated_samples_are_read_or_refused(sample in sample(), at in any::<prop::sample::Index>()) {
        let end = at.index(sample.len() + 1);
        survive(&sample[..end]);
    }

    /// Values exchanged for others: the file stays well written, and what it says does not.
    #[test]
    fn other_values_are_read_or_refused(
        sample in sample(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), token()), 1..4),
    ) {
        let text = String::from_utf8(sample).unwrap();
        let mut parts: Vec<Vec<u8>> = text.split(',').map(|part| part.as_bytes().to_vec()).collect();
        for (at, token) in changes {
            let at = at.index(parts.len());
            parts[at] = token;
        }
        survive(&parts.join(&b','));
    }
}

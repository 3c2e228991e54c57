//! The page on ground data says what the reader does.

use exchange::{Format, read_ground};

const PAGE: &str = include_str!("../../../docs/ground-data.md");

#[test]
fn the_table_of_the_page_reads_without_a_word() {
    let (_, rest) = PAGE.split_once("```csv\n").expect("a table");
    let (table, _) = rest.split_once("```").expect("its end");
    let data = read_ground("page", table.as_bytes()).unwrap_or_else(|list| panic!("{list:#?}"));
    assert_eq!(data.format, Format::Csv);
    assert!(data.warnings.is_empty(), "{:#?}", data.warnings);
    let [boring] = data.borings.as_slice() else { panic!("one boring") };
    assert_eq!((boring.strata.len(), boring.cpt.len()), (3, 1));
    assert_eq!(boring.spt.iter().map(|t| t.refusal).collect::<Vec<_>>(), [false, true]);
    assert_eq!((boring.water_depth, boring.water_strikes.as_slice()), (Some(2.4), &[5.6][..]));
}

#[test]
fn the_page_names_every_column_and_kind_of_row() {
    let list = read_ground("x", b"row,boring,nonsense\nnonsense,A\n").expect_err("refused");
    let allowed = |code: &str| {
        let issue = list.iter().find(|i| i.code == code).expect(code);
        issue.allowed.clone().expect("a list")
    };
    for word in allowed("unknown_column").split(", ").chain(allowed("unknown_row").split(", ")) {
        let named = PAGE.split(|c: char| !c.is_alphanumeric()).any(|w| w == word);
        assert!(named, "{word}");
    }
}

//! The CSV table: what is read, and what every fault says and where.

mod common;

use common::{AGS, TABLE, check, issues, read, with};
use exchange::Format;

#[test]
fn the_small_table_reads_without_a_word() {
    check(TABLE, &[]);
    let data = read(TABLE);
    assert_eq!(data.format, Format::Csv);
    let [bh1, bh2] = data.borings.as_slice() else { panic!("two borings") };
    assert_eq!(
        (bh1.id.as_str(), bh1.line, bh1.chainage, bh1.offset),
        ("BH1", 3, Some(10.0), Some(-2.5))
    );
    assert_eq!((bh1.easting, bh1.ground_level, bh1.final_depth), (None, Some(4.0), Some(10.0)));
    let codes: Vec<_> = bh1.strata.iter().chain(&bh2.strata).map(|s| s.code.as_str()).collect();
    assert_eq!(codes, ["ALV", "SAND", "STC"]);
    let tests: Vec<_> = bh1.spt.iter().map(|t| (t.depth, t.blows, t.refusal, t.line)).collect();
    assert_eq!(tests, [(1.0, Some(4.0), false, 8), (5.0, Some(50.0), true, 9)]);
    approx::assert_relative_eq!(bh1.spt[0].energy_ratio.unwrap(), 0.66);
    assert_eq!((bh2.cpt[0].cone_resistance, bh2.cpt[0].sleeve_friction), (1.5e6, Some(80e3)));
    assert_eq!((bh1.water_depth, bh1.water_strikes.as_slice()), (Some(2.1), &[3.0][..]));
}

/// The table with another separator and decimal commas.
fn continental(separator: &str) -> String {
    let mut text = String::new();
    for (index, line) in TABLE.lines().enumerate() {
        let decimal = if index < 2 { line.to_owned() } else { line.replace('.', "\u{1}") };
        text.push_str(&decimal.replace(',', separator).replace('\u{1}', ","));
        text.push('\n');
    }
    text
}

#[test]
fn separators_are_recognised_and_decimal_commas_accepted_beside_them() {
    let plain = read(TABLE);
    for separator in [";", "\t"] {
        let text = continental(separator);
        assert!(text.contains("2,5"));
        assert_eq!(read(&text), plain);
        let with_points = TABLE.replace(',', separator);
        assert_eq!(read(&with_points), plain);
    }
}

#[test]
fn headers_may_be_written_in_any_case_with_either_bracket_and_in_any_order() {
    let text = "Boring,ROW,Chainage (m),Depth(m),\"Level [m]\",top [ft],base [ft],soil\n\
                A,boring,5,3.048,1,,,\n\
                A,Stratum,,,,0,10,X\n";
    check(text, &[]);
    let boring = &read(text).borings[0];
    approx::assert_relative_eq!(boring.strata[0].base, 3.048);
    assert_eq!(boring.chainage, Some(5.0));
}

#[test]
fn values_may_hold_line_ends_and_separators_between_quotation_marks() {
    let text = with(TABLE, &[(7, "stratum,BH2,,,,,0,10,STC,,\"Stiff, grey\nCLAY\"")]);
    let data = read(&text);
    assert_eq!(data.borings[1].strata[0].description, "Stiff, grey\nCLAY");
    assert_eq!(data.borings[0].spt[0].line, 9);
}

#[test]
fn faults_of_the_header_say_where() {
    let header = TABLE.lines().nth(1).unwrap();
    for (from, to, expected) in [
        (
            "chainage [m]",
            "chainge [m]",
            vec![('E', "unknown_column", 2), ('W', "no_place", 3), ('W', "half_a_place", 3)],
        ),
        ("row,", "rows,", vec![('E', "unknown_column", 2), ('E', "missing_column", 2)]),
        ("legend", "soil", vec![('E', "duplicate_column", 2)]),
        ("level [m]", "level", vec![('E', "no_unit", 2), ('W', "no_level", 3)]),
        ("level [m]", "level [kPa]", vec![('E', "unknown_unit", 2), ('W', "no_level", 3)]),
        ("energy [%]", "energy", vec![('E', "no_unit", 2)]),
        ("boring,", "\"boring,", vec![('E', "quotes", 2)]),
    ] {
        let text = with(TABLE, &[(2, &header.replacen(from, to, 1))]);
        let list: Vec<_> = common::codes(&issues(&text))
            .into_iter()
            // The second boring repeats what the first one says.
            .filter(|(_, _, line)| *line != 4)
            .collect();
        let count = |code: &str| list.iter().filter(|(_, c, _)| *c == code).count();
        for (severity, code, line) in &expected {
            assert!(list.contains(&(*severity, *code, *line)), "{to}: {list:?}");
            assert_eq!(count(code), 1, "{to}: {list:?}");
        }
        assert!(
            list.iter().all(|(_, code, _)| expected.iter().any(|(_, c, _)| c == code)),
            "{to}: {list:?}"
        );
    }
    let hints: Vec<_> = issues(&with(TABLE, &[(2, &header.replace("chainage", "chainge"))]))
        .into_iter()
        .filter_map(|i| i.hint)
        .collect();
    assert!(hints.contains(&"did you mean chainage?".to_owned()), "{hints:?}");
}

#[test]
fn faults_of_rows_say_where() {
    for (line, new, expected) in [
        (6, "stratom,BH1,,,,,2,10,,,Dense SAND", vec![('W', "gap", 3), ('E', "unknown_row", 6)]),
        (6, ",BH1,,,,,2,10,,,Dense SAND", vec![('W', "gap", 3), ('E', "unknown_row", 6)]),
        (6, "stratum,BH1,,,,,2,10,,,\"Dense SAND", vec![('W', "gap", 3), ('E', "quotes", 6)]),
        (6, "stratum,BH1,,,,,2,,,,Dense SAND", vec![('W', "gap", 3), ('E', "missing_value", 6)]),
        (6, "stratum,BH1,,,,,2", vec![('W', "gap", 3), ('E', "missing_value", 6)]),
        (6, "stratum,BH1,,,,,\"2,0\",10,,,SAND", vec![('W', "gap", 3), ('E', "decimal_comma", 6)]),
        (6, "stratum,BH1,,,,2,2,10,,,SAND", vec![('W', "gap", 3), ('E', "unused_value", 6)]),
        (6, "stratum,BH1,,,,,1,10,,,SAND", vec![('E', "overlap", 6)]),
        (
            6,
            "stratum,BH1,,,,,2,10,,,SAND,,,,,extra",
            vec![('W', "gap", 3), ('E', "field_count", 6)],
        ),
        (8, "spt,BH1,,,,1.00,,,,,,-4,66", vec![('E', "out_of_range", 8)]),
        (8, "spt,BH1,,,,1.00,,,,,,soft,66", vec![('E', "not_a_number", 8)]),
        (8, "spt,BH1,,,,1.00,,,,,,,66", vec![('E', "missing_value", 8)]),
        (8, "spt,BH8,,,,1.00,,,,,,4,66", vec![('E', "unknown_boring", 8)]),
        (
            4,
            "boring,BH1,60,3,3.5,10",
            vec![
                ('E', "duplicate_boring", 4),
                ('E', "unknown_boring", 7),
                ('E', "unknown_boring", 10),
            ],
        ),
        (10, "cpt,BH2,,,,1.00,,,,,,,,,80", vec![('E', "missing_value", 10)]),
        (10, "cpt,BH2,,,,1.00,,,,,,,,-0.1,80", vec![('W', "rows_left_out", 10)]),
        (11, "water,BH1,,,,two", vec![('E', "not_a_number", 11)]),
    ] {
        check(&with(TABLE, &[(line, new)]), &expected);
    }
}

#[test]
fn a_column_that_a_kind_of_row_needs_is_asked_for_once() {
    let text = "row,boring,chainage [m],level [m]\nboring,A,1,2\nspt,A\nspt,A\nstratum,A\n";
    check(
        text,
        &[
            ('E', "missing_column", 1),
            ('E', "missing_column", 1),
            ('E', "missing_column", 1),
            ('E', "missing_column", 1),
            ('W', "no_ground", 2),
        ],
    );
}

#[test]
fn remarks_and_blank_rows_are_passed_over() {
    let text = with(TABLE, &[(5, "# \"so, it's\nstratum,BH1,,,,,0,2,ALV,201,Soft CLAY\n,,,,\n\n")]);
    check(&text, &[]);
    assert_eq!(read(&text).borings[0].strata.len(), 2);
    let quoted = format!("\"# a; remark; between; marks\"\n{TABLE}");
    assert_eq!(read(&quoted).borings.len(), 2);
}

#[test]
fn the_formats_are_not_mixed_up() {
    assert!(matches!(read(AGS).format, Format::Ags4 { .. }));
    assert_eq!(read(TABLE).format, Format::Csv);
}

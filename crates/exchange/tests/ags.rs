//! AGS4: what is read, and what every fault says and where.

mod common;

use common::{AGS, check, issues, read, with};
use exchange::Format;

const CLEAN: &[(char, &str, usize)] = &[];

#[test]
fn the_small_file_reads_without_a_word() {
    check(AGS, CLEAN);
    let data = read(AGS);
    assert_eq!(data.format, Format::Ags4 { edition: Some("4.1.1".to_owned()) });
    assert_eq!(data.not_read, ["SAMP"]);
    let [bh1, bh2] = data.borings.as_slice() else { panic!("two borings") };
    assert_eq!((bh1.id.as_str(), bh1.line, bh2.line), ("BH1", 17, 18));
    assert_eq!((bh1.easting, bh1.northing), (Some(100.0), Some(200.0)));
    assert_eq!((bh1.ground_level, bh1.final_depth), (Some(4.0), Some(10.0)));
    let codes: Vec<_> = bh1.strata.iter().chain(&bh2.strata).map(|s| s.code.as_str()).collect();
    assert_eq!(codes, ["ALV", "401", "CLAY"]);
    assert_eq!(bh1.strata[1].line, 25);
    let test = &bh1.spt[0];
    assert_eq!((test.depth, test.blows, test.n60, test.line), (1.0, Some(4.0), Some(4.0), 32));
    approx::assert_relative_eq!(test.energy_ratio.unwrap(), 0.66);
    assert_eq!((bh1.spt[1].energy_ratio, bh1.spt[1].n60), (None, None));
    assert_eq!((bh2.cpt[1].depth, bh2.cpt[1].cone_resistance), (1.02, 1.6e6));
    assert_eq!((bh2.cpt[1].line, bh2.water_depth), (40, None));
    // The shallowest at rest: the standpipe's 2.10, not the 2.20 to which the strike had risen after 20 minutes.
    assert_eq!((bh1.water_depth, bh1.water_strikes.as_slice()), (Some(2.1), &[3.0][..]));
}

#[test]
fn water_is_the_last_rise_where_there_is_no_reading_and_the_strike_where_there_is_neither() {
    let no_reading = with(AGS, &[(59, ""), (60, ""), (61, "")]);
    assert_eq!(read(&no_reading).borings[0].water_depth, Some(2.2));
    let strike_only = with(&no_reading, &[(52, ""), (53, "")]);
    assert_eq!(read(&strike_only).borings[0].water_depth, Some(3.0));
}

#[test]
fn units_of_the_unit_row_are_honoured() {
    let text = with(
        AGS,
        &[
            (15, r#""UNIT","","mm","mm","cm","ft""#),
            (17, r#""DATA","BH1","100000","200000","400","32.8084""#),
            (18, r#""DATA","BH2","150000","210000","350","32.8084""#),
            (37, r#""UNIT","","","m","MN/m2","kPa","kN/m2""#),
            (39, r#""DATA","BH2","1","1.00","1.500","80","10""#),
            (40, r#""DATA","BH2","1","1.02","1.600","81","11""#),
            (59, r#""DATA","BH1","WDEP","210","cm""#),
        ],
    );
    check(&text, CLEAN);
    let (changed, plain) = (read(&text), read(AGS));
    for (a, b) in changed.borings.iter().zip(&plain.borings) {
        approx::assert_relative_eq!(a.easting.unwrap(), b.easting.unwrap());
        approx::assert_relative_eq!(a.ground_level.unwrap(), b.ground_level.unwrap());
        approx::assert_relative_eq!(a.final_depth.unwrap(), 10.0, max_relative = 1e-6);
        for (a, b) in a.cpt.iter().zip(&b.cpt) {
            approx::assert_relative_eq!(a.cone_resistance, b.cone_resistance);
            approx::assert_relative_eq!(a.sleeve_friction.unwrap(), b.sleeve_friction.unwrap());
            approx::assert_relative_eq!(a.pore_pressure.unwrap(), b.pore_pressure.unwrap());
        }
    }
    approx::assert_relative_eq!(changed.borings[0].water_depth.unwrap(), 2.1);
}

/// One line changed, and the messages that follow from it.
type Case = (usize, &'static str, &'static [(char, &'static str, usize)]);

fn check_all(cases: &[Case]) {
    for (line, new, expected) in cases {
        check(&with(AGS, &[(*line, new)]), expected);
    }
}

#[test]
fn faults_of_groups_and_row_names_say_where() {
    check_all(&[
        (
            25,
            r#""DATAx","BH1","2.00","10.00","Dense SAND","401","""#,
            &[('W', "gap", 17), ('E', "row_name", 25)],
        ),
        (20, r#""GROUP","GEOLL""#, &[('W', "no_ground", 17), ('E', "group_name", 20)]),
        (20, r#""GROUP","geol""#, &[('W', "no_ground", 17), ('E', "group_name", 20)]),
        (20, r#""GROUP""#, &[('W', "no_ground", 17), ('E', "group_name", 20)]),
        // The unread group becomes a second list of borings without a heading of its own.
        (63, r#""GROUP","LOCA""#, &[('E', "duplicate_group", 63), ('E', "field_count", 67)]),
        (20, "", &[('W', "no_ground", 17), ('E', "repeated_row", 21)]),
        (2, "rubbish", &[('E', "row_name", 2)]),
        (1, "", &[('E', "outside_group", 2)]),
    ]);
}

#[test]
fn faults_of_headings_and_units_say_where() {
    let no_ground = ('W', "no_ground", 17);
    for (line, new, expected) in [
        (21, "", vec![no_ground, ('E', "data_before_heading", 22)]),
        (22, "", vec![no_ground, ('E', "no_unit_row", 24)]),
        (22, r#""UNIT","","m","yd","","","""#, vec![no_ground, ('E', "unknown_unit", 22)]),
        (22, r#""UNIT","","m","MPa","","","""#, vec![no_ground, ('E', "unknown_unit", 22)]),
        (22, r#""UNIT","","m","","","","""#, vec![('W', "no_unit", 22)]),
        (
            22,
            r#""UNIT","","m""#,
            vec![no_ground, ('E', "field_count", 22), ('E', "no_unit_row", 24)],
        ),
        (23, r#""UNIT","","m","m","","","""#, vec![('E', "repeated_row", 23)]),
        (
            21,
            r#""HEADING","LOCA_ID","GEOL_TOPP","GEOL_BASE","GEOL_DESC","GEOL_LEG","GEOL_GEOL""#,
            vec![no_ground, ('E', "missing_column", 21)],
        ),
        (
            21,
            r#""HEADING","LOCA_ID","GEOL_TOP","GEOL_BASE","GEOL_DESC","GEOL_LEG","GEOL_LEG""#,
            vec![('E', "duplicate_column", 21)],
        ),
        (21, r#""HEADING","LOCA_ID","GEOL_TOP"#, vec![no_ground, ('E', "quotes", 21)]),
    ] {
        check(&with(AGS, &[(line, new)]), &expected);
    }
}

#[test]
fn faults_of_values_say_where() {
    // What the row said is missing then: the ground from 2 m down.
    for (row, code) in [
        (r#""BH1","2.00","10.00","Dense SAND","401""#, "field_count"),
        (r#""BH1","2.00","10.00","Dense SAND","401","","""#, "field_count"),
        (r#""BH1","2.00","10.00",Dense "SAND","401","" x"#, "quotes"),
        (r#""BH1","2.00","10.00","Dense SAND","401",""#, "quotes"),
        (r#""BH1","2,00","10.00","Dense SAND","401","""#, "decimal_comma"),
        (r#""BH1","2 m","10.00","Dense SAND","401","""#, "not_a_number"),
        (r#""BH1","NaN","10.00","Dense SAND","401","""#, "not_a_number"),
        (r#""BH1","2.00","1e999","Dense SAND","401","""#, "not_a_number"),
        (r#""BH1","","10.00","Dense SAND","401","""#, "missing_value"),
        (r#""","2.00","10.00","Dense SAND","401","""#, "missing_value"),
        (r#""BH1","-2.00","10.00","Dense SAND","401","""#, "out_of_range"),
        (r#""BH1","2.00","10000","Dense SAND","401","""#, "out_of_range"),
        (r#""BH7","2.00","10.00","Dense SAND","401","""#, "unknown_boring"),
        (r#""BH1","2.00","2.00","Dense SAND","401","""#, "top_not_above_base"),
        (r#""BH1","10.00","2.00","Dense SAND","401","""#, "top_not_above_base"),
    ] {
        let text = with(AGS, &[(25, &format!("\"DATA\",{row}"))]);
        check(&text, &[('W', "gap", 17), ('E', code, 25)]);
    }
    check_all(&[
        (32, r#""DATA","BH1","1.00","-4","","66","4""#, &[('E', "out_of_range", 32)]),
        (32, r#""DATA","BH1","1.00","four","","66","4""#, &[('E', "not_a_number", 32)]),
        (32, r#""DATA","BH1","1.00","4","","6600","4""#, &[('E', "out_of_range", 32)]),
        (39, r#""DATA","BH2","1","1.00","1500","0.08","0.01""#, &[('E', "out_of_range", 39)]),
        (59, r#""DATA","BH1","WDEP","2.10","kPa""#, &[('E', "unknown_unit", 59)]),
        (59, r#""DATA","BH1","WDEP","2,10","m""#, &[('E', "decimal_comma", 59)]),
        (59, r#""DATA","BH1","WDEP","2100","m""#, &[('E', "out_of_range", 59)]),
        (17, r#""DATA","BH1","100.00","","4.00","10.00""#, &[('E', "half_a_place", 17)]),
        (
            18,
            r#""DATA","BH1","150.00","210.00","3.50","10.00""#,
            &[
                ('E', "duplicate_boring", 18),
                ('E', "unknown_boring", 26),
                ('E', "unknown_boring", 39),
                ('E', "unknown_boring", 40),
            ],
        ),
    ]);
}

#[test]
fn marks_that_are_not_doubled_are_a_warning_where_the_values_can_be_told_apart() {
    for description in [r#"Dense "SAND"#, r#"SAND, 6" pipe"#, r#""SAND"#, r#"SAND ""#] {
        let row = format!(r#""DATA","BH1","2.00","10.00","{description}","401","""#);
        let text = with(AGS, &[(25, &row)]);
        check(&text, &[('W', "marks_not_doubled", 25)]);
        assert_eq!(read(&text).borings[0].strata[1].description, description.trim());
    }
}

#[test]
fn a_missing_unit_is_that_of_the_dictionary_with_a_warning() {
    let text =
        with(AGS, &[(15, r#""UNIT","","m","m","","m""#), (37, r#""UNIT","","","m","","","""#)]);
    let expected = [15, 37, 37, 37].map(|line| ('W', "no_unit", line));
    check(&text, &expected);
    let (data, plain) = (read(&text), read(AGS));
    assert_eq!(data.borings, plain.borings);
}

#[test]
fn a_message_names_heading_found_allowed_and_what_to_do() {
    let list = issues(&with(AGS, &[(25, r#""DATA","BH1","2.00","100,5","SAND","","""#)]));
    let issue = list.iter().find(|i| i.code == "decimal_comma").unwrap();
    assert_eq!((issue.line, issue.column), (25, Some(21)));
    assert_eq!(issue.message, "GEOL_BASE has a comma or a space between digits: \"100,5\"");
    assert_eq!(issue.found.as_deref(), Some("100,5"));
    assert_eq!(issue.allowed.as_deref(), Some("a number such as 4.2"));
    assert_eq!(issue.hint.as_deref(), Some("write \"100.5\""));
    let hint = |line: usize, new: &str| {
        let list = issues(&with(AGS, &[(line, new)]));
        list.iter()
            .find_map(|i| {
                i.hint.clone().filter(|h| h.contains("meant to be") || h.contains("did you"))
            })
            .unwrap()
    };
    assert_eq!(hint(20, r#""GROUP","GEOLL""#), "did you mean GEOL?");
    assert_eq!(hint(26, r#""DATAS","BH2","0","10","Stiff CLAY","","""#), "did you mean DATA?");
    assert_eq!(hint(33, r#""DATA","bh1","5.00","30","","","""#), "did you mean \"BH1\"?");
    let heading = r#""HEADING","LOCA_ID","GEOL_TOPS","GEOL_BASE","A","B","C""#;
    assert_eq!(hint(21, heading), "is GEOL_TOPS meant to be GEOL_TOP?");
}

#[test]
fn all_errors_come_in_one_pass_in_the_order_of_the_file() {
    let text = with(
        AGS,
        &[
            (17, r#""DATA","BH1","100,5","200.00","4.00","10.00""#),
            (22, r#""UNIT","","m","furlong","","","""#),
            (26, r#""DATAx","BH2","0.00","10.00","Stiff CLAY","","""#),
            (33, r#""DATA","BH3","5.00","-30","","","""#),
        ],
    );
    check(
        &text,
        &[
            ('W', "no_ground", 17),
            ('E', "decimal_comma", 17),
            ('E', "half_a_place", 17),
            ('E', "unknown_unit", 22),
            ('E', "row_name", 26),
            ('E', "unknown_boring", 33),
            ('E', "out_of_range", 33),
        ],
    );
}

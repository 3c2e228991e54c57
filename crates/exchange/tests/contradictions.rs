//! Rows that are well written and do not fit together.

mod common;

use common::{AGS, TABLE, check, issues, read, with};

#[test]
fn strata_that_overlap_are_errors_and_gaps_are_warnings() {
    for (top, base, expected) in [
        ("1.50", "10.00", vec![('E', "overlap", 25)]),
        ("0.00", "2.00", vec![('W', "gap", 17), ('E', "overlap", 25)]),
        ("2.50", "10.00", vec![('W', "gap", 25)]),
        ("2.00", "9.50", vec![('W', "gap", 17)]),
        ("2.00", "9.95", vec![]),
        ("2.00", "10.05", vec![]),
        ("2.00", "10.50", vec![('E', "below_final_depth", 25)]),
    ] {
        let row = format!(r#""DATA","BH1","{top}","{base}","Dense SAND","401","""#);
        check(&with(AGS, &[(25, &row)]), &expected);
    }
    let below = with(AGS, &[(24, r#""DATA","BH1","0.30","2.00","Soft CLAY","201","ALV""#)]);
    check(&below, &[('W', "gap", 24)]);
}

#[test]
fn a_gap_says_how_the_ground_there_is_taken() {
    let hint = |row: &str| {
        let list = issues(&with(AGS, &[(25, row)]));
        let gap = list.into_iter().find(|i| i.code == "gap").expect("a gap");
        gap.hint.expect("a hint")
    };
    let between = hint(r#""DATA","BH1","2.50","10.00","Dense SAND","401","""#);
    assert!(between.contains("stratum below it is taken to reach up"), "{between}");
    let end = hint(r#""DATA","BH1","2.00","9.50","Dense SAND","401","""#);
    assert!(end.contains("last stratum is taken to go on downwards"), "{end}");
}

#[test]
fn a_short_stratum_inside_a_long_one_does_not_hide_the_next_overlap() {
    let rows = "\"DATA\",\"BH1\",\"0.00\",\"5.00\",\"A\",\"\",\"\"\n\
                \"DATA\",\"BH1\",\"1.00\",\"2.00\",\"A\",\"\",\"\"\n\
                \"DATA\",\"BH1\",\"4.00\",\"10.00\",\"A\",\"\",\"X\"";
    let list = issues(&with(AGS, &[(24, rows), (25, "")]));
    let overlaps: Vec<_> = list.iter().filter(|i| i.code == "overlap").map(|i| i.line).collect();
    assert_eq!(overlaps, [25, 26]);
}

#[test]
fn rows_and_groups_may_come_in_any_order() {
    let lines: Vec<_> = AGS.lines().collect();
    let swapped = with(AGS, &[(24, lines[24]), (25, lines[23])]);
    let tops: Vec<_> = read(&swapped).borings[0].strata.iter().map(|s| (s.top, s.line)).collect();
    assert_eq!(tops, [(0.0, 25), (2.0, 24)]);
    let (head, rest) = (lines[..12].join("\n"), lines[19..].join("\n"));
    let locations_last = format!("{rest}\n\n{}\n{head}\n", lines[12..19].join("\n"));
    check(&locations_last, &[]);
    assert_eq!(read(&locations_last).borings[0].strata.len(), 2);
}

#[test]
fn borings_without_place_level_or_ground_are_warnings() {
    let no_place = r#""DATA","BH1","","","","10.00""#;
    check(&with(AGS, &[(17, no_place)]), &[('W', "no_level", 17), ('W', "no_place", 17)]);
    let zero = r#""DATA","BH1","0.00","0.00","4.00","10.00""#;
    check(&with(AGS, &[(17, zero)]), &[('W', "zero_place", 17)]);
    check(&with(AGS, &[(24, ""), (25, "")]), &[('W', "no_ground", 17)]);
    // Cone readings alone are ground enough.
    check(&with(AGS, &[(26, "")]), &[]);
}

#[test]
fn a_file_without_borings_says_only_that() {
    let text = with(AGS, &[(13, "\"GROUP\",\"LOCX\"")]);
    check(&text, &[('E', "no_borings", 1)]);
    let none_listed = with(AGS, &[(17, ""), (18, "")]);
    check(&none_listed, &[('E', "no_borings", 1)]);
    let table = with(TABLE, &[(3, ""), (4, "")]);
    check(&table, &[('E', "no_borings", 1)]);
}

#[test]
fn nothing_names_a_soil() {
    let text = with(AGS, &[(26, r#""DATA","BH2","0.00","10.00","stiff clay","","""#)]);
    check(&text, &[('W', "no_code", 26)]);
    assert_eq!(read(&text).borings[1].strata[0].code, "");
}

#[test]
fn results_of_penetration_tests_are_read_as_logs_write_them() {
    for (values, blows, refusal, expected) in [
        (r#""","50/75 mm""#, Some(50.0), true, vec![]),
        (r#""50","50/75 mm""#, Some(50.0), true, vec![]),
        (r#""","6,8/8,9,9,9 N=35""#, Some(35.0), false, vec![]),
        (r#""","""#, None, false, vec![('W', "no_blows", 32)]),
        (r#""","not driven""#, None, false, vec![('W', "no_blows", 32)]),
        (r#""35","N=12""#, Some(35.0), false, vec![('W', "n_differs", 32)]),
        (r#""50/75 mm","""#, Some(50.0), true, vec![('W', "n_text", 32)]),
        (r#""R","""#, None, true, vec![('W', "n_text", 32)]),
        (r#""0","""#, Some(0.0), false, vec![]),
    ] {
        let text = with(AGS, &[(32, &format!(r#""DATA","BH1","1.00",{values},"",""#) as &str)]);
        let text = text.replace(",\"\",\"\n", ",\"\",\"\"\n");
        check(&text, &expected);
        let test = &read(&text).borings[0].spt[0];
        assert_eq!(
            (test.blows, test.refusal, test.energy_ratio),
            (blows, refusal, None),
            "{values}"
        );
    }
    let twice = with(AGS, &[(33, r#""DATA","BH1","1.00","30","","","""#)]);
    check(&twice, &[('W', "same_depth", 33)]);
    let deep = with(AGS, &[(33, r#""DATA","BH1","11.00","30","","","""#)]);
    check(&deep, &[('W', "below_final_depth", 33)]);
}

#[test]
fn cone_readings_without_a_resistance_are_left_out_and_counted() {
    for value in ["", "-0.010"] {
        let row = format!(r#""DATA","BH2","1","1.00","{value}","0.0800","0.0100""#);
        let text = with(AGS, &[(39, &row)]);
        check(&text, &[('W', "rows_left_out", 39)]);
        assert_eq!(read(&text).borings[1].cpt.len(), 1);
    }
    let corrected = with(
        AGS,
        &[
            (36, r#""HEADING","LOCA_ID","SCPG_TESN","SCPT_DPTH","SCPT_RES","SCPT_FRES","SCPT_QT""#),
            (40, r#""DATA","BH2","1","1.02","1.600","0.0810","""#),
            (39, r#""DATA","BH2","1","1.00","1.500","-0.0010","1.700""#),
        ],
    );
    let cpt = &read(&corrected).borings[1].cpt;
    let resistances: Vec<_> = cpt.iter().map(|r| (r.cone_resistance / 1e4).round()).collect();
    assert_eq!(resistances, [170.0, 160.0]);
    approx::assert_relative_eq!(cpt[0].sleeve_friction.unwrap(), -1e3);
    let same = with(AGS, &[(40, r#""DATA","BH2","1","1.00","1.600","0.0810","0.0110""#)]);
    check(&same, &[('W', "same_depth", 40)]);
    let deep = with(AGS, &[(40, r#""DATA","BH2","1","12.00","1.600","0.0810","0.0110""#)]);
    check(&deep, &[('W', "below_final_depth", 40)]);
}

#[test]
fn water_above_the_ground_or_below_the_boring_is_left_out_with_a_word() {
    let artesian = with(AGS, &[(59, r#""DATA","BH1","WDEP","-0.50","m""#)]);
    check(&artesian, &[('W', "water_above_ground", 59)]);
    assert_eq!(read(&artesian).borings[0].water_depth, Some(2.2));
    let deep = with(AGS, &[(46, r#""DATA","BH1","30.00""#)]);
    check(&deep, &[('W', "below_final_depth", 46)]);
    assert!(read(&deep).borings[0].water_strikes.is_empty());
}

#[test]
fn chainages_of_ags_are_numbers_or_kilometres_and_metres() {
    let heading = r#""HEADING","LOCA_ID","LOCA_CNGE","LOCA_OFFS","LOCA_GL","LOCA_FDEP""#;
    let units = r#""UNIT","","","","m","m""#;
    let read_with = |chainage: &str, offset: &str| {
        let row = format!(r#""DATA","BH1","{chainage}","{offset}","4.00","10.00""#);
        with(
            AGS,
            &[(14, heading), (15, units), (17, &row), (18, r#""DATA","BH2","60","3","3.5","10""#)],
        )
    };
    for (text, chainage) in [("8.00", 8.0), ("1+008.50", 1008.5)] {
        let text = read_with(text, "-7.00");
        check(&text, &[]);
        let boring = &read(&text).borings[0];
        assert_eq!(
            (boring.chainage, boring.offset, boring.easting),
            (Some(chainage), Some(-7.0), None)
        );
    }
    check(&read_with("12+34.5", ""), &[('W', "no_place", 17), ('W', "chainage_text", 17)]);
    check(&read_with("", "3"), &[('W', "no_place", 17), ('W', "half_a_place", 17)]);
}

#[test]
fn editions_other_than_the_fourth_are_a_warning() {
    check(&with(AGS, &[(11, r#""DATA","1","5.0""#)]), &[('W', "edition", 11)]);
    check(&with(AGS, &[(11, r#""DATA","1","""#)]), &[]);
}

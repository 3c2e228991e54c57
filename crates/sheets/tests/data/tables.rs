//! CSV tables, read back by the csv crate.

use crate::{CREEK, GRID, HOST_GRID, STREET, design, every_line, hostile, one, with};

fn rows(text: &str) -> (Vec<String>, Vec<Vec<String>>) {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let header = reader.headers().unwrap().iter().map(str::to_owned).collect();
    let rows = reader.records().map(|r| r.unwrap().iter().map(str::to_owned).collect()).collect();
    (header, rows)
}

#[test]
fn curves_read_back_to_the_last_digit() {
    for text in [CREEK, STREET] {
        let assessment = assess::assess_design(&design(text));
        let (header, rows) = rows(&one(text, "profiles.csv"));
        assert_eq!(header, ["profile", "unit", "md_m", "value"]);
        let mut at = rows.iter();
        for p in &assessment.profiles {
            for (md, value) in p.md.iter().zip(&p.values) {
                let row = at.next().unwrap();
                assert_eq!([row[0].as_str(), &row[1]], [p.id.as_str(), p.unit]);
                assert_eq!(row[2].parse::<f64>().unwrap(), *md);
                assert_eq!(row[3].parse::<f64>().ok(), value.is_finite().then_some(*value));
            }
        }
        assert!(at.next().is_none() && rows.len() > 100);
    }
}

#[test]
fn the_list_of_curves_names_each_once_with_title_unit_and_count() {
    for text in [CREEK, STREET] {
        let assessment = assess::assess_design(&design(text));
        let (_, points) = rows(&one(text, "profiles.csv"));
        let (header, list) = rows(&one(text, "profiles-list.csv"));
        assert_eq!(header, ["profile", "title", "unit", "points"]);
        assert_eq!(list.len(), assessment.profiles.len());
        for (row, p) in list.iter().zip(&assessment.profiles) {
            assert_eq!([row[0].as_str(), &row[1], &row[2]], [p.id.as_str(), &p.title, p.unit]);
            let count = points.iter().filter(|point| point[0] == p.id).count();
            assert_eq!(row[3].parse::<usize>().unwrap(), count, "{}", p.id);
        }
    }
}

#[test]
fn the_setting_out_reads_back_and_names_its_units() {
    let lines = every_line().into_iter().chain([
        with(CREEK, GRID),
        STREET.to_owned(),
        with(STREET, HOST_GRID),
    ]);
    for text in lines {
        let table = assess::setting_out(&design(&text));
        let file = one(&text, "setting-out.csv");
        assert_eq!(file.matches("\r\n").count(), table.rows.len() + 1);
        let (header, rows) = rows(&file);
        assert_eq!(rows.len(), table.rows.len());
        let column = |name: &str| header.iter().position(|h| h == name);
        let value = |row: &[String], name: &str| row[column(name).unwrap()].parse::<f64>().ok();
        for (row, of) in rows.iter().zip(&table.rows) {
            assert_eq!(value(row, "level_m"), Some(of.level));
            assert_eq!(value(row, "cover_m"), of.cover);
            assert_eq!(row[column("remark").unwrap()], of.remark);
            if let Some(east) = of.east {
                let name = if table.epsg.is_some() { "easting_m" } else { "east_m" };
                assert_eq!(value(row, name), Some(east));
            }
        }
        assert_eq!(rows[0].last().unwrap(), &table.notes.join("; "));
        assert_eq!(column("run").is_some(), table.unit == "pipe");
    }
}

#[test]
fn texts_are_no_formulas_and_negative_numbers_stay_numbers() {
    let [creek, street] = hostile();
    let (header, rows) = rows(&one(&street, "setting-out.csv"));
    assert_eq!(header[0], "run");
    assert!(rows[0][0].starts_with("'=cmd|") && rows[0][0].contains('\u{FFFD}'), "{}", rows[0][0]);
    let file = one(&creek, "setting-out.csv");
    let (header, rows) = crate::tables::rows(&file);
    let level = header.iter().position(|h| h == "level_m").unwrap();
    assert!(rows.iter().any(|r| r[level].parse::<f64>().is_ok_and(|v| (v + 7.0).abs() < 1e-6)));
    assert!(rows.iter().any(|r| r.join("").contains("under =cmd|")));
}

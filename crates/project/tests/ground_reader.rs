//! What the reader says of ground, fluid and bore whose values do not go together.

use project::{Diagnostic, Project, Severity, read_beside};

const CREEK: &str = include_str!("../../../demo/creek.toml");

/// Columns of a file of borings.
const HEADER: &str = "row,boring,chainage [m],offset [m],level [m],depth [m],top [m],base [m],soil,n,energy [%],n60\n";

type Read = Result<(Project, Vec<Diagnostic>), Vec<Diagnostic>>;

/// The demo with some of its text replaced, beside a file `site.csv`.
fn read_with(changes: &[(&str, &str)], file: &str) -> Read {
    let mut text = CREEK.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    let load = |name: &str| match name {
        "site.csv" => Ok(file.as_bytes().to_vec()),
        other => Err(format!("no file {other}")),
    };
    read_beside("creek.toml", &text, &load).map(|r| (r.project, r.warnings))
}

/// The demo with a file of borings beside its own ones.
fn beside(rows: &str) -> Read {
    let section = "[ground]\nfile = \"site.csv\"\n\n[[ground.soil]]\nname = \"topsoil\"";
    let file = format!("{HEADER}{rows}");
    read_with(&[("[[ground.soil]]\nname = \"topsoil\"", section)], &file)
}

fn after(changes: &[(&str, &str)]) -> Vec<Diagnostic> {
    match read_with(changes, "") {
        Ok((_, warnings)) => warnings,
        Err(list) => list,
    }
}

fn messages(read: Read) -> Vec<Diagnostic> {
    match read {
        Ok((_, warnings)) => warnings,
        Err(list) => list,
    }
}

/// A boring with one stratum of the file.
fn boring(name: &str, chainage: f64, offset: f64, level: &str) -> String {
    format!("boring,{name},{chainage},{offset},{level},12\nstratum,{name},,,,,0,12,ALV\n",)
}

/// That there is one message, of this kind and at this place; its text.
fn only(list: &[Diagnostic], severity: Severity, code: &str, path: &str) -> String {
    let [found] = list else { panic!("{list:#?}") };
    assert_eq!((found.severity, found.code, found.path.as_str()), (severity, code, path));
    assert!(found.hint.is_some() && found.line > 1, "{found}");
    found.message.clone()
}

const FILE: &str = "/ground/file";

#[test]
fn a_boring_of_the_file_beside_the_line_is_used_without_a_word() {
    let (project, warnings) = beside(&boring("F1", 200.0, 49.0, "3.6")).unwrap();
    assert!(warnings.is_empty(), "{warnings:#?}");
    assert_eq!(project.strata.unwrap().borings().len(), 5);
}

#[test]
fn a_boring_of_the_file_far_beside_the_line_is_a_warning() {
    let list = messages(beside(&boring("F1", 200.0, -51.0, "3.6")));
    let message = only(&list, Severity::Warning, "beside_line", FILE);
    assert!(message.contains("F1 stands 51"), "{message}");
}

#[test]
fn a_boring_of_the_file_out_of_reach_is_of_another_grid() {
    let list = messages(beside(&boring("F1", 200.0, 501.0, "3.6")));
    only(&list, Severity::Error, "beside_line", FILE);
}

#[test]
fn borings_of_the_file_without_strata_are_left_out_by_name() {
    let rows = boring("F1", 200.0, 0.0, "3.6") + "boring,F2,210,0,3.6,9\n";
    let (project, warnings) = beside(&rows).unwrap();
    let left: Vec<_> = warnings.iter().filter(|d| d.code == "left_out").collect();
    let [left] = left.as_slice() else { panic!("{warnings:#?}") };
    assert!(left.message.ends_with(": F2"), "{left}");
    assert_eq!(project.strata.unwrap().borings().len(), 5);
}

#[test]
fn borings_of_the_file_beyond_the_ends_are_left_out_by_name() {
    let near = boring("F1", 200.0, 0.0, "3.6");
    let far = boring("F2", -101.0, 0.0, "3.6") + &boring("F3", 391.0, 900.0, "3.6");
    // A code that only they have is not asked for.
    let far = far.replace("ALV", "CHALK");
    let (project, warnings) = beside(&(near + &far)).unwrap();
    let message = only(&warnings, Severity::Warning, "left_out", FILE);
    assert!(message.ends_with(": F2, F3"), "{message}");
    assert_eq!(project.strata.unwrap().borings().len(), 5);
}

#[test]
fn a_file_of_which_no_boring_is_near_is_of_another_place() {
    let list = messages(beside(&boring("F2", -101.0, 0.0, "3.6")));
    only(&list, Severity::Error, "outside_line", FILE);
}

#[test]
fn a_boring_of_the_crossing_file_far_away_stays_an_error() {
    let list = after(&[("chainage = \"282 m\"", "chainage = \"391 m\"")]);
    only(&list, Severity::Error, "outside_line", "/ground/boring/3/chainage");
}

#[test]
fn a_name_in_both_files_is_an_error_in_whatever_case() {
    let list = messages(beside(&boring("bh2", 200.0, 0.0, "3.6")));
    let message = only(&list, Severity::Error, "name_twice", FILE);
    assert!(message.contains("\"bh2\""), "{message}");
}

#[test]
fn a_code_belongs_to_one_soil() {
    let list = after(&[("codes = [\"PEAT\"]", "codes = [\"P\", \"alv\"]")]);
    let message = only(&list, Severity::Error, "code_twice", "/ground/soil/2/codes/1");
    assert!(message.contains("alluvial clay"), "{message}");
}

#[test]
fn a_code_is_not_the_name_of_another_soil() {
    let list = after(&[("codes = [\"PEAT\"]", "codes = [\"Topsoil\"]")]);
    only(&list, Severity::Error, "code_twice", "/ground/soil/2/codes/0");
    let list = after(&[("codes = [\"TOP\"]", "codes = [\"Peat\"]")]);
    let second: Vec<_> = list.iter().map(|d| (d.code, d.path.as_str())).collect();
    assert!(second.contains(&("code_twice", "/ground/soil/2/name")), "{list:#?}");
}

#[test]
fn a_boring_of_the_file_without_level_says_what_was_taken() {
    let (project, warnings) = beside(&boring("F1", 200.0, 0.0, "")).unwrap();
    let message = only(&warnings, Severity::Warning, "no_level", FILE);
    assert!(message.contains("F1") && message.contains("ground line"), "{message}");
    let model = project.strata.unwrap();
    let found = model.borings().iter().find(|b| b.name == "F1").unwrap();
    assert!((found.level.si() - 3.5656).abs() < 1e-3, "{}", found.level.si());
}

#[test]
fn a_level_far_from_the_ground_line_is_a_warning() {
    let list = messages(beside(&boring("F1", 200.0, 0.0, "9.0")));
    let message = only(&list, Severity::Warning, "level_off", FILE);
    assert!(message.contains("9 m") && message.contains("3.566 m"), "{message}");
    let level = "chainage = \"282 m\"\noffset = \"8 m\"\nlevel = ";
    let list = after(&[(&format!("{level}\"3.6 m\""), &format!("{level}\"36 m\""))]);
    only(&list, Severity::Warning, "level_off", "/ground/boring/3/level");
}

#[test]
fn moist_soil_is_not_heavier_than_soaked_soil() {
    let list = after(&[("unit_weight = \"19.5 kN/m3\"", "unit_weight = \"20.5 kN/m3\"")]);
    only(&list, Severity::Warning, "unusual", "/ground/soil/4/unit_weight");
    let list = after(&[("unit_weight = \"19.5 kN/m3\"", "unit_weight = \"20 kN/m3\"")]);
    assert!(list.is_empty(), "{list:#?}");
}

#[test]
fn soil_that_fails_before_it_yields_is_an_error() {
    let strength = ("undrained_strength = \"90 kPa\"", "undrained_strength = \"150 kPa\"");
    let list = after(&[strength, ("shear_modulus = \"10 MPa\"", "shear_modulus = \"150 kPa\"")]);
    only(&list, Severity::Error, "order", "/ground/soil/4/shear_modulus");
    let list = after(&[strength, ("shear_modulus = \"10 MPa\"", "shear_modulus = \"151 kPa\"")]);
    assert!(list.is_empty(), "{list:#?}");
    let list = after(&[("undrained_strength = \"18 kPa\"", "undrained_strength = \"18 MPa\"")]);
    only(&list, Severity::Error, "order", "/ground/soil/1/undrained_strength");
}

#[test]
fn tests_below_the_strata_are_warnings() {
    let list = after(&[("[17.0, 26]]", "[18.3, 26]]")]);
    only(&list, Severity::Warning, "below_strata", "/ground/boring/0/spt");
    let cone = "[17.0, 26]]\ncpt = [[18.2, 9], [18.4, 9], [18.9, 9]]";
    let list = after(&[("[17.0, 26]]", cone)]);
    let message = only(&list, Severity::Warning, "below_strata", "/ground/boring/0/cpt");
    assert!(message.ends_with("2, down to 18.9 m"), "{message}");
    let rows = boring("F1", 200.0, 0.0, "3.6") + "spt,F1,,,,12.05,,,,9\n";
    only(&messages(beside(&rows)), Severity::Warning, "below_strata", FILE);
}

#[test]
fn fluid_as_pumped_is_not_heavier_than_with_cuttings() {
    let list =
        after(&[("density = \"1150 kg/m3\"", "density = \"1150 kg/m3\"\nfresh_density = 1160")]);
    only(&list, Severity::Warning, "unusual", "/fluid/fresh_density");
    let list = after(&[("density = \"1150 kg/m3\"", "density = \"1030 kg/m3\"")]);
    only(&list, Severity::Warning, "unusual", "/fluid/density");
}

#[test]
fn readings_at_600_are_greater_than_at_300() {
    let list = after(&[("r600 = 42", "r600 = 30")]);
    let message = only(&list, Severity::Error, "not_rising", "/fluid/readings/r600");
    assert!(message.contains("greater than r300 (30)"), "{message}");
    // Slower readings may be equal.
    let list = after(&[("r200 = 25", "r200 = 30")]);
    assert!(list.is_empty(), "{list:#?}");
}

#[test]
fn rods_fit_into_the_pilot_bore() {
    let list = after(&[("pilot_diameter = \"250 mm\"", "pilot_diameter = \"89 mm\"")]);
    let order: Vec<_> = list.iter().filter(|d| d.severity == Severity::Error).cloned().collect();
    only(&order, Severity::Error, "order", "/bore/pilot_diameter");
}

#[test]
fn blows_at_60_percent_are_read_or_follow_from_the_energy() {
    let rows = boring("F1", 200.0, 0.0, "3.6")
        + "spt,F1,,,,1,,,,10,72,11\nspt,F1,,,,2,,,,10,72\nspt,F1,,,,3,,,,10\n";
    let (project, _) = beside(&rows).unwrap();
    let model = project.strata.unwrap();
    let of = |name: &str| model.borings().iter().find(|b| b.name == name).unwrap();
    let n60: Vec<_> = of("F1").penetration.iter().map(|t| t.n60).collect();
    assert_eq!(n60[0], Some(11.0));
    assert!((n60[1].unwrap() - 12.0).abs() < 1e-12);
    assert_eq!(n60[2], None);
    assert!(of("BH1").penetration.iter().all(|t| t.n60.is_none()));
}

#[test]
fn refused_tests_are_left_out_and_counted() {
    let rows = boring("F1", 200.0, 0.0, "3.6")
        + "spt,F1,,,,1,,,,10\nspt,F1,,,,2,,,,50/75 mm\nspt,F1,,,,3,,,,N>50\n";
    let (project, warnings) = beside(&rows).unwrap();
    let message = only(&warnings, Severity::Warning, "spt_refused", FILE);
    assert!(message.ends_with(": 2"), "{message}");
    let model = project.strata.unwrap();
    let found = model.borings().iter().find(|b| b.name == "F1").unwrap();
    assert_eq!(found.penetration.len(), 1);
}

#[test]
fn end_zones_over_half_the_run_are_a_warning() {
    let list = after(&[("end_zone_exit = \"40 m\"", "end_zone_exit = \"116 m\"")]);
    only(&list, Severity::Warning, "long_end_zones", "/site/end_zone_entry");
    let list = after(&[("end_zone_exit = \"40 m\"", "end_zone_exit = \"115 m\"")]);
    assert!(list.is_empty(), "{list:#?}");
}

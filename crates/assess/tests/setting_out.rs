//! The table that a line is set out by, held against the line and the file.

use assess::{SettingOut, setting_out};
use project::{Design, no_files, read_design};

const CREEK: &str = include_str!("../../../demo/creek.toml");
const STREET: &str = include_str!("../../../demo/street.toml");

fn design(text: &str) -> Design {
    read_design("x.toml", text, &no_files).unwrap_or_else(|l| panic!("{}", l[0])).design
}

fn table(text: &str) -> SettingOut {
    setting_out(&design(text))
}

fn near(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-6, "{a} against {b}");
}

#[test]
fn a_bore_has_a_row_at_the_end_of_every_rod() {
    let t = table(CREEK);
    let Design::Crossing(project) = design(CREEK) else { panic!() };
    let length = project.line.length().si();
    assert_eq!((t.unit, t.spacing, t.epsg), ("rod", 4.5, None));
    assert_eq!(t.rows.len(), 1 + (length / 4.5).ceil() as usize);
    let (first, last) = (&t.rows[0], t.rows.last().unwrap());
    assert_eq!((first.number, first.md, first.change, first.radius), (0, 0.0, None, None));
    near(first.level, 4.2);
    near(first.inclination.unwrap(), -12f64.to_radians());
    near(first.azimuth.unwrap(), 64f64.to_radians());
    near(last.chainage, 290.0);
    near(last.level, 3.6);
    near(last.md, length);
    near(last.offset.unwrap(), 0.0);
    assert!(
        t.rows.iter().any(|r| r.offset.unwrap() < -4.0),
        "the bend bows the line to the left of its chord"
    );
    let turned: f64 = t.rows.iter().filter_map(|r| r.azimuth_change).sum();
    near(turned, 5f64.to_radians());
    let rise: f64 = t.rows.iter().filter_map(|r| r.change).sum();
    near(rise, 20f64.to_radians());
    // Cover above the crown of the bore of 800 mm, in the creek.
    let row = t.rows.iter().find(|r| r.chainage > 115.0 && r.chainage < 130.0).unwrap();
    near(row.cover.unwrap(), -1.5 + 7.0 - 0.4);
}

#[test]
fn remarks_name_what_a_rod_passes() {
    let t = table(CREEK);
    let with = |words: &str| t.rows.iter().filter(|r| r.remark.contains(words)).collect::<Vec<_>>();
    assert_eq!(with("entry point").len(), 1);
    assert_eq!(with("exit point")[0].md, t.rows.last().unwrap().md);
    let creek = with("under creek");
    assert!(creek[0].chainage >= 112.0 && creek[0].chainage < 116.5);
    assert!(creek.len() == 5 || creek.len() == 6, "{}", creek.len());
    assert_eq!((with("bend to the right begins").len(), with("bend ends").len()), (1, 1));
    assert!(with("bend to the right begins")[0].chainage >= 55.0);
    assert_eq!(with("lowest").len(), 1);
    assert!(!with("radius 300 m").is_empty());
}

#[test]
fn without_rods_there_is_a_row_every_five_metres_that_says_so() {
    let t = table(&CREEK.replace("length = \"4.5 m\"\n", ""));
    assert_eq!((t.unit, t.spacing), ("station", 5.0));
    assert!(t.notes[0].contains("not given"), "{:?}", t.notes);
    near(t.rows[3].md, 15.0);
}

#[test]
fn a_grid_moves_places_and_nothing_else() {
    let grid = "[coordinates]\nepsg = 32631\neasting = 500000\nnorthing = 100000\n\n[string]\n";
    let (a, b) = (table(CREEK), table(&CREEK.replacen("[string]\n", grid, 1)));
    assert_eq!(b.epsg, Some(32631));
    for (a, b) in a.rows.iter().zip(&b.rows) {
        near(b.east.unwrap() - a.east.unwrap(), 500_000.0);
        near(b.north.unwrap() - a.north.unwrap(), 100_000.0);
        assert_eq!((a.level, a.offset, &a.remark), (b.level, b.offset, &b.remark));
    }
}

#[test]
fn a_renewal_has_a_row_at_every_joint_from_the_launch_pit() {
    let t = table(STREET);
    assert_eq!((t.unit, t.spacing, t.rows.len()), ("pipe", 6.0, 21));
    let (first, last) = (&t.rows[0], t.rows.last().unwrap());
    assert_eq!((first.chainage, first.remark.as_str()), (118.0, "launch pit"));
    assert_eq!((last.chainage, last.number, last.east), (0.0, 20, None));
    assert!(last.remark.ends_with("machine pit"), "{}", last.remark);
    near(t.rows[1].level, 29.2 - 0.1 * 112.0 / 118.0);
    near(t.rows[1].inclination.unwrap(), (0.1f64 / 118.0).atan());
    let clamp: Vec<_> = t.rows.iter().filter(|r| r.remark.contains("repair clamp")).collect();
    assert_eq!(clamp.len(), 1);
    assert!(clamp[0].chainage <= 38.0 && clamp[0].chainage > 32.0 - 1e-9);
    let services: usize = t.rows.iter().map(|r| r.remark.matches("service at").count()).sum();
    assert_eq!(services, 11);
    let grid = "[coordinates]\nepsg = 32631\npoints = [[0, 500000, 100000], [118, 500118, 100000]]\n\n[string]\n";
    let t = table(&STREET.replacen("[string]\n", grid, 1));
    near(t.rows[1].east.unwrap(), 500_112.0);
    near(t.rows[1].azimuth.unwrap(), 270f64.to_radians());
}

//! The sample files read as they should, and say the same.

use exchange::{BoringData, Format, GroundData, read_ground};

const AGS: &[u8] = include_bytes!("../../../demo/creek-ground.ags");
const CSV: &[u8] = include_bytes!("../../../demo/creek-ground.csv");

fn read(name: &str, bytes: &[u8]) -> GroundData {
    let data = read_ground(name, bytes).unwrap_or_else(|list| panic!("{list:#?}"));
    assert!(data.warnings.is_empty(), "{:#?}", data.warnings);
    data
}

/// What a boring says, without the lines and without the last digits of the change of units.
fn said(boring: &BoringData) -> String {
    let near = |x: f64| format!("{x:.6}");
    let maybe = |x: Option<f64>| x.map_or("-".to_owned(), near);
    let strata = boring.strata.iter().map(|s| {
        format!("{} {} {} {:?} {}\n", near(s.top), near(s.base), s.code, s.legend, s.description)
    });
    let spt = boring.spt.iter().map(|t| {
        let (depth, blows, energy) = (near(t.depth), maybe(t.blows), maybe(t.energy_ratio));
        format!("spt {depth} {blows} {energy} {} {}\n", maybe(t.n60), t.refusal)
    });
    let cpt = boring.cpt.iter().map(|r| {
        let (qc, fs) = (near(r.cone_resistance), maybe(r.sleeve_friction));
        format!("cpt {} {qc} {fs} {}\n", near(r.depth), maybe(r.pore_pressure))
    });
    let place =
        [boring.easting, boring.northing, boring.chainage, boring.offset].map(maybe).join(" ");
    let depths = [boring.ground_level, boring.final_depth, boring.water_depth].map(maybe).join(" ");
    let strikes: Vec<_> = boring.water_strikes.iter().copied().map(near).collect();
    let rows: String = strata.chain(spt).chain(cpt).collect();
    format!("{} {place} {depths} {strikes:?}\n{rows}", boring.id)
}

#[test]
fn both_samples_give_the_same_borings() {
    let (ags, csv) = (read("creek-ground.ags", AGS), read("creek-ground.csv", CSV));
    assert_eq!(ags.format, Format::Ags4 { edition: Some("4.1".to_owned()) });
    assert_eq!(csv.format, Format::Csv);
    assert!(ags.not_read.is_empty() && csv.not_read.is_empty());
    let all = |data: &GroundData| data.borings.iter().map(said).collect::<Vec<_>>();
    assert_eq!(all(&ags), all(&csv));
    let lines: Vec<_> = ags.borings.iter().map(|b| b.line).collect();
    assert_eq!(lines, [60, 61, 62, 63]);
    assert_eq!(csv.borings[3].line, 6);
}

#[test]
fn the_ground_of_the_sample_is_what_it_says() {
    let data = read("creek-ground.ags", AGS);
    let azimuth = 64f64.to_radians();
    let places = [(8.0, 7.0, 4.2), (92.0, 6.0, 3.6), (152.0, 9.0, 3.4), (282.0, 8.0, 3.6)];
    assert_eq!(data.borings.len(), places.len());
    for (boring, (chainage, offset, level)) in data.borings.iter().zip(places) {
        let east = 500_000.0 + chainage * azimuth.sin() + offset * azimuth.cos();
        let north = 200_000.0 + chainage * azimuth.cos() - offset * azimuth.sin();
        approx::assert_abs_diff_eq!(boring.easting.unwrap(), east, epsilon = 0.006);
        approx::assert_abs_diff_eq!(boring.northing.unwrap(), north, epsilon = 0.006);
        assert_eq!(boring.ground_level, Some(level));
        // Water at about level 1.8, and stiff clay where the bore of creek.toml is lowest, at level -7.
        approx::assert_abs_diff_eq!(level - boring.water_depth.unwrap(), 1.8, epsilon = 0.11);
        let at_bore = level + 7.0;
        let soil = boring.strata.iter().find(|s| (s.top..s.base).contains(&at_bore)).unwrap();
        assert_eq!(soil.code, "STC");
        let peat = boring.strata.iter().filter(|s| s.code == "PEAT").count();
        assert_eq!(peat, usize::from(["BH2", "BH3"].contains(&boring.id.as_str())));
        assert_eq!(boring.spt.len(), 7);
        assert!(boring.spt.iter().all(|t| t.energy_ratio == Some(0.66) && !t.refusal));
    }
    let [bh1, .., bh3, _] = data.borings.as_slice() else { panic!("four borings") };
    assert_eq!(bh1.water_strikes, [3.2]);
    assert_eq!((bh3.cpt.len(), bh1.cpt.len()), (24, 0));
    let sand = bh3.cpt.iter().find(|r| r.depth == 7.0).unwrap();
    approx::assert_relative_eq!(sand.cone_resistance, 9.0e6);
    approx::assert_relative_eq!(sand.sleeve_friction.unwrap(), 46e3);
    approx::assert_relative_eq!(sand.pore_pressure.unwrap(), 52e3, max_relative = 1e-12);
}

#[test]
fn the_samples_say_that_they_are_invented_and_the_ags_file_ends_its_lines_as_it_must() {
    for bytes in [AGS, CSV] {
        let text = std::str::from_utf8(bytes).unwrap();
        assert!(text.to_lowercase().contains("invented"));
    }
    let text = std::str::from_utf8(AGS).unwrap();
    assert_eq!(text.matches('\n').count(), text.matches("\r\n").count());
    assert_eq!(text.matches('\r').count(), text.matches('\n').count());
}

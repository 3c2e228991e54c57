//! GeoJSON, read back by the geojson crate.

use geojson::{FeatureCollection, GeometryValue};

use crate::{CREEK, GRID, HOST_GRID, STREET, every_line, hostile, one, with};

fn read(text: &str) -> FeatureCollection {
    let file = one(text, "line.geojson");
    file.parse::<geojson::GeoJson>().unwrap().try_into().unwrap()
}

fn kinds(list: &FeatureCollection) -> Vec<String> {
    let kind = |f: &geojson::Feature| f.property("kind").unwrap().as_str().unwrap().to_owned();
    list.features.iter().map(kind).collect()
}

fn ends(list: &FeatureCollection) -> [[f64; 2]; 2] {
    let value = &list.features[0].geometry.as_ref().unwrap().value;
    let GeometryValue::LineString { coordinates } = value else { panic!("{value:?}") };
    let at = |p: &geojson::Position| {
        assert_eq!(p.as_slice().len(), 2);
        [p.as_slice()[0], p.as_slice()[1]]
    };
    [at(&coordinates[0]), at(coordinates.last().unwrap())]
}

/// Metres between two places that lie near each other.
fn apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    let degree = 111_320.0;
    ((a[0] - b[0]) * degree * a[1].to_radians().cos()).hypot((a[1] - b[1]) * 110_574.0)
}

#[test]
fn a_crossing_lies_where_its_grid_says() {
    let list = read(&with(CREEK, GRID));
    let [entry, exit] = ends(&list);
    // pyproj 3.7.2 with PROJ 9.5.1: 500000, 100000 of EPSG:32631.
    assert!(
        (entry[0] - 3.0).abs() < 2e-9 && (entry[1] - 0.904_730_614_555).abs() < 2e-9,
        "{entry:?}"
    );
    let chord = apart(entry, exit);
    assert!((chord - 289.8).abs() < 1.5, "{chord}");
    let kinds = kinds(&list);
    let count = |kind: &str| kinds.iter().filter(|k| *k == kind).count();
    assert_eq!([count("axis"), count("entry point"), count("exit point")], [1, 1, 1]);
    assert_eq!([count("obstacle"), count("boring")], [4, 4]);
    assert!(count("tangent point") >= 4);
    let axis = &list.features[0];
    let text = |key: &str| axis.property(key).unwrap().as_str().unwrap().to_owned();
    assert!(text("use").contains("display only"));
    assert!(text("grid").starts_with("EPSG:32631, WGS 84 / UTM zone 31N"), "{}", text("grid"));
    assert!(
        text("transformation").contains("no grid of datum shifts"),
        "{}",
        text("transformation")
    );
    assert_eq!(text("vertical_datum"), "a < b");
}

#[test]
fn a_renewal_has_pits_and_services_on_its_axis() {
    let list = read(&with(STREET, HOST_GRID));
    let kinds = kinds(&list);
    let count = |kind: &str| kinds.iter().filter(|k| *k == kind).count();
    assert_eq!([count("launch pit"), count("machine pit"), count("service")], [1, 1, 11]);
    assert_eq!([count("bend"), count("feature"), count("neighbour")], [1, 2, 1]);
}

#[test]
fn feet_of_a_grid_are_its_own() {
    // 6561666.667 and 1640416.667 US survey feet are 2000000.0001 m and 500000.0001 m; pyproj: -122 deg, 39.333333333333 deg.
    let grid = "[coordinates]\nepsg = 2225\neasting = 2000000.0001016\nnorthing = 500000.0001016\n\n[string]\n";
    let list = read(&with(CREEK, grid));
    let [entry, _] = ends(&list);
    assert!(
        (entry[0] + 122.0).abs() < 2e-9 && (entry[1] - 39.333_333_333_333).abs() < 2e-9,
        "{entry:?}"
    );
    assert!(list.features[0].property("unit_of_grid").unwrap().as_str().unwrap().contains("feet"));
    let xml = one(&with(CREEK, grid), "alignment.xml");
    assert!(!xml.contains("epsgCode") && xml.contains("turned into metres"), "{xml}");
}

#[test]
fn every_line_and_every_name_makes_a_map() {
    for text in every_line() {
        assert!(read(&with(&text, GRID)).features.len() >= 4);
    }
    for text in hostile() {
        let list = read(&text);
        let name = list.features[0].property("name").unwrap().as_str().unwrap();
        assert!(name.starts_with("=cmd|") && name.len() > 3_000);
    }
}

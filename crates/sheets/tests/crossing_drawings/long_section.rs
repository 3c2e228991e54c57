//! Places and figures of the long section.

use quantity::System;
use sheets::scene::{Drawing, Layer, Mark, Pattern, Point, Shape, Sheet, SymbolKind, View};

use crate::designs::drawn;
use crate::paper::words;

pub(crate) fn of(name: &str, system: System, id: &str) -> &'static Drawing {
    let drawn = drawn().iter().find(|d| d.name == name && d.system == system).unwrap();
    drawn.drawings.iter().find(|d| d.id == id).unwrap()
}

fn section(name: &str) -> (&'static Sheet, &'static View) {
    let sheet = &of(name, System::Metric, "long-section").sheets[0];
    (sheet, &sheet.views[0])
}

pub(crate) fn signs(view: &View, kind: SymbolKind) -> Vec<Point> {
    let of = |m: &Mark| match m.shape {
        Shape::Symbol { at, kind: k, .. } if k == kind => Some(at),
        _ => None,
    };
    view.marks.iter().filter_map(of).collect()
}

pub(crate) fn paths(view: &View, layer: Layer) -> Vec<&Vec<Point>> {
    view.marks
        .iter()
        .filter(|m| m.layer == layer)
        .filter_map(|m| match &m.shape {
            Shape::Path { points, .. } => Some(points),
            _ => None,
        })
        .collect()
}

pub(crate) fn says(sheet: &Sheet, words: &str) -> bool {
    self::words(sheet).iter().any(|w| w.words == words)
}

fn near(a: Point, x: f64, y: f64) -> bool {
    (a.x - x).abs() < 1e-6 && (a.y - y).abs() < 1e-6
}

#[test]
fn ends_tangent_points_and_axis_stand_where_they_are() {
    let (_, view) = section("creek");
    let ends = signs(view, SymbolKind::End);
    assert!(near(ends[0], 0.0, 4.2) && near(ends[1], 290.0, 3.6), "{ends:?}");
    let points = signs(view, SymbolKind::Tangent);
    // The bend begins at 55 m and is 500 m times 5 degrees long.
    let bend = 55.0 + 500.0 * 5f64.to_radians();
    assert!(points.iter().any(|p| (p.x - 55.0).abs() < 1e-6));
    assert!(points.iter().any(|p| (p.x - bend).abs() < 1e-6));
    let axis = paths(view, Layer::Axis).into_iter().find(|p| p.len() > 50).unwrap();
    let lowest = axis.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    assert!((lowest + 7.0).abs() < 1e-9, "{lowest}");
    // The wall is 800 mm apart where the line is level.
    let walls: Vec<f64> = paths(view, Layer::Bore)
        .into_iter()
        .map(|wall| wall.iter().find(|p| (p.x - 150.0).abs() < 2.0).unwrap().y)
        .collect();
    assert!((walls[0] - walls[1] - 0.8).abs() < 1e-9, "{walls:?}");
}

#[test]
fn clearances_levels_and_scales_are_in_words() {
    let (sheet, view) = section("creek");
    for expected in [
        "clearance 4.57 m, required 3.50 m",
        "clearance 9.18 m, required 7.00 m",
        "free water 2.90 m",
        "groundwater 1.80 m",
        "lowest axis level -7.00 m",
        "entry angle 12.00°",
        "exit angle 8.00°",
        "heights 5 times",
        "R 250 m, 12.00°",
        "BH3",
        "9 m right",
    ] {
        assert!(says(sheet, expected), "{expected}");
    }
    assert_eq!((view.scale_across, view.scale_up), (1000.0, 200.0));
}

#[test]
fn the_arrow_of_a_clearance_is_as_long_as_the_check_says() {
    let (_, view) = section("creek");
    // Under the creek: bed on -1.5 m, crown on -6.6 m.
    let found = paths(view, Layer::Dimension)
        .into_iter()
        .any(|p| p.len() == 2 && (p[0].y + 6.6).abs() < 1e-3 && (p[1].y + 1.5).abs() < 1e-9);
    assert!(found);
}

#[test]
fn the_band_gives_figures_at_their_chainage() {
    let (sheet, view) = section("creek");
    let all = words(sheet);
    let column: Vec<_> = all.iter().filter(|w| w.words == "120.00" && !w.in_view).collect();
    let [chainage] = column.as_slice() else { panic!("{column:?}") };
    let x = view.on_paper(Point::new(120.0, 0.0)).x;
    let middle = |w: &crate::paper::Words| f64::midpoint(w.room[0], w.room[2]);
    assert!((middle(chainage) - x).abs() < 1e-6);
    // Ground, axis and cover there: -1.5, -7, and 5.5 less half the bore.
    for words in ["-1.50", "-7.00", "5.10", "0.00"] {
        let there = all.iter().any(|w| w.words == words && (middle(w) - x).abs() < 1e-6);
        assert!(there, "{words}");
    }
}

#[test]
fn failing_checks_are_marked_at_their_place() {
    let (sheet, view) = section("creek-fails");
    assert!(!signs(view, SymbolKind::NotMet).is_empty());
    assert!(says(sheet, "line.clearance.creek") && says(sheet, "not met"));
    assert!(signs(section("creek").1, SymbolKind::NotMet).is_empty());
}

#[test]
fn end_zones_that_overlap_share_one_rule_that_says_so() {
    let (sheet, _) = section("all-zones");
    assert!(says(sheet, "end zones 9 m and 8 m: cover is checked nowhere"));
    assert!(!says(sheet, "end zone 9 m") && !says(sheet, "cover of 0.5 m required"));
    let (sheet, _) = section("creek");
    assert!(says(sheet, "end zone 30 m") && says(sheet, "cover of 3.7 m required"));
}

#[test]
fn strata_end_with_the_borings_and_at_the_ground() {
    let (_, view) = section("creek");
    let mut patterns = Vec::new();
    for mark in view.marks.iter().filter(|m| m.layer == Layer::Strata) {
        if let Shape::Area { rings, pattern } = &mark.shape {
            patterns.push(*pattern);
            for p in rings.iter().flatten() {
                assert!(p.y >= -14.1 && p.y <= 6.0 + 1e-9, "{p:?}");
                // No soil in the water of the creek.
                assert!(!(p.x > 112.0 && p.x < 132.0 && p.y > -1.5 + 1e-9), "{p:?}");
            }
        }
    }
    for pattern in [Pattern::Sand, Pattern::SoftClay, Pattern::StiffClay, Pattern::Peat] {
        assert!(patterns.contains(&pattern), "{pattern:?}");
    }
    let (sheet, view) = section("plain");
    assert!(!view.marks.iter().any(|m| m.layer == Layer::Strata));
    assert!(says(sheet, "No soils and borings are given: strata are not shown."));
}

#[test]
fn a_long_line_has_an_overview_and_sheets_that_join() {
    let drawing = of("long", System::Metric, "long-section");
    assert_eq!(drawing.sheets.len(), 11);
    assert!(drawing.sheets[0].title.ends_with("overview"));
    for (i, sheet) in drawing.sheets.iter().enumerate().skip(1) {
        assert_eq!(sheet.views[0].scale_across, 1000.0);
        let next = format!("sheet {}", i + 2);
        let joins = words(sheet)
            .iter()
            .any(|w| w.words.starts_with("match line") && w.words.ends_with(&next));
        assert_eq!(joins, i < 10, "{i}");
    }
    let short = of("short", System::Metric, "long-section");
    assert_eq!(short.sheets.len(), 1);
    assert_eq!(short.sheets[0].views[0].scale_across, 50.0);
}

#[test]
fn readers_of_feet_get_feet() {
    let sheet = &of("creek", System::Customary, "long-section").sheets[0];
    assert!(says(sheet, "lowest axis level -22.97 ft") && says(sheet, "Chainage, ft"));
    let all = words(sheet);
    let clear = all.iter().any(|w| w.words.contains("required 11.48 ft"));
    assert!(clear);
}

#[test]
fn every_name_of_a_crowded_section_is_there() {
    let sheet = &of("crowded", System::Metric, "long-section").sheets[0];
    let all: Vec<String> = words(sheet).into_iter().map(|w| w.words).collect();
    for i in 0..12 {
        let name = format!("service number {i} ");
        assert!(
            all.iter().any(|w| w.starts_with(&name) || w.contains(&format!("{name}of"))),
            "{i}"
        );
    }
}

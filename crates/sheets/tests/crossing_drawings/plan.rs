//! Places and figures of the plan.

use quantity::System;
use sheets::scene::{Layer, Point, SymbolKind};

use crate::long_section::{of, paths, says, signs};

#[test]
fn the_line_runs_from_left_to_right_in_its_coordinates() {
    let sheet = &of("creek", System::Metric, "plan").sheets[0];
    let view = &sheet.views[0];
    let ends = signs(view, SymbolKind::End);
    assert_eq!((ends[0].x, ends[0].y), (0.0, 0.0));
    // Straight for 55 m at 64 deg, bent by 5 deg to the right over 500 m, then straight at 69 deg.
    let (a, b) = (64f64.to_radians(), 69f64.to_radians());
    let rest = 290.0 - 55.0 - 500.0 * (b - a);
    let east = 55.0 * a.sin() + 500.0 * (a.cos() - b.cos()) + rest * b.sin();
    let north = 55.0 * a.cos() + 500.0 * (b.sin() - a.sin()) + rest * b.cos();
    assert!((ends[1].x - east).abs() < 1e-6 && (ends[1].y - north).abs() < 1e-6, "{ends:?}");
    let (from, to) = (view.on_paper(ends[0]), view.on_paper(ends[1]));
    assert!((from.y - to.y).abs() < 1e-6 && from.x < to.x);
    assert!((to.x - from.x - east.hypot(north)).abs() < 1e-6, "1 mm is 1 m at 1:1000");
    assert!(says(sheet, &format!("{east:.2}")) && says(sheet, &format!("{north:.2}")));
    assert!(says(sheet, "R 500 m, 5.00° to the right"));
    // The middle of the view is the middle of the line, more or less.
    let frame = view.frame;
    assert!((from.y - frame.bottom() - frame.height / 2.0).abs() < 10.0);
}

#[test]
fn borings_and_obstacles_stand_beside_and_across_the_line() {
    let sheet = &of("creek", System::Metric, "plan").sheets[0];
    let view = &sheet.views[0];
    // BH1: chainage 8 m, 7 m to the right of a line at 64 deg.
    let (sin, cos) = 64f64.to_radians().sin_cos();
    let place = Point::new(8.0 * sin + 7.0 * cos, 8.0 * cos - 7.0 * sin);
    let borings = signs(view, SymbolKind::Boring);
    assert_eq!(borings.len(), 4);
    assert!(borings.iter().any(|b| (b.x - place.x).hypot(b.y - place.y) < 1e-6), "{borings:?}");
    let across: Vec<_> = paths(view, Layer::Obstacle).into_iter().map(|p| (p[0], p[1])).collect();
    // Three bands of two edges, and the drain with its axis.
    assert_eq!(across.len(), 9);
    for name in ["creek", "flood bank", "lane", "drain along the lane"] {
        assert!(says(sheet, name), "{name}");
    }
}

#[test]
fn sheets_of_a_long_line_keep_their_scale() {
    let drawing = of("long", System::Metric, "plan");
    assert!(drawing.sheets.len() > 8 && drawing.sheets[0].title.ends_with("overview"));
    assert!(drawing.sheets.iter().skip(1).all(|s| s.views[0].scale_across == 1000.0));
    let mut covered: f64 = 0.0;
    for sheet in drawing.sheets.iter().skip(1) {
        let title = &sheet.title;
        let from = title.split("chainage ").nth(1).unwrap().split(' ').next().unwrap();
        assert_eq!(from, format!("{covered:.2}"));
        covered = title.split(" to ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    }
    assert!((covered - 3000.0).abs() < 1e-9);
}

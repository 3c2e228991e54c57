//! Cover and clearance of lines whose distances are known.

use ground::{
    Clearance, GroundLine, Obstacle, ObstacleKind, Passing, Shape, clearance, cover_at,
    cover_profile, least_cover,
};
use line::{Element, LevelDesign, Line, Start};
use proptest::prelude::*;
use quantity::{Angle, Length};

fn m(metres: f64) -> Length {
    Length::from_si(metres)
}

fn design() -> LevelDesign {
    LevelDesign {
        entry_level: m(2.0),
        exit_level: m(2.0),
        run: m(250.0),
        entry_angle: Angle::degrees(12.0),
        exit_angle: Angle::degrees(8.0),
        entry_radius: m(200.0),
        exit_radius: m(200.0),
        lowest_level: m(-6.0),
        azimuth: Angle::degrees(0.0),
        bends: vec![],
    }
}

fn level_line() -> Line {
    Line::from_level(&design()).unwrap_or_else(|e| panic!("{e:?}"))
}

fn ground(points: &[(f64, f64)]) -> GroundLine {
    let points: Vec<_> = points.iter().map(|(x, z)| (m(*x), m(*z))).collect();
    GroundLine::new(&points).unwrap_or_else(|e| panic!("{e:?}"))
}

fn obstacle(shape: Shape) -> Obstacle {
    Obstacle {
        name: "test".into(),
        kind: ObstacleKind::Other,
        shape,
        clearance: None,
        settlement_limit: None,
        heave_limit: None,
    }
}

fn round(at: f64, level: f64, diameter: f64) -> Obstacle {
    obstacle(Shape::Round { at: m(at), level: m(level), diameter: m(diameter) })
}

fn above(from: f64, to: f64, underside: f64) -> Obstacle {
    obstacle(Shape::Above { from: m(from), to: m(to), underside: m(underside) })
}

#[test]
fn cover_of_the_level_part_is_depth_less_radius() {
    let cover =
        cover_at(&level_line(), &ground(&[(0.0, 2.0), (250.0, 2.0)]), m(0.3), m(120.0)).unwrap();
    approx::assert_relative_eq!(cover.vertical.si(), 7.7, epsilon = 1e-12);
    approx::assert_relative_eq!(cover.least.si(), 7.7, epsilon = 1e-12);
    approx::assert_relative_eq!(cover.crown_level.si(), -5.7, epsilon = 1e-12);
}

#[test]
fn on_the_entry_tangent_cover_is_vertical_and_distance_is_square_to_the_ground() {
    let line = level_line();
    let flat = ground(&[(0.0, 2.0), (250.0, 2.0)]);
    let cover = cover_at(&line, &flat, m(0.3), m(10.0)).unwrap();
    let (sin, cos) = 12f64.to_radians().sin_cos();
    approx::assert_relative_eq!(cover.vertical.si(), 10.0 * sin - 0.3 / cos, epsilon = 1e-12);
    approx::assert_relative_eq!(cover.least.si(), 10.0 * sin - 0.3, epsilon = 1e-12);
    // Ground that falls at 12 degrees beside the bore: the distance is taken square to it.
    let run = line.run().si();
    let slope = ground(&[(0.0, 5.0), (run, 5.0 - run * 12f64.to_radians().tan())]);
    let cover = cover_at(&line, &slope, m(0.3), m(15.0)).unwrap();
    approx::assert_relative_eq!(cover.vertical.si(), 3.0 - 0.3 / cos, epsilon = 1e-12);
    approx::assert_relative_eq!(cover.least.si(), 3.0 * cos - 0.3, epsilon = 1e-12);
}

#[test]
fn a_bore_above_the_ground_has_negative_cover() {
    let dip = ground(&[(0.0, 2.0), (100.0, 2.0), (120.0, -9.0), (140.0, 2.0), (250.0, 2.0)]);
    let lowest = least_cover(&level_line(), &dip, m(0.3), m(20.0), m(230.0)).unwrap();
    approx::assert_relative_eq!(lowest.chainage.si(), 120.0, epsilon = 1e-6);
    approx::assert_relative_eq!(lowest.vertical.si(), -3.3, epsilon = 1e-6);
    assert!(lowest.least.si() < -0.3);
}

#[test]
fn a_profile_of_cover_holds_the_points_of_the_ground_and_refuses_gaps() {
    let line = level_line();
    let creek = ground(&[(0.0, 2.0), (101.37, -2.0), (250.0, 2.0)]);
    let profile = cover_profile(&line, &creek, m(0.2), m(5.0)).unwrap();
    assert!(profile.iter().any(|c| (c.chainage.si() - 101.37).abs() < 1e-9));
    assert!(profile.windows(2).all(|w| w[0].md < w[1].md && (w[1].md - w[0].md).si() <= 5.0));
    let least = profile.iter().map(|c| c.vertical.si()).fold(f64::INFINITY, f64::min);
    let found = least_cover(&line, &creek, m(0.2), m(0.0), line.run()).unwrap();
    assert!(found.vertical.si() <= least);
    let short = ground(&[(0.0, 2.0), (200.0, 2.0)]);
    assert_eq!(cover_profile(&line, &short, m(0.2), m(5.0)).unwrap_err().code(), "outside_ground");
    for bad in [0.0, -1.0, 1e-9, f64::NAN] {
        let error = cover_profile(&line, &creek, m(0.2), m(bad)).unwrap_err();
        assert_eq!(error.code(), "out_of_range");
    }
    assert_eq!(cover_at(&line, &creek, m(-0.2), m(5.0)).unwrap_err().code(), "out_of_range");
}

#[test]
fn a_main_above_the_level_part_is_cleared_by_the_difference_of_levels() {
    let Clearance { gap, md, vertical_gap, passing } =
        clearance(&level_line(), &round(120.0, -3.0, 0.5), m(0.3)).unwrap();
    approx::assert_relative_eq!(gap.si(), 3.0 - 0.25 - 0.3, epsilon = 1e-9);
    approx::assert_relative_eq!(vertical_gap.si(), gap.si(), epsilon = 1e-9);
    let expected = level_line().md_at_chainage(m(120.0)).unwrap();
    approx::assert_relative_eq!(md.si(), expected.si(), epsilon = 1e-3);
    assert_eq!(passing, Passing::Below);
    let under = clearance(&level_line(), &round(120.0, -8.0, 0.5), m(0.3)).unwrap();
    assert_eq!(under.passing, Passing::Above);
    approx::assert_relative_eq!(under.gap.si(), 2.0 - 0.25 - 0.3, epsilon = 1e-9);
    let hit = clearance(&level_line(), &round(120.0, -6.1, 0.5), m(0.3)).unwrap();
    approx::assert_relative_eq!(hit.gap.si(), 0.1 - 0.25 - 0.3, epsilon = 1e-9);
}

#[test]
fn the_gap_to_a_main_on_an_inclined_bore_is_square_to_the_bore() {
    let start = Start { level: m(0.0), inclination: Angle::degrees(-30.0), azimuth: Angle::ZERO };
    let line = Line::from_elements(start, &[Element::Straight { length: m(100.0) }]).unwrap();
    let found = clearance(&line, &round(50.0, -10.0, 0.4), m(0.25)).unwrap();
    let (tan, cos) = (30f64.to_radians().tan(), 30f64.to_radians().cos());
    let vertical = 50.0 * tan - 10.0;
    approx::assert_relative_eq!(found.gap.si(), vertical * cos - 0.45, epsilon = 1e-9);
    approx::assert_relative_eq!(
        found.vertical_gap.si(),
        vertical - 0.25 / cos - 0.2,
        epsilon = 1e-9
    );
}

#[test]
fn a_bed_over_the_bore_is_cleared_at_its_nearest_corner_or_face() {
    let line = level_line();
    let bed = clearance(&line, &above(80.0, 150.0, -2.5), m(0.3)).unwrap();
    approx::assert_relative_eq!(bed.gap.si(), 3.5 - 0.3, epsilon = 1e-9);
    approx::assert_relative_eq!(bed.vertical_gap.si(), 3.5 - 0.3, epsilon = 1e-9);
    assert_eq!(bed.passing, Passing::Below);
    // Over the descending tangent the corner counts.
    let corner = clearance(&line, &above(5.0, 12.0, 1.5), m(0.3)).unwrap();
    let (sin, cos) = 12f64.to_radians().sin_cos();
    let square = (5.0 * sin / cos - 0.5) * cos;
    approx::assert_relative_eq!(corner.gap.si(), square - 0.3, epsilon = 1e-6);
    approx::assert_relative_eq!(
        corner.vertical_gap.si(),
        5.0 * sin / cos - 0.5 - 0.3 / cos,
        epsilon = 1e-6
    );
    let hit = clearance(&line, &above(80.0, 150.0, -7.0), m(0.3)).unwrap();
    approx::assert_relative_eq!(hit.gap.si(), -1.3, epsilon = 1e-6);
    assert_eq!(hit.passing, Passing::Above);
    // A pile narrower than any spacing of samples.
    let pile = clearance(&line, &above(113.3, 113.4, -7.0), m(0.3)).unwrap();
    approx::assert_relative_eq!(pile.gap.si(), -1.3, epsilon = 1e-6);
}

#[test]
fn obstacles_beside_the_line_and_shapes_that_are_none_are_refused() {
    let line = level_line();
    assert_eq!(
        clearance(&line, &above(260.0, 270.0, 0.0), m(0.3)).unwrap_err().code(),
        "outside_line"
    );
    assert_eq!(
        clearance(&line, &round(-5.0, 0.0, 0.5), m(0.3)).unwrap_err().code(),
        "outside_line"
    );
    assert_eq!(
        clearance(&line, &above(90.0, 90.0, 0.0), m(0.3)).unwrap_err().code(),
        "empty_stretch"
    );
    assert_eq!(
        clearance(&line, &round(90.0, 0.0, -0.5), m(0.3)).unwrap_err().code(),
        "out_of_range"
    );
    assert_eq!(
        clearance(&line, &round(90.0, f64::NAN, 0.5), m(0.3)).unwrap_err().code(),
        "out_of_range"
    );
    assert!(clearance(&line, &above(240.0, 270.0, 1.9), m(0.1)).is_ok());
}

proptest! {
    #[test]
    fn no_place_of_the_bore_is_nearer_than_the_clearance_says(
        at in 1.0f64..249.0, level in -12.0f64..4.0, width in 0.5f64..60.0, r in 0.0f64..1.0,
    ) {
        let line = level_line();
        let found = clearance(&line, &round(at, level, 0.6), m(r)).unwrap();
        let bed = clearance(&line, &above(at, at + width, level), m(r)).unwrap();
        for i in 0..=4000 {
            let s = line.sample(line.length().si() * f64::from(i) / 4000.0);
            let (x, z) = (s.chainage.si(), s.level.si());
            let apart = (x - at).hypot(z - level) - 0.3 - r;
            prop_assert!(apart >= found.gap.si() - 1e-9);
            let aside = (at - x).max(x - at - width).max(0.0);
            let down = level - z;
            let to_bed = if aside > 0.0 { aside.hypot(down.max(0.0)) } else { down } - r;
            prop_assert!(to_bed >= bed.gap.si() - 1e-9);
        }
    }

    #[test]
    fn a_bend_in_plan_changes_no_distance_of_the_section(
        at in 20.0f64..230.0, level in -3.0f64..3.0,
    ) {
        let angle = Angle::degrees(12.0);
        let bend = line::PlanBend { start_chainage: m(70.0), radius: m(400.0), angle };
        let bent = Line::from_level(&LevelDesign { bends: vec![bend], ..design() }).unwrap();
        let main = round(at, level, 0.5);
        let (a, b) = (
            clearance(&level_line(), &main, m(0.3)).unwrap(),
            clearance(&bent, &main, m(0.3)).unwrap(),
        );
        prop_assert!((a.gap.si() - b.gap.si()).abs() < 1e-8);
        prop_assert!((a.vertical_gap.si() - b.vertical_gap.si()).abs() < 1e-8);
    }

    #[test]
    fn least_cover_is_below_every_sample(
        depths in prop::collection::vec(-5.0f64..6.0, 6), r in 0.0f64..0.8,
    ) {
        let line = level_line();
        let points: Vec<_> =
            depths.iter().enumerate().map(|(i, z)| (50.0 * i as f64, *z)).collect();
        let surface = ground(&points);
        let found = least_cover(&line, &surface, m(r), m(10.0), m(240.0)).unwrap();
        for i in 0..=2000 {
            let md = line.length().si() * f64::from(i) / 2000.0;
            let chainage = line.sample(md).chainage.si();
            if (10.0..=240.0).contains(&chainage) {
                let cover = cover_at(&line, &surface, m(r), m(md)).unwrap();
                prop_assert!(cover.vertical.si() >= found.vertical.si() - 1e-9);
            }
        }
    }
}

//! Lines from surveys and elements, and what follows from them.

use glam::DVec3;
use line::{
    Attitude, Element, Field, Line, LineError, Start, Steering, SurveyStation, combined_radius,
    steer, survey_step, toolface,
};
use proptest::prelude::*;
use quantity::{Angle, Length};

fn m(metres: f64) -> Length {
    Length::from_si(metres)
}

fn deg(degrees: f64) -> Angle {
    Angle::degrees(degrees)
}

/// An attitude from the angle to the vertical-down, as drilling tables print it.
fn from_vertical(i: f64, a: f64) -> Attitude {
    Attitude { inclination: deg(i - 90.0), azimuth: deg(a) }
}

fn station(md: f64, i: f64, a: f64) -> SurveyStation {
    let Attitude { inclination, azimuth } = from_vertical(i, a);
    SurveyStation { md: m(md), inclination, azimuth }
}

#[test]
fn the_published_example_of_minimum_curvature_is_met() {
    let step =
        survey_step(Length::feet(100.0), from_vertical(15.0, 20.0), from_vertical(25.0, 45.0))
            .unwrap();
    approx::assert_relative_eq!(step.dogleg.to_degrees(), 12.951_651, epsilon = 1e-6);
    approx::assert_relative_eq!(step.ratio_factor, 1.004_280_0, epsilon = 1e-7);
    approx::assert_relative_eq!(step.north.to_feet(), 27.218_33, epsilon = 1e-5);
    approx::assert_relative_eq!(step.east.to_feet(), 19.450_77, epsilon = 1e-5);
    approx::assert_relative_eq!(step.rise.to_feet(), -94.012_34, epsilon = 1e-5);
    let turn = toolface(from_vertical(15.0, 20.0), from_vertical(25.0, 45.0)).unwrap();
    approx::assert_relative_eq!(turn.toolface.to_degrees(), 52.834_237, epsilon = 1e-6);
}

/// The stations of the published standard well: 100 of them, from their rule.
fn standard_well() -> Vec<SurveyStation> {
    let mut mds = vec![0.0, 1.0];
    mds.extend((1..=98).map(|i| 30.0 * f64::from(i)));
    mds.into_iter()
        .map(|md| {
            let inclination = match md {
                md if md <= 990.0 => 0.0,
                md if md <= 2250.0 => 1.33 + 2.0 * (md - 1020.0) / 30.0,
                md if md <= 2760.0 => 85.0,
                2790.0 => 86.0,
                2820.0 => 88.0,
                _ => 90.0,
            };
            station(md, inclination, if md <= 990.0 { 0.0 } else { 180.0 })
        })
        .collect()
}

#[test]
fn the_published_positions_of_the_standard_well_are_met() {
    let stations = standard_well();
    assert_eq!(stations.len(), 100);
    let line = Line::from_survey(DVec3::ZERO, &stations).unwrap();
    for (md, depth, north) in [
        (1050.0, 1049.97, -1.57),
        (1500.0, 1472.28, -141.48),
        (2010.0, 1793.09, -528.31),
        (2250.0, 1853.67, -759.73),
        (2760.0, 1898.55, -1267.75),
        (2940.0, 1903.00, -1447.60),
    ] {
        let place = line.at(m(md)).unwrap();
        assert!((place.position.z + depth).abs() < 0.006, "{md}: {}", place.position);
        assert!((place.position.y - north).abs() < 0.006, "{md}: {}", place.position);
        assert!(place.position.x.abs() < 1e-9);
        // The well never leaves one vertical plane: its chainage is the way south.
        assert!((place.chainage.si() + place.position.y).abs() < 1e-9);
    }
}

#[test]
fn the_ratio_factor_keeps_its_digits_on_small_doglegs() {
    for b in [1e-6f64, 1.9e-4, 2.1e-4] {
        let level =
            |azimuth: f64| Attitude { inclination: Angle::ZERO, azimuth: Angle::from_si(azimuth) };
        let step = survey_step(m(10.0), level(0.0), level(b)).unwrap();
        // Two terms of the series are exact here.
        let exact = 1.0 + b * b / 12.0 + b.powi(4) / 120.0;
        approx::assert_relative_eq!(step.ratio_factor, exact, max_relative = 2e-15);
    }
}

#[test]
fn faults_of_a_survey_come_at_once() {
    let faults = Line::from_survey(
        DVec3::ZERO,
        &[station(1.0, 80.0, 0.0), station(5.0, 80.0, 70.0), station(5.0, 80.0, 70.0)],
    )
    .unwrap_err();
    let codes: Vec<_> = faults.iter().map(LineError::code).collect();
    assert_eq!(codes, ["out_of_range", "dogleg_too_large", "not_rising"]);
    assert_eq!(faults[0].field(), Some(Field::StationMd(0)));
    assert!(faults[1].to_string().starts_with("between stations 1 and 2"), "{}", faults[1]);
    let few = Line::from_survey(DVec3::ZERO, &[station(0.0, 80.0, 0.0)]).unwrap_err();
    assert_eq!(few[0].code(), "too_few");
    let wild = Line::from_survey(DVec3::NAN, &[]).unwrap_err();
    assert!(wild.iter().all(|f| f.code() == "out_of_range"));
}

#[test]
fn elements_turn_where_the_toolface_points() {
    let start = Start { level: m(0.0), inclination: deg(-10.0), azimuth: deg(350.0) };
    let arc =
        |toolface: f64| Element::Arc { radius: m(100.0), turn: deg(20.0), toolface: deg(toolface) };
    let end = |elements: &[Element]| {
        let line = Line::from_elements(start, elements).unwrap();
        line.at(line.length()).unwrap()
    };
    approx::assert_relative_eq!(end(&[arc(0.0)]).inclination.to_degrees(), 10.0, epsilon = 1e-9);
    approx::assert_relative_eq!(end(&[arc(180.0)]).inclination.to_degrees(), -30.0, epsilon = 1e-9);
    let right = end(&[arc(90.0)]);
    assert!(right.azimuth.to_degrees() > 10.0 && right.azimuth.to_degrees() < 11.0);
    let left = end(&[arc(-90.0)]);
    approx::assert_relative_eq!(
        left.azimuth.to_degrees() + right.azimuth.to_degrees(),
        340.0,
        epsilon = 1e-9
    );
    let steered = steer(
        Attitude { inclination: deg(-10.0), azimuth: deg(350.0) },
        Steering { dogleg: deg(20.0), toolface: deg(37.0) },
    )
    .unwrap();
    let drilled = end(&[arc(37.0)]);
    approx::assert_relative_eq!(
        drilled.inclination.si(),
        steered.inclination.si(),
        epsilon = 1e-12
    );
    approx::assert_relative_eq!(drilled.azimuth.si(), steered.azimuth.si(), epsilon = 1e-12);

    let vertical = Start { inclination: deg(-90.0), ..start };
    let straight = Element::Straight { length: m(5.0) };
    let faults = Line::from_elements(vertical, &[straight, arc(0.0)]).unwrap_err();
    assert_eq!(faults, [LineError::Vertical { field: Field::ElementToolface(1) }]);
    assert_eq!(Line::from_elements(start, &[]).unwrap_err()[0].code(), "too_few");
    // A turn through the vertical and up again is a line like any other.
    let loop_line = Line::from_elements(
        start,
        &[Element::Arc { radius: m(50.0), turn: deg(170.0), toolface: deg(180.0) }],
    )
    .unwrap();
    let fine: f64 = chords(&loop_line, 20_000).1;
    approx::assert_relative_eq!(loop_line.run().si(), fine, max_relative = 1e-6);
}

/// Length and horizontal length of a line by its chords.
fn chords(line: &Line, n: u32) -> (f64, f64) {
    let h = line.length().si() / f64::from(n);
    (0..n).fold((0.0, 0.0), |(length, run), i| {
        let step =
            line.sample(h * f64::from(i + 1)).position - line.sample(h * f64::from(i)).position;
        (length + step.length(), run + step.x.hypot(step.y))
    })
}

#[test]
fn the_inclined_combined_radius_is_that_of_the_curve_itself() {
    for (p, expected) in [(0.0, 240.000), (10.0, 242.608), (20.0, 250.122)] {
        let radius = combined_radius(m(300.0), m(400.0), deg(p)).unwrap().si();
        assert!((radius - expected).abs() < 0.0005, "{p}: {radius}");
        // The curve: dP/ds = 1/300, dA/dx = 1/400 with dx = cos P ds; second differences of its
        // tangent.
        let tangent = |s: f64| {
            let p = p.to_radians() + s / 300.0;
            // x = ∫ cos P ds
            let x = 300.0 * (p.sin() - (p - s / 300.0).sin());
            let a = x / 400.0;
            DVec3::new(p.cos() * a.sin(), p.cos() * a.cos(), p.sin())
        };
        let h = 1e-3;
        let curvature = (tangent(h) - tangent(-h)).length() / (2.0 * h);
        approx::assert_relative_eq!(1.0 / curvature, radius, max_relative = 1e-6);
    }
}

#[test]
fn angles_of_the_steering_vectors_are_met() {
    let turned = |i: f64, a: f64, b: f64, t: f64| {
        let to = steer(from_vertical(i, a), Steering { dogleg: deg(b), toolface: deg(t) }).unwrap();
        (to.inclination.to_degrees() + 90.0, to.azimuth.to_degrees())
    };
    let near = |a: (f64, f64), b: (f64, f64), tolerance: f64| {
        assert!((a.0 - b.0).abs() < tolerance && (a.1 - b.1).abs() < tolerance, "{a:?} {b:?}");
    };
    near(turned(78.0, 30.0, 2.0, 0.0), (80.0, 30.0), 1e-9);
    near(turned(78.0, 30.0, 2.0, 45.0), (79.417_762, 31.438_541), 1e-6);
    near(turned(90.0, 0.0, 3.0, 90.0), (90.0, 3.0), 1e-9);
    assert!(toolface(from_vertical(78.0, 30.0), from_vertical(78.0, 30.0)).is_err());
    assert!(
        steer(from_vertical(0.0, 0.0), Steering { dogleg: deg(1.0), toolface: deg(0.0) }).is_err()
    );
}

fn courses() -> impl Strategy<Value = Vec<Element>> {
    let straight = (0.5f64..60.0).prop_map(|l| Element::Straight { length: m(l) });
    let arc = (40.0f64..600.0, 0.5f64..25.0, -180.0f64..180.0).prop_map(|(r, turn, toolface)| {
        Element::Arc { radius: m(r), turn: deg(turn), toolface: deg(toolface) }
    });
    prop::collection::vec(prop_oneof![straight, arc], 1..8)
}

proptest! {
    #[test]
    fn a_survey_of_the_ends_of_arcs_gives_the_same_line(
        elements in courses(), inclination in -25.0f64..5.0, azimuth in 0.0f64..360.0,
        share in 0.0f64..1.0,
    ) {
        let start = Start { level: m(3.0), inclination: deg(inclination), azimuth: deg(azimuth) };
        let drilled = Line::from_elements(start, &elements).unwrap();
        let mut stations = vec![];
        for md in [m(0.0)].into_iter().chain(drilled.breakpoints()) {
            let s = drilled.at(md).unwrap();
            stations.push(SurveyStation { md, inclination: s.inclination, azimuth: s.azimuth });
        }
        let surveyed = Line::from_survey(DVec3::new(0.0, 0.0, 3.0), &stations).unwrap();
        let md = share * drilled.length().si();
        let (a, b) = (drilled.sample(md), surveyed.sample(md));
        prop_assert!(a.position.distance(b.position) < 1e-7, "{} {}", a.position, b.position);
        prop_assert!(a.tangent.distance(b.tangent) < 1e-9);
        prop_assert!((a.chainage.si() - b.chainage.si()).abs() < 1e-7);
        let near_break = drilled.breakpoints().iter().any(|x| (x.si() - md).abs() < 1e-6);
        prop_assert!(near_break || a.curvature.distance(b.curvature) < 1e-9);
    }

    #[test]
    fn measured_distance_and_chainage_are_lengths_of_the_line(
        elements in courses(), inclination in -80.0f64..80.0,
    ) {
        let start = Start { level: m(0.0), inclination: deg(inclination), azimuth: deg(0.0) };
        let line = match Line::from_elements(start, &elements) {
            Ok(line) => line,
            Err(faults) => {
                prop_assert!(faults.iter().all(|f| f.code() == "vertical"));
                return Ok(());
            }
        };
        let (length, run) = chords(&line, 4000);
        prop_assert!((length - line.length().si()).abs() < 1e-4 * line.length().si().max(1.0));
        prop_assert!((run - line.run().si()).abs() < 1e-4 * line.length().si().max(1.0));
        let total: f64 = line.segments().iter().map(|s| s.turn().si()).sum();
        prop_assert!((total - line.total_turn().si()).abs() < 1e-12);
    }

    #[test]
    fn tangent_is_the_derivative_of_position_on_arcs(
        elements in courses(), share in 0.01f64..0.99,
    ) {
        let start = Start { level: m(0.0), inclination: deg(-12.0), azimuth: deg(80.0) };
        let line = Line::from_elements(start, &elements).unwrap();
        let md = share * line.length().si();
        let h = 1e-3;
        prop_assume!(!line.breakpoints().iter().any(|b| (b.si() - md).abs() < 2.0 * h));
        let (before, here, after) = (line.sample(md - h), line.sample(md), line.sample(md + h));
        let slope = (after.position - before.position) / (2.0 * h);
        prop_assert!(slope.distance(here.tangent) < 1e-7);
        let bend = (after.tangent - before.tangent) / (2.0 * h);
        prop_assert!(bend.distance(here.curvature) < 1e-8);
        let flat = (after.chainage - before.chainage).si() / (2.0 * h);
        prop_assert!((flat - here.inclination.si().cos()).abs() < 1e-7);
    }

    #[test]
    fn the_offset_of_a_point_is_found_again(
        elements in courses(), share in 0.0f64..1.0, right in -3.0f64..3.0, up in -3.0f64..3.0,
    ) {
        let start = Start { level: m(0.0), inclination: deg(-12.0), azimuth: deg(200.0) };
        let line = Line::from_elements(start, &elements).unwrap();
        let here = line.sample(share * line.length().si());
        let point = here.position + here.right() * right + here.up() * up;
        let found = line.nearest(point);
        let apart = right.hypot(up);
        // A line that comes back on itself may have a nearer place; none can be farther.
        prop_assert!(found.distance.si() <= apart + 1e-9);
        if (found.md.si() - here.md.si()).abs() < 1e-3 {
            prop_assert!((found.right.si() - right).abs() < 1e-6, "{found:?}");
            prop_assert!((found.up.si() - up).abs() < 1e-6, "{found:?}");
            prop_assert!(found.along.si().abs() < 1e-6);
        }
        for i in 0..=500 {
            let place = line.sample(line.length().si() * f64::from(i) / 500.0);
            prop_assert!(place.position.distance(point) >= found.distance.si() - 1e-9);
        }
    }

    #[test]
    fn a_turn_is_recovered_from_the_attitudes_it_joins(
        p in -60.0f64..60.0, a in 0.0f64..360.0, b in 0.01f64..20.0, t in -179.9f64..179.9,
    ) {
        let from = Attitude { inclination: deg(p), azimuth: deg(a) };
        let to = steer(from, Steering { dogleg: deg(b), toolface: deg(t) }).unwrap();
        let back = toolface(from, to).unwrap();
        prop_assert!((back.dogleg.to_degrees() - b).abs() < 1e-9);
        prop_assert!((back.toolface.to_degrees() - t).abs() < 1e-7);
    }

    #[test]
    fn a_tiny_dogleg_keeps_its_digits(b in 1e-9f64..1e-5) {
        let from = Attitude { inclination: deg(-5.0), azimuth: deg(10.0) };
        let to = Attitude { inclination: Angle::from_si(deg(-5.0).si() + b), azimuth: deg(10.0) };
        let step = survey_step(m(6.0), from, to).unwrap();
        // The angles themselves are only known to 1e-17 rad.
        prop_assert!((step.dogleg.si() / b - 1.0).abs() < 1e-6);
        let chord = step.north.si().hypot(step.east.si()).hypot(step.rise.si());
        prop_assert!((chord - 6.0).abs() < 1e-9);
    }

    #[test]
    fn any_numbers_in_a_survey_give_a_line_or_faults(
        v in prop::collection::vec(prop::num::f64::ANY, 9)
    ) {
        let stations: Vec<_> = v.chunks(3).map(|c| SurveyStation {
            md: m(c[0]), inclination: Angle::from_si(c[1]), azimuth: Angle::from_si(c[2]),
        }).collect();
        for fault in Line::from_survey(DVec3::ZERO, &stations).err().unwrap_or_default() {
            prop_assert!(!fault.to_string().is_empty());
        }
    }
}

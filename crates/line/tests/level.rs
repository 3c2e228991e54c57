//! Lines from level designs.

use line::{Element, End, Field, LevelDesign, Line, LineError, PlanBend, SegmentKind, Start};
use proptest::prelude::*;
use quantity::{Angle, Length};

fn m(metres: f64) -> Length {
    Length::from_si(metres)
}

/// Entry 12°, exit 8°, both radii 200 m, 8 m deep, run 250 m: vector P2 of the trade notes.
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

fn bent() -> LevelDesign {
    let bends = vec![
        PlanBend { start_chainage: m(170.0), radius: m(400.0), angle: Angle::degrees(-6.0) },
        PlanBend { start_chainage: m(10.0), radius: m(300.0), angle: Angle::degrees(15.0) },
    ];
    LevelDesign { bends, azimuth: Angle::degrees(40.0), ..design() }
}

#[test]
fn the_profile_has_the_lengths_of_the_worked_vector() {
    let p = design().profile().unwrap();
    for (name, value, expected) in [
        ("entry tangent", p.entry_tangent, 17.457),
        ("entry arc", p.entry_arc, 41.888),
        ("entry run", p.entry_run, 58.658),
        ("exit tangent", p.exit_tangent, 43.497),
        ("exit arc", p.exit_arc, 27.925),
        ("exit run", p.exit_run, 70.908),
        ("level part", p.level_length, 120.434),
        ("bore", p.bore_length, 251.201),
    ] {
        assert!((value.si() - expected).abs() < 0.0005, "{name}: {value}");
    }
}

#[test]
fn the_line_closes_on_its_ends() {
    for design in [design(), bent()] {
        let line = Line::from_level(&design).unwrap();
        approx::assert_relative_eq!(
            line.length().si(),
            design.profile().unwrap().bore_length.si(),
            epsilon = 1e-9
        );
        approx::assert_relative_eq!(line.run().si(), 250.0, epsilon = 1e-9);
        let end = line.at(line.length()).unwrap();
        approx::assert_relative_eq!(end.level.si(), 2.0, epsilon = 1e-9);
        approx::assert_relative_eq!(end.inclination.to_degrees(), 8.0, epsilon = 1e-9);
        let start = line.at(m(0.0)).unwrap();
        approx::assert_relative_eq!(start.inclination.to_degrees(), -12.0, epsilon = 1e-12);
        approx::assert_relative_eq!(start.level.si(), 2.0);
    }
    let end = Line::from_level(&bent()).unwrap().sample(1e9);
    approx::assert_relative_eq!(end.azimuth.to_degrees(), 49.0, epsilon = 1e-9);
}

#[test]
fn kinds_radii_and_turns_of_the_segments_are_those_of_the_design() {
    let line = Line::from_level(&design()).unwrap();
    let kinds: Vec<_> = line.segments().iter().map(line::Segment::kind).collect();
    use SegmentKind::{Arc, Compound, Straight};
    assert_eq!(kinds, [Straight, Arc, Straight, Arc, Straight]);
    approx::assert_relative_eq!(line.total_turn().to_degrees(), 20.0, max_relative = 1e-12);
    let (radius, md) = line.minimum_radius().unwrap();
    approx::assert_relative_eq!(radius.si(), 200.0, max_relative = 1e-12);
    approx::assert_relative_eq!(md.si(), 17.457, epsilon = 0.001);

    let line = Line::from_level(&bent()).unwrap();
    let kinds: Vec<_> = line.segments().iter().map(line::Segment::kind).collect();
    // Straight to 10 m, bend on the tangent, on the arc, on the level part; level; exit arc with
    // the second bend.
    assert_eq!(
        kinds,
        [Straight, Compound, Compound, Arc, Straight, Arc, Compound, Compound, Straight]
    );
    let plan: f64 = line.segments().iter().map(|s| s.plan_turn().to_degrees()).sum();
    approx::assert_relative_eq!(plan, 9.0, max_relative = 1e-9);
    let vertical: f64 = line.segments().iter().map(|s| s.vertical_turn().to_degrees()).sum();
    approx::assert_relative_eq!(vertical, 20.0, max_relative = 1e-9);
    // The sharpest place is where the entry arc with the bend over it is flattest: its end.
    let (radius, md) = line.minimum_radius().unwrap();
    let exact = 1.0 / (1.0f64 / 200.0).hypot(1.0 / 300.0);
    approx::assert_relative_eq!(radius.si(), exact, max_relative = 1e-9);
    approx::assert_relative_eq!(line.at(md).unwrap().inclination.si(), 0.0, epsilon = 1e-12);
}

#[test]
fn designs_without_bends_agree_with_their_elements() {
    let design = design();
    let p = design.profile().unwrap();
    let start = Start { level: m(2.0), inclination: -design.entry_angle, azimuth: design.azimuth };
    let arc = |turn| Element::Arc { radius: m(200.0), turn, toolface: Angle::ZERO };
    let elements = [
        Element::Straight { length: p.entry_tangent },
        arc(design.entry_angle),
        Element::Straight { length: p.level_length },
        arc(design.exit_angle),
        Element::Straight { length: p.exit_tangent },
    ];
    let (a, b) =
        (Line::from_level(&design).unwrap(), Line::from_elements(start, &elements).unwrap());
    for i in 0..=100 {
        let md = m(a.length().si() * f64::from(i) / 100.0);
        let (one, two) = (a.at(md).unwrap(), b.at(md).unwrap());
        assert!(one.position.distance(two.position) < 1e-9);
        assert!((one.chainage.si() - two.chainage.si()).abs() < 1e-9);
        assert!(
            one.curvature.distance(two.curvature) < 1e-9
                || b.breakpoints().iter().any(|x| (x.si() - md.si()).abs() < 1e-6)
        );
    }
}

#[test]
fn an_infeasible_entry_curve_says_what_would_do_in_numbers() {
    let deep = LevelDesign { entry_radius: m(500.0), ..design() };
    let faults = Line::from_level(&deep).unwrap_err();
    let Some(LineError::CurveNeedsDepth {
        end: End::Entry,
        shortfall,
        radius_at_most,
        angle_at_most,
    }) = faults.first()
    else {
        panic!("{faults:?}")
    };
    approx::assert_relative_eq!(
        shortfall.si(),
        500.0 * (1.0 - 12f64.to_radians().cos()) - 8.0,
        max_relative = 1e-12
    );
    assert_eq!(faults[0].field(), Some(Field::EntryRadius));
    assert_eq!(
        faults[0].to_string(),
        "the entry curve needs 2.93 m more depth, or a radius of at most 366.09 m, \
         or an entry angle of at most 10.26 deg"
    );
    for better in [
        LevelDesign { lowest_level: deep.lowest_level - *shortfall, run: m(400.0), ..deep.clone() },
        LevelDesign { entry_radius: *radius_at_most, ..deep.clone() },
        LevelDesign { entry_angle: *angle_at_most, ..deep.clone() },
    ] {
        assert!(Line::from_level(&better).is_ok(), "{better:?}");
    }
}

#[test]
fn a_short_level_part_names_four_ways_out_and_each_works() {
    let short = LevelDesign { run: m(125.0), ..design() };
    let faults = Line::from_level(&short).unwrap_err();
    let [
        LineError::LevelPartShort {
            shortfall,
            run_at_least,
            radii_at_most,
            depth_less,
            angles_at_least,
        },
    ] = faults.as_slice()
    else {
        panic!("{faults:?}")
    };
    approx::assert_relative_eq!(shortfall.si(), 129.566 - 125.0, epsilon = 0.001);
    let (r1, r2) = radii_at_most.unwrap();
    let (a, e) = angles_at_least.unwrap();
    let rise = depth_less.unwrap();
    for better in [
        LevelDesign { run: *run_at_least, ..short.clone() },
        LevelDesign { entry_radius: r1, exit_radius: r2, ..short.clone() },
        LevelDesign { lowest_level: short.lowest_level + rise, ..short.clone() },
        LevelDesign { entry_angle: a, exit_angle: e, ..short.clone() },
    ] {
        let line = Line::from_level(&better);
        assert!(line.is_ok(), "{better:?}: {line:?}");
    }
    let text = faults[0].to_string();
    assert_eq!(
        text,
        "the level part is 4.57 m short: it takes a run of at least 129.57 m, \
         or radii of at most 173.91 m (entry) and 173.91 m (exit), or 0.39 m less depth, \
         or angles of at least 12.75 deg (entry) and 8.75 deg (exit)"
    );
}

#[test]
fn faults_of_profile_and_bends_come_together() {
    let bend = |start: f64, angle: f64| PlanBend {
        start_chainage: m(start),
        radius: m(100.0),
        angle: Angle::from_si(angle),
    };
    let bad = LevelDesign {
        entry_radius: m(500.0),
        exit_radius: m(-1.0),
        bends: vec![bend(10.0, 0.5), bend(40.0, -0.2), bend(240.0, 0.4)],
        ..design()
    };
    let codes: Vec<_> = Line::from_level(&bad).unwrap_err().iter().map(LineError::code).collect();
    assert_eq!(codes, ["out_of_range", "bend_leaves_line", "bends_overlap"]);
    let bad = LevelDesign { exit_radius: m(2000.0), lowest_level: m(-4.0), ..bad };
    let faults = Line::from_level(&bad).unwrap_err();
    let codes: Vec<_> = faults.iter().map(LineError::code).collect();
    assert_eq!(
        codes,
        ["curve_needs_depth", "curve_needs_depth", "bend_leaves_line", "bends_overlap"]
    );
    assert!(faults[3].to_string().starts_with("bend 2 starts 20 m before bend 1 ends"));
}

#[test]
fn a_level_part_above_an_end_and_numbers_that_are_none_are_refused() {
    let up = LevelDesign { lowest_level: m(3.0), ..design() };
    let codes: Vec<_> = Line::from_level(&up).unwrap_err().iter().map(LineError::code).collect();
    assert_eq!(codes, ["level_part_above_end", "level_part_above_end"]);
    for bad in [
        LevelDesign { run: m(f64::NAN), ..design() },
        LevelDesign { entry_level: m(f64::INFINITY), ..design() },
        LevelDesign { exit_angle: Angle::degrees(90.0), ..design() },
        LevelDesign { entry_angle: Angle::degrees(-1.0), ..design() },
        LevelDesign { azimuth: Angle::degrees(400.0), ..design() },
    ] {
        let faults = Line::from_level(&bad).unwrap_err();
        assert!(faults.iter().all(|f| f.code() == "out_of_range"), "{faults:?}");
    }
    let flat = LevelDesign { exit_angle: Angle::ZERO, ..design() };
    assert_eq!(Line::from_level(&flat).unwrap_err()[0].code(), "never_reaches_depth");
    let into_pit = LevelDesign { exit_level: m(-6.0), ..flat };
    let line = Line::from_level(&into_pit).unwrap();
    approx::assert_relative_eq!(line.sample(1e6).inclination.si(), 0.0);
}

#[test]
fn stations_outside_the_line_are_errors_and_samples_go_on_straight() {
    let line = Line::from_level(&design()).unwrap();
    assert!(line.at(m(-1e-7)).is_ok());
    assert_eq!(line.at(m(-0.01)).unwrap_err().code(), "out_of_line");
    assert_eq!(line.at(m(f64::NAN)).unwrap_err().code(), "out_of_line");
    assert_eq!(line.md_at_chainage(m(250.1)).unwrap_err().code(), "chainage_out_of_line");
    let (end, beyond) = (line.sample(line.length().si()), line.sample(line.length().si() + 10.0));
    let along = beyond.position - end.position;
    assert!(along.distance(end.tangent * 10.0) < 1e-9);
    approx::assert_relative_eq!(
        beyond.chainage.si() - end.chainage.si(),
        10.0 * 8f64.to_radians().cos(),
        epsilon = 1e-9
    );
    let before = line.sample(-10.0);
    approx::assert_relative_eq!(
        before.level.si(),
        2.0 + 10.0 * 12f64.to_radians().sin(),
        epsilon = 1e-9
    );
    // A line that ends in a curve goes on straight all the same.
    let half =
        LevelDesign { exit_level: m(-6.0 + 200.0 * (1.0 - 8f64.to_radians().cos())), ..design() };
    let line = Line::from_level(&half).unwrap();
    let end = line.length().si();
    approx::assert_relative_eq!(line.sample(end).curvature.length(), 0.005, max_relative = 1e-9);
    assert_eq!(line.sample(end + 1.0).curvature.length(), 0.0);
}

#[test]
fn radius_over_a_window_is_that_of_the_arc_inside_it_and_none_on_straights() {
    let line = Line::from_level(&design()).unwrap();
    approx::assert_relative_eq!(
        line.radius_over(m(20.0), m(26.0)).unwrap().si(),
        200.0,
        max_relative = 1e-10
    );
    assert_eq!(line.radius_over(m(2.0), m(8.0)), None);
    assert_eq!(line.radius_over(m(8.0), m(8.0)), None);
    // Half of the window on the tangent: twice the radius.
    let start = line.segments()[1].md_start();
    let half = line.radius_over(start - m(3.0), start + m(3.0)).unwrap();
    approx::assert_relative_eq!(half.si(), 400.0, max_relative = 1e-10);
}

fn designs() -> impl Strategy<Value = LevelDesign> {
    (
        (4.0f64..18.0, 4.0f64..14.0, 60.0f64..400.0, 60.0f64..400.0),
        (0.0f64..20.0, 0.0f64..20.0, 1.0f64..120.0, 0.0f64..360.0),
        prop::collection::vec((0.05f64..0.25, 80.0f64..500.0, -25.0f64..25.0), 0..3),
    )
        .prop_map(|((a, e, r1, r2), (more1, more2, level, azimuth), bends)| {
            let (a, e) = (Angle::degrees(a), Angle::degrees(e));
            let versine = |x: Angle| 1.0 - x.si().cos();
            let d1 = (r1 * versine(a) + more1).max(r2 * versine(e) + more1);
            let d2 = d1.max(r2 * versine(e)) + more2;
            let side = |d: f64, r: f64, x: Angle| d / x.si().tan() + r * (0.5 * x.si()).tan();
            let run = side(d1, r1, a) + side(d2, r2, e) + level;
            let mut free = 0.0;
            let mut placed = Vec::new();
            for (gap, radius, angle) in bends {
                let start = free + gap * run;
                let end = start + radius * angle.to_radians().abs();
                if angle != 0.0 && end < run {
                    placed.push(PlanBend {
                        start_chainage: m(start),
                        radius: m(radius),
                        angle: Angle::degrees(angle),
                    });
                    free = end;
                }
            }
            LevelDesign {
                entry_level: m(5.0),
                exit_level: m(5.0 + d2 - d1),
                run: m(run),
                entry_angle: a,
                exit_angle: e,
                entry_radius: m(r1),
                exit_radius: m(r2),
                lowest_level: m(5.0 - d1),
                azimuth: Angle::degrees(azimuth),
                bends: placed,
            }
        })
}

proptest! {
    #[test]
    fn the_line_is_smooth_and_measured_along_itself(design in designs()) {
        let line = Line::from_level(&design).unwrap();
        let length = line.length().si();
        let n = 4000;
        let h = length / f64::from(n);
        let mut by_chords = 0.0;
        let mut by_steps = 0.0;
        let mut last = line.sample(0.0);
        for i in 1..=n {
            let next = line.sample(h * f64::from(i));
            by_chords += next.position.distance(last.position);
            let flat = next.position - last.position;
            by_steps += flat.x.hypot(flat.y);
            last = next;
        }
        // A chord is shorter than its arc by s³/24R²; horizontal chords likewise.
        prop_assert!((by_chords - length).abs() < 1e-4, "{by_chords} {length}");
        prop_assert!((by_steps - line.run().si()).abs() < 1e-4);
        let turned: f64 = line
            .segments()
            .iter()
            .map(|s| {
                let (from, step) = (s.md_start().si(), s.length().si() / 400.0);
                let tangent = |i: u32| line.sample(from + step * f64::from(i)).tangent;
                (0..400).map(|i| tangent(i + 1).distance(tangent(i))).sum::<f64>()
            })
            .sum();
        prop_assert!((turned - line.total_turn().si()).abs() < 1e-5);
        prop_assert!((last.level.si() - design.exit_level.si()).abs() < 1e-8);
        prop_assert!((line.run().si() - design.run.si()).abs() < 1e-8);
        prop_assert!((last.inclination.si() - design.exit_angle.si()).abs() < 1e-9);
    }

    #[test]
    fn tangent_and_curvature_are_the_derivatives_of_position(
        design in designs(), share in 0.001f64..0.999,
    ) {
        let line = Line::from_level(&design).unwrap();
        let md = share * line.length().si();
        let h = 1e-3;
        let near_break = line.breakpoints().iter().any(|b| (b.si() - md).abs() < 2.0 * h);
        prop_assume!(!near_break);
        let (before, here, after) = (line.sample(md - h), line.sample(md), line.sample(md + h));
        let slope = (after.position - before.position) / (2.0 * h);
        prop_assert!(slope.distance(here.tangent) < 1e-7);
        prop_assert!((here.tangent.length() - 1.0).abs() < 1e-12);
        let bend = (after.tangent - before.tangent) / (2.0 * h);
        prop_assert!(bend.distance(here.curvature) < 1e-8, "{bend} {}", here.curvature);
        prop_assert!(here.curvature.dot(here.tangent).abs() < 1e-12);
    }

    #[test]
    fn a_mirror_leaves_levels_and_radii_and_a_turn_about_the_vertical_leaves_every_scalar(
        design in designs(), by in -3.0f64..3.0, share in 0.0f64..1.0,
    ) {
        let line = Line::from_level(&design).unwrap();
        let md = share * line.length().si();
        let here = line.sample(md);
        let start = line.sample(0.0);
        for other in [line.mirrored(), line.rotated(Angle::from_si(by))] {
            let there = other.sample(md);
            prop_assert!((there.level.si() - here.level.si()).abs() < 1e-9);
            prop_assert!((there.chainage.si() - here.chainage.si()).abs() < 1e-9);
            prop_assert!((there.inclination.si() - here.inclination.si()).abs() < 1e-12);
            prop_assert!((there.curvature.length() - here.curvature.length()).abs() < 1e-12);
            prop_assert_eq!(other.minimum_radius(), line.minimum_radius());
            let reach = here.position.distance(start.position);
            prop_assert!((there.position.distance(start.position) - reach).abs() < 1e-9);
        }
        let twice = line.mirrored().mirrored().sample(md);
        prop_assert!(twice.position.distance(here.position) < 1e-8);
        let mirrored = line.mirrored().sample(md);
        let (a0, a, b) = (start.azimuth.si(), here.azimuth.si(), mirrored.azimuth.si());
        let sum = (a - a0) + (b - a0);
        prop_assert!((sum.sin()).abs() < 1e-9 && sum.cos() > 0.0);
    }

    #[test]
    fn chainage_and_measured_distance_are_inverse(design in designs(), share in 0.0f64..1.0) {
        let line = Line::from_level(&design).unwrap();
        let md = share * line.length().si();
        let chainage = line.sample(md).chainage;
        prop_assert!((line.md_at_chainage(chainage).unwrap().si() - md).abs() < 1e-8);
    }

    #[test]
    fn no_place_is_sharper_than_the_minimum_radius(design in designs()) {
        let line = Line::from_level(&design).unwrap();
        let (radius, md) = line.minimum_radius().unwrap();
        // At a breakpoint the curvature is that of the part that begins, so look just before as
        // well.
        let there = [md.si(), md.si() - 1e-9].map(|s| line.sample(s).curvature.length());
        prop_assert!((there[0].max(there[1]) * radius.si() - 1.0).abs() < 1e-6);
        for i in 0..=2000 {
            let here = line.sample(line.length().si() * f64::from(i) / 2000.0);
            prop_assert!(here.curvature.length() <= 1.0 / radius.si() * (1.0 + 1e-12));
        }
    }

    #[test]
    fn every_alternative_of_an_infeasible_profile_is_feasible(
        a in 3.0f64..25.0, e in 3.0f64..25.0, r1 in 20.0f64..900.0, r2 in 20.0f64..900.0,
        depth in 0.5f64..30.0, run in 20.0f64..400.0,
    ) {
        let base = LevelDesign {
            entry_level: m(0.0), exit_level: m(0.0), lowest_level: m(-depth), run: m(run),
            entry_angle: Angle::degrees(a), exit_angle: Angle::degrees(e),
            entry_radius: m(r1), exit_radius: m(r2), ..design()
        };
        for fault in base.profile().err().unwrap_or_default() {
            match fault {
                LineError::CurveNeedsDepth { end, shortfall, radius_at_most, angle_at_most } => {
                    let same = |f: &LineError| {
                        matches!(f, LineError::CurveNeedsDepth { end: other, .. } if *other == end)
                    };
                    let fits = |d: &LevelDesign| {
                        !d.profile().err().unwrap_or_default().iter().any(same)
                    };
                    let lowest_level = base.lowest_level - shortfall;
                    let deeper = LevelDesign { lowest_level, ..base.clone() };
                    let (mut round, mut flat) = (base.clone(), base.clone());
                    match end {
                        End::Entry => {
                            (round.entry_radius, flat.entry_angle) = (radius_at_most, angle_at_most);
                        }
                        End::Exit => {
                            (round.exit_radius, flat.exit_angle) = (radius_at_most, angle_at_most);
                        }
                    }
                    prop_assert!(fits(&deeper) && fits(&round) && fits(&flat));
                }
                LineError::LevelPartShort {
                    run_at_least, radii_at_most, depth_less, angles_at_least, ..
                } => {
                    // Both curves fit in this branch only where they are not reported themselves.
                    if base.profile().err().unwrap_or_default().len() > 1 {
                        continue;
                    }
                    let mut better = vec![LevelDesign { run: run_at_least, ..base.clone() }];
                    if let Some((r1, r2)) = radii_at_most {
                        let radii = LevelDesign { entry_radius: r1, exit_radius: r2, ..base.clone() };
                        better.push(radii);
                    }
                    if let Some(rise) = depth_less {
                        let lowest_level = base.lowest_level + rise;
                        better.push(LevelDesign { lowest_level, ..base.clone() });
                    }
                    if let Some((a, e)) = angles_at_least {
                        better.push(LevelDesign { entry_angle: a, exit_angle: e, ..base.clone() });
                    }
                    for design in better {
                        prop_assert!(design.profile().is_ok(), "{:?}", design.profile());
                    }
                }
                other => prop_assert!(false, "{other:?}"),
            }
        }
    }

    #[test]
    fn any_numbers_give_a_line_or_faults_without_panic(
        v in prop::collection::vec(prop::num::f64::ANY, 12)
    ) {
        let wild = LevelDesign {
            entry_level: m(v[0]), exit_level: m(v[1]), run: m(v[2]),
            entry_angle: Angle::from_si(v[3]), exit_angle: Angle::from_si(v[4]), entry_radius: m(v[5]), exit_radius: m(v[6]),
            lowest_level: m(v[7]), azimuth: Angle::from_si(v[8]),
            bends: vec![PlanBend {
                start_chainage: m(v[9]), radius: m(v[10]), angle: Angle::from_si(v[11]),
            }],
        };
        for fault in Line::from_level(&wild).err().unwrap_or_default() {
            prop_assert!(!fault.to_string().is_empty());
        }
    }
}

//! Limits, symmetries and steps of the formulas; printed and computed values stand in the cases.

use proptest::prelude::*;
use quantity::{Angle, Force, ForcePerLength, Length, Pressure, UnitWeight};

use super::*;

const M: fn(f64) -> Length = Length::metres;
const DEG: fn(f64) -> Angle = Angle::degrees;
const KPA: fn(f64) -> Pressure = Pressure::kilopascals;
const KN_M3: fn(f64) -> UnitWeight = UnitWeight::kilonewtons_per_cubic_metre;

fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs()) + 1e-12
}

fn string(barrel: f64, extra: f64, socket_length: f64) -> SocketedString {
    SocketedString {
        barrel_diameter: M(barrel),
        socket_diameter: M(barrel + extra),
        socket_length: M(socket_length),
        laying_length: M(6.0),
    }
}

fn ground(cover: f64, k: f64, cohesion: f64) -> SiloGround {
    SiloGround {
        unit_weight: KN_M3(18.0),
        cover: M(cover),
        friction_angle: DEG(30.0),
        wall_friction_angle: DEG(30.0),
        stress_ratio: k,
        cohesion: KPA(cohesion),
        surcharge: Pressure::ZERO,
    }
}

#[test]
fn without_expansion_nothing_moves_and_nothing_resists() {
    let d = M(0.15);
    assert_eq!(displaced_volume(d, d).unwrap(), 0.0);
    assert_eq!(cone_force(d, d, DEG(15.0), 0.3, KPA(300.0)).unwrap(), Force::ZERO);
    assert_eq!(cavity_clay(KPA(20.0), KPA(50.0), KPA(5000.0), d, d).unwrap(), KPA(20.0));
    assert_eq!(cavity_sand(KPA(15.0), DEG(35.0), KPA(5000.0), d, d).unwrap(), KPA(15.0));
    assert_eq!(ten_times_rule(d, d).unwrap(), Length::ZERO);
}

#[test]
fn an_expander_smaller_than_bore_barrel_or_socket_is_refused() {
    let (small, large) = (M(0.14), M(0.15));
    for refused in [
        displaced_volume(small, large).unwrap_err(),
        expansion_measure(small, large).unwrap_err(),
        overcut(small, large).unwrap_err(),
        cone_force(large, small, DEG(15.0), 0.3, KPA(300.0)).unwrap_err(),
        closing_volume(M(0.23), &string(0.17, 0.069, 0.15), large).unwrap_err(),
        lubricant(M(0.16), M(0.17), large, M(100.0), 1.0).unwrap_err(),
    ] {
        assert_eq!(refused.quantity(), Some("expander diameter"), "{refused}");
    }
}

#[test]
fn a_cone_that_jams_is_refused_with_the_angle_at_which_it_does() {
    let force =
        |alpha: f64, mu: f64| breaking_force(M(0.011), KPA(150e3), CONTACT_LENGTH, DEG(alpha), mu);
    assert!(force(44.9, 1.0).is_ok());
    let error = force(45.0, 1.0).unwrap_err().to_string();
    assert!(error.contains("less than 45 deg, where the cone jams"), "{error}");
    assert!(force(89.0, 0.0).is_ok());
}

#[test]
fn the_guide_flags_a_step_within_a_tenth_and_tells_the_force_beyond_it() {
    let guide =
        |ratio: f64| drag_guide(KN_M3(18.0), M(ratio * 0.2), M(0.2), M(100.0), 0.3).unwrap();
    for (ratio, at) in [
        (4.49, None),
        (4.5, Some(5.0)),
        (5.5, Some(5.0)),
        (5.51, None),
        (9.5, Some(10.0)),
        (11.01, None),
        (18.0, Some(20.0)),
        (22.0, Some(20.0)),
        (22.1, None),
    ] {
        assert_eq!(guide(ratio).near_step.map(|s| s.at), at, "{ratio}");
    }
    // Just before a step the other side is what comes just behind it, and the other way round.
    for (at, drop) in [(5.0, 2.0 / 3.0), (10.0, 0.75), (20.0, 2.0 / 3.0)] {
        let (before, behind) = (guide(at * (1.0 - 1e-9)), guide(at));
        assert!(close(before.near_step.unwrap().force.si(), behind.force.si(), 1e-8), "{at}");
        assert!(close(behind.near_step.unwrap().force.si(), before.force.si(), 1e-8), "{at}");
        assert!(close(behind.force / before.force, drop, 1e-8), "{at}");
    }
}

#[test]
fn inches_that_meet_a_step_exactly_stand_behind_it() {
    for inches in [1.0, 3.0, 4.0, 7.0, 12.0, 12.75] {
        let guide = |ratio: f64| {
            let (d, pipe) = (Length::inches(ratio * inches), Length::inches(inches));
            drag_guide_rounded(d, pipe, M(10.0)).unwrap().depth_share
        };
        assert_eq!([guide(5.0), guide(10.0), guide(20.0)], [2.0 / 3.0, 0.5, 1.0 / 3.0], "{inches}");
    }
}

#[test]
fn cohesion_that_carries_the_ground_leaves_the_surcharge_alone() {
    let (width, open) = silo_stress(&ground(1.4, 0.5, 6.0), M(0.26)).unwrap();
    assert!(2.0 * 6.0 > 18.0 * width.si());
    assert_eq!(open, Pressure::ZERO);
    let loaded = SiloGround { surcharge: KPA(10.0), ..ground(1.4, 0.5, 6.0) };
    let (_, stress) = silo_stress(&loaded, M(0.26)).unwrap();
    assert!(stress.si() > 0.0 && stress < KPA(10.0), "{stress}");
}

#[test]
fn a_string_that_runs_down_by_itself_is_refused() {
    let parts = |slope: f64| BurstParts {
        breaking: Force::ZERO,
        cone: Force::ZERO,
        drag: Force::ZERO,
        weight: string_weight(ForcePerLength::from_si(900.0), M(100.0), DEG(slope), 0.3).unwrap(),
        rods: Force::ZERO,
    };
    // The friction angle is 16.7 degrees.
    assert!(burst_pull(&parts(-16.0), &BurstFactors::NONE).is_ok());
    let error = burst_pull(&parts(-17.0), &BurstFactors::NONE).unwrap_err();
    assert!(error.to_string().contains("runs down by its own weight"), "{error}");
}

#[test]
fn the_usual_clearance_changes_above_dn_300() {
    let clearance = |mm: f64| usual_clearance(Length::millimetres(mm)).unwrap();
    let small = (Length::from_si(0.020), Length::from_si(0.020));
    assert_eq!([80.0, 300.0, 304.8].map(clearance), [small; 3]);
    assert_eq!(clearance(350.0), (Length::from_si(0.030), Length::from_si(0.050)));
    assert!(usual_clearance(Length::ZERO).is_err());
}

#[test]
fn an_opening_must_lie_within_the_plate() {
    let plate = Plate { width: M(2.0), depth_top: M(0.8), depth_bottom: M(2.3), spread: 1.0 };
    let soil =
        WallSoil { unit_weight: KN_M3(18.0), friction_angle: DEG(30.0), cohesion: Pressure::ZERO };
    let net = |diameter: f64, depth: f64| {
        let opening = WallOpening { diameter: M(diameter), depth: M(depth) };
        reaction_wall_with_opening(&plate, &soil, Some(&opening))
    };
    assert!(net(0.3, 0.96).is_ok() && net(0.3, 2.14).is_ok());
    assert_eq!(net(0.3, 0.94).unwrap_err().quantity(), Some("opening depth"));
    assert_eq!(net(0.3, 2.16).unwrap_err().quantity(), Some("opening depth"));
    assert_eq!(net(1.6, 1.55).unwrap_err().quantity(), Some("opening diameter"));
}

#[test]
fn classes_change_where_the_table_says() {
    let job = Difficulty {
        depth: M(3.0),
        host_nominal: M(0.15),
        sizes_up: 1.0,
        length: M(100.0),
        trench: None,
        soil: None,
        edition: DifficultyEdition::Asce2007,
    };
    let depth = |feet: f64| difficulty(&Difficulty { depth: Length::feet(feet), ..job }).unwrap();
    let classes = [11.99, 12.0, 18.0, 18.01].map(|feet| depth(feet).depth);
    use DifficultyClass::{A, B, C};
    assert_eq!(classes, [A, B, B, C]);
    let length = |feet: f64| difficulty(&Difficulty { length: Length::feet(feet), ..job }).unwrap();
    assert_eq!([349.9, 350.0, 450.0, 450.1].map(|feet| length(feet).length), [A, B, B, C]);
    let host = |mm: f64| {
        difficulty(&Difficulty { host_nominal: Length::millimetres(mm), ..job }).map(|c| c.host)
    };
    let inches = |inches: f64| host(inches * 25.4);
    assert_eq!(
        [100.0, 299.0, 300.0, 499.0, 500.0, 900.0].map(|d| host(d).unwrap()),
        [A, A, B, B, C, C]
    );
    assert_eq!([4.0, 10.0, 12.0, 18.0, 20.0, 36.0].map(|d| inches(d).unwrap()), [A, A, B, B, C, C]);
    assert!(host(99.0).is_err() && host(920.0).is_err());
    let trench = |width: f64| {
        difficulty(&Difficulty {
            trench: Some((Length::inches(width), Length::inches(10.0))),
            ..job
        })
    };
    assert_eq!([13.9, 14.0].map(|w| trench(w).unwrap().trench), [Some(B), Some(A)]);
    assert!(trench(9.9).is_err());
    assert!(difficulty(&Difficulty { sizes_up: 0.5, ..job }).is_err());
}

#[test]
fn two_criteria_in_the_worst_class_count_as_combined_unless_it_is_a() {
    let easy = Difficulty {
        depth: M(1.5),
        host_nominal: M(0.15),
        sizes_up: 0.0,
        length: M(60.0),
        trench: None,
        soil: Some(Soil::Compressible),
        edition: DifficultyEdition::Asce2007,
    };
    assert!(!difficulty(&easy).unwrap().combined);
    let one = Difficulty { soil: Some(Soil::Incompressible), ..easy };
    let two = Difficulty { sizes_up: 3.0, ..one };
    let (one, two) = (difficulty(&one).unwrap(), difficulty(&two).unwrap());
    assert_eq!((one.overall, one.combined), (DifficultyClass::C, false));
    assert_eq!((two.overall, two.combined), (DifficultyClass::C, true));
}

#[test]
fn figures_are_finite_ordered_and_have_a_source() {
    let single = [CONTACT_LENGTHS, COUPLING_FACTORS, LOSS_RATIOS, RESTART_FACTORS];
    let wall = [SPREAD_FACTORS, MOBILISATION];
    let tables = [
        HOST_STRENGTHS,
        DISTANCES,
        FRICTIONS,
        PIT_ALLOWANCES,
        MACHINE_PITS,
        RUN_LENGTHS,
        RIG_PULLS,
        PLASTIC_PULL_LIMITS,
        EXPANSIONS,
        RATES,
        VIBRATION_LIMITS,
    ];
    let all = tables.into_iter().flatten().chain(&single).chain(&wall);
    let mut seen = 0;
    for figure in all {
        seen += 1;
        assert!(figure.low_si() > 0.0 && figure.low_si().is_finite(), "{figure}");
        assert!(figure.high_si().is_none_or(|h| h.is_finite() && h >= figure.low_si()), "{figure}");
        assert!(!figure.what.is_empty() && !figure.source.text.is_empty());
        assert_ne!(figure.source.evidence, working::Evidence::Given, "{figure}");
    }
    assert!(seen > 50, "{seen}");
    assert_eq!(RESTART_FACTORS.to_string(), "drag at restart over drag while moving: 1.2 to 1.5");
}

#[test]
fn no_number_however_wild_makes_a_result_that_is_none() {
    let wild = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 1e-300, 1e300, 0.5];
    for a in wild {
        for b in wild {
            for c in wild {
                finite(displaced_volume(M(a), M(b)));
                finite(residual_volume(&string(a, b, c), M(0.1)));
                finite(cone_force(M(a), M(b), Angle::radians(c), 0.3, KPA(10.0)).map(Force::si));
                finite(cavity_clay(KPA(a), KPA(b), KPA(c), M(0.1), M(0.2)).map(Pressure::si));
                let phi = Angle::radians(b);
                finite(cavity_sand(KPA(a), phi, KPA(c), M(0.1), M(0.2)).map(Pressure::si));
                finite(cavity_clay(KPA(1.0), KPA(1.0), KPA(a), M(b), M(c)).map(Pressure::si));
                finite(shallow_cap(KN_M3(a), M(b), M(c), 0.5).map(Pressure::si));
                finite(breaking_force(M(a), KPA(b), M(c), DEG(15.0), 0.3).map(Force::si));
                finite(drag_prism(KN_M3(a), M(b), M(c), M(10.0), 0.3).map(Force::si));
                finite(drag_guide(KN_M3(a), M(b), M(c), M(10.0), 0.3).map(|g| g.force.si()));
                let deep = SiloGround { cover: M(a), stress_ratio: b, ..ground(1.0, 1.0, 0.0) };
                finite(drag_silo(&deep, M(c), M(0.2), M(1.0), 0.3).map(|s| s.force.si()));
                let passive = DEG(c);
                let wall = reaction_wall(M(a), M(0.5), M(b), KN_M3(18.0), passive, KPA(1.0));
                finite(wall.map(Force::si));
                finite(ramp_pit(M(a), Angle::radians(b), M(c)).map(|r| r.length.si()));
                finite(burst_clearance(M(a), M(b)).map(|r| r.separation_dense.si()));
                finite(lubricant(M(a), M(b), M(b), M(c), 1.0).map(|l| l.article.si()));
            }
        }
    }
}

fn finite(result: Result<f64, PublishedError>) {
    if let Ok(value) = result {
        assert!(value.is_finite());
    }
}

proptest! {
    #[test]
    fn drag_grows_with_length_diameter_and_depth_except_at_the_steps_of_the_guide(
        cover in 0.2f64..6.0, d in 0.1f64..0.8, length in 10.0f64..200.0, more in 1.001f64..1.2,
    ) {
        let gamma = KN_M3(18.0);
        let prism = |h: f64, d: f64, l: f64| drag_prism(gamma, M(h), M(d), M(l), 0.3).unwrap();
        let guide = |h: f64, d: f64, l: f64| drag_guide(gamma, M(h), M(d), M(l), 0.3).unwrap();
        let silo = |h: f64, d: f64, l: f64| {
            drag_silo(&ground(h, 0.5, 0.0), M(d + 0.1), M(d), M(l), 0.3).unwrap().force
        };
        prop_assert!(prism(cover, d, length * more) > prism(cover, d, length));
        prop_assert!(prism(cover, d * more, length) > prism(cover, d, length));
        prop_assert!(prism(cover * more, d, length) > prism(cover, d, length));
        prop_assert!(silo(cover, d, length * more) > silo(cover, d, length));
        prop_assert!(silo(cover, d * more, length) > silo(cover, d, length));
        prop_assert!(silo(cover * more, d, length) > silo(cover, d, length));
        let here = guide(cover, d, length);
        prop_assert!(guide(cover, d, length * more).force > here.force);
        prop_assert!(guide(cover, d * more, length).force > here.force);
        let deeper = guide(cover * more, d, length);
        prop_assert_eq!(deeper.force > here.force, deeper.depth_share == here.depth_share
            || more * deeper.depth_share > here.depth_share);
    }

    #[test]
    fn drag_of_sockets_runs_straight_from_the_open_to_the_collapsed_hole(
        barrel in 0.1f64..0.8, extra in 0.0f64..0.2, socket in 0.0f64..0.3,
        share in 0.0f64..1.0, stress in 1.0f64..60.0, length in 1.0f64..200.0,
    ) {
        let s = string(barrel, extra, socket);
        let at = |share: f64| drag_sockets(&s, KPA(stress), M(length), share, 0.3).unwrap().force.si();
        let line = at(0.0) + share * (at(1.0) - at(0.0));
        prop_assert!(close(at(share), line, 1e-12));
        // A string without sockets in a collapsed hole is a barrel.
        let plain = string(barrel, 0.0, socket);
        let whole = drag_sockets(&plain, KPA(stress), M(length), 1.0, 0.3).unwrap().force;
        let barrel = barrel_drag(KPA(stress), M(barrel), M(length), 0.3).unwrap();
        prop_assert!(close(whole.si(), barrel.si(), 1e-12));
    }

    #[test]
    fn a_silo_never_bears_more_than_the_prism_and_is_it_where_wide(
        cover in 0.0f64..10.0, k in 0.2f64..2.0, expander in 0.1f64..1.0, q in 0.0f64..30.0,
    ) {
        let surcharge = KPA(q);
        let ground = SiloGround { surcharge, ..ground(cover, k, 0.0) };
        let prism = prism_stress(KN_M3(18.0), M(cover), surcharge).unwrap();
        let (_, narrow) = silo_stress(&ground, M(expander)).unwrap();
        let (_, wide) = silo_stress(&ground, M(1e7)).unwrap();
        prop_assert!(narrow.si() <= prism.si() * (1.0 + 1e-12));
        prop_assert!(close(wide.si(), prism.si(), 1e-5));
    }

    #[test]
    fn a_cavity_resists_more_the_further_it_grows_and_both_branches_meet(
        p0 in 5.0f64..60.0, strength in 5.0f64..150.0, g in 500.0f64..20_000.0,
        phi in 5.0f64..45.0, grow in 1.0f64..2.0, more in 1.0001f64..1.2,
    ) {
        let (p0, g) = (KPA(p0), KPA(g));
        let clay = |r: f64| cavity_clay(p0, KPA(strength), g, M(0.1), M(0.1 * r)).unwrap();
        let sand = |r: f64| cavity_sand(p0, DEG(phi), g, M(0.1), M(0.1 * r)).unwrap();
        prop_assert!(clay(grow * more) > clay(grow) && sand(grow * more) > sand(grow));
        let yields = [p0 + KPA(strength), p0 * (1.0 + DEG(phi).si().sin())];
        for (yield_at, strain, of) in [
            (yields[0], KPA(strength) / g, &clay as &dyn Fn(f64) -> Pressure),
            (yields[1], p0 * DEG(phi).si().sin() / g, &sand),
        ] {
            let r = 1.0 / (1.0 - strain).sqrt();
            for side in [r * (1.0 - 1e-9), r * (1.0 + 1e-9)] {
                prop_assert!(close(of(side).si(), yield_at.si(), 1e-5), "{} {}", of(side), yield_at);
            }
        }
    }

    #[test]
    fn cones_in_series_add_up_and_friction_only_adds(
        host in 0.08f64..0.4, a in 0.0f64..0.2, b in 0.0f64..0.2,
        alpha in 5.0f64..40.0, mu in 0.0f64..0.9,
    ) {
        let cone = |from: f64, to: f64, mu: f64| {
            cone_force(M(from), M(to), DEG(alpha), mu, KPA(280.0)).unwrap().si()
        };
        let (middle, end) = (host + a, host + a + b);
        prop_assert!(close(cone(host, middle, mu) + cone(middle, end, mu), cone(host, end, mu), 1e-9));
        prop_assert!(cone(host, end, mu) >= cone(host, end, 0.0));
    }

    #[test]
    fn the_rig_carries_string_and_head_and_the_string_never_the_head(
        breaking in 0.0f64..900.0, cone in 0.0f64..100.0, drag in 0.0f64..400.0,
        slope in -5.0f64..20.0, restart in 1.0f64..1.5, turn in 0.0f64..40.0,
    ) {
        let weight = string_weight(ForcePerLength::from_si(900.0), M(100.0), DEG(slope), 0.3).unwrap();
        let kn = Force::kilonewtons;
        let parts = BurstParts {
            breaking: kn(breaking), cone: kn(cone), drag: kn(drag), weight, rods: kn(3.0),
        };
        let curve = curve_factor(DEG(turn), 0.3).unwrap();
        let factors = BurstFactors { restart, string_curve: curve, rod_curve: 1.0 };
        let pull = burst_pull(&parts, &factors).unwrap();
        prop_assert!(close(pull.rig.si(), (pull.string + pull.head + kn(3.0)).si(), 1e-12));
        let headless = BurstParts { breaking: Force::ZERO, cone: Force::ZERO, ..parts };
        prop_assert_eq!(burst_pull(&headless, &factors).unwrap().string, pull.string);
        let moving = BurstFactors { restart: 1.0, ..factors };
        prop_assert!(burst_pull(&parts, &moving).unwrap().string <= pull.string);
    }

    #[test]
    fn turns_multiply(a in 0.0f64..90.0, b in 0.0f64..90.0, mu in 0.0f64..1.0) {
        let factor = |turn: f64| curve_factor(DEG(turn), mu).unwrap();
        prop_assert!(close(factor(a) * factor(b), factor(a + b), 1e-12));
        prop_assert_eq!(factor(0.0), 1.0);
    }

    #[test]
    fn plates_side_by_side_and_one_above_the_other_add_up(
        width in 0.5f64..4.0, top in 0.0f64..2.0, a in 0.1f64..2.0, b in 0.1f64..2.0,
        phi in 0.0f64..40.0, c in 0.0f64..80.0,
    ) {
        let wall = |width: f64, from: f64, to: f64| {
            reaction_wall(M(width), M(from), M(to), KN_M3(19.0), DEG(phi), KPA(c)).unwrap().si()
        };
        let whole = wall(width, top, top + a + b);
        prop_assert!(close(wall(width, top, top + a) + wall(width, top + a, top + a + b), whole, 1e-9));
        prop_assert!(close(2.0 * wall(width, top, top + a), wall(2.0 * width, top, top + a), 1e-12));
    }

    #[test]
    fn the_ramp_of_a_string_lies_on_its_circle(
        lp in 3.0f64..8.0, theta in 0.5f64..5.0, depth in 0.5f64..5.0,
    ) {
        let pit = ramp_pit(M(lp), DEG(theta), M(depth)).unwrap();
        let (r, s) = (pit.radius.si(), pit.length.si());
        prop_assert!(close(s, (2.0 * r * depth - depth * depth).sqrt(), 1e-9));
        prop_assert!(close(s.hypot(r - depth), r, 1e-12));
        prop_assert!(close(pit.angle.si().cos(), 1.0 - depth / r, 1e-12));
    }

    #[test]
    fn ground_that_moves_aside_stays_or_comes_back(
        host in 0.08f64..0.3, barrel in 0.1f64..0.5, extra in 0.02f64..0.1, clearance in 0.0f64..0.05,
    ) {
        let s = string(barrel, extra, 0.15);
        let expander = expander_diameter(s.socket_diameter, Length::ZERO, M(clearance)).unwrap();
        prop_assume!(expander.si() >= host);
        let displaced = displaced_volume(expander, M(host)).unwrap();
        let residual = residual_volume(&s, M(host)).unwrap();
        let closing = closing_volume(expander, &s, M(host)).unwrap();
        prop_assert!(close(residual + closing, displaced, 1e-9));
        prop_assert!(closing > 0.0);
    }

    #[test]
    fn a_wider_expander_is_never_a_smaller_upsize(
        expander in 0.1f64..1.3, more in 1.0f64..1.1, host in 0.1f64..0.9,
    ) {
        let sizes = |d: f64| sizes_up(M(d), M(host)).unwrap();
        prop_assert!(sizes(expander * more) >= sizes(expander));
        prop_assert!(upsize_class(M(expander * more), M(host)).unwrap() >= upsize_class(M(expander), M(host)).unwrap());
        let size = equivalent_plastic_size(M(expander), PlasticSeries::Metric).unwrap();
        prop_assert!(size.outside_diameter >= size.least_diameter * (1.0 - 1e-9));
    }
}

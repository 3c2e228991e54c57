//! Limits that any implementation of the chain must reproduce.

use line::{Element, Line, Start};
use proptest::prelude::*;
use quantity::{Angle, Force, ForcePerLength, Length, Pressure};

use super::*;
use crate::published::{SoftString, SoftStringElement, soft_string};

/// A line described from the pipe side, as the pull goes: `(length, 0)` is straight, `(radius, turn)` an arc whose
/// turn is positive upwards in the direction of the pull.
fn pulled(inclination: f64, parts: &[Part]) -> Line {
    // The line itself runs the other way: reverse the order; a rise in the pull is a fall along md.
    let mut end = inclination;
    for part in parts {
        if let Part::Rise(_, turn) = part {
            end += turn;
        }
    }
    let elements: Vec<Element> = parts
        .iter()
        .rev()
        .map(|part| match *part {
            Part::Straight(length) => Element::Straight { length: Length::metres(length) },
            Part::Rise(radius, turn) => Element::Arc {
                radius: Length::metres(radius),
                turn: Angle::degrees(turn.abs()),
                // Seen against the pull the same curve still opens upwards.
                toolface: Angle::degrees(if turn > 0.0 { 0.0 } else { 180.0 }),
            },
            Part::Right(radius, turn) => Element::Arc {
                radius: Length::metres(radius),
                turn: Angle::degrees(turn.abs()),
                toolface: Angle::degrees(if turn > 0.0 { 90.0 } else { -90.0 }),
            },
        })
        .collect();
    let start =
        Start { level: Length::ZERO, inclination: Angle::degrees(-end), azimuth: Angle::ZERO };
    Line::from_elements(start, &elements).unwrap()
}

#[derive(Clone, Copy)]
enum Part {
    Straight(f64),
    Rise(f64, f64),
    Right(f64, f64),
}

const JOINED: &[(Length, Length)] = &[];

fn setup(line: &Line) -> Setup<'_> {
    Setup {
        line,
        bore_diameter: Length::millimetres(750.0),
        laying_length: Length::metres(6.0),
        barrel_diameter: Length::millimetres(439.0),
        socket_diameter: Length::millimetres(520.0),
        net_weight: ForcePerLength::newtons_per_metre(-700.0),
        friction: 0.3,
        fluid_stress: Pressure::pascals(50.0),
        head_link: Length::ZERO,
        outside: Outside {
            weight: ForcePerLength::newtons_per_metre(1000.0),
            friction: 0.1,
            slope: Angle::ZERO,
            joined: JOINED,
        },
    }
}

fn head_force(s: &Setup<'_>) -> f64 {
    let chain = ChainSetup::new(s).unwrap();
    pull(&chain, 1).unwrap().heads.last().unwrap().force.si()
}

/// A tail that gives a chosen pull at the mouth.
fn with_tail(s: &mut Setup<'_>, force: f64, joined: &'static mut [(Length, Length); 1]) {
    joined[0] = (s.line.length() + Length::metres(100.0), s.line.length());
    s.outside.weight = ForcePerLength::newtons_per_metre(force / 10.0);
    s.outside.joined = joined;
}

fn leak() -> &'static mut [(Length, Length); 1] {
    Box::leak(Box::new([(Length::ZERO, Length::ZERO)]))
}

#[test]
fn a_weightless_chain_on_an_arc_multiplies_the_tension_joint_by_joint() {
    // 20 barrels of exactly 1.5 degrees each; held on the axis, so that every joint turns alike.
    let delta = 1.5f64.to_radians();
    let radius = 6.0 / (2.0 * (delta / 2.0).sin());
    let line = pulled(0.0, &[Part::Rise(radius, 30.0)]);
    let mut s = setup(&line);
    s.bore_diameter = s.socket_diameter;
    s.net_weight = ForcePerLength::ZERO;
    s.fluid_stress = Pressure::ZERO;
    with_tail(&mut s, 100e3, leak());
    let half = delta / 2.0;
    let ratio = |d: f64| (d.cos() + 0.3 * d.sin()) / (d.cos() - 0.3 * d.sin());
    // 19 joints turn by δ, mouth and head by δ/2 each.
    let exact = 100e3 * ratio(half).powi(19) * ratio(half / 2.0).powi(2);
    approx::assert_relative_eq!(head_force(&s), exact, max_relative = 1e-9);
    approx::assert_relative_eq!(
        exact,
        100e3 * (0.3 * 30f64.to_radians()).exp(),
        max_relative = 1e-5
    );
}

#[test]
fn a_straight_incline_sums_weight_friction_and_drag_exactly() {
    for (incline, weight) in [(-10.0, -1000.0), (10.0, 800.0), (0.0, -500.0), (12.0, -300.0)] {
        let line = pulled(incline, &[Part::Straight(60.0)]);
        let mut s = setup(&line);
        s.net_weight = ForcePerLength::newtons_per_metre(weight);
        s.bore_diameter = s.socket_diameter;
        let angle = f64::to_radians(incline);
        let drag = 50.0 * std::f64::consts::PI * 0.439;
        let per_metre = weight * angle.sin() + 0.3 * weight.abs() * angle.cos() + drag;
        approx::assert_relative_eq!(head_force(&s), 60.0 * per_metre, max_relative = 1e-9);
        // With play the string rides on the wall up to the head, which is held on the axis: the way from the wall to
        // the axis against the net weight costs w·g, and the tilted last barrel a little of second order.
        s.bore_diameter = Length::millimetres(750.0);
        let difference = head_force(&s) - 60.0 * per_metre;
        assert!(difference.abs() <= weight.abs() * 0.115 + 20.0, "{incline} deg: {difference} N");
    }
}

/// The chain against the soft string on the same path, both without play.
fn soft(inclination: f64, parts: &[Part], s: &Setup<'_>, tail: f64) -> f64 {
    let mut path = Vec::new();
    let mut i = f64::to_radians(inclination);
    for part in parts {
        let (length, di, da) = match *part {
            Part::Straight(length) => (length, 0.0, 0.0),
            Part::Rise(r, turn) => (r * turn.to_radians().abs(), turn.to_radians(), 0.0),
            Part::Right(r, turn) => (r * turn.to_radians().abs(), 0.0, turn.to_radians()),
        };
        let n = 4000;
        for k in 0..n {
            let f = 1.0 / f64::from(n);
            path.push(SoftStringElement {
                length: Length::metres(length * f),
                inclination: Angle::from_si(i + di * f * (f64::from(k) + 0.5)),
                inclination_change: Angle::from_si(di * f),
                azimuth_change: Angle::from_si(da * f),
            });
        }
        i += di;
    }
    let string = SoftString {
        diameter: s.barrel_diameter,
        net_weight: s.net_weight,
        friction: s.friction,
        fluid_stress: s.fluid_stress,
    };
    soft_string(&string, Force::newtons(tail), &path).unwrap().last().unwrap().si()
}

const CROSSING: &[Part] = &[
    Part::Straight(48.0),
    Part::Rise(250.0, 10.0),
    Part::Straight(60.0),
    Part::Right(300.0, 8.0),
    Part::Straight(48.0),
    Part::Rise(250.0, 12.0),
    Part::Straight(36.0),
];

#[test]
fn without_play_shorter_barrels_converge_to_the_soft_string() {
    let line = pulled(-10.0, CROSSING);
    let mut s = setup(&line);
    s.bore_diameter = s.socket_diameter;
    let reference = soft(-10.0, CROSSING, &s, 0.0);
    let coarse = (head_force(&s) / reference - 1.0).abs();
    s.laying_length = Length::metres(0.6);
    let fine = (head_force(&s) / reference - 1.0).abs();
    assert!(
        fine < 1e-3 && coarse < 0.02,
        "6 m barrels differ by {coarse:.2e}, 0.6 m by {fine:.2e}"
    );
    assert!(fine < coarse, "6 m barrels differ by {coarse:.2e}, 0.6 m by {fine:.2e}");
}

/// The DN 600 crossing whose soft string was computed apart from this program in steps of 0.05 m, kN: empty with
/// friction 0.3 and 50 Pa, 0.3 and 172.4 Pa, 0.2 and 50 Pa, 0.3 without drag; and weightless by ballast.
#[test]
fn the_dn_600_crossing_comes_out_as_the_soft_string_without_play() {
    let parts = [
        Part::Straight(60.0),
        Part::Rise(250.0, 10.0),
        Part::Straight(120.0),
        Part::Rise(250.0, 12.0),
        Part::Straight(50.0),
    ];
    let line = pulled(-10.0, &parts);
    approx::assert_abs_diff_eq!(line.length().si(), 325.993, epsilon = 1e-3);
    let mut s = setup(&line);
    s.barrel_diameter = Length::millimetres(635.0);
    s.socket_diameter = Length::millimetres(742.0);
    s.bore_diameter = s.socket_diameter;
    for (weight, friction, stress, expected) in [
        (-1855.93, 0.3, 50.0, 226.00),
        (-1855.93, 0.3, 172.4, 310.69),
        (-1855.93, 0.2, 50.0, 157.80),
        (-1855.93, 0.3, 0.0, 191.41),
        (0.0, 0.3, 50.0, 34.60),
    ] {
        s.net_weight = ForcePerLength::newtons_per_metre(weight);
        s.friction = friction;
        s.fluid_stress = Pressure::pascals(stress);
        // 6 m barrels turn by 1.4 degrees at a joint; the capstan of a chain differs by less than 0.1 %.
        approx::assert_relative_eq!(head_force(&s) / 1e3, expected, max_relative = 4e-3);
    }
}

/// An independent program, written from the method's description alone: line by integration, positions by a second-order
/// cone solver over all joints in space, friction along the bore axis. Empty DN 600 in a bore of 1.5 times the socket.
#[test]
fn an_independent_program_finds_the_same_forces_angles_and_gaps() {
    let parts = [
        Part::Straight(60.0),
        Part::Rise(250.0, 10.0),
        Part::Straight(120.0),
        Part::Rise(250.0, 12.0),
        Part::Straight(50.0),
    ];
    let line = pulled(-10.0, &parts);
    let mut s = setup(&line);
    s.barrel_diameter = Length::millimetres(635.0);
    s.socket_diameter = Length::millimetres(742.0);
    s.bore_diameter = Length::millimetres(1113.0);
    s.net_weight = ForcePerLength::newtons_per_metre(-1727.917);
    s.head_link = Length::metres(1.5);
    s.outside.weight = ForcePerLength::newtons_per_metre(1710.3);
    let joined: &'static [(Length, Length)] =
        Box::leak(Box::new([(Length::metres(336.0), line.length())]));
    s.outside.joined = joined;
    let heads = pull(&ChainSetup::new(&s).unwrap(), 1).unwrap().heads;
    // head's measured distance, kN, largest angle in degrees, largest side force in kN, smallest gap in mm
    for (md, force, angle, side, gap) in [
        (0.0, 212.17, 1.376, 14.954, 35.5),
        (140.0, 167.62, 1.376, 13.077, 35.5),
        (314.0, 64.88, 0.518, 9.637, 53.5),
    ] {
        let head = heads
            .iter()
            .min_by(|a, b| (a.md.si() - md).abs().total_cmp(&(b.md.si() - md).abs()))
            .unwrap();
        approx::assert_relative_eq!(head.force.si() / 1e3, force, max_relative = 1.5e-3);
        approx::assert_abs_diff_eq!(head.angle.value.to_degrees(), angle, epsilon = 0.005);
        approx::assert_relative_eq!(head.side_force.value.si() / 1e3, side, max_relative = 3e-3);
        approx::assert_abs_diff_eq!(head.clearance.value.to_millimetres(), gap, epsilon = 0.6);
    }
}

#[test]
fn mirroring_and_turning_the_line_leave_every_scalar_unchanged() {
    let line = pulled(-10.0, CROSSING);
    let (mirrored, turned) = (line.mirrored(), line.rotated(Angle::degrees(77.0)));
    let run = |l: &Line| pull(&ChainSetup::new(&setup(l)).unwrap(), 1).unwrap();
    let reference = run(&line);
    for other in [run(&mirrored), run(&turned)] {
        assert_eq!(reference.heads.len(), other.heads.len());
        for (a, b) in reference.heads.iter().zip(&other.heads) {
            approx::assert_relative_eq!(a.force.si(), b.force.si(), max_relative = 2e-4);
            approx::assert_abs_diff_eq!(a.angle.value.si(), b.angle.value.si(), epsilon = 1e-4);
            approx::assert_abs_diff_eq!(
                a.clearance.value.si(),
                b.clearance.value.si(),
                epsilon = 2e-4
            );
        }
    }
}

#[test]
fn ballast_that_makes_the_weight_zero_takes_away_the_friction_on_straights() {
    let line = pulled(0.0, &[Part::Straight(120.0)]);
    let mut s = setup(&line);
    s.net_weight = ForcePerLength::ZERO;
    s.fluid_stress = Pressure::ZERO;
    assert_eq!(head_force(&s), 0.0);
}

#[test]
fn more_play_never_raises_the_force_on_a_planar_sag_bend() {
    let line =
        pulled(-12.0, &[Part::Straight(30.0), Part::Rise(220.0, 24.0), Part::Straight(30.0)]);
    for weight in [-900.0, -200.0, 300.0] {
        let mut s = setup(&line);
        s.net_weight = ForcePerLength::newtons_per_metre(weight);
        with_tail(&mut s, 150e3, leak());
        let mut last = f64::INFINITY;
        for bore in [520.0, 600.0, 700.0, 800.0] {
            s.bore_diameter = Length::millimetres(bore);
            let force = head_force(&s);
            // Held on the axis, the head takes the string off the wall: the net weight works against that way.
            let end = weight.abs() * (bore - 520.0) / 2000.0;
            assert!(
                force - end <= last * (1.0 + 1e-4),
                "{weight} N/m, bore {bore} mm: {force} after {last}"
            );
            last = last.min(force);
        }
    }
}

#[test]
fn a_string_that_runs_ahead_is_told_and_not_pushed() {
    let line = pulled(-25.0, &[Part::Straight(60.0)]);
    let mut s = setup(&line);
    s.net_weight = ForcePerLength::newtons_per_metre(2000.0);
    s.fluid_stress = Pressure::ZERO;
    let chain = ChainSetup::new(&s).unwrap();
    let last = pull(&chain, 1).unwrap().heads.pop().unwrap();
    assert_eq!(last.force.si(), 0.0);
    assert!(last.held_back.si() > 0.0);
}

#[test]
fn a_tail_on_a_steep_ramp_must_be_held_back() {
    let line = pulled(0.0, &[Part::Straight(60.0)]);
    let mut s = setup(&line);
    let joined: &'static [(Length, Length)] =
        Box::leak(Box::new([(Length::metres(100.0), line.length())]));
    s.outside.joined = joined;
    s.outside.slope = Angle::degrees(-20.0);
    let heads = pull(&ChainSetup::new(&s).unwrap(), 1).unwrap().heads;
    let slope = 20f64.to_radians();
    let exact = 1000.0 * 100.0 * (slope.sin() - 0.1 * slope.cos());
    approx::assert_relative_eq!(heads[0].held_back.si(), exact, max_relative = 1e-9);
    assert_eq!(heads[0].force.si(), 0.0);
    assert!(heads[3].held_back.si() > 0.6 * exact);
}

#[test]
fn a_barrel_beside_the_wall_keeps_the_height_of_its_socket() {
    let line = pulled(0.0, &[Part::Straight(120.0)]);
    let mut s = setup(&line);
    s.head_link = Length::metres(3.0);
    let (position, joints) = state_at(&ChainSetup::new(&s).unwrap(), line.length()).unwrap();
    // Floating at the crown: the sockets of 520 mm touch, the barrels of 439 mm do not.
    approx::assert_abs_diff_eq!(joints[8].clearance_ahead.to_millimetres(), 40.5, epsilon = 1e-6);
    approx::assert_abs_diff_eq!(joints[8].up.to_millimetres(), 115.0, epsilon = 1e-6);
    assert!(position.clearance.value.to_millimetres() <= 40.5 + 1e-6);
}

#[test]
fn states_agree_with_the_summary_of_the_same_head() {
    let line = pulled(-10.0, CROSSING);
    let chain = ChainSetup::new(&setup(&line)).unwrap();
    let (position, joints) = state_at(&chain, line.length()).unwrap();
    let last = joints.last().unwrap();
    assert_eq!(last.tension_ahead, position.force);
    let whole = pull(&chain, 1).unwrap();
    approx::assert_relative_eq!(
        whole.heads.last().unwrap().force.si(),
        position.force.si(),
        max_relative = 1e-3
    );
    assert!(joints.windows(2).all(|w| w[1].md < w[0].md));
    assert!(state_at(&chain, Length::ZERO).is_err());
}

#[test]
fn a_start_after_a_stop_costs_more_wall_friction_and_no_more_rollers() {
    let line = pulled(0.0, &[Part::Straight(120.0)]);
    let mut s = setup(&line);
    s.bore_diameter = s.socket_diameter;
    with_tail(&mut s, 40e3, leak());
    let moving = ChainSetup::new(&s).unwrap();
    let start = moving.restarted(1.3, Pressure::pascals(80.0));
    let force = |c: &ChainSetup<'_>| pull(c, 1).unwrap().heads.last().unwrap().force.si();
    let drag = std::f64::consts::PI * 0.439 * 120.0;
    let friction = 0.3 * 700.0 * 120.0;
    approx::assert_relative_eq!(
        force(&moving),
        4e3 * 10.0 + friction + 50.0 * drag,
        max_relative = 1e-9
    );
    approx::assert_relative_eq!(
        force(&start),
        4e3 * 10.0 + 1.3 * friction + 80.0 * drag,
        max_relative = 1e-9
    );
}

#[test]
fn sockets_larger_than_the_bore_and_bad_numbers_are_refused() {
    let line = pulled(0.0, &[Part::Straight(60.0)]);
    let mut s = setup(&line);
    s.bore_diameter = Length::millimetres(500.0);
    assert!(matches!(ChainSetup::new(&s), Err(ChainError::DoesNotFit { .. })));
    let mut s = setup(&line);
    s.friction = f64::NAN;
    let message = ChainSetup::new(&s).unwrap_err().to_string();
    assert_eq!(message, "friction must be 0 to 2, but was NaN");
}

#[test]
fn rods_obey_the_capstan_and_the_incline() {
    let line = pulled(0.0, &[Part::Straight(10.0), Part::Rise(200.0, 20.0)]);
    let mut rods = RodString {
        net_weight: ForcePerLength::ZERO,
        diameter: Length::millimetres(127.0),
        friction: 0.3,
        fluid_stress: Pressure::ZERO,
    };
    let force = pull_through_rods(
        &RodPath::new(&line),
        &rods,
        Length::metres(5.0),
        Force::kilonewtons(100.0),
    );
    let exact = 100.0 * (0.3 * 20f64.to_radians()).exp();
    approx::assert_relative_eq!(force.to_kilonewtons(), exact, max_relative = 2e-5);
    let incline = pulled(10.0, &[Part::Straight(100.0)]);
    rods.net_weight = ForcePerLength::newtons_per_metre(400.0);
    rods.fluid_stress = Pressure::pascals(50.0);
    let force =
        pull_through_rods(&RodPath::new(&incline), &rods, Length::metres(20.0), Force::ZERO);
    let i = 10f64.to_radians();
    let exact = 80.0 * (400.0 * (i.sin() + 0.3 * i.cos()) + 50.0 * std::f64::consts::PI * 0.127);
    approx::assert_relative_eq!(force.si(), exact, max_relative = 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn any_ordinary_crossing_settles(
        down in 6.0f64..16.0, up in 6.0f64..16.0, r1 in 120.0f64..600.0, r2 in 120.0f64..600.0,
        plan in -20.0f64..20.0, level in 12.0f64..200.0, weight in -6000.0f64..3000.0,
        ratio in 1.0f64..1.8, friction in 0.0f64..0.6,
    ) {
        let parts = [
            Part::Straight(20.0), Part::Rise(r1, down), Part::Straight(level / 2.0), Part::Right(400.0, plan),
            Part::Straight(level / 2.0), Part::Rise(r2, up), Part::Straight(20.0),
        ];
        let line = pulled(-down, &parts);
        let mut s = setup(&line);
        s.net_weight = ForcePerLength::newtons_per_metre(weight);
        s.bore_diameter = s.socket_diameter * ratio;
        s.friction = friction;
        with_tail(&mut s, 50e3, leak());
        let chain = ChainSetup::new(&s).unwrap();
        let result = pull(&chain, 1).unwrap();
        for head in &result.heads {
            prop_assert!(head.force.is_finite() && head.force.si() >= 0.0);
            prop_assert!(head.angle.value.si() < 0.2);
        }
    }
}

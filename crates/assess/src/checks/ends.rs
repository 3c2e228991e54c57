//! Checks of both ends of the line: how steep, how long straight.

use quantity::{Angle, Length, unit};
use working::{Evidence, Source};

use super::{GEOMETRY, degrees, metres};
use crate::assessment::Stage;
use crate::context::Context;
use crate::item::{About, Item};
use crate::quoted::from_line;

/// Steepness at the rig side.
pub(super) fn entry_angle(c: &Context<'_>) -> Item {
    let p = c.project;
    let angle = p.line.sample(0.0).inclination * -1.0;
    let basis = p.source_of("/factors/entry_angle_limit");
    let because = format!(
        "the bore starts at {angle}; rigs work between 8 and 20 deg, and a steeper start asks for more depth in the entry curve"
    );
    About::new("line.entry-angle", "entry angle", Stage::Design, basis)
        .rule()
        .at_most(degrees(angle), degrees(p.factors.entry_angle_limit), p.factors.attention, because)
        .at(Length::ZERO)
        .worked(c.working(|w| {
            from_line(w, "beta", "entry angle, from the horizontal", angle.si(), unit::DEG);
            w.given_from(
                "beta_max",
                "steepest entry angle",
                p.factors.entry_angle_limit.si(),
                unit::DEG,
                p.source_of("/factors/entry_angle_limit"),
            );
            w.derive("U", "utilisation", "beta/beta_max", unit::ONE, GEOMETRY);
        }))
}

/// Steepness at the pipe side.
pub(super) fn exit_angle(c: &Context<'_>) -> Item {
    let p = c.project;
    let end = p.line.length();
    let angle = p.line.sample(end.si()).inclination;
    let slope = p.string.ramp_slope;
    let hump = (angle + slope).max(Angle::ZERO);
    let overbend = line::overbend(c.planned_radius().unwrap_or(Length::ZERO), hump);
    let lift = overbend.as_ref().map_or_else(
        |_| String::new(),
        |o| format!("; the string must be lifted {} over {} to follow it", o.height, o.length),
    );
    let because = format!("the string enters at {angle}{lift}");
    About::new(
        "line.exit-angle",
        "exit angle, at which the string enters",
        Stage::Design,
        p.source_of("/factors/exit_angle_limit"),
    )
    .rule()
    .at_most(degrees(angle), degrees(p.factors.exit_angle_limit), p.factors.attention, because)
    .at(end)
    .worked(c.working(|w| {
        from_line(w, "alpha", "exit angle, from the horizontal", angle.si(), unit::DEG);
        w.given_from(
            "alpha_max",
            "steepest exit angle",
            p.factors.exit_angle_limit.si(),
            unit::DEG,
            p.source_of("/factors/exit_angle_limit"),
        );
        w.derive("U", "utilisation", "alpha/alpha_max", unit::ONE, GEOMETRY);
        if let (Some(radius), Ok(hump)) = (c.planned_radius(), &overbend) {
            w.found(
                "R_min",
                "radius at which the string is lifted",
                "joint angle at the planned share of the allowable one (check line.radius-pipe)",
                radius.si(),
                unit::M,
                GEOMETRY,
            );
            let ramp = p.string.ramp_slope.si();
            w.given_from(
                "psi",
                "slope of the string outside",
                ramp,
                unit::DEG,
                p.source_of("/string/ramp_slope"),
            );
            w.derive("gamma", "angle of the hump", "max(alpha + psi, 0)", unit::DEG, GEOMETRY);
            w.result(
                "L_h",
                "length of the hump",
                "R_min*gamma",
                hump.length.si(),
                unit::M,
                GEOMETRY,
            );
            w.result(
                "H_h",
                "height to which the string is lifted",
                "R_min*(1 - cos(gamma))",
                hump.height.si(),
                unit::M,
                GEOMETRY,
            );
        }
    }))
}

/// Joint angle below which a bore counts as straight: published beside the permitted pull of a restrained joint, which
/// may be raised below it (R > 687 m with pipes of 6 m).
const STRAIGHT_BELOW: Angle = Angle::from_si(0.5 * std::f64::consts::PI / 180.0);

/// Length of the first stretch from an end that is straight or so nearly so that no joint notices.
fn lead(c: &Context<'_>, from_entry: bool) -> Length {
    let line = &c.project.line;
    let segments = line.segments();
    let a = c.project.string.pipe.laying_length();
    let flat =
        line::joint_polygon(a, STRAIGHT_BELOW).map_or(Length::metres(f64::MAX), |p| p.radius);
    let straight = |s: &&line::Segment| s.minimum_radius().is_none_or(|r| r >= flat);
    let sum = |it: &mut dyn Iterator<Item = &line::Segment>| -> Length {
        it.map(|s| s.md_end() - s.md_start()).sum()
    };
    if from_entry {
        sum(&mut segments.iter().take_while(straight))
    } else {
        sum(&mut segments.iter().rev().take_while(straight))
    }
}

/// Straight stretch before the first curve.
pub(super) fn straight_entry(c: &Context<'_>) -> Item {
    let p = c.project;
    let about = About::new(
        "line.straight-entry",
        "straight lead at the entry",
        Stage::Pilot,
        Source::new(
            "at least one full rod in the ground before the first curve: Najafi, Trenchless Technology Piping, p. 210",
            Evidence::Published,
        ),
    );
    let length = lead(c, true);
    let Some(rod) = p.bore.rods.length else {
        return about
            .not_assessed(&["/bore/rods/length"], "the length of a rod is not given")
            .acting(metres(length));
    };
    let because = format!("{length} are straight before the first curve; one rod is {rod}");
    about
        .rule()
        .at_least(metres(length), metres(rod), p.factors.attention, because)
        .at(Length::ZERO)
        .worked(c.working(|w| {
            from_line(w, "T1", "straight length from the entry point", length.si(), unit::M);
            w.given("l", "length of one rod", rod.si(), unit::M);
            w.derive("U", "utilisation", "l/T1", unit::ONE, GEOMETRY);
        }))
        .note("Large rigs usually keep 10 to 30 m or three rods straight (from memory).")
}

/// Straight stretch after the last curve.
pub(super) fn straight_exit(c: &Context<'_>) -> Item {
    let p = c.project;
    let length = lead(c, false);
    let a = p.string.pipe.laying_length();
    let because = format!(
        "{length} are straight before the exit point; one pipe is {a}, so that it enters without an angle at its joint"
    );
    let item = About::new(
        "line.straight-exit",
        "straight lead at the exit",
        Stage::Design,
        Source::new("one laying length, so that each pipe enters straight", Evidence::Judgement),
    )
    .rule()
    .at_least(metres(length), metres(a), p.factors.attention, because)
    .at(p.line.length())
    .worked(c.working(|w| {
        from_line(w, "T2", "straight length before the exit point", length.si(), unit::M);
        c.laying_length(w);
        w.derive("U", "utilisation", "a/T2", unit::ONE, GEOMETRY);
    }));
    // Without a source this is advice: the joint angle itself is checked elsewhere.
    item.advice()
}

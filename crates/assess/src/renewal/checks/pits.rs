//! The pits.

use project::Assembly;
use pull::bursting::{self, MACHINE_PITS, pipe_pit, pit_width, ramp_pit};
use quantity::{Force, Length, unit};
use working::{Evidence, Source};

use super::RATIO;
use crate::assessment::{Reading, Stage};
use crate::item::{About, Item};
use crate::renewal::context::Context;

/// Length of head and pulling gear in the launch pit, m, and room to join, m; remembered 0.5 to 1.0 each.
pub(crate) const HEAD: f64 = 0.75;
pub(crate) const JOINING: f64 = 0.75;
/// Working room at each side of the socket, m; remembered 0.4 to 0.6.
pub(crate) const SIDE: f64 = 0.5;
const ROOMS: Source = Source::new(
    "0.5 to 1.0 m each; fits the 7 to 8 m of a maker's manual for pipes of 6 m",
    Evidence::FromMemory,
);
/// Machines from this pull on count as large.
const LARGE: Force = Force::from_si(1000e3);

fn metres(v: Length) -> Reading {
    Reading::new(v.si(), unit::M)
}

/// Launch pit: length for a pipe or for a string on a ramp, and width.
pub(super) fn launch(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let pipe = &r.string.pipe;
    // Sub-strings of one pipe are pipes; longer ones lie ready behind the pit as one string does.
    let longest = match &r.string.assembly {
        Assembly::SubStrings(counts) => counts.iter().copied().max().filter(|n| *n > 1),
        Assembly::String | Assembly::PipeByPipe => None,
    };
    let string = r.string.assembly == Assembly::String || longest.is_some();
    let method = if string { &bursting::RAMP_PIT } else { &bursting::PIPE_PIT };
    let about =
        About::new("burst.pit", "launch pit: length and width", Stage::Pull, method.source())
            .rule();
    let depths = r.runs.iter().map(|run| c.axis_depth(run.launch));
    let Some(depth) = depths.reduce(Length::max) else {
        return about.not_assessed(&["/run"], "no run is given");
    };
    let laying = pipe.laying_length();
    let angle = r.string.joint.allowable_angle.as_ref();
    let by_pipe = pipe_pit(laying, Length::from_si(HEAD), Length::from_si(JOINING));
    let ramp = angle.map(|a| ramp_pit(laying, a.value * r.factors.joint_angle_share, depth));
    let needed = if string {
        match &ramp {
            None => {
                let because = "the allowable angle of the joint is not known: no ramp follows";
                return about.not_assessed(&["/string/joint/allowable_angle"], because);
            }
            Some(Ok(ramp)) => Ok(ramp.length),
            Some(Err(e)) => Err(e.clone()),
        }
    } else {
        by_pipe.clone()
    };
    let needed = match needed {
        Ok(needed) => needed,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let largest = pipe.largest_diameter().unwrap_or(pipe.barrel_diameter());
    let width = match pit_width(largest, Length::from_si(SIDE)) {
        Ok(width) => width,
        Err(e) => return about.not_assessed(&[], e.to_string()),
    };
    let (Some(length), Some(given_width)) = (r.pit.launch_length, r.pit.launch_width) else {
        return about.not_assessed(
            &["/pit/launch_length", "/pit/launch_width"],
            format!("the launch pit is not given; it needs {needed} by {width}"),
        );
    };
    let other = match (string, &ramp, &by_pipe) {
        (true, _, Ok(single)) if longest.is_none() => format!("; pipe by pipe {single} would do"),
        (false, Some(Ok(ramp)), _) => format!("; one string on a ramp would need {}", ramp.length),
        _ => String::new(),
    };
    let laid = longest.map_or(String::new(), |n| {
        format!(
            "; the longest sub-string, {n} pipes or {}, must lie ready behind the ramp",
            laying * f64::from(n)
        )
    });
    let because = format!(
        "{length} by {given_width} at a depth of the axis of {depth}, {needed} by {width} needed{other}{laid}"
    );
    let by_width = width / given_width > needed / length;
    let (demand, limit) = if by_width { (given_width, width) } else { (length, needed) };
    about
        .at_least(metres(demand), metres(limit), r.factors.attention, because)
        .worked(c.working(|w| {
            let data = &pipe.data().laying_length;
            w.given_from("a", "laying length", data.value.si(), unit::M, data.source.clone());
            if string {
                let theta = angle.map_or(f64::NAN, |a| a.value.si() * r.factors.joint_angle_share);
                w.given_from("theta", "joint angle on the ramp: the share of the allowable one", theta, unit::DEG, r.source_of("/factors/joint_angle_share"));
                w.given("h", "depth of the axis", depth.si(), unit::M);
                w.derive("R", "radius of the string", "a/(2*sin(theta/2))", unit::M, bursting::RAMP_PIT.source());
                w.result("L_n", "length needed", "sqrt(2*R*h - h^2)", needed.si(), unit::M, bursting::RAMP_PIT.source());
            } else {
                w.given_from("l_h", "head and pulling gear", HEAD, unit::M, ROOMS);
                w.given_from("l_j", "room to join", JOINING, unit::M, ROOMS);
                w.result("L_n", "length needed", "a + l_h + l_j", needed.si(), unit::M, bursting::PIPE_PIT.source());
            }
            w.given("L", "length of the launch pit", length.si(), unit::M);
            w.given_from("D_s", "socket with its protection", largest.si(), unit::MM, Source::new("pipe and protection", Evidence::Computed));
            w.given_from("s", "working room at each side", SIDE, unit::M, Source::new("0.4 to 0.6 m", Evidence::FromMemory));
            w.result("B_n", "width needed", "D_s + 2*s", width.si(), unit::M, ROOMS);
            w.given("B", "width of the launch pit", given_width.si(), unit::M);
            w.derive("U", "utilisation", "max(L_n/L, B_n/B)", unit::ONE, RATIO);
        }))
        .note("Shore both pits and keep the ends free of load; the excavation's own rules decide on depth, slope and way out.")
}

/// Machine pit against remembered sizes.
pub(super) fn machine(c: &Context<'_>) -> Item {
    let r = c.renewal;
    let source = MACHINE_PITS.first().map_or(RATIO, |f| f.source.clone());
    let about =
        About::new("burst.machine-pit", "machine pit: length and width", Stage::Pull, source)
            .rule();
    let (Some(length), Some(width)) = (r.pit.machine_length, r.pit.machine_width) else {
        let keys = ["/pit/machine_length", "/pit/machine_width"];
        return about.not_assessed(&keys, "the machine pit is not given");
    };
    let Some(pullback) = r.machine.pullback else {
        return about.not_assessed(&["/rig/pullback"], "the pull of the machine is not given");
    };
    let large = pullback >= LARGE;
    let figure = |i: usize| MACHINE_PITS.get(i).map_or(f64::NAN, bursting::Figure::low_si);
    let (least_length, least_width) =
        if large { (figure(2), figure(3)) } else { (figure(0), figure(1)) };
    let because = format!(
        "{length} by {width} for a {} machine of {pullback}: at least {} by {} are usual; the maker's drawing decides",
        if large { "large" } else { "small" },
        Length::from_si(least_length),
        Length::from_si(least_width)
    );
    let by_width = least_width / width.si() > least_length / length.si();
    let (demand, limit) =
        if by_width { (width.si(), least_width) } else { (length.si(), least_length) };
    about
        .at_least(
            Reading::new(demand, unit::M),
            Reading::new(limit, unit::M),
            r.factors.attention,
            because,
        )
        .advice()
        .worked(c.working(|w| {
            let memory = || Source::new("usual sizes of machine pits", Evidence::FromMemory);
            w.given("L", "length of the machine pit", length.si(), unit::M);
            w.given("B", "width of the machine pit", width.si(), unit::M);
            w.given_from("L_n", "usual least length", least_length, unit::M, memory());
            w.given_from("B_n", "usual least width", least_width, unit::M, memory());
            w.derive("U", "utilisation", "max(L_n/L, B_n/B)", unit::ONE, RATIO);
        }))
}

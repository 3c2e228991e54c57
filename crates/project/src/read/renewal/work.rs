//! Head, runs, pits, machine and factors.

use ground::{GroundLine, Soil, SoilGroup};
use quantity::{Angle, Force, Length, MassPerLength, Time, Velocity, unit};

use super::{on_the_main, place_of, unique_names};
use crate::context::{Ask, Context};
use crate::diagnostic::brief;
use crate::model::{Assembly, StringDesign};
use crate::renewal::{Burst, BurstFactors, Connection, Machine, Pit, Run};
use crate::tree::{Record, Tree};
use crate::wording::shown;

/// Overlap of runs that is taken as none, m.
const SAME_PLACE: f64 = 1e-6;
/// Length of the old main beyond the runs that nobody need be told of, m.
// Judgement: less than a pit is long.
const LEFT_OVER: f64 = 0.5;
/// Room of the expander beyond the socket up to DN 300 and above, m. Judgement: engineering default.
const ROOM: [f64; 2] = [0.020, 0.040];
/// Barrel diameter up to which the smaller room is taken, m: DN 300 and its coating.
const SMALL: f64 = 0.345;

/// The runs; none in place of one that is at fault.
pub(super) fn runs(
    tree: &Tree,
    cx: &mut Context<'_>,
    axis: Option<&GroundLine>,
) -> Vec<Option<Run>> {
    let records: Vec<&Record> = tree.all("run").collect();
    unique_names(tree, cx, "run", "runs");
    if records.is_empty() {
        let place = place_of(tree, "run");
        cx.report
            .error(
                "missing",
                &place,
                "[[run]] is missing: from which pit to which the string is pulled",
            )
            .hint("add [[run]] with name, launch and machine");
        return Vec::new();
    }
    let mut list: Vec<Option<Run>> = Vec::with_capacity(records.len());
    for record in records {
        let mut ask = cx.ask(record);
        let name = ask.text("name").map(|t| t.value);
        let [launch, machine] =
            ["launch", "machine"].map(|key| ask.number(key).map(|g| Length::from_si(g.value)));
        let inside = [("launch", launch), ("machine", machine)]
            .map(|(key, at)| on_the_main(&mut ask, key, at, axis));
        let same = launch.is_some() && launch == machine;
        if same {
            let message = "launch and machine must differ: a run has a length";
            ask.error("order", "machine", message).hint("give the chainages of the two pits");
        }
        let run = name
            .zip(launch)
            .zip(machine)
            .filter(|_| !inside.contains(&false) && !same)
            .map(|((name, launch), machine)| Run { name, launch, machine });
        if let Some(run) = &run {
            apart(&mut ask, run, &list);
        }
        list.push(run);
    }
    list
}

/// Notes a run over a length that an earlier run takes: the old main is burst once.
fn apart(ask: &mut Ask<'_, '_, '_>, run: &Run, before: &[Option<Run>]) {
    let (from, to) = run.stretch();
    for other in before.iter().flatten() {
        let (start, end) = (from.max(other.stretch().0), to.min(other.stretch().1));
        if (end - start).si() > SAME_PLACE {
            let message = format!(
                "the run overlaps run \"{}\" from {start} to {end}: the old main is burst once",
                brief(&other.name)
            );
            ask.error("runs_overlap", "launch", message)
                .hint("let a run end at the pit where the next one begins");
        }
    }
}

/// Warns of lengths of the old main that no run takes, and of the services on them.
pub(super) fn uncovered(
    tree: &Tree,
    cx: &mut Context<'_>,
    axis: &GroundLine,
    services: &[Connection],
    runs: &[Run],
) {
    let mut covered: Vec<(Length, Length)> = runs.iter().map(Run::stretch).collect();
    covered.sort_by(|a, b| a.0.si().total_cmp(&b.0.si()));
    let mut reached = axis.from();
    let mut gaps = Vec::new();
    for (from, to) in covered {
        if (from - reached).si() > LEFT_OVER {
            gaps.push((reached, from));
        }
        reached = reached.max(to);
    }
    if (axis.to() - reached).si() > LEFT_OVER {
        gaps.push((reached, axis.to()));
    }
    let Some(first) = tree.all("run").next() else { return };
    for (from, to) in gaps {
        let outside =
            |s: &&Connection| s.at >= from && s.at <= to && !runs.iter().any(|run| run.holds(s.at));
        let count = services.iter().filter(outside).count();
        let on = match count {
            0 => "no service lies there".to_owned(),
            1 => "1 service lies there and is left out".to_owned(),
            n => format!("{n} services lie there and are left out"),
        };
        let message = format!("no run takes the old main from {from} to {to}: {on}");
        cx.ask(first)
            .warning("main_left_out", "launch", message)
            .hint("add a [[run]] there, or shorten the axis of [host] to what is renewed");
    }
}

/// Holds the sub-strings against the pipes of the runs, in their order.
pub(super) fn sub_strings(
    tree: &Tree,
    cx: &mut Context<'_>,
    string: &StringDesign,
    runs: &[Run],
) -> Option<()> {
    let Assembly::SubStrings(counts) = &string.assembly else { return Some(()) };
    let mut left = counts.iter();
    for run in runs {
        let needed = (run.length() / string.pipe.laying_length() - 1e-9).ceil().max(1.0);
        let mut sum = 0.0;
        while sum < needed {
            let Some(count) = left.next() else { break };
            sum += f64::from(*count);
        }
        if sum != needed {
            let name = brief(&run.name);
            let message = format!(
                "run \"{name}\" takes {needed} pipes, but the sub-strings for it add up to {sum}"
            );
            let (length, laying) = (run.length(), string.pipe.laying_length());
            cx.ask(tree.one("string")?)
                .error("sub_strings_do_not_fit", "sub_strings", message)
                .found(sum.to_string())
                .allowed(format!("a sum of {needed}"))
                .hint(format!("the run is {length} long, with pipes of {laying}; sub_strings follow the runs in their order"));
            return None;
        }
    }
    let rest: u32 = left.sum();
    if rest > 0 {
        let message = format!("sub_strings holds {rest} pipes more than the runs take");
        cx.ask(tree.one("string")?)
            .error("sub_strings_do_not_fit", "sub_strings", message)
            .found(rest.to_string())
            .hint("sub_strings follow the runs in their order");
        return None;
    }
    Some(())
}

pub(super) fn burst(
    tree: &Tree,
    cx: &mut Context<'_>,
    largest: Option<Length>,
    string: Option<&StringDesign>,
) -> Option<Burst> {
    let mut ask = cx.ask(tree.one("burst")?);
    let barrel = string.map_or(0.0, |s| s.pipe.barrel_diameter().si());
    let room = if barrel <= SMALL { ROOM[0] } else { ROOM[1] };
    let usual = largest.map(|d| d.si() + room);
    let expander = ask.number_or("expander_diameter", usual).map(Length::from_si);
    let mut number = |key: &str| ask.number_or_default(key);
    let [angle, friction, speed, joint, reset] =
        ["cone_half_angle", "cone_friction", "speed", "joint_time", "reset_time"].map(&mut number);
    let cutters = ask.integer_or_default("cutters");
    let lubricated = ask.word_or_default("lubricated")? == "yes";
    Some(Burst {
        expander_diameter: expander,
        cone_half_angle: Angle::from_si(angle?),
        cone_friction: friction?,
        cutters: cutters?,
        lubricated,
        speed: Velocity::from_si(speed?),
        joint_time: Time::from_si(joint?),
        reset_time: Time::from_si(reset?),
    })
}

pub(super) fn pit(tree: &Tree, cx: &mut Context<'_>) -> Pit {
    let Some(record) = tree.one("pit") else { return Pit::default() };
    let mut ask = cx.ask(record);
    let mut length = |key: &str| ask.number(key).map(|g| Length::from_si(g.value));
    let [launch_length, launch_width, machine_length, machine_width] =
        ["launch_length", "launch_width", "machine_length", "machine_width"].map(&mut length);
    const PLATE: [&str; 3] = ["plate_width", "plate_top", "plate_bottom"];
    let plate = PLATE.map(&mut length);
    if plate.iter().any(Option::is_some) {
        PLATE.iter().for_each(|key| ask.require(key, "to know the bearing plate"));
    }
    let [width, top, bottom] = plate;
    if let (Some(top), Some(bottom)) = (top, bottom)
        && bottom <= top
    {
        let (found, least) = (shown(bottom.si(), unit::M), shown(top.si(), unit::M));
        let message =
            format!("plate_bottom must lie deeper than plate_top ({least}), but was {found}");
        ask.error("order", "plate_bottom", message)
            .found(found)
            .allowed(format!("deeper than {least}"));
    }
    if let (Some(width), Some(pit)) = (width, machine_width)
        && width > pit
    {
        let (found, most) = (shown(width.si(), unit::M), shown(pit.si(), unit::M));
        let message =
            format!("plate_width must fit into the machine pit ({most} wide), but was {found}");
        ask.error("plate_too_wide", "plate_width", message)
            .found(found)
            .allowed(format!("at most {most}"))
            .hint(
                "the plate bears on the wall from which the old main comes, across the machine pit",
            );
    }
    let plate = width.zip(top).zip(bottom).map(|((width, top), bottom)| [width, top, bottom]);
    Pit { launch_length, launch_width, machine_length, machine_width, plate }
}

pub(super) fn machine(tree: &Tree, cx: &mut Context<'_>) -> Machine {
    let Some(record) = tree.one("rig") else { return Machine::default() };
    let mut ask = cx.ask(record);
    let pullback = ask.number("pullback").map(|g| Force::from_si(g.value));
    let rod_mass = ask.number("rod_mass").map(|g| MassPerLength::from_si(g.value));
    Machine { pullback, rod_mass }
}

pub(super) fn factors(
    tree: &Tree,
    cx: &mut Context<'_>,
    lubricated: bool,
    soil: Option<&Soil>,
    dense: bool,
    wet: bool,
) -> Option<BurstFactors> {
    let mut ask = cx.ask(tree.one("factors")?);
    let [low, middle, high] = BurstFactors::usual_friction(lubricated);
    let friction = [("friction_low", low), ("friction", middle), ("friction_high", high)]
        .map(|(key, usual)| ask.number_or(key, Some(usual)));
    if let [Some(low), Some(middle), Some(high)] = friction
        && !(low <= middle && middle <= high)
    {
        let message = format!(
            "friction_low, friction and friction_high must rise, but were {low}, {middle} and {high}"
        );
        ask.error("order", "friction", message)
            .hint("a value that was given may lie outside the usual ones: give all three");
    }
    let ratio = match soil.map(|s| s.kind.group()) {
        Some(SoilGroup::Fine) => 1.0,
        _ if dense => 0.8,
        _ => 0.5,
    };
    let heave = ask.number_or("heave_ratio", Some(ratio));
    let wall = ask.number_or("wall_safety", Some(if wet { 2.0 } else { 1.5 }));
    let mut number = |key: &str| ask.number_or_default(key);
    let [stress, collapsed, restart, rig] =
        ["stress_ratio", "collapsed_share", "restart", "rig_share"].map(&mut number);
    let [angle, barrel, longest, attention] =
        ["joint_angle_share", "barrel_share", "longest_run", "attention"].map(&mut number);
    let [low, middle, high] = friction;
    Some(BurstFactors {
        friction: [low?, middle?, high?],
        stress_ratio: stress?,
        collapsed_share: collapsed?,
        restart: restart?,
        rig_share: rig?,
        wall_safety: wall?,
        joint_angle_share: angle?,
        barrel_share: barrel?,
        heave_ratio: heave?,
        longest_run: Length::from_si(longest?),
        attention: attention?,
    })
}
